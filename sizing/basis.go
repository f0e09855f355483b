package sizing

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"growtuck/data"
)

// An approach is how a measurement that was not taken is estimated.
type approach uint8

const (
	byChart      approach = iota // as the charts have it at the child's height
	byHeight                     // it is the height
	byMedian                     // the median at that height, moved by the evidence
	bySum                        // from others, by the survey's formula
	byProportion                 // the trade chart's figure, in proportion to a sum
)

// A basis is what the estimates of one sex rest on, for any child.
type basis struct {
	sex       Sex
	rel       *relations
	chart     *Chart   // for what the survey lacks
	low, high float64  // heights in cm that were surveyed
	methods   []method // of each measurement, in the order of their table
	// evidence are the measurements that can be evidence: those that were
	// surveyed, then those used in place of one.
	evidence  []int
	stretches []stretch // of heights, from the lowest up

	heightSpread   float64            // in logarithm, among children of one age
	divisionSpread float64            // assumed, in logarithm, of how the waist divides the trunk
	power          map[string]float64 // see heightPower
}

// A method is how one measurement is estimated, and how it is evidence.
type method struct {
	measurement *data.Measurement
	approach    approach
	v           int     // the surveyed measurement that moves it, in the relations; -1 for none
	closeness   float64 // its correlation with v: 1 for v itself
	// median is its median by height over all the survey's heights, of which
	// low to high are known; nil where it is not known by height.
	median    *Curve
	low, high float64
	reach     float64 // below low, for a child who is measured smaller
	surveyed  bool    // median is the survey's own
	terms     []sumTerm
	lead      int // what byProportion keeps its proportion to; -1 for none
	ratios    []data.Ratio
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
	return d.median != nil && height >= d.low-d.reach && height <= d.high
}

// newBasis finds how each measurement is estimated for a sex.
func (ref *Reference) newBasis(sex Sex) (*basis, error) {
	fitted, err := ref.fitted()
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
	b := &basis{sex: sex, rel: rel, chart: chart, heightSpread: ref.Practice("height_spread_at_age").Share(),
		divisionSpread: ref.Practice("waist_division_spread").Share(), power: ref.heightPower()}
	reach := ref.reachCm()
	b.low, b.high, _ = rel.run.Has("height")
	for i := range ref.tables.Measurements {
		m := &ref.tables.Measurements[i]
		d := method{measurement: m, v: -1, lead: -1, closeness: ref.closeness(m), reach: reach, ratios: fitted.ratios[ratioKey{sex, m.ID}]}
		d.median, d.low, d.high, d.surveyed = b.medianByHeight(m)
		v, moved := rel.index[m.Relation]
		terms := ref.surveyFormula(m.ID)
		switch {
		case m.ID == "height":
			d.approach = byHeight
		case moved:
			d.approach, d.v = byMedian, v
		case terms != nil:
			d.approach = bySum
			for _, t := range terms {
				d.terms = append(d.terms, sumTerm{t.factor, ref.order[t.measurement], rel.find(t.measurement)})
			}
		case m.Relation != "":
			d.approach = byProportion
			// One that follows another itself would lead further, perhaps in a circle.
			if other := ref.measurements[m.Relation]; other != nil && other.Relation == "" {
				d.lead = ref.order[m.Relation]
			}
		}
		b.methods = append(b.methods, d)
	}
	for _, exact := range []bool{true, false} {
		for i := range b.methods {
			d := &b.methods[i]
			if v := rel.find(d.measurement.Relation); v >= 0 && d.median != nil && exact == (d.closeness == 1) {
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

// surveyFormula returns the formula by which the survey's chart derives a
// measurement.
func (ref *Reference) surveyFormula(id string) []term {
	for i, d := range ref.tables.Derivations {
		if d.Chart == surveyChart && d.Measurement == id {
			return ref.formulas[i]
		}
	}
	return nil
}

// medianByHeight returns the median of a measurement by height, and where it
// is known: the survey's, or else the default chart's at the heights of its
// sizes. Where it was not surveyed over all the survey's heights it is carried
// on with height, so that a height can be searched for.
func (b *basis) medianByHeight(m *data.Measurement) (median *Curve, low, high float64, surveyed bool) {
	var known *Curve
	if c := b.rel.run.column(m.ID); c != nil {
		known, surveyed = c.values, true
	} else if run, ok := b.chart.Run(Years, b.sex); ok && run.column(m.ID) != nil {
		var x, y []float64
		for _, size := range run.Sizes {
			if h, v := run.Value("height", size.Position), run.Value(m.ID, size.Position); !math.IsNaN(h) && !math.IsNaN(v) {
				x, y = append(x, h), append(y, v)
			}
		}
		known, _ = NewCurve(x, y) // nil where heights do not grow with size
	}
	if known == nil {
		return nil, 0, 0, false
	}
	low, high = known.Range()
	power := b.power[m.Kind]
	x, y := slices.Clone(known.x), slices.Clone(known.y)
	if low > b.low {
		x, y = slices.Insert(x, 0, b.low), slices.Insert(y, 0, y[0]*math.Pow(b.low/low, power))
	}
	if high < b.high {
		x, y = append(x, b.high), append(y, y[len(y)-1]*math.Pow(b.high/high, power))
	}
	if len(x) > len(known.x) {
		if carried, err := NewCurve(x, y); err == nil {
			return carried, low, high, surveyed
		}
	}
	return known, low, high, surveyed
}
