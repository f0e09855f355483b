package sizing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/interp"
	"pgregory.net/rapid"

	"growtuck/data"
	"growtuck/sizing"
)

// reference returns the embedded tables made ready.
func reference(t testing.TB) *sizing.Reference {
	ref, err := sizing.Default()
	require.NoError(t, err)
	return ref
}

// Each run of each chart, with each column that has at least two points.
func eachColumn(t *testing.T, f func(t *testing.T, run *sizing.Run, m data.Measurement, x, y []float64)) {
	ref := reference(t)
	columns := 0
	for _, chart := range ref.Charts() {
		for _, run := range chart.Runs() {
			if run.Scale == sizing.Band {
				continue
			}
			for _, m := range ref.Measurements() {
				var x, y []float64
				for _, mark := range run.Sizes {
					if v := run.Value(m.ID, mark.Position); !math.IsNaN(v) {
						x, y = append(x, mark.Position), append(y, v)
					}
				}
				if len(x) >= 2 {
					columns++
					f(t, run, m, x, y)
				}
			}
		}
	}
	require.Greater(t, columns, 200)
}

// Between sizes we agree with gonum's implementations of Fritsch and Butland
// (1984) and of straight lines, in every column of every chart.
func TestBetweenSizesAgainstGonum(t *testing.T) {
	ref := reference(t)
	eachColumn(t, func(t *testing.T, run *sizing.Run, m data.Measurement, x, y []float64) {
		var fb interp.FritschButland
		var pl interp.PiecewiseLinear
		require.NoError(t, fb.Fit(x, y))
		require.NoError(t, pl.Fit(x, y))
		for i := range len(x) - 1 {
			for k := range 9 {
				at := x[i] + float64(k)/8*(x[i+1]-x[i])
				require.InDelta(t, fb.Predict(at), run.Value(m.ID, at), 1e-9, "%s %s at %g", run.Chart.ID, m.ID, at)
				r, err := ref.Read(sizing.Place{Run: run, Position: at}, m.ID, sizing.Linear)
				require.NoError(t, err)
				require.InDelta(t, pl.Predict(at), r.Value, 1e-9, "%s %s at %g, in proportion", run.Chart.ID, m.ID, at)
			}
		}
	})
}

// A reading between two sizes lies between their values, and the inverse of a
// reading is the position it was read at.
func TestBetweenNeighboursAndInverse(t *testing.T) {
	eachColumn(t, func(t *testing.T, run *sizing.Run, m data.Measurement, x, y []float64) {
		rapid.Check(t, func(t *rapid.T) {
			i := rapid.IntRange(0, len(x)-2).Draw(t, "size")
			at := rapid.Float64Range(x[i], x[i+1]).Draw(t, "position")
			v := run.Value(m.ID, at)
			if v < min(y[i], y[i+1]) || v > max(y[i], y[i+1]) {
				t.Fatalf("%s %s at %g: %g is not between %g and %g", run.Chart.ID, m.ID, at, v, y[i], y[i+1])
			}
			low, high, err := run.Inverse(m.ID, v)
			if err != nil {
				t.Fatalf("inverse of %g: %v", v, err)
			}
			// Where a curve is level but for the last digits, any place on it will do.
			nearest := min(max(at, low), high)
			if math.Abs(nearest-at) > 1e-6 && math.Abs(run.Value(m.ID, (nearest+at)/2)-v) > 1e-9 {
				t.Fatalf("%s %s: %g was read at %g, the inverse says %g to %g", run.Chart.ID, m.ID, v, at, low, high)
			}
			for _, back := range []float64{low, high} {
				if math.Abs(run.Value(m.ID, back)-v) > 1e-9 {
					t.Fatalf("%s %s: inverse %g of %g reads %g", run.Chart.ID, m.ID, back, v, run.Value(m.ID, back))
				}
			}
		})
	})
}

func TestCurveNeverExtrapolates(t *testing.T) {
	c, err := sizing.NewCurve([]float64{2, 4, 6}, []float64{1, 2, 4})
	require.NoError(t, err)
	for _, x := range []float64{1.999, 6.001, math.NaN(), math.Inf(1), math.Inf(-1), -4} {
		require.True(t, math.IsNaN(c.At(x)), "at %g", x)
		require.True(t, math.IsNaN(c.LinearAt(x)), "at %g", x)
	}
	_, _, ok := c.Inverse(4.1)
	require.False(t, ok)
}

func TestCurveRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, p := range map[string][2][]float64{
		"nothing":         {{}, {}},
		"unequal":         {{1, 2}, {1}},
		"not increasing":  {{1, 1}, {1, 2}},
		"falling":         {{2, 1}, {1, 2}},
		"NaN value":       {{1, 2}, {1, nan}},
		"infinite value":  {{1, 2}, {inf, 1}},
		"NaN position":    {{nan, 2}, {1, 1}},
		"infinite at end": {{1, inf}, {1, 1}},
	} {
		_, err := sizing.NewCurve(p[0], p[1])
		require.Error(t, err, name)
	}
}

func TestCurveOfOnePoint(t *testing.T) {
	c, err := sizing.NewCurve([]float64{4}, []float64{58.5})
	require.NoError(t, err)
	require.Equal(t, 58.5, c.At(4))
	require.True(t, math.IsNaN(c.At(4.1)))
}

// A level stretch and a turn: the inverse gives both ends.
func TestInverseWhereLevel(t *testing.T) {
	c, err := sizing.NewCurve([]float64{0, 1, 2, 3}, []float64{1, 2, 2, 1})
	require.NoError(t, err)
	low, high, ok := c.Inverse(2)
	require.True(t, ok)
	require.Equal(t, [2]float64{1, 2}, [2]float64{low, high})
	low, high, ok = c.Inverse(1.5)
	require.True(t, ok)
	require.Less(t, low, 1.0)
	require.Greater(t, high, 2.0)
}

func BenchmarkReadBetweenSizes(b *testing.B) {
	ref := reference(b)
	chart, err := ref.Chart("measured")
	require.NoError(b, err)
	run, _ := chart.Run(sizing.Height, sizing.Both)
	var x, y []float64
	for _, m := range run.Sizes {
		x, y = append(x, m.Position), append(y, run.Value("chest", m.Position))
	}
	at := make([]float64, 1024)
	for i := range at {
		at[i] = x[0] + float64(i)/1023*(x[len(x)-1]-x[0])
	}
	var sink float64
	b.Run("growtuck", func(b *testing.B) {
		b.ReportAllocs()
		c, err := sizing.NewCurve(x, y)
		require.NoError(b, err)
		i := 0
		for b.Loop() {
			sink += c.At(at[i&1023])
			i++
		}
	})
	b.Run("growtuck by name", func(b *testing.B) {
		b.ReportAllocs()
		i := 0
		for b.Loop() {
			sink += run.Value("chest", at[i&1023])
			i++
		}
	})
	b.Run("gonum", func(b *testing.B) {
		b.ReportAllocs()
		var fb interp.FritschButland
		require.NoError(b, fb.Fit(x, y))
		i := 0
		for b.Loop() {
			sink += fb.Predict(at[i&1023])
			i++
		}
	})
	_ = sink
}
