package main

import (
	"math"
	"slices"
)

// percentile returns the p quantile, 0 <= p <= 1, of an ascending sample by
// linear interpolation between order statistics, the smallest being p = 0 and
// the largest p = 1. The median of an even sample is thus the mean of the
// middle two, as in the survey's tables. The result for an empty sample is NaN.
//
// gonum's stat.Quantile does not offer this definition.
func percentile(sorted []float64, p float64) float64 {
	if len(sorted) == 0 {
		return math.NaN()
	}
	at := p * float64(len(sorted)-1)
	i := int(at)
	if i >= len(sorted)-1 {
		return sorted[len(sorted)-1]
	}
	return sorted[i] + (at-float64(i))*(sorted[i+1]-sorted[i])
}

// outlierLimit is how many robust standard deviations a value may lie from the
// median before it is taken for a recording error. The survey's other tables
// use the same limit. A true child hardly ever lies there: for a normal sample
// it is two in a thousand million.
const outlierLimit = 6

// robustLimits returns the lowest and highest acceptable value of a sample: the
// median less and plus outlierLimit robust standard deviations, each 1.4826
// times the median absolute deviation.
func robustLimits(sample []float64) (low, high float64) {
	s := slices.Sorted(slices.Values(sample))
	median := percentile(s, 0.5)
	for i, v := range s {
		s[i] = math.Abs(v - median)
	}
	slices.Sort(s)
	reach := outlierLimit * 1.4826 * percentile(s, 0.5)
	return median - reach, median + reach
}
