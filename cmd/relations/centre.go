package main

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"
)

// The survey's tables by stature use classes of 6 cm about these centres, the
// lower bound inside and the upper bound outside, and give no figure for a
// class of fewer than ten children.
const (
	firstClass   = 86
	lastClass    = 182
	classWidth   = 6
	classMinimum = 10
)

// A curve gives the median of a measurement at a height: a monotone
// (Fritsch-Butland) curve through the class medians, each placed at the median
// height of its class.
type curve struct {
	low, high float64 // cm; the heights of the first and last class median
	fit       interp.FritschButland
}

// at returns the median at a height, or NaN outside the classes.
func (c *curve) at(height float64) float64 {
	if c == nil || !(height >= c.low && height <= c.high) {
		return math.NaN()
	}
	return c.fit.Predict(height)
}

// A class holds the children within classWidth about a centre: their heights
// and what was measured of one variable, both ascending.
type class struct {
	centre          float64 // cm
	heights, values []float64
}

// classesOf sorts the children into classes, from the shortest up, and leaves
// out those with fewer than classMinimum values of variable v.
func classesOf(children []child, v int) []class {
	var classes []class
	for centre := float64(firstClass); centre <= lastClass; centre += classWidth {
		cl := class{centre: centre}
		for _, c := range children {
			if c.height < centre-classWidth/2 || c.height >= centre+classWidth/2 {
				continue
			}
			cl.heights = append(cl.heights, c.height)
			if !math.IsNaN(c.values[v]) {
				cl.values = append(cl.values, c.values[v])
			}
		}
		if len(cl.values) < classMinimum {
			continue
		}
		slices.Sort(cl.heights)
		slices.Sort(cl.values)
		classes = append(classes, cl)
	}
	return classes
}

// medianCurve computes the curve of variable v, or nil if fewer than two
// classes are large enough.
func medianCurve(children []child, v int) *curve {
	var xs, ys []float64
	for _, cl := range classesOf(children, v) {
		xs = append(xs, percentile(cl.heights, 0.5))
		ys = append(ys, percentile(cl.values, 0.5))
	}
	if len(xs) < 2 {
		return nil
	}
	c := &curve{low: xs[0], high: xs[len(xs)-1]}
	if err := c.fit.Fit(xs, ys); err != nil {
		return nil
	}
	return c
}
