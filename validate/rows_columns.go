package validate

import (
	"math"
	"slices"

	"growtuck/sizing"
)

// The rules of sense look at a value beside its neighbours. What is wrong with a
// column as a whole, its unit, its measurement, its sex or its place among the sizes,
// they cannot see: that is held against what surveyed children of the same heights
// have.

// surveyOf is the chart whose medians columns are held against.
const surveyOf = "measured"

// A columnFit is a column beside what surveyed children have: the logarithms of its
// values, and of theirs at each of its sizes, NaN where none is known.
type columnFit struct {
	series bodySeries
	first  *bodyRecord
	value  []float64
	height []float64 // cm, of each size
	theirs []float64
	off    float64 // how far they are apart, either way
}

// Bounds of R30, in logarithms.
const (
	fewestSizes  = 4    // of a column that is looked at
	unitOff      = 0.45 // from which another unit is thought of
	unitNear     = 0.22 // how near to a unit's factor it then is
	columnOff    = 0.03 // from which a length is thought to stand at another size, or to be another measurement
	muchNearer   = 0.4  // of the distance, that the other reading leaves
	sexesApart   = 0.009
	sexesAgainst = -0.5
	besideOther  = 0.016 // from which a column is thought to be wrong beside the other sex's
)

// unitSlips are by what a value is off that is in another unit.
var unitSlips = []struct {
	unit string
	mass bool
	by   float64
}{
	{"in", false, 1 / 2.54}, {"mm", false, 10}, {"m", false, 0.01}, {"cm", false, 2.54}, {"lb", true, 1 / sizing.KgPerPound}, {"kg", true, sizing.KgPerPound}, {"g", true, 1000},
}

// checkColumns checks columns that are new as a whole.
func (s *bodySet) checkColumns(list []bodySeries, places []sizePlace, heights func(int, float64) float64) {
	survey, ok := s.charts[surveyOf]
	if !ok {
		return
	}
	curves := make(map[ratioOf]*sizing.Curve)
	theirs := func(sex, m int, cm float64) float64 {
		of := ratioOf{sex, m}
		c, made := curves[of]
		if !made {
			c = s.surveyCurve(survey, sex, m)
			curves[of] = c
		}
		if c == nil {
			return math.NaN()
		}
		return math.Log(c.At(cm))
	}
	fits := make(map[bodyKey]*columnFit)
	beside := make(map[bodyKey][]*columnFit) // columns that differ in the measurement alone
	var order []bodyKey
	for _, z := range list {
		if f := s.fitOf(z, survey, places, heights, theirs); f != nil {
			fits[z.key] = f
			order = append(order, z.key)
			of := z.key.withMeasurement(0)
			beside[of] = append(beside[of], f)
		}
	}
	for _, k := range order {
		f := fits[k]
		if s.unitOfColumn(f) {
			continue
		}
		if g := fits[k.withSex(1)]; k.sex() == 0 && g != nil && sexesSwapped(f, g) {
			s.suspectColumn(f, sizing.NewFact("rows.columns-sexes"))
		}
		if s.swappedMeasurement(f, beside[k.withMeasurement(0)], fits, theirs) {
			continue
		}
		if !s.shiftedColumn(f) {
			s.shiftedBesideOther(f, f.otherSex(fits))
		}
	}
}

// otherSex is the column of the other sex, nil where it has not the same sizes.
func (f *columnFit) otherSex(fits map[bodyKey]*columnFit) *columnFit {
	k := f.series.key
	if k.sex() == inBoth {
		return nil
	}
	if o := fits[k.withSex(1-k.sex())]; o != nil && len(o.value) == len(f.value) {
		return o
	}
	return nil
}

// beside is how far a column is from that of the other sex, beyond what surveyed
// children differ: in this the population that was measured does not matter. by is how
// many sizes further on the column is held to be; as is what surveyed children of its
// own sex have.
func (f *columnFit) beside(o *columnFit, as []float64, by int) float64 {
	var mine, theirs []float64
	for i := range f.value {
		j := i + by
		if j < 0 || j >= len(o.value) {
			continue
		}
		mine, theirs = append(mine, f.value[i]-o.value[j]), append(theirs, as[j]-o.theirs[j])
	}
	return math.Abs(off(mine, theirs))
}

// shiftedBesideOther reports a column whose values stand a size too low or too high
// beside those of the other sex.
func (s *bodySet) shiftedBesideOther(f, o *columnFit) {
	if o == nil {
		return
	}
	as := f.beside(o, f.theirs, 0)
	if !(as > besideOther) || math.Abs(off(o.value, o.theirs)) > math.Abs(off(f.value, f.theirs)) {
		return
	}
	for by, word := range map[int]string{-1: "below", 1: "above"} {
		if f.beside(o, f.theirs, by) < muchNearer*as {
			s.suspectColumn(f, sizing.NewFact("rows.column-shifted", word))
		}
	}
}

// surveyCurve is the survey's median of a measurement by height, nil where it has none.
func (s *bodySet) surveyCurve(survey, sex, m int) *sizing.Curve {
	height := s.measurements["height"]
	unit := inCm
	if s.t.Measurements[m].Kind == "mass" {
		unit = inKg
	}
	var x, y []float64
	for i, z := range s.t.Sizes {
		if s.charts[z.Chart] != survey {
			continue
		}
		h := s.find(newBodyKey(survey, i, sex, height, inP50, inCm))
		v := s.find(newBodyKey(survey, i, sex, m, inP50, unit))
		if h != nil && v != nil && !v.mine {
			x, y = append(x, h.value), append(y, v.value)
		}
	}
	c, err := sizing.NewCurve(x, y)
	if err != nil {
		return nil
	}
	return c
}

// fitOf is a new column of single figures or medians; nil where it is not, or the
// survey has nothing to hold it against.
func (s *bodySet) fitOf(z bodySeries, survey int, places []sizePlace, heights func(int, float64) float64, theirs func(int, int, float64) float64) *columnFit {
	if t := z.key.statistic(); z.key.chart() == survey || !isMiddle(t) || len(z.rows) < fewestSizes {
		return nil
	}
	f := &columnFit{series: z, first: &s.records[z.rows[0]]}
	known := 0
	for _, row := range z.rows {
		b := &s.records[row]
		if !b.fresh {
			return nil
		}
		cm := math.NaN()
		switch p := places[b.key.size()]; p.scale {
		case 1:
			cm = heights(b.key.sex(), p.position)
		case 2:
			cm = p.position
		}
		t := theirs(b.key.sex(), b.key.measurement(), cm)
		if !math.IsNaN(t) {
			known++
		}
		f.value, f.height, f.theirs = append(f.value, math.Log(b.cm())), append(f.height, cm), append(f.theirs, t)
	}
	if known < fewestSizes {
		return nil
	}
	f.off = math.Abs(off(f.value, f.theirs))
	return f
}

// off is how far values are from others, in the middle; NaN where fewer than
// fewestSizes can be compared.
func off(values, others []float64) float64 {
	var by []float64
	for i := range min(len(values), len(others)) {
		if d := values[i] - others[i]; !math.IsNaN(d) {
			by = append(by, d)
		}
	}
	if len(by) < fewestSizes {
		return math.NaN()
	}
	slices.Sort(by)
	return by[len(by)/2]
}

// unitOfColumn reports a column that is in another unit than it says.
func (s *bodySet) unitOfColumn(f *columnFit) bool {
	by := off(f.value, f.theirs)
	if !(math.Abs(by) > unitOff) {
		return false
	}
	mass := s.t.Measurements[f.series.key.measurement()].Kind == "mass"
	for _, slip := range unitSlips {
		if slip.mass == mass && math.Abs(by-math.Log(slip.by)) < unitNear {
			s.suspectColumn(f, sizing.NewFact("rows.column-unit", slip.unit))
			return true
		}
	}
	return false
}

// sexesSwapped reports that boys and girls differ the other way round than in the
// survey.
func sexesSwapped(boys, girls *columnFit) bool {
	n, along, theirs := 0.0, 0.0, 0.0
	for i := range min(len(boys.value), len(girls.value)) {
		d, e := boys.value[i]-girls.value[i], boys.theirs[i]-girls.theirs[i]
		if !math.IsNaN(d) && !math.IsNaN(e) {
			n, along, theirs = n+1, along+d*e, theirs+e*e
		}
	}
	return n >= fewestSizes && theirs/n > sexesApart*sexesApart && along < sexesAgainst*theirs
}

// swappedMeasurement reports two columns of a chart of which each is what the other
// should be.
func (s *bodySet) swappedMeasurement(f *columnFit, others []*columnFit, fits map[bodyKey]*columnFit, theirs func(int, int, float64) float64) bool {
	for _, g := range others {
		m := g.series.key.measurement()
		if m <= f.series.key.measurement() {
			continue
		}
		both := f.off + g.off
		swapped := both > 2*columnOff &&
			math.Abs(off(f.value, asOther(f, g, theirs)))+math.Abs(off(g.value, asOther(g, f, theirs))) < muchNearer*both
		if swapped || f.swappedBesideOther(g, fits, theirs) {
			s.suspectColumn(f, sizing.NewFact("rows.columns-swapped", s.t.Measurements[m].ID))
			return true
		}
	}
	return false
}

// swappedBesideOther reports two columns of which each goes with what the other is
// among children of the other sex.
func (f *columnFit) swappedBesideOther(g *columnFit, fits map[bodyKey]*columnFit, theirs func(int, int, float64) float64) bool {
	fo, goes := f.otherSex(fits), g.otherSex(fits)
	if fo == nil || goes == nil || len(f.value) != len(g.value) {
		return false
	}
	both := f.beside(fo, f.theirs, 0) + g.beside(goes, g.theirs, 0)
	return both > 2*besideOther &&
		f.beside(goes, asOther(f, g, theirs), 0)+g.beside(fo, asOther(g, f, theirs), 0) < muchNearer*both
}

// asOther is what surveyed children have of another column's measurement at the sizes
// of f.
func asOther(f, g *columnFit, theirs func(int, int, float64) float64) []float64 {
	var all []float64
	for _, cm := range f.height {
		all = append(all, theirs(g.series.key.sex(), g.series.key.measurement(), cm))
	}
	return all
}

// shiftedColumn reports a column of lengths whose values stand a size too low or too
// high.
func (s *bodySet) shiftedColumn(f *columnFit) (found bool) {
	if s.t.Measurements[f.series.key.measurement()].Kind != "length" {
		return false
	}
	as := math.Abs(off(f.value, f.theirs))
	if !(as > columnOff) {
		return false
	}
	for by, others := range map[string][]float64{"below": append([]float64{math.NaN()}, f.theirs...), "above": f.theirs[1:]} {
		if math.Abs(off(f.value, others)) < muchNearer*as {
			s.suspectColumn(f, sizing.NewFact("rows.column-shifted", by))
			found = true
		}
	}
	return found
}

func (s *bodySet) suspectColumn(f *columnFit, found sizing.Fact) {
	s.doubt(doubt{rule: "R30", severity: Warn, about: f.first}, func(x *Finding) {
		x.Found, x.Expected, x.Fix, x.Source = found, sizing.NewFact("rows.as-surveyed"), noteFix("R30"), "cpsc-1977"
	})
}
