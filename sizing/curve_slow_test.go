package sizing

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/stat"

	"growtuck/data"
)

// drawPoints draws points that rise, fall, turn or are level.
func drawPoints(rng *rand.Rand) (x, y []float64) {
	at, v := 10*rng.NormFloat64(), 50*rng.NormFloat64()
	kind := rng.IntN(4)
	for range 1 + rng.IntN(7) {
		x, y = append(x, at), append(y, v)
		at += 0.1 + 6*rng.Float64()
		step := math.Exp(2 * rng.NormFloat64())
		switch {
		case kind == 1:
			v -= step
		case kind == 2 && rng.IntN(3) == 0: // level
		case kind == 3 && rng.IntN(2) == 0:
			v -= step
		default:
			v += step
		}
	}
	return x, y
}

// Through any points the curve is gonum's Fritsch–Butland, its slope too, and in
// proportion gonum's straight lines; at the points it is exact, and outside them silent.
func TestCurveIsGonums(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for range 300 {
		x, y := drawPoints(rng)
		c, err := NewCurve(x, y)
		require.NoError(t, err)
		last := len(x) - 1
		for i := range x {
			for _, m := range []Method{Monotone, Linear} {
				require.Equal(t, y[i], c.Read(x[i], m))
			}
			require.Equal(t, i, c.find(x[i]))
		}
		low, high := c.Range()
		require.Equal(t, []float64{x[0], x[last]}, []float64{low, high})
		for _, out := range []float64{math.Nextafter(low, -1e9), math.Nextafter(high, 1e9)} {
			require.True(t, math.IsNaN(c.At(out)) && math.IsNaN(c.LinearAt(out)))
		}
		require.Equal(t, slices.IsSorted(y) && len(slices.Compact(slices.Clone(y))) == len(y), c.rising)
		if last == 0 {
			continue
		}
		var cubic interp.FritschButland
		var straight interp.PiecewiseLinear
		require.NoError(t, cubic.Fit(x, y))
		require.NoError(t, straight.Fit(x, y))
		for range 20 {
			i := rng.IntN(last)
			at := x[i] + rng.Float64()*(x[i+1]-x[i])
			require.InDelta(t, cubic.Predict(at), c.At(at), 1e-9)
			s := c.segment(i)
			require.InDelta(t, cubic.PredictDerivative(at), s.rise(at-x[i]), 1e-9*(1+math.Abs(cubic.PredictDerivative(at))))
			require.InDelta(t, straight.Predict(at), c.Read(at, Linear), 1e-9)
			require.InDelta(t, cubic.Predict(at), c.Read(at, Monotone), 1e-9)
			require.Equal(t, i, c.find(at))
			require.GreaterOrEqual(t, c.At(at), min(y[i], y[i+1]))
			require.LessOrEqual(t, c.At(at), max(y[i], y[i+1]))
		}
	}
}

// A value is found wherever the curve has it: the lowest and the highest place, by
// looking through all segments for a change of sign and halving.
func TestInverseIsTheFirstAndTheLastPlace(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 1))
	halved := func(c *Curve, i int, v float64) float64 {
		a, b := c.x[i], c.x[i+1]
		for range 80 {
			if m := (a + b) / 2; (c.At(m) < v) == (c.y[i] < v) {
				a = m
			} else {
				b = m
			}
		}
		return (a + b) / 2
	}
	for range 400 {
		x, y := drawPoints(rng)
		c, err := NewCurve(x, y)
		require.NoError(t, err)
		least, most := slices.Min(y), slices.Max(y)
		values := append(slices.Clone(y), least-1e-6, most+1e-6)
		for range 5 {
			values = append(values, least+rng.Float64()*(most-least))
		}
		for _, v := range values {
			first, last := math.Inf(1), math.Inf(-1)
			for i := range x {
				if y[i] == v {
					first, last = min(first, x[i]), max(last, x[i])
				}
				if i+1 < len(x) && (y[i] < v) != (y[i+1] < v) && y[i] != v && y[i+1] != v {
					at := halved(c, i, v)
					first, last = min(first, at), max(last, at)
				}
			}
			low, high, ok := c.Inverse(v)
			require.Equal(t, v >= least && v <= most, ok)
			if !ok {
				require.True(t, low > high)
				continue
			}
			for _, p := range [][2]float64{{first, low}, {last, high}} {
				if math.Abs(p[0]-p[1]) > 1e-9 { // where the curve is nearly level any place will do
					require.InDelta(t, v, c.At(p[1]), 1e-12*(1+math.Abs(v)))
					require.InDelta(t, p[0], p[1], 1e-4)
				}
			}
		}
	}
}

// What falls is made level: each value is then the largest, over the points up to it, of
// the least mean from there to a point from it on (Robertson, Wright and Dykstra, "Order
// Restricted Statistical Inference", 1988: the max-min formula of isotonic regression).
func TestLevelIsTheMaxMinFormula(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	made := 0
	for range 300 {
		x, y := drawPoints(rng)
		c, err := NewCurve(x, y)
		require.NoError(t, err)
		got, where := c.level()
		var want []float64
		for i := range y {
			most := math.Inf(-1)
			for a := range i + 1 {
				least := math.Inf(1)
				for b := i; b < len(y); b++ {
					least = min(least, stat.Mean(y[a:b+1], nil))
				}
				most = max(most, least)
			}
			want = append(want, most)
		}
		require.InDeltaSlice(t, want, got.y, 1e-9)
		require.Equal(t, x, got.x)
		require.Equal(t, !slices.IsSorted(y), len(where) > 0)
		for i := range y { // a point that was moved lies in a stretch that is level
			l, ok := levelledAt(where, x[i])
			if math.Abs(y[i]-want[i]) > 1e-9 {
				require.True(t, ok)
			}
			if ok {
				made++
				require.InDelta(t, want[i], got.At(l.from), 1e-9)
				require.InDelta(t, want[i], got.At(l.to), 1e-9)
				require.Equal(t, "levelled", l.note().ID)
				require.Equal(t, []any{Length(l.from), Length(l.to)}, l.note().Args)
			}
		}
		for _, l := range where {
			for _, end := range []float64{math.Nextafter(l.from, -1e9), math.Nextafter(l.to, 1e9)} {
				at, ok := levelledAt(where, end)
				require.True(t, !ok || at != l)
			}
			require.Contains(t, x, l.from)
			require.Contains(t, x, l.to)
			require.Less(t, l.from, l.to)
		}
	}
	require.Greater(t, made, 300)
}

// Between the middles of bands a figure changes evenly, and outside them not at all:
// gonum's straight lines.
func TestBandsAreReadEvenly(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 1))
	for range 100 {
		x, y := drawPoints(rng)
		b := banded{x, y}
		if len(x) > 1 {
			var line interp.PiecewiseLinear
			require.NoError(t, line.Fit(x, y))
			for range 10 {
				at := x[0] - 2 + rng.Float64()*(x[len(x)-1]-x[0]+4)
				require.InDelta(t, line.Predict(at), b.at(at), 1e-9)
				k, share := bandAt(x, at)
				if at < x[0] || at > x[len(x)-1] {
					require.Zero(t, share)
					continue
				}
				next := min(k+1, len(x)-1)
				require.True(t, x[k] <= at && at <= x[next])
				require.InDelta(t, (at-x[k])/(x[next]-x[k]), share.at(0), 1e-12)
				require.InDelta(t, 1, share.at(x[next]-at), 1e-9)
			}
		}
		for i := range x {
			require.Equal(t, y[i], b.at(x[i]))
			k, share := bandAt(x, x[i])
			require.Equal(t, i, k)
			require.Zero(t, share.start)
		}
		require.Equal(t, []float64{y[0], y[len(y)-1]}, []float64{b.at(x[0] - 5), b.at(x[len(x)-1] + 5)})
	}
}

// A band that says no height is of all children, up to two metres and a half; between bands
// figures change by what their middles differ. A matrix that is none of correlations has
// no factor.
func TestBandsAndFactors(t *testing.T) {
	low, high := 100.0, 115.0
	for _, tt := range []struct {
		row  data.Relation
		want band
	}{{data.Relation{}, band{0, 250}}, {data.Relation{LowCm: &low}, band{100, 250}}, {data.Relation{HighCm: &high}, band{0, 115}}, {data.Relation{LowCm: &low, HighCm: &high}, band{100, 115}}} {
		require.Equal(t, tt.want, newBand(tt.row))
	}
	require.Equal(t, 107.5, band{100, 115}.middle())
	var b banded
	require.NoError(t, b.add(data.Relation{LowCm: &low, HighCm: &high, Value: 2}))
	require.Error(t, b.add(data.Relation{LowCm: &low, HighCm: &high, Value: 3}), "a band twice")
	require.NoError(t, b.add(data.Relation{LowCm: &high, Value: 3}))
	require.Equal(t, []float64{107.5, 182.5}, b.middles)
	corr := []correlations{{r: [][]float64{{1, 0.2}, {0.2, 1}}}, {r: [][]float64{{1, 0.5}, {0.5, 1}}}}
	setRises(corr)
	require.InDelta(t, 0.3, corr[0].rise[0][1], 1e-12)
	require.Equal(t, [][]float64{{0, 0}, {0, 0}}, corr[1].rise)
	factor := []float64{4, 0, 0, 2, 10, 0, -2, 5, 21} // of which the lower half counts: worked by hand
	require.True(t, cholesky(factor, 3))
	require.InDeltaSlice(t, []float64{2, 1, 3, -1, 2, 4}, []float64{factor[0], factor[3], factor[4], factor[6], factor[7], factor[8]}, 1e-12)
	x := []float64{2, 7, 13} // L·x of 1, 2, 2.5
	forward(factor, 3, x)
	require.InDeltaSlice(t, []float64{1, 2, 2.5}, x, 1e-12)
	for _, a := range [][]float64{{1, 0, 1, 1}, {1, 0, 1.2, 1}, {0}, {-1}} { // one thing twice, impossible, nothing
		require.False(t, cholesky(a, int(math.Sqrt(float64(len(a))))), "%v", a)
	}
}
