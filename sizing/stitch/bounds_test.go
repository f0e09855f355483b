package stitch

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Each value is taken from its least to its most, both included, and refused beyond, by
// its name. The bounds are those that the messages say.
func TestBounds(t *testing.T) {
	g := Gauge{20, 28}
	ball := Ball{Grams: 50, Metres: 125}
	swatch := YarnSwatch{WidthCm: 10, HeightCm: 10, Grams: 4}
	yarn := func(change func(s *YarnSwatch, b *Ball, area, margin *float64)) error {
		s, b, area, margin := swatch, ball, 1000.0, 0.1
		change(&s, &b, &area, &margin)
		_, err := EstimateYarn(s, b, area, margin)
		return err
	}
	yoke := func(change func(t *YokeTarget)) error {
		target := restedYoke(false)
		change(&target)
		_, err := target.complete()
		return err
	}
	hood := func(change func(t *HoodTarget)) error {
		target := HoodTarget{Gauge: g, Neck: 60, RoundCm: 44, HeightCm: 26, CrownCm: 6, BackShare: 0.5, GrowthMost: 0.25, IncreaseCm: 5, CrownShare: 0.3}
		change(&target)
		_, err := PlanHood(target)
		return err
	}
	for _, c := range []struct {
		what      string
		low, high float64
		try       func(x float64) error
	}{
		{"stitch gauge", 1, 120, func(x float64) error { return Gauge{x, min(200, max(1, x))}.Validate() }},
		{"row gauge", 1, 200, func(x float64) error { return Gauge{min(120, max(1, x)), x}.Validate() }},
		{"row height ÷ stitch width", 0.2, 8, func(x float64) error { return Gauge{10 * x, 10}.Validate() }},
		{"swatch stitches", 1, maxCount, func(x float64) error { _, err := Swatch{x, 10, 28, 10}.Gauge(); return err }},
		{"swatch rows", 1, maxCount, func(x float64) error { _, err := Swatch{20, 10, x, 10}.Gauge(); return err }},
		{"increases a round", 0, maxCount, func(x float64) error { _, err := CheckCircle(g, x); return err }},
		{"share of ribbing", 0.5, 1, func(x float64) error { _, err := PlanRib(80, x, Even, g, true); return err }},
		{"unrounded count", 0, maxCount, func(x float64) error { _, err := Plain.Count(x, Nearest); return err }},
		{"least count", 0, maxCount, func(x float64) error { _, err := Plain.AtLeast(10, x); return err }},
		{"weight of the swatch", 0, 1e4, func(x float64) error {
			return yarn(func(s *YarnSwatch, _ *Ball, _, _ *float64) { s.Grams, s.Metres = x, 10 })
		}},
		{"yarn of the swatch", 0, 1e5, func(x float64) error {
			return yarn(func(s *YarnSwatch, _ *Ball, _, _ *float64) { s.Metres = x })
		}},
		{"weight of a ball", 1, 1e4, func(x float64) error { return yarn(func(_ *YarnSwatch, b *Ball, _, _ *float64) { b.Grams = x }) }},
		{"length of a ball", 1, 1e5, func(x float64) error {
			return yarn(func(_ *YarnSwatch, b *Ball, _, _ *float64) { b.Metres = x })
		}},
		{"area", 1, 1e6, func(x float64) error { return yarn(func(_ *YarnSwatch, _ *Ball, area, _ *float64) { *area = x }) }},
		{"margin", 0, 1, func(x float64) error { return yarn(func(_ *YarnSwatch, _ *Ball, _, margin *float64) { *margin = x }) }},
		{"length of yarn", 0.001, 1e7, func(x float64) error { _, err := ballsFor(x, ball); return err }},
		{"most increases of a round", 0.1, 10, func(x float64) error { return yoke(func(t *YokeTarget) { t.IncreaseMost = x }) }},
		{"sleeve's share of the neck", 0, 0.5, func(x float64) error { return yoke(func(t *YokeTarget) { t.SleeveNeckShare = x }) }},
		{"weight", 0, 1e6, func(x float64) error { return yoke(func(t *YokeTarget) { t.Weights.Rhythm = x }) }},
		{"increases a round", 0, maxCount, func(x float64) error { return yoke(func(t *YokeTarget) { t.PerRound = int(math.Floor(x)) }) }},
		{"stitches of the edges", 0, maxCount, func(x float64) error { return yoke(func(t *YokeTarget) { t.EdgeStitches = int(math.Floor(x)) }) }},
		{"share of the back", 0.1, 1, func(x float64) error { return hood(func(t *HoodTarget) { t.BackShare = x }) }},
		{"growth of a row", 0.01, 1, func(x float64) error { return hood(func(t *HoodTarget) { t.GrowthMost = x }) }},
		{"share of the crown", 0.01, 0.9, func(x float64) error { return hood(func(t *HoodTarget) { t.CrownShare = x }) }},
		{"hood's neck stitches", 4, maxCount, func(x float64) error { return hood(func(t *HoodTarget) { t.Neck = int(math.Floor(x)) }) }},
		{"change of width in the wash", -0.5, 0.5, func(x float64) error {
			return WashedGauge{Before: Gauge{20, 28}, After: Gauge{20 / (1 + x), 28}}.Validate()
		}},
		{"change of height in the wash", -0.5, 0.5, func(x float64) error {
			return WashedGauge{Before: Gauge{20, 28}, After: Gauge{20, 28 / (1 + x)}}.Validate()
		}},
	} {
		refused := func(x float64) bool {
			var in *InputError
			return errors.As(c.try(x), &in) && in.What == c.what
		}
		step := 1e-6 * max(1, math.Abs(c.high))
		whole := c.high == maxCount
		if whole {
			step = 1
		}
		for _, x := range []float64{c.low, c.high, (c.low + c.high) / 2} {
			if !whole && c.low < 0 { // a share of a share
				x *= 1 - 1e-9
			}
			require.False(t, refused(x), "%s of %g: %v", c.what, x, c.try(x))
		}
		for _, x := range []float64{c.low - min(step, 1e-6+math.Abs(c.low)/1e3), c.high + step} {
			if whole && x < c.low {
				x = c.low - 1
			}
			require.True(t, refused(x), "%s of %g: %v", c.what, x, c.try(x))
		}
	}
}

// Lengths are above nothing, and at most ten metres.
func TestLengthsHaveBounds(t *testing.T) {
	for cm, ok := range map[float64]bool{1e-9: true, 1000: true, 0: false, -1: false, 1000.001: false, math.Inf(1): false} {
		require.Equal(t, ok, checkLength("length", cm) == nil, "%g", cm)
		require.Equal(t, ok || cm == 0, checkOptionalLength("length", cm) == nil, "%g", cm)
	}
}
