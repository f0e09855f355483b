package plan

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing/stitch"
)

// A ball is read as its band has it, in grams and ounces, metres and yards.
func TestBallsAsTheirBandsHaveThem(t *testing.T) {
	const oz, yd = 28.349523125, 0.9144
	for text, want := range map[string]stitch.Ball{
		"50 g / 125 m": {Grams: 50, Metres: 125}, "50g125m": {Grams: 50, Metres: 125}, "50g=125m": {Grams: 50, Metres: 125}, "125m/50g": {Grams: 50, Metres: 125},
		"50 g – 125 m": {Grams: 50, Metres: 125}, "50 g-125 m": {Grams: 50, Metres: 125}, "50 grams, 125 metres": {Grams: 50, Metres: 125},
		"125 m per 50 g": {Grams: 50, Metres: 125}, "ca. 125 m = 50 g": {Grams: 50, Metres: 125}, "50 g (125 m)": {Grams: 50, Metres: 125}, "50 g À 125 m": {Grams: 50, Metres: 125},
		"100g 220yd": {Grams: 100, Metres: 220 * yd}, "1.75 oz, 137 yd": {Grams: 1.75 * oz, Metres: 137 * yd}, "1 3/4 oz 137 yards": {Grams: 1.75 * oz, Metres: 137 * yd},
		"3/4 oz 60 yd": {Grams: 0.75 * oz, Metres: 60 * yd}, "1¾ oz / 137 yds": {Grams: 1.75 * oz, Metres: 137 * yd}, "3½oz, 220 yds": {Grams: 3.5 * oz, Metres: 220 * yd}, "50 g / 1.75 oz, 125 m / 137 yds": {Grams: 50, Metres: 125},
		"1 lb 1,000 yd": {Grams: 453.59237, Metres: 914.4}, "1 kg 2500 m": {Grams: 1000, Metres: 2500}, "50,5 g 125,5 m": {Grams: 50.5, Metres: 125.5}, "100 GRAMS / 220 YARDS": {Grams: 100, Metres: 220 * yd},
		".9 lb 700 m": {Grams: 0.9 * 453.59237, Metres: 700}, "9/9 kg 1.000,5 m": {}, "1,2500 kg 10,0000 m": {Grams: 1250, Metres: 10}, "0,125 kg 250 m": {Grams: 125, Metres: 250},
		"100 g 103 g 97 g 250 m": {Grams: 100, Metres: 250}, // each is rounded: 3 % either way is the same
		"1 g 1 m":                {Grams: 1, Metres: 1}, "10 kg 100000 m": {Grams: 1e4, Metres: 1e5}, "2 1 g 100 m": {},
	} {
		got, err := ParseBall(text)
		if want == (stitch.Ball{}) {
			require.Error(t, err, text)
			continue
		}
		require.NoError(t, err, text)
		require.InDelta(t, want.Grams, got.Grams, 1e-9, text)
		require.InDelta(t, want.Metres, got.Metres, 1e-9, text)
	}
}

// A unit is what it is by whatever name, and words between amounts say nothing. The
// pound and the yard are those of the international agreement of 1959: 0.45359237 kg and
// 0.9144 m; an ounce is a sixteenth of a pound, an inch a thirty-sixth of a yard.
func TestYarnUnitsHaveManyNames(t *testing.T) {
	const words = "per a an the of is to and each ball skein hank cone approx approximately about ca circa net wt weight weighs length"
	fill := strings.Fields(words)
	for _, u := range []struct {
		names string
		g, m  float64
	}{
		{"g gr gm gms gram grams gramme grammes", 1, 0}, {"kg", 1000, 0}, {"oz ozs ounce ounces", 453.59237 / 16, 0}, {"lb lbs pound pounds", 453.59237, 0},
		{"m mt mtr mtrs metre metres meter meters", 0, 1}, {"yd yds yard yards", 0, 0.9144},
	} {
		for i, name := range strings.Fields(u.names) {
			word := fill[i%len(fill)]
			text, want := fmt.Sprintf("%s 7 %s %s 90 m", word, name, word), stitch.Ball{Grams: 7 * u.g, Metres: 90}
			if u.m > 0 {
				text, want = fmt.Sprintf("%s 7%s %s, 90 g", word, name, word), stitch.Ball{Grams: 90, Metres: 7 * u.m}
			}
			got, err := ParseBall(text)
			require.NoError(t, err, text)
			require.InDelta(t, want.Grams, got.Grams, 1e-9, text)
			require.InDelta(t, want.Metres, got.Metres, 1e-9, text)
		}
	}
	for names, cm := range map[string]float64{"cm": 1, "mm": 0.1, `in inch inches "`: 91.44 / 36} {
		for _, name := range strings.Fields(names) {
			y, err := ParseSwatch("30 " + name + " by 60" + name + " 4g")
			require.NoError(t, err, name)
			require.InDelta(t, 30*cm, y.WidthCm, 1e-9, name)
			require.InDelta(t, 60*cm, y.HeightCm, 1e-9, name)
		}
	}
	for _, word := range fill {
		b, err := ParseBall(word + " 50 g " + word + " 125 m " + word)
		require.NoError(t, err, word)
		require.Equal(t, stitch.Ball{Grams: 50, Metres: 125}, b)
	}
	for _, word := range []string{"g", "x", "by", "zz", "aa", `"`, "z", "gg"} { // nothing stands before it
		_, err := ParseBall(word + " 50 g 125 m")
		require.ErrorContains(t, err, fmt.Sprintf("%.80q is no unit of yarn", word))
	}
}

// Numbers in any of the ways that they are written are those numbers: read back from
// what was written of every one of many.
func TestFiguresOfYarn(t *testing.T) {
	for n := 1; n < 3000; n += 7 {
		v := float64(n) / 8
		whole, eighths := n/8, n%8
		forms := []string{fmt.Sprint(v), strings.Replace(fmt.Sprintf("%.4f", v), ".", ",", 1), fmt.Sprintf("%d/8", n), fmt.Sprintf("%.3f", v)}
		if whole > 0 && eighths > 0 {
			forms = append(forms, fmt.Sprintf("%d %d/8", whole, eighths))
		}
		if v < 1 {
			forms = append(forms, strings.TrimPrefix(fmt.Sprint(v), "0"))
		}
		for i, form := range forms {
			swatch := form + "in x 9 in 8g"
			y, err := ParseSwatch(swatch)
			require.NoError(t, err, swatch)
			require.InDelta(t, v*2.54, y.WidthCm, 1e-9, "%s, way %d", swatch, i)
			require.InDelta(t, 9*2.54, y.HeightCm, 1e-9)
		}
	}
	for text, want := range map[string]float64{"1,000": 1000, "12,345": 12345, "0,125": 0.125, "1,00": 1, "1.250,": 1.25, "1000000": 1e6, "9/10": 0.9, "99": 99, "09": 9, "90": 90, "7/025": 7, "7/a": 7} {
		v, _, err := readFigure(text)
		require.NoError(t, err, text)
		require.InDelta(t, want, v, 1e-12, text)
	}
	for _, text := range []string{"1000000.5", "1.2.3", "1,250.5,1", "5/1.2.3"} {
		_, _, err := readFigure(text)
		require.ErrorContains(t, err, "is not a number", text)
	}
}

// What cannot be read says what is missing or wrong, and how it is written.
func TestBallsThatCannotBeRead(t *testing.T) {
	for text, want := range map[string]string{
		"": "weight and length are missing", "50g": "the length is missing", "220 yd": "the weight is missing", "50/125": "0.4 has no unit", "50 g 125": "125 has no unit",
		"50 g 3 oz 125 m": "3 oz and 50 g do not agree", "50 g 125 m 137 m": "137 m and 125 m do not agree", "50 st 125 m": `"st" is no unit of yarn`, "50 g 125 cm": "125 cm is no length of a ball",
		"50 kg 125 m": "no ball is of 50000 g", "-50 g 125 m": "is below 0", "50 g & 125 m": `"&" is not understood`, "50 - 9 g 125 m": "50 has no unit", "50 -9 g 125 m": "is below 0", "-0 g 4 m": "is below 0",
		"100 g 103.1 g 250 m": "103.1 g and 100 g do not agree", "100 g 96.9 g 250 m": "do not agree",
		"0.99 g 125 m": "no ball is of", "10.001 kg 125 m": "no ball is of", "50 g 0.99 m": "no ball is of", "50 g 100001 m": "no ball is of", "1 2 g 9 m": "1 has no unit", "x 50 g 9 m": `"x" is no unit`,
	} {
		_, err := ParseBall(text)
		require.ErrorContains(t, err, want, text)
		require.ErrorContains(t, err, ballHelp, text)
	}
}

func TestSwatchesAsTheyAreWritten(t *testing.T) {
	for text, want := range map[string]stitch.YarnSwatch{
		"10x10cm 4g": {WidthCm: 10, HeightCm: 10, Grams: 4}, "10 x 12 cm, 4,5 g": {WidthCm: 10, HeightCm: 12, Grams: 4.5}, "10 cm × 12 cm: 4 g": {WidthCm: 10, HeightCm: 12, Grams: 4},
		"4 g, 10 by 12 cm": {WidthCm: 10, HeightCm: 12, Grams: 4}, `4" x 4" 9.5 m`: {WidthCm: 10.16, HeightCm: 10.16, Metres: 9.5}, "10x10cm 4g 9.5m": {WidthCm: 10, HeightCm: 10, Grams: 4, Metres: 9.5},
		"10 cm x 5 in 4 g": {WidthCm: 10, HeightCm: 12.7, Grams: 4}, "5 in x 10 cm, 4 g": {WidthCm: 12.7, HeightCm: 10, Grams: 4}, "1/2 x 3/4 in 0.5 g": {WidthCm: 1.27, HeightCm: 1.905, Grams: 0.5},
		"3 x 1/2 in 0.5 g": {WidthCm: 7.62, HeightCm: 1.27, Grams: 0.5}, "0.5x0.5cm 0.5g": {WidthCm: 0.5, HeightCm: 0.5, Grams: 0.5}, "10x10cm .5m": {WidthCm: 10, HeightCm: 10, Metres: 0.5},
	} {
		got, err := ParseSwatch(text)
		require.NoError(t, err, text)
		require.InDelta(t, want.WidthCm, got.WidthCm, 1e-9, text)
		require.InDelta(t, want.HeightCm, got.HeightCm, 1e-9, text)
		require.InDelta(t, want.Grams, got.Grams, 1e-9, text)
		require.InDelta(t, want.Metres, got.Metres, 1e-9, text)
	}
	for text, want := range map[string]string{
		"4g": "its width and height are missing", "10x10cm": "its weight is missing", "10x10 4g": "10 has no unit", "10x10cm 4g 5g": "5 g is one amount too many", "10x10cm 4m 5m": "5 m is one amount too many",
		"4g 10cm 10x": "10 has no unit", "10cm 10 4g": "10 has no unit", "0x10cm 4g": "its width and height are missing", "10x0cm 4g": "its width and height are missing", "10cm x 10cm x 10cm 4g": "its width and height are missing",
		"10x10cm 0g": "its weight is missing", "10 cm 4 g": "its width and height are missing",
	} {
		_, err := ParseSwatch(text)
		require.ErrorContains(t, err, want, text)
		require.ErrorContains(t, err, swatchHelp, text)
	}
	for _, between := range []string{" ", "\t", "/", ",", ";", ":", "=", "|", "(", ")", "-", "+", "~", "*", " – ", " · ", " . "} {
		b, err := ParseBall("50g" + between + "125m")
		require.NoError(t, err, between)
		require.Equal(t, stitch.Ball{Grams: 50, Metres: 125}, b, between)
	}
}
