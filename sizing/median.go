package sizing

import (
	"math"
	"slices"

	"growtuck/data"
)

// A bodyCurve is the median of a measurement by height, and where it is known.
type bodyCurve struct {
	*Curve    // over all heights that estimates are made for; nil for none
	low, high float64
	surveyed  bool    // it is the survey's, of children
	young     float64 // height under which it is that of babies; 0 for none
	carried   float64 // height over which it is carried on with a surveyed measurement; 0 for none
	levelled  []levelled
}

// closely is into how many steps a stretch between two classes of the survey is
// divided where two medians must add up between them.
const closely = 8

// infantsChart is the survey of infants.
const infantsChart = "measured-infants"

// medianByHeight returns the median of a measurement by height: for babies the
// default chart's at their sizes, for children the survey's, or else the default
// chart's, carried on over its last size as the measurement that moves it grows.
// Where it is not known over all heights it is continued with height, so that a
// height can be searched for.
func (ref *Reference) medianByHeight(b *basis, m *data.Measurement) bodyCurve {
	var c bodyCurve
	var x, y []float64
	if known := ref.surveyMedian(b.rel.run, m.ID); known != nil {
		x, y, c.surveyed = slices.Clone(known.x), slices.Clone(known.y), true
	} else if run, ok := b.chart.Run(Years, b.sex); ok && run.column(m.ID) != nil {
		for _, size := range run.Sizes {
			if h, v := run.Value("height", size.Position), run.Value(m.ID, size.Position); !math.IsNaN(h) && !math.IsNaN(v) {
				x, y = append(x, h), append(y, v)
			}
		}
		if len(x) > 0 {
			last := x[len(x)-1]
			if more, values := carryOn(ref.surveyMedian(b.rel.run, m.Relation), last, y[len(y)-1]); len(more) > 0 {
				x, y, c.carried = append(x, more...), append(y, values...), last
			}
		}
	}
	if len(x) == 0 {
		return bodyCurve{}
	}
	if young, values := ref.babies(b, m.ID, x[0]); len(young) > 0 {
		c.young = x[0]
		x, y = append(young, x...), append(values, y...)
	}
	c.low, c.high = x[0], x[len(x)-1]
	power := b.power[m.Kind]
	if c.low > b.low {
		x, y = slices.Insert(x, 0, b.low), slices.Insert(y, 0, y[0]*math.Pow(b.low/c.low, power))
	}
	if c.high < b.high {
		x, y = append(slices.Clip(x), b.high), append(slices.Clip(y), y[len(y)-1]*math.Pow(b.high/c.high, power))
	}
	made, err := NewCurve(x, y)
	if err != nil {
		return bodyCurve{} // heights do not grow with size
	}
	c.Curve, c.levelled = made.level()
	return c
}

// surveyMedian is the survey's median by height of what grows: level where the
// survey's own falls. What is left of a formula's whole by its other terms is
// made so that they add up to it at every height, and the whole grows too. It is
// nil where there is none.
func (ref *Reference) surveyMedian(survey *Run, id string) *Curve {
	c := survey.column(id)
	if c == nil || c.values == nil {
		return nil
	}
	curve, _ := c.values.level()
	for i, d := range ref.tables.Derivations {
		terms := ref.formulas[i]
		if last := len(terms) - 1; d.Chart == surveyChart && last > 0 && terms[last].measurement == id {
			if made := ref.leftOf(survey, d.Measurement, terms, curve); made != nil {
				return made
			}
		}
	}
	return curve
}

// leftOf is the curve of the last of some terms, of which the others and the
// whole are known, close together, so that between them too they add up. Where
// one of those is not known it is the curve itself.
func (ref *Reference) leftOf(survey *Run, whole string, terms []term, curve *Curve) *Curve {
	sum, last := ref.surveyMedian(survey, whole), len(terms)-1
	if sum == nil {
		return nil
	}
	others := make([]*Curve, last)
	for k, t := range terms[:last] {
		if t.measurement != "height" {
			if others[k] = ref.surveyMedian(survey, t.measurement); others[k] == nil {
				return nil
			}
		}
	}
	at := func(h float64) float64 {
		v := sum.At(h)
		for k, t := range terms[:last] {
			if others[k] == nil {
				v -= t.factor * h
			} else {
				v -= t.factor * others[k].At(h)
			}
		}
		if v /= terms[last].factor; !math.IsNaN(v) {
			return v
		}
		return curve.At(h)
	}
	var x, y []float64
	for i, from := range curve.x {
		x, y = append(x, from), append(y, at(from))
		for k := 1; k < closely && i+1 < len(curve.x); k++ {
			h := from + float64(k)/closely*(curve.x[i+1]-from)
			x, y = append(x, h), append(y, at(h))
		}
	}
	made, err := NewCurve(x, y)
	if err != nil {
		return nil
	}
	made, _ = made.level()
	return made
}

// Estimable reports whether a measurement can be estimated of some child: some
// were taken of babies alone.
func (ref *Reference) Estimable(measurement string) bool {
	for _, id := range []string{defaultChart, surveyChart} {
		if chart := ref.charts[id]; chart != nil && slices.ContainsFunc(chart.runs, func(r *Run) bool { return r.column(measurement) != nil }) {
			return true
		}
	}
	return false
}

// carryOn returns points above a height at which a measurement has a value: it
// goes on growing in proportion to another.
func carryOn(other *Curve, height, value float64) (x, y []float64) {
	if other == nil {
		return nil, nil
	}
	from := other.At(height)
	for i, h := range other.x {
		if h > height && !math.IsNaN(from) {
			x, y = append(x, h), append(y, value*other.y[i]/from)
		}
	}
	return x, y
}

// babies returns the heights of the default chart's sizes of babies below a
// height, and what it has there. Girths that are the trade's have room for a
// nappy and layers, and the survey of infants takes their place.
func (ref *Reference) babies(b *basis, id string, below float64) (x, y []float64) {
	run, ok := b.chart.Run(Months, b.sex)
	if !ok {
		return nil, nil
	}
	infants := ref.infants()
	if infants == nil {
		return nil, nil
	}
	oldest := infants.Sizes[len(infants.Sizes)-1].Position
	for _, size := range run.Sizes {
		if size.Position > oldest { // the default chart has the survey of children there
			break
		}
		h := run.Value("height", size.Position)
		v := run.Value(id, size.Position)
		if math.IsNaN(v) || ref.roomy(run, id) {
			v = infants.Value(id, size.Position)
		}
		if !math.IsNaN(h) && !math.IsNaN(v) && h < below {
			x, y = append(x, h), append(y, v)
		}
	}
	return x, y
}

// infants is the run of the survey of infants; nil for none.
func (ref *Reference) infants() *Run {
	if chart := ref.charts[infantsChart]; chart != nil {
		if run, ok := chart.Run(Months, Both); ok {
			return run
		}
	}
	return nil
}

// roomy reports whether a girth of the run is the trade standard's own.
func (ref *Reference) roomy(run *Run, id string) bool {
	return ref.measurements[id].Kind == "girth" && run.prints(id)
}
