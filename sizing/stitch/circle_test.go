package stitch

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// polygon is the length round a circle of a radius, measured along a chain of
// many chords: 2πr without the formula.
func polygon(radius float64) float64 {
	const corners = 20000
	chord := math.Hypot(radius-radius*math.Cos(2*math.Pi/corners), radius*math.Sin(2*math.Pi/corners))
	return corners * chord
}

func TestFlatCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGauge(t)
		rounds := rapid.IntRange(1, 40).Draw(t, "rounds")
		// A flat circle of that many rounds has room for this many stitches.
		room := polygon(g.HeightCm(rounds)) / g.StitchWidthCm()
		require.InEpsilon(t, room/float64(rounds), flatIncreases(g), 1e-6)

		per := rapid.Float64Range(1, 30).Draw(t, "per round")
		c, err := CheckCircle(g, per)
		require.NoError(t, err)
		require.InEpsilon(t, per*float64(rounds)/room, 1+c.Deviation, 1e-6, "the circumference worked against the flat one")
		switch {
		case per < 0.89*room/float64(rounds):
			require.Equal(t, Cups, c.Lie(flatTolerance))
			// The cone: slant, radius at the edge and fall make a right angle.
			slant := g.HeightCm(rounds)
			radius := g.WidthCm(1) * per * float64(rounds) / (2 * math.Pi)
			require.InEpsilon(t, slant, math.Hypot(radius, slant*c.FallShare()), 1e-6)
		case per > 1.11*room/float64(rounds):
			require.Equal(t, Ruffles, c.Lie(flatTolerance))
			require.Zero(t, c.FallShare())
		}
	})
	require.Equal(t, []string{"flat", "cups", "ruffles", "Lie(7)"}, []string{Flat.String(), Cups.String(), Ruffles.String(), Lie(7).String()})
}

func TestPlanCrown(t *testing.T) {
	customary := []int{6, 8, 12}
	for _, tt := range []struct {
		name     string
		g        Gauge
		stitches int
		every    int
		rates    []int
		middle   int
		rest     int
		rounds   int
		lie      Lie
	}{
		{"single crochet", Gauge{16, 16}, 78, 1, customary, 6, 0, 13, Flat},
		{"what does not divide comes last", Gauge{16, 18}, 76, 1, customary, 6, 4, 13, Flat},
		{"half double crochet", Gauge{14, 11}, 70, 1, customary, 8, 6, 9, Flat},
		{"double crochet", Gauge{14, 8}, 70, 1, customary, 12, 10, 6, Flat},
		{"between two rates", Gauge{16, 10}, 80, 1, customary, 10, 0, 8, Flat},
		{"stocking stitch, every 2nd round", Gauge{22, 30}, 104, 2, []int{8}, 8, 0, 25, Cups},
		{"garter stitch", Gauge{20, 40}, 90, 2, []int{8}, 6, 0, 29, Flat},
		{"fewer stitches than the rate", Gauge{14, 8}, 5, 1, customary, 5, 0, 1, Cups},
	} {
		t.Run(tt.name, func(t *testing.T) {
			c, err := PlanCrown(tt.g, tt.stitches, tt.every, tt.rates, 0.2)
			require.NoError(t, err)
			require.Equal(t, []int{tt.middle, tt.rest, tt.rounds}, []int{c.Middle, c.Rest, c.Rounds})
			require.Equal(t, tt.lie, c.Lie.Lie(flatTolerance))
			require.Equal(t, tt.stitches, c.Widen.To()+c.Rest)
			count := c.Middle
			for i := range c.Widen.Times {
				used, made, _ := work(c.Widen.Across(i))
				require.Equal(t, []int{count, count + c.Middle}, []int{used, made})
				count = made
			}
			for i := range c.Narrow().Times {
				used, made, _ := work(c.Narrow().Across(i))
				require.Equal(t, []int{count, count - c.Middle}, []int{used, made})
				count = made
			}
			require.Equal(t, c.Middle, count)
		})
	}
	_, err := PlanCrown(Gauge{16, 16}, 0, 1, customary, 0.2)
	require.Error(t, err)
	_, err = PlanCrown(Gauge{16, 16}, 60, 0, customary, 0.2)
	require.Error(t, err)
	_, err = PlanCrown(Gauge{16, 16}, 60, 1, []int{-6}, 0.2)
	require.Error(t, err)
	_, err = CheckCircle(Gauge{16, 16}, math.NaN())
	require.Error(t, err)
	_, err = CheckCircle(Gauge{}, 6)
	require.Error(t, err)
}
