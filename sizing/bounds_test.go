package sizing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// What is asked of a garment is taken from its least to its most, both included, as the
// messages say, and refused beyond.
func TestSpecHasBounds(t *testing.T) {
	ref := reference(t)
	body := estimate(t, sizing.Both, map[string]float64{"height": 140})
	for _, c := range []struct {
		what      string
		low, high float64
		refusal   string
		set       func(m *sizing.Spec, x float64)
	}{
		{"seasons", 0, 4, "not between 0 and 4", func(m *sizing.Spec, x float64) { m.Seasons = x }},
		{"first worn", 0, 24, "not between 0 and 24", func(m *sizing.Spec, x float64) { m.Wear = x }},
		{"extra", -50, 50, "not between -50 and 50", func(m *sizing.Spec, x float64) { m.Extra = map[string]float64{"chest": x} }},
		{"ease", -50, 50, "want -50 to 50 cm", func(m *sizing.Spec, x float64) { m.Ease = map[string]sizing.OwnEase{"chest": {Cm: x}} }},
		{"share of ease", -0.4, 1, "-40 to 100 %", func(m *sizing.Spec, x float64) { m.Ease = map[string]sizing.OwnEase{"chest": {Share: x}} }},
	} {
		finish := func(x float64) error {
			spec := sizing.Spec{Garment: "pullover", Fit: "classic", Layer: "skin"}
			c.set(&spec, x)
			_, err := ref.Finish(body, spec)
			return err
		}
		for _, x := range []float64{c.low, (c.low + c.high) / 2, c.high} {
			if err := finish(x); err != nil {
				require.NotContains(t, err.Error(), c.refusal, "%s of %g", c.what, x)
			}
		}
		for _, x := range []float64{c.low - 1e-6, c.high + 1e-6, math.NaN(), math.Inf(1)} {
			require.ErrorContains(t, finish(x), c.refusal, "%s of %g", c.what, x)
		}
	}
}

// A length is at most 1000 cm, whatever the unit.
func TestAmountsHaveBounds(t *testing.T) {
	for in, ok := range map[string]bool{"0.01 cm": true, "1000 cm": true, "1000.1 cm": false, "10000 mm": true, "10001 mm": false, "393.7 in": true, "393.71 in": false} {
		_, err := sizing.ParseLength(in, "cm")
		require.Equal(t, ok, err == nil, "%s: %v", in, err)
	}
}
