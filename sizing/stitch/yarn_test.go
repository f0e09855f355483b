package stitch

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestBalls(t *testing.T) {
	b := Ball{Grams: 50, Metres: 100}
	for _, tt := range []struct {
		metres float64
		balls  int
		last   float64
	}{
		{480, 5, 0.8},
		{485, 5, 0.85},
		{486, 5, 0.86},
		{500, 5, 1},
		{501, 6, 0.01},
		{3, 1, 0.03},
		{0.1 * 3 * 1000, 3, 1}, // 300.00000000000006 is three balls
	} {
		n, err := ballsFor(tt.metres, b)
		require.NoError(t, err)
		require.Equal(t, tt.balls, n.Balls, "%v m", tt.metres)
		require.InDelta(t, tt.last, n.LastShare, 1e-9)
		require.InDelta(t, tt.metres/2, n.Grams, 1e-9)
	}
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.Float64Range(1, 5000).Draw(t, "metres")
		n, err := ballsFor(m, b)
		require.NoError(t, err)
		require.GreaterOrEqual(t, float64(n.Balls)*b.Metres, m-1e-6, "enough")
		require.Less(t, float64(n.Balls-1)*b.Metres, m, "no ball too many")
		require.InDelta(t, m, (float64(n.Balls-1)+n.LastShare)*b.Metres, 1e-6)
	})
}

func TestEstimateYarn(t *testing.T) {
	b := Ball{Grams: 50, Metres: 120}
	byWeight, err := EstimateYarn(YarnSwatch{WidthCm: 12, HeightCm: 12, Grams: 9}, b, 6000, moreMargin)
	require.NoError(t, err)
	byLength, err := EstimateYarn(YarnSwatch{WidthCm: 12, HeightCm: 12, Metres: 21.6}, b, 6000, moreMargin)
	require.NoError(t, err)
	require.InDelta(t, byWeight.Metres, byLength.Metres, 1e-9, "9 g of this yarn are 21.6 m")
	require.InDelta(t, 6000.0/144*21.6*1.2, byWeight.Metres, 1e-9)

	good := YarnSwatch{WidthCm: 12, HeightCm: 12, Grams: 9}
	_, err = EstimateYarn(YarnSwatch{WidthCm: 12, HeightCm: 12}, b, 6000, 0)
	require.ErrorContains(t, err, "swatch is without weight and length")
	_, err = EstimateYarn(good, b, math.NaN(), 0)
	require.ErrorContains(t, err, "area is NaN cm²")
	_, err = EstimateYarn(good, Ball{}, 6000, 0)
	require.ErrorContains(t, err, "weight of a ball is 0 g")
	_, err = EstimateYarn(good, b, 6000, 10)
	require.ErrorContains(t, err, "margin is 10: want 0 to 1")
	_, err = EstimateYarn(YarnSwatch{WidthCm: math.Inf(1), HeightCm: 2, Grams: 1}, b, 6000, 0)
	require.Error(t, err)
	_, err = ballsFor(math.NaN(), b)
	require.Error(t, err)
}

func TestBelievableYarn(t *testing.T) {
	for _, tt := range []struct {
		stitches  float64
		yarn      string
		low, high float64 // yards per square inch
	}{
		{18, "worsted", 0.8, 1.1},
		{22, "DK", 1.0, 1.3},
		{25, "DK to fingering", 1.0, 1.7},
		{20.5, "worsted to DK", 0.8, 1.3},
		{30, "fingering", 1.3, 1.7},
	} {
		b, err := BelievableYarn(tt.stitches, yarnUses)
		require.NoError(t, err)
		require.Equal(t, tt.yarn, b.Yarn)
		// One square metre is (100 / 2.54)² square inches.
		require.InDelta(t, tt.low*0.9144*math.Pow(100/2.54, 2), b.Low, 1e-6)
		require.InDelta(t, tt.high*0.9144*math.Pow(100/2.54, 2), b.High, 1e-6)
		c := b.Times(1.25, 4.0/3)
		require.InDelta(t, b.Low*1.25, c.Low, 1e-6)
		require.InDelta(t, b.High*4/3, c.High, 1e-6)
	}
	for _, bad := range []float64{10, 40, math.NaN()} {
		_, err := BelievableYarn(bad, yarnUses)
		require.ErrorContains(t, err, "no band is known beyond")
	}
	b, err := BelievableYarn(18, yarnUses)
	require.NoError(t, err)
	require.ErrorContains(t, b.Check(3000, 6000), "yarn for 6000 cm² is 3000 m: want 680 to 935 m in worsted")
	require.Error(t, b.Check(math.NaN(), 6000))
	require.NoError(t, b.Check(800, 6000))
}
