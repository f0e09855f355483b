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
	g := Gauge{16, 16}
	c, err := PlanCrown(g, 50)
	require.NoError(t, err)
	require.Equal(t, 6, c.PerRound)
	require.Equal(t, 13, c.Rounds)
	require.Equal(t, 78, c.Stitches)
	require.InDelta(t, 48.75, c.Girth.SizeCm, 1e-9)
	require.Equal(t, Flat, c.Lie.Lie(flatTolerance))

	for _, bad := range []float64{math.NaN(), 0, -4, math.Inf(1)} {
		_, err := PlanCrown(g, bad)
		require.Error(t, err)
	}
	_, err = CheckCircle(g, math.NaN())
	require.Error(t, err)
	_, err = CheckCircle(Gauge{}, 6)
	require.Error(t, err)
	_, err = roundStitches(6, 0)
	require.Error(t, err)
	_, err = roundStitches(20000, 20000)
	require.ErrorContains(t, err, "at most 20000 stitches")
}
