package sizing

import (
	"fmt"
	"math"

	"growtuck/data"
)

// The survey's children were measured in 1975 to 1977. Today's of the same height
// are as heavy in the lower half and much heavier in the upper, and some of their
// girths go differently with their weight. What the survey alone has keeps its
// relation to height and weight.

// today is what is known of children measured since, by band of height.
type today struct {
	low, high banded // spread of the weight below its median and above
	// Of each measurement, with no bands where it was not taken since: how it goes
	// with weight, the spread that weight leaves, and by how much children of the
	// median's weight part from the median.
	slope, rest, shift []banded
}

// addToday adds a row of what is known of children measured since.
func (rel *relations) addToday(row data.Relation) error {
	i, j := rel.find(row.A), rel.find(row.B)
	if i < 0 || j < 0 {
		return fmt.Errorf("%s and %s need a spread each before their %s", row.A, row.B, row.Statistic)
	}
	if len(rel.today.slope) == 0 {
		n := len(rel.names)
		rel.today.slope, rel.today.rest, rel.today.shift = make([]banded, n), make([]banded, n), make([]banded, n)
	}
	if i >= len(rel.today.slope) {
		return fmt.Errorf("the spreads of the survey come before the %s of %s", row.Statistic, row.A)
	}
	var to *banded
	switch row.Statistic {
	case "low", "high":
		to = &rel.today.low
		if row.Statistic == "high" {
			to = &rel.today.high
		}
		if row.A != "weight" || i != j {
			return fmt.Errorf("a spread below or above the median is of weight, not of %s and %s", row.A, row.B)
		}
	case "slope":
		to = &rel.today.slope[i]
	case "rest":
		to = &rel.today.rest[i]
	case "shift":
		to = &rel.today.shift[i]
	}
	switch {
	case row.Statistic != "low" && row.Statistic != "high" && (row.B != "weight" || i == j):
		return fmt.Errorf("a %s is of a girth and weight, not of %s and %s", row.Statistic, row.A, row.B)
	case row.Statistic != "slope" && row.Statistic != "shift" && row.Value <= 0:
		return fmt.Errorf("%s: %s %g must be greater than 0", row.A, row.Statistic, row.Value)
	}
	return to.add(row)
}

// settle checks that what is known of today is whole, and works out how closely
// measurements go together, weight being known.
func (rel *relations) settle() error {
	rel.weight = rel.find("weight")
	t, n := &rel.today, len(rel.names)
	if t.slope == nil {
		t.slope, t.rest, t.shift = make([]banded, n), make([]banded, n), make([]banded, n)
	}
	if len(t.slope) != n || len(t.low.middles) != len(t.high.middles) {
		return fmt.Errorf("weight has %d spreads below its median and %d above", len(t.low.middles), len(t.high.middles))
	}
	for v, name := range rel.names {
		if a, b, c := len(t.slope[v].middles), len(t.rest[v].middles), len(t.shift[v].middles); a != b || b != c {
			return fmt.Errorf("%s has %d slopes, %d rests and %d shifts", name, a, b, c)
		}
	}
	for _, c := range rel.corr {
		alike := correlations{band: c.band, r: make([][]float64, n)}
		for i := range n {
			alike.r[i] = make([]float64, n)
			for j := range n {
				alike.r[i][j] = rel.given(c.r, i, j)
			}
		}
		rel.alike = append(rel.alike, alike)
	}
	setRises(rel.corr)
	setRises(rel.alike)
	return nil
}

// given is the correlation of two measurements, weight being known.
func (rel *relations) given(r [][]float64, i, j int) float64 {
	w := rel.weight
	switch {
	case i == j:
		return 1
	case w < 0:
		return r[i][j]
	case i == w || j == w:
		return 0
	}
	return (r[i][j] - r[i][w]*r[j][w]) / math.Sqrt((1-r[i][w]*r[i][w])*(1-r[j][w]*r[j][w]))
}

// withWeight is the correlation of a measurement with weight in the survey.
func (rel *relations) withWeight(v int, height float64) float64 {
	if rel.weight < 0 {
		return 0
	}
	k, share := bandAt(rel.middle, height)
	c := &rel.corr[k]
	return c.r[v][rel.weight] + share.start*c.rise[v][rel.weight]
}

// slopeAt is how a measurement goes with weight at a height, both as logarithms.
func (rel *relations) slopeAt(v int, height float64) float64 {
	switch t := &rel.today.slope[v]; {
	case v == rel.weight:
		return 1
	case rel.weight < 0:
		return 0
	case t.middles != nil:
		return t.at(height)
	}
	return rel.withWeight(v, height) * rel.spread[v].at(height) / rel.spread[rel.weight].at(height)
}

// restAt is the spread of a measurement that weight leaves at a height.
func (rel *relations) restAt(v int, height float64) float64 {
	if v == rel.weight {
		return 0
	}
	if t := &rel.today.rest[v]; t.middles != nil {
		return t.at(height)
	}
	r := rel.withWeight(v, height)
	return rel.spread[v].at(height) * math.Sqrt(1-r*r)
}

// shiftAt is by how much children of the median weight part from the median.
func (rel *relations) shiftAt(v int, height float64) float64 {
	if t := &rel.today.shift[v]; t.middles != nil {
		return t.at(height)
	}
	return 0
}

// weightAt is the spread of the weight below its median and above. The relations
// of editions before 2.0 have one for both.
func (rel *relations) weightAt(height float64) (low, high float64) {
	switch t := &rel.today; {
	case t.low.middles != nil:
		return t.low.at(height), t.high.at(height)
	case rel.weight < 0:
		return 1, 1 // of no consequence: nothing goes with it
	}
	sd := rel.spread[rel.weight].at(height)
	return sd, sd
}

// bands are the middles of all bands of height that a figure changes its course at.
func (rel *relations) bands() []float64 {
	all := append([]float64{}, rel.middle...)
	t := &rel.today
	for _, group := range [][]banded{rel.spread, {t.low, t.high}, t.slope, t.rest, t.shift} {
		for i := range group {
			all = append(all, group[i].middles...)
		}
	}
	return all
}
