package sizing

import (
	"math"

	"growtuck/data"
)

// nearSeam is how far, in cm of height, a reading may be from where a chart's
// babies' sizes meet its children's and still say so.
const nearSeam = 2

// seam says how a measurement steps where the babies' sizes of a chart, by months,
// meet its children's, by years, near the place. One rule holds: up to the height of
// the last size by months readings are of the babies' sizes, over it of the
// children's; the step is the standard's own.
func (p Place) seam(m data.Measurement) []Fact {
	height, ok := p.Height()
	babies, children := p.Run, p.Run.beside()
	if p.Run.Scale == Years {
		babies, children = children, babies
	}
	if !ok || babies == nil || children == nil {
		return nil
	}
	_, last, ok1 := babies.Has("height")
	first, _, ok2 := children.Has("height")
	if !ok1 || !ok2 || math.Abs(height-babies.Value("height", last)) > nearSeam {
		return nil
	}
	from, to := babies.Value(m.ID, last), children.Value(m.ID, first)
	if !(math.Abs(to-from) >= data.MovedShown) { // NaN where one has none
		return nil
	}
	return []Fact{NewFact("seam", babies.label(last), children.label(first), Length(babies.Value("height", last)), amountOf(m.Unit, from), amountOf(m.Unit, to))}
}

// beside is the run of the same chart and sex by years, of one by months, and the
// other way round; nil where there is none.
func (r *Run) beside() *Run {
	var other Scale
	switch r.Scale {
	case Months:
		other = Years
	case Years:
		other = Months
	default:
		return nil
	}
	run, _ := r.Chart.Run(other, r.Sex)
	return run
}
