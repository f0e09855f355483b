package sizing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"growtuck/sizing"
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
		"NaN", "Inf", "1e3", "0x10", "9999999", "--3", "9 -3/4 -1 in", "¾¾", "1234567890123456789012345678901234567890123", "٣"} {
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
		if l, err := sizing.ParseLength(s, "cm"); err == nil && !(math.Abs(float64(l)) <= 1000) {
			t.Errorf("%q read as %g", s, float64(l))
		}
		if kg, err := sizing.ParseMeasured("kg", s, "kg"); err == nil && !(math.Abs(kg) <= 200000) {
			t.Errorf("%q read as %g kg", s, kg)
		}
	})
}
