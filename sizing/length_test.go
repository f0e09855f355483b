package sizing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"growtuck/sizing"
	"growtuck/testdata/bounded"
)

// The inch is 25.4 mm exactly (international yard and pound agreement, 1959).
func TestInchIsExact(t *testing.T) {
	l, err := sizing.ParseLength("1 in", "")
	require.NoError(t, err)
	require.Equal(t, 2.54, float64(l))
	require.Equal(t, 0.45359237, sizing.KgPerPound)
	rapid.Check(t, func(t *rapid.T) {
		quarters := rapid.IntRange(0, 800).Draw(t, "quarter inches")
		s := sizing.FormatQuarters(float64(quarters) / 4)
		l, err := sizing.ParseLength(s, "in")
		if err != nil || math.Abs(float64(l)-float64(quarters)/4*2.54) > 1e-12 {
			t.Fatalf("%d quarters printed %q, read back %v, %v", quarters, s, l, err)
		}
	})
}

func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		in, unit string
		cm       float64
	}{
		{"24.5", "cm", 24.5}, {"24,5", "cm", 24.5}, {"24.5 cm", "in", 24.5}, {"24.5cm", "", 24.5}, {"245 mm", "", 24.5},
		{"9 3/4 in", "", 24.765}, {"9-3/4 in", "", 24.765}, {"9¾\"", "", 24.765}, {"9 ¾", "in", 24.765},
		{"9.75in", "", 24.765}, {"9.75 in.", "", 24.765}, {"9,75 inches", "", 24.765}, {"3/4", "in", 1.905}, {"½ in", "", 1.27},
		{" 10 ", "cm", 10}, {"9″", "", 22.86}, {"0", "cm", 0}, {"-2 in", "", -5.08}, {".5 in", "", 1.27}, {"21 CM", "", 21},
	} {
		l, err := sizing.ParseLength(c.in, c.unit)
		require.NoError(t, err, "%q", c.in)
		require.InDelta(t, c.cm, float64(l), 1e-12, "%q", c.in)
	}
	for _, in := range []string{"", "cm", "abc", "1.2.3", "1,234.5", "9 3/0 in", "9 4/3 in", "3/", "/4", "1 2 cm", "12 kg", "12 furlongs",
		"NaN", "Inf", "1e3", "0x10", "9999999", "--3", "9 -3/4 -1 in", "¾¾", "1234567890123456789012345678901234567890123"} {
		_, err := sizing.ParseLength(in, "cm")
		require.Error(t, err, "%q", in)
	}
}

func TestParseWeight(t *testing.T) {
	kg, err := sizing.ParseMeasured("kg", "38 lb", "kg")
	require.NoError(t, err)
	require.InDelta(t, 17.2365, kg, 1e-4)
	for _, in := range []string{"17 cm", "", "2000000 kg"} {
		_, err := sizing.ParseMeasured("kg", in, "kg")
		require.Error(t, err, "%q", in)
	}
}

// Numbers as people write them: what is read, in cm, kg or years.
func TestWrittenNumbers(t *testing.T) {
	length := func(s string) (float64, error) { return sizing.ParseMeasured("cm", s, "cm") }
	weight := func(s string) (float64, error) { return sizing.ParseMeasured("kg", s, "kg") }
	ref := reference(t)
	age := func(s string) (float64, error) {
		var c sizing.Child
		err := ref.Set(&c, "age", s, "")
		return c.AgeYears, err
	}
	for _, kind := range []struct {
		read func(string) (float64, error)
		want map[string]float64
	}{
		{length, map[string]float64{
			`3'7"`: 109.22, `3' 7"`: 109.22, "3’7”": 109.22, "3′7″": 109.22, "3 ft 7 in": 109.22, "3ft7": 109.22, "3 ft. 7 in.": 109.22, `3'-7 1/2"`: 110.49,
			"3 feet, 7½ inches": 110.49, "3 foot and 7": 109.22, "3.5 ft": 106.68, "3'": 91.44, "3 ft .5 in": 92.71,
			"1.105 m": 110.5, "1,105 m": 110.5, "1 m 10 cm": 110, "1m10": 110, "1m05": 105, "1 metre 5 cm": 105, "110 cm 5 mm": 110.5,
			"１１０．５": 110.5, "１１０ｃｍ": 110, "110㎝": 110, "١١٠٫٥": 110.5, "۱۱۰": 110, "११०": 110,
			"43 1⁄2 in": 110.49, "43½ in": 110.49, "43¹⁄₂ in": 110.49, "1⁄2": 0.5, "½": 0.5, "1/2": 0.5,
			"110\u00a0cm": 110, "\u200e110\u200f": 110, "+110": 110, "110.": 110, "110 cm.": 110, "110,5": 110.5,
		}},
		{weight, map[string]float64{"37 lb 4 oz": 37.25 * sizing.KgPerPound, "5 st 3": 73 * sizing.KgPerPound, "2 stone 9 lbs": 37 * sizing.KgPerPound, "16 kg 800 g": 16.8, "16,8 kilos": 16.8, "16800g": 16.8}},
		{age, map[string]float64{
			"4½": 4.5, "4 1/2": 4.5, "4;6": 4.5, "4:6": 4.5, "4 yrs 6 mo": 4.5, "4 years and 6 months": 4.5, "4y6m": 4.5, "4y6": 4.5, "4,5": 4.5, "4½ years old": 4.5, "٤": 4,
			"18 mo": 1.5, "18 months": 1.5, "18m": 1.5, "6 weeks": 42 / 365.25, "3 mos. 2 wks": 0.25 + 14/365.25, "4-year-old": 4, "10 days": 10 / 365.25,
		}},
	} {
		for text, want := range kind.want {
			got, err := kind.read(text)
			require.NoError(t, err, "%q", text)
			require.InDelta(t, want, got, 1e-9, "%q", text)
		}
	}
	for text, want := range map[string]string{
		"ca. 53": "write 53", "~110": "write 110", "about 53 cm": "write 53 cm", "53?": "write 53", "height: 110": "write 110", "110 cm (in shoes)": "write 110 cm",
		"110-112": "write 111", "110 to 112 cm": "write 111 cm", "1.105,5": "write 1105.5", "1_10": "write 110", "11O": "write 110", "l10": "write 110", "1.1e2": "write 110",
		"43+1/2": "write 43 1/2", "53 cmm": "did you mean cm?", "43 inchs": "did you mean in?", "-": "write nothing where it was not taken", "n/a": "write nothing",
		"fifty": "write it as 24.5", "1 m 5": "write it as", "3' 13\"": "write it as", "3.5' 2": "write it as", "1 2": "write it as", "0x6e": "unknown unit",
	} {
		_, err := length(text)
		require.ErrorContains(t, err, want, "%q", text)
	}
	for text, want := range map[string]string{"ca. 4": "write 4", "4+": "write 4", "4-5": "write 4.5", "four": "write it as 4.5, 4y6m or 30m", "4;13": "write it as", "4;6.15": "write it as", "4.5.2": "write it as"} {
		_, err := age(text)
		require.ErrorContains(t, err, want, "%q", text)
	}
	for _, same := range []struct{ text, unit string }{{`3'7"`, "in"}, {"3 ft 7", "in"}, {"110 cm", "CM"}, {"110", "in"}, {"1 m 10 cm", "cm"}} {
		_, err := sizing.ParseBeside("cm", same.text, same.unit)
		require.NoError(t, err, same)
	}
	for _, other := range []struct{ text, unit string }{{"110.5 cm", "in"}, {`3'7"`, "cm"}, {"110 mm", "cm"}} {
		_, err := sizing.ParseBeside("cm", other.text, other.unit)
		require.ErrorAs(t, err, new(*sizing.BesideError), other)
	}
}

func TestFormat(t *testing.T) {
	for cm, want := range map[float64]string{24.5: "24.5", 24.74: "24.5", 24.76: "25", 0.1: "0", -0.1: "0", -5: "-5"} {
		require.Equal(t, want, sizing.FormatCm(cm))
	}
	for in, want := range map[float64]string{9.75: "9 3/4", 9.74: "9 3/4", 21: "21", 0.25: "1/4", -0.5: "-1/2", -2.25: "-2 1/4", 0.1: "0", 9.99: "10"} {
		require.Equal(t, want, sizing.FormatQuarters(in))
	}
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"24.5 cm", "9 3/4 in", "9¾\"", "-½", "1/3", "9 3/4 1/2", "\xff in", "９"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		defer bounded.By(t, 1<<20)()
		if l, err := sizing.ParseLength(s, "cm"); err == nil && !(math.Abs(float64(l)) <= 1000) {
			t.Errorf("%q read as %g", s, float64(l))
		}
		if kg, err := sizing.ParseMeasured("kg", s, "kg"); err == nil && !(math.Abs(kg) <= 200000) {
			t.Errorf("%q read as %g kg", s, kg)
		}
	})
}
