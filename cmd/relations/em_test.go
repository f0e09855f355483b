package main

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// draw returns rows from a normal distribution of mean zero and covariance cov.
func draw(t *testing.T, cov *mat.SymDense, rows int) [][]float64 {
	t.Helper()
	return drawFrom(t, cov, rows, rand.New(rand.NewPCG(1, 2)))
}

func drawFrom(t *testing.T, cov *mat.SymDense, rows int, rng *rand.Rand) [][]float64 {
	t.Helper()
	var chol mat.Cholesky
	require.True(t, chol.Factorize(cov))
	var lower mat.TriDense
	chol.LTo(&lower)
	n := cov.SymmetricDim()
	sample := make([][]float64, rows)
	for i := range sample {
		z := mat.NewVecDense(n, nil)
		for j := range n {
			z.SetVec(j, rng.NormFloat64())
		}
		var x mat.VecDense
		x.MulVec(&lower, z)
		sample[i] = x.RawVector().Data
	}
	return sample
}

var known = mat.NewSymDense(4, []float64{
	1.0, 0.8, 0.5, -0.3,
	0.8, 1.0, 0.6, -0.2,
	0.5, 0.6, 1.0, 0.1,
	-0.3, -0.2, 0.1, 1.0,
})

func TestFitCovarianceWithNothingMissing(t *testing.T) {
	rows := draw(t, known, 50)
	got, err := fitCovariance(rows, independent(4), 0)
	require.NoError(t, err)
	for i := range 4 {
		for j := range 4 {
			sum := 0.0
			for _, r := range rows {
				sum += r[i] * r[j]
			}
			require.InDelta(t, sum/50, got.At(i, j), 1e-12, "element %d, %d", i, j)
		}
	}
}

func TestFitCovarianceRecoversUnderMissingness(t *testing.T) {
	rows := draw(t, known, 6000)
	for i, r := range rows {
		// Three subsamples in turn, as in the survey; every pair meets in one.
		r[[]int{1, 2, 3}[i%3]] = math.NaN()
		if i%10 == 0 {
			r[0] = math.NaN()
		}
	}
	got, err := fitCovariance(rows, independent(4), 1)
	require.NoError(t, err)
	for i := range 4 {
		for j := range 4 {
			require.InDelta(t, known.At(i, j), got.At(i, j), 0.05, "element %d, %d", i, j)
		}
	}
}

// What is missing here depends on the first variable, which is always seen. The
// values of the second that were measured have far too small a spread; the fit
// must see through that.
func TestFitCovarianceWhenMissingDependsOnSeen(t *testing.T) {
	rows := draw(t, known, 6000)
	naive, n := 0.0, 0.0
	for _, r := range rows {
		if math.Abs(r[0]) > 1 {
			r[1] = math.NaN()
			continue
		}
		naive += r[1] * r[1]
		n++
	}
	require.Less(t, naive/n, 0.7)
	got, err := fitCovariance(rows, independent(4), 0)
	require.NoError(t, err)
	require.InDelta(t, 1, got.At(1, 1), 0.06)
	require.InDelta(t, 0.8, got.At(0, 1), 0.05)
}

func TestFitCovariancePairNeverMeasuredTogether(t *testing.T) {
	rows := draw(t, known, 3000)
	for i, r := range rows {
		r[1+i%2] = math.NaN() // variables 1 and 2 never meet
	}
	got, err := fitCovariance(rows, independent(4), 10)
	require.NoError(t, err)
	var chol mat.Cholesky
	require.True(t, chol.Factorize(got))
	require.Greater(t, got.At(1, 2), 0.2, "both go with variable 0, so with each other")
	require.Less(t, got.At(1, 2), 0.7)
}

func TestFitCovariancePriorDrawsIn(t *testing.T) {
	rows := [][]float64{{1, 1}, {-1, -1}}
	got, err := fitCovariance(rows, independent(2), 2)
	require.NoError(t, err)
	require.InDelta(t, 1, got.At(0, 0), 1e-12)
	require.InDelta(t, 0.5, got.At(0, 1), 1e-12) // (1 + 1 + 0 + 0) / 4
}

func TestFitCovarianceRefuses(t *testing.T) {
	_, err := fitCovariance(nil, independent(4), 1)
	require.ErrorContains(t, err, "no rows")

	nan := math.NaN()
	_, err = fitCovariance([][]float64{{1, 1, 1}, {-1, -1, 1}, {1, 1, nan}, {-1, -1, nan}}, independent(3), 0)
	require.ErrorContains(t, err, "not positive definite")
}

func TestRegress(t *testing.T) {
	slopes, rest, err := regress(known, []int{0}, []int{1, 3})
	require.NoError(t, err)
	require.InDelta(t, 0.8, slopes.At(0, 0), 1e-12)
	require.InDelta(t, -0.3, slopes.At(1, 0), 1e-12)
	require.InDelta(t, 1-0.64, rest.At(0, 0), 1e-12)
	require.InDelta(t, -0.2+0.8*0.3, rest.At(0, 1), 1e-12)
}
