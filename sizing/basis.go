package sizing

import (
	"cmp"
	"fmt"
	"slices"

	"growtuck/data"
)

// An approach is how a measurement that was not taken is estimated.
type approach uint8

const (
	byChart  approach = iota // as the charts have it at the child's height
	byHeight                 // it is the height
	byMedian                 // the median at that height, moved by the evidence
	bySum                    // from others, by the survey's formula
)

// A basis is what the estimates of one sex rest on, for any child.
type basis struct {
	sex       Sex
	rel       *relations
	chart     *Chart   // for what the survey lacks
	low, high float64  // heights in cm that estimates are made for
	methods   []method // of each measurement, in the order of their table
	// evidence are the measurements that can be evidence: those that were
	// surveyed, then those used in place of one.
	evidence  []int
	stretches []stretch // of heights, from the lowest up

	heightSpread float64            // in logarithm, among children of one age
	power        map[string]float64 // see heightPower
}

// A method is how one measurement is estimated, and how it is evidence.
type method struct {
	measurement *data.Measurement
	approach    approach
	v           int     // the surveyed measurement that moves it, in the relations; -1 for none
	closeness   float64 // its correlation with v: 1 for v itself
	bodyCurve           // its median by height
	reach       float64 // below low, for a child who is measured smaller
	tape        float64 // spread, in logarithm, of what a tape finds about what it is taken for; 0 for a sure one
	crotch      int     // of terms, that which it says as evidence; -1 for itself
	terms       []sumTerm
	assumed     float64 // spread, in logarithm, that bySum has beside that of the terms
	ratios      []data.Ratio
}

// A sumTerm is a term of a formula on the survey.
type sumTerm struct {
	factor float64
	m      int // the measurement
	v      int // the same in the relations; -1 where it is not in them
}

// closeness is the correlation of a measurement with the surveyed one that it
// is moved by. Of one that the survey did not take it is not known, and assumed.
func (ref *Reference) closeness(m *data.Measurement) float64 {
	if m.ID == m.Relation {
		return 1
	}
	return ref.Practice("stand_in_correlation").Share()
}

// reachCm is how far below its lowest class a surveyed measurement is read for
// a child who is measured smaller: some were taken on a third of the children
// and begin a class later. It is the greatest reach of the derivations.
func (ref *Reference) reachCm() float64 {
	reach := 0.0
	for _, d := range ref.tables.Derivations {
		if d.ReachCm != nil {
			reach = max(reach, *d.ReachCm)
		}
	}
	return reach
}

// covers reports whether a child of the height is near enough to those of whom
// the median is known.
func (d *method) covers(height float64) bool {
	return d.Curve != nil && height >= d.low-d.reach && height <= d.high
}

// newBasis finds how each measurement is estimated for a sex.
func (ref *Reference) newBasis(sex Sex) (*basis, error) {
	fitted, err := ref.fitted(sex)
	if err != nil {
		return nil, err
	}
	rel, chart := fitted.relations[sex], ref.charts[defaultChart]
	if rel == nil {
		return nil, fmt.Errorf("no relations for sex %s", sex)
	}
	if chart == nil {
		return nil, fmt.Errorf("no chart %s for what the survey lacks", defaultChart)
	}
	b := &basis{sex: sex, rel: rel, chart: chart, heightSpread: ref.Practice("height_spread_at_age").Share(), power: ref.heightPower()}
	reach := ref.reachCm()
	b.low, b.high, _ = rel.run.Has("height")
	if run, ok := chart.Run(Months, sex); ok {
		if from, _, ok := run.Has("height"); ok {
			b.low = min(b.low, run.Value("height", from))
		}
	}
	for i := range ref.tables.Measurements {
		m := &ref.tables.Measurements[i]
		d := method{measurement: m, v: -1, closeness: ref.closeness(m), crotch: -1, reach: reach, ratios: fitted.ratios[ratioKey{sex, m.ID}]}
		d.bodyCurve = ref.medianByHeight(b, m)
		v, moved := rel.index[m.Relation]
		terms := ref.surveyTerms(m.ID, rel)
		switch {
		case m.ID == "height":
			d.approach = byHeight
		case moved:
			d.approach, d.v = byMedian, v
		case terms != nil:
			d.approach, d.terms = bySum, terms
			if slices.Contains(waistDivides, m.ID) {
				d.assumed = ref.Practice("waist_division_spread").Share()
			}
		}
		b.methods = append(b.methods, d)
	}
	b.placeCrotch(ref)
	for _, id := range crotchBy {
		if i, ok := ref.order[id]; ok && b.methods[i].crotch >= 0 {
			b.evidence = append(b.evidence, i)
		}
	}
	for _, exact := range []bool{true, false} {
		for i := range b.methods {
			d := &b.methods[i]
			if v := rel.find(d.measurement.Relation); v >= 0 && d.Curve != nil && exact == (d.closeness == 1) {
				d.v = v
				b.evidence = append(b.evidence, i)
			}
		}
	}
	// Weight comes first: see conditional.
	slices.SortStableFunc(b.evidence, func(i, j int) int {
		return cmp.Compare(b.rank(i), b.rank(j))
	})
	b.stretches = b.newStretches()
	return b, nil
}

func (b *basis) rank(m int) int {
	if b.methods[m].v == b.rel.weight {
		return 0
	}
	return 1
}

// waistDivides are the measurements that end at the natural waist, which the
// survey did not find.
var waistDivides = []string{"back_waist_length", "nape_to_waist", "rise"}

// measured is the measurement that is v of the relations.
func (b *basis) measured(v int) *data.Measurement {
	for i := range b.methods {
		if b.methods[i].measurement.ID == b.rel.names[v] {
			return b.methods[i].measurement
		}
	}
	return &data.Measurement{ID: b.rel.names[v], Name: b.rel.names[v]}
}

// surveyTerms are the terms of which the survey's chart makes a measurement:
// those of its formula, and of the formulas of those in turn, down to what the
// relations have and the height. Of a measurement that has no formula but is a
// term of another's, the formula is turned round. They are nil where there is
// no formula.
func (ref *Reference) surveyTerms(id string, rel *relations) []sumTerm {
	for i, d := range ref.tables.Derivations {
		if d.Chart != surveyChart {
			continue
		}
		if d.Measurement == id {
			return ref.expand(ref.formulas[i], rel)
		}
		if rel.find(d.Measurement) < 0 {
			continue
		}
		for k, t := range ref.formulas[i] {
			if t.measurement == id {
				turned := []term{{factor: 1 / t.factor, chart: surveyChart, measurement: d.Measurement}}
				for j, other := range ref.formulas[i] {
					if j != k {
						other.factor /= -t.factor
						turned = append(turned, other)
					}
				}
				return ref.expand(turned, rel)
			}
		}
	}
	return nil
}

// expand replaces terms that the relations do not have by those of their
// formulas. A formula of the table names only what comes before it.
func (ref *Reference) expand(terms []term, rel *relations) []sumTerm {
	var all []sumTerm
	add := func(factor float64, t sumTerm) {
		k := slices.IndexFunc(all, func(o sumTerm) bool { return o.m == t.m })
		if k < 0 {
			k, all = len(all), append(all, sumTerm{m: t.m, v: t.v})
		}
		all[k].factor += factor * t.factor
	}
	for _, t := range terms {
		v, inner := rel.find(t.measurement), []sumTerm(nil)
		if v < 0 && t.measurement != "height" {
			for i, d := range ref.tables.Derivations {
				if d.Chart == surveyChart && d.Measurement == t.measurement {
					inner = ref.expand(ref.formulas[i], rel)
				}
			}
		}
		if inner == nil {
			inner = []sumTerm{{1, ref.order[t.measurement], v}}
		}
		for _, in := range inner {
			add(t.factor, in)
		}
	}
	return all
}
