package plan

import (
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
		"125 m per 50 g": {Grams: 50, Metres: 125}, "ca. 125 m = 50 g": {Grams: 50, Metres: 125}, "50 g (125 m)": {Grams: 50, Metres: 125},
		"100g 220yd": {Grams: 100, Metres: 220 * yd}, "1.75 oz, 137 yd": {Grams: 1.75 * oz, Metres: 137 * yd}, "1 3/4 oz 137 yards": {Grams: 1.75 * oz, Metres: 137 * yd},
		"3/4 oz 60 yd": {Grams: 0.75 * oz, Metres: 60 * yd}, "1¾ oz / 137 yds": {Grams: 1.75 * oz, Metres: 137 * yd}, "3½oz, 220 yds": {Grams: 3.5 * oz, Metres: 220 * yd}, "50 g / 1.75 oz, 125 m / 137 yds": {Grams: 50, Metres: 125},
		"1 lb 1,000 yd": {Grams: 453.59237, Metres: 914.4}, "1 kg 2500 m": {Grams: 1000, Metres: 2500}, "50,5 g 125,5 m": {Grams: 50.5, Metres: 125.5}, "100 GRAMS / 220 YARDS": {Grams: 100, Metres: 220 * yd},
	} {
		got, err := ParseBall(text)
		require.NoError(t, err, text)
		require.InDelta(t, want.Grams, got.Grams, 1e-9, text)
		require.InDelta(t, want.Metres, got.Metres, 1e-9, text)
	}
}

// What cannot be read says what is missing or wrong, and how it is written.
func TestBallsThatCannotBeRead(t *testing.T) {
	for text, want := range map[string]string{
		"": "weight and length are missing", "50g": "the length is missing", "220 yd": "the weight is missing", "50/125": "0.4 has no unit", "50 g 125": "125 has no unit",
		"50 g 3 oz 125 m": "3 oz and 50 g do not agree", "50 g 125 m 137 m": "137 m and 125 m do not agree", "50 st 125 m": `"st" is no unit of yarn`, "50 g 125 cm": "125 cm is no length of a ball",
		"50 kg 125 m": "no ball is of 50000 g", "-50 g 125 m": "is below 0", "50 g & 125 m": `"&" is not understood`,
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
	} {
		got, err := ParseSwatch(text)
		require.NoError(t, err, text)
		require.InDelta(t, want.WidthCm, got.WidthCm, 1e-9, text)
		require.InDelta(t, want.HeightCm, got.HeightCm, 1e-9, text)
		require.InDelta(t, want.Grams, got.Grams, 1e-9, text)
		require.InDelta(t, want.Metres, got.Metres, 1e-9, text)
	}
	for text, want := range map[string]string{"4g": "its width and height are missing", "10x10cm": "its weight is missing", "10x10 4g": "10 has no unit", "10x10cm 4g 5g": "5 g is one amount too many"} {
		_, err := ParseSwatch(text)
		require.ErrorContains(t, err, want, text)
		require.ErrorContains(t, err, swatchHelp, text)
	}
}
