package sizing

import (
	"math"

	"growtuck/data"
)

// An Apart is a girth of a size that differs from that of measured children of
// the height which the size is for.
type Apart struct {
	Measurement data.Measurement
	Size, Usual float64 // cm; Usual is the median of the children measured
}

// Percent is by how much of the usual girth the size is larger; below 0 where it
// is smaller.
func (a Apart) Percent() float64 { return 100 * (a.Size/a.Usual - 1) }

// Apart returns the girths that a chart prints at a place and that differ there
// from the median of measured children of that height and sex by the share
// size_apart_least of practice.csv or more, in the order of the table of
// measurements. Where the chart's sizes have no height, or one that was not
// surveyed, and on the survey's own chart, there are none.
func (ref *Reference) Apart(p Place) []Apart {
	height, ok := p.Height()
	if !ok || p.Run.Chart.ID == surveyChart {
		return nil
	}
	survey, ok := ref.charts[surveyChart]
	if !ok {
		return nil
	}
	run, ok := survey.Run(Height, p.Run.Sex)
	if !ok {
		return nil
	}
	least := ref.Practice("size_apart_least").Share()
	var all []Apart
	for _, m := range ref.tables.Measurements {
		if m.Kind != "girth" || !p.Run.prints(m.ID) {
			continue
		}
		a := Apart{m, p.Run.Value(m.ID, p.Position), run.Value(m.ID, height)}
		if share := a.Size/a.Usual - 1; math.Abs(share) >= least { // false where either is not known
			all = append(all, a)
		}
	}
	return all
}

// standApart notes where girths that a body has from a size part from children
// measured.
func (b *Body) standApart(ref *Reference, p Place) {
	height, ok := p.Height()
	if !ok {
		return
	}
	b.apartSize, b.apartHeight = p.Label(), Length(height)
	for _, a := range ref.Apart(p) {
		if r, has := b.Get(a.Measurement.ID); has && r.Provenance != Measured {
			b.Apart = append(b.Apart, a)
		}
	}
}

// AsApart tells where girths that the body has from a size part from children
// measured; it is zero where none does.
func (b *Body) AsApart() Fact {
	if len(b.Apart) == 0 {
		return Fact{}
	}
	var facts []Fact
	for _, a := range b.Apart {
		facts = append(facts, NewFact("girth-apart", a.Measurement.Name, a.Percent()/100))
	}
	return NewFact("size-apart", b.apartSize, b.apartHeight, facts)
}

// prints reports whether the run's figures of a measurement are printed at some
// of its sizes, in its own chart or in the one that they are read from.
func (r *Run) prints(measurement string) bool {
	return r.column(measurement).prints()
}
