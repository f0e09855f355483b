package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
)

func TestPercentile(t *testing.T) {
	for _, tc := range []struct {
		sample []float64
		p      float64
		want   float64
	}{
		{[]float64{7}, 0.99, 7},
		{[]float64{1, 2}, 0.5, 1.5},
		{[]float64{1, 2, 4}, 0.5, 2},
		{[]float64{1, 2, 4, 8, 16}, 0.25, 2},
		{[]float64{1, 2, 4, 8}, 0.25, 1.75},
		{[]float64{1, 2, 4, 8}, 0, 1},
		{[]float64{1, 2, 4, 8}, 1, 8},
		{[]float64{10, 20, 30}, 0.99, 29.8},
	} {
		require.InDelta(t, tc.want, percentile(tc.sample, tc.p), 1e-12, "%v at %v", tc.sample, tc.p)
	}
	require.True(t, math.IsNaN(percentile(nil, 0.5)))
}

// gonum's interpolation places order statistic k of n at k/n and ours at
// (k-1)/(n-1); at places converted accordingly the two must agree.
func TestPercentileAgainstGonum(t *testing.T) {
	sample := []float64{1, 2, 4, 8, 16, 32, 64}
	n := float64(len(sample))
	for p := 0.0; p <= 1; p += 0.03125 {
		other := (p*(n-1) + 1) / n
		require.InDelta(t, stat.Quantile(other, stat.LinInterp, sample, nil), percentile(sample, p), 1e-9, "p = %v", p)
	}
}

func TestRobustLimits(t *testing.T) {
	// Median 3, absolute deviations 2 1 0 1 97: their median is 1.
	low, high := robustLimits([]float64{100, 1, 2, 3, 4})
	require.InDelta(t, 3-6*1.4826, low, 1e-12)
	require.InDelta(t, 3+6*1.4826, high, 1e-12)
}
