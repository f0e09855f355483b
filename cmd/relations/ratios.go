package main

import (
	"math"
	"slices"
)

// ratioBands divide the heights of the survey for the ratios to height, which
// change with height much faster than spreads do.
var ratioBands = []band{{83, 100}, {100, 115}, {115, 130}, {130, 145}, {145, 160}, {160, 185}}

// ratioMinimum is the fewest children a first and 99th percentile are read from.
const ratioMinimum = 60

// A ratio holds the sample percentiles of a measurement over height.
type ratio struct {
	sex, measurement string
	band             band
	p1, p50, p99     float64
	count            int
}

// measureRatios computes the ratios of every sex, variable and band, in the
// order of the table.
func measureRatios(children []child) []ratio {
	var all []ratio
	for _, sex := range sexes {
		some := ofSex(children, sex)
		for v := range variables {
			all = append(all, variableRatios(sex, some, v)...)
		}
	}
	return all
}

func variableRatios(sex string, children []child, v int) []ratio {
	var ratios []ratio
	for _, b := range joinBands(children, v) {
		sample := ratiosIn(b, children, v)
		low, high := robustLimits(sample)
		sample = slices.DeleteFunc(sample, func(q float64) bool { return q < low || q > high })
		if len(sample) < ratioMinimum {
			continue
		}
		slices.Sort(sample)
		ratios = append(ratios, ratio{
			sex: sex, measurement: variables[v].id, band: b, count: len(sample),
			p1: percentile(sample, 0.01), p50: percentile(sample, 0.5), p99: percentile(sample, 0.99),
		})
	}
	return ratios
}

// joinBands joins ratioBands from the shortest up until each holds enough
// children measured for v. A rest at the tall end joins the band below it.
func joinBands(children []child, v int) []band {
	var joined []band
	open := false
	for _, b := range ratioBands {
		if open {
			b.low = joined[len(joined)-1].low
			joined = joined[:len(joined)-1]
		}
		joined = append(joined, b)
		open = len(ratiosIn(b, children, v)) < ratioMinimum
	}
	if n := len(joined); open && n > 1 {
		joined[n-2].high = joined[n-1].high
		joined = joined[:n-1]
	}
	return joined
}

func ratiosIn(b band, children []child, v int) []float64 {
	var sample []float64
	for _, c := range children {
		if b.holds(c.height) && !math.IsNaN(c.values[v]) {
			sample = append(sample, c.values[v]/c.height)
		}
	}
	return sample
}
