package sizing

import (
	"fmt"
	"math"
	"slices"

	"growtuck/data"
)

// evidence is one of the child's measurements as the relations see it.
type evidence struct {
	id     string  // of what was measured
	v      int     // index into the relations' measurements
	r      float64 // correlation of what was measured with v: 1 for v itself
	curve  *Curve  // the survey's median by height of what was measured
	logged float64 // logarithm of the child's figure
}

// departure is the log departure of the child from the median of a height.
func (o evidence) departure(height float64) float64 {
	return o.logged - math.Log(o.curve.At(height))
}

// gather turns the child's own measurements into evidence: one for each
// surveyed measurement that was taken, or that something was taken of that
// stands in for it.
func (e *estimator) gather(rel *relations) []evidence {
	var obs []evidence
	used := make(map[int]bool)
	for _, exact := range []bool{true, false} {
		for _, id := range e.ref.ownIDs(e.child) {
			m := e.ref.measurements[id]
			v, ok := rel.index[m.Relation]
			if !ok || used[v] || exact != (m.Relation == id) {
				continue
			}
			curve := e.byHeight(id, rel)
			if curve == nil {
				continue
			}
			used[v] = true
			obs = append(obs, evidence{id, v, closeness(*m), curve, math.Log(e.child.Own[id])})
			e.evidence = append(e.evidence, m.Name)
		}
	}
	return obs
}

// closeness is the correlation of a measurement with the surveyed one that it
// is moved by.
func closeness(m data.Measurement) float64 {
	if m.ID == m.Relation {
		return 1
	}
	return standIn
}

// carryCm is how far below its lowest class a surveyed measurement is read for
// a child who is measured smaller: some were taken on a third of the children
// and begin a class later. It is the greatest reach_cm of the derivations.
const carryCm = 7

// byHeight returns the median of a measurement by height: the survey's, or
// else the default chart's at the heights of its sizes. Where it was not
// surveyed over all the survey's heights it is carried on with height, so that
// a height can be searched for. It is nil where the child's own height lies
// further outside of what is known than carryCm.
func (e *estimator) byHeight(id string, rel *relations) *Curve {
	var known *Curve
	if c := rel.run.columns[id]; c != nil {
		known = c.values
	} else if run, ok := e.chart.Run(Years, e.sex); ok && run.columns[id] != nil {
		var x, y []float64
		for _, m := range run.Sizes {
			if h, v := run.Value("height", m.Position), run.Value(id, m.Position); !math.IsNaN(h) && !math.IsNaN(v) {
				x, y = append(x, h), append(y, v)
			}
		}
		known, _ = NewCurve(x, y) // nil where heights do not grow with size
	}
	if known == nil {
		return nil
	}
	low, high := known.Range()
	if h, own := e.child.Own["height"]; own && (h < low-carryCm || h > high) {
		return nil
	}
	power := heightPower[e.ref.measurements[id].Kind]
	first, last, _ := rel.run.Has("height")
	x, y := slices.Clone(known.x), slices.Clone(known.y)
	if low > first {
		x, y = slices.Insert(x, 0, first), slices.Insert(y, 0, y[0]*math.Pow(first/low, power))
	}
	if high < last {
		x, y = append(x, last), append(y, y[len(y)-1]*math.Pow(last/high, power))
	}
	if len(x) == len(known.x) {
		return known
	}
	carried, err := NewCurve(x, y)
	if err != nil {
		return known
	}
	return carried
}

// agePrior weighs a height by the child's age, if known: minus the log of its
// likelihood.
func (e *estimator) agePrior() (func(float64) float64, error) {
	if e.child.AgeYears == 0 {
		return func(float64) float64 { return 0 }, nil
	}
	p, err := e.chart.atAge(e.child.AgeYears, e.sex)
	if err != nil {
		return nil, err
	}
	median, ok := p.Height()
	if !ok {
		return nil, fmt.Errorf("no median height at age %g", e.child.AgeYears)
	}
	return func(h float64) float64 {
		z := math.Log(h/median) / heightSpreadAtAge
		return z * z / 2
	}, nil
}
