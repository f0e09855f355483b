package sizing

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"growtuck/data"
)

// zP90 is the 90th percentile of the standard normal distribution.
const zP90 = 1.2815515655446004

// heightSpreadAtAge is the spread of the logarithm of height among children
// of one age: 0.036 to 0.05 from 2 to 16 years in the CDC 2000 charts.
const heightSpreadAtAge = 0.043

// A measurement that the survey did not take is moved by one that it took. How
// closely the two go together is not known; standIn is the correlation assumed,
// that of girths of one limb and of lengths of one limb with each other in the
// survey (0.6 to 0.8).
const standIn = 0.7

// divisionSpread is the assumed spread, in logarithm, of how the waist divides
// the trunk. No source gives it.
const divisionSpread = 0.04

// ErrNothingKnown says that a child has no measurement to estimate from.
var ErrNothingKnown = errors.New("nothing to estimate from; give the height, or at least one girth or length")

// Estimate returns the child's measurements and, for each that was not taken,
// the survey's median at the child's height, moved by what the measured ones
// say of children built like that, with its likely range (p10–p90). Without a
// height, the heights that the measurements (and the age) leave likely are
// weighed together. Measurements that only the trade chart has are read there
// at the child's height and moved by the nearest surveyed one, as the table of
// measurements says.
func (ref *Reference) Estimate(c Child) (*Body, error) {
	if err := ref.checkChild(c); err != nil {
		return nil, err
	}
	e, err := ref.newEstimator(c)
	if err != nil {
		return nil, err
	}
	b := &Body{Evidence: e.evidence, Questions: append(ref.Questions(c), e.doubts...)}
	for _, m := range ref.tables.Measurements {
		if v, ok := c.Own[m.ID]; ok {
			b.Readings = append(b.Readings, ref.own(m.ID, v))
		} else if r, ok := e.read(m); ok {
			b.Readings = append(b.Readings, r)
		}
	}
	e.share(b)
	ref.settle(b, c)
	ref.resum(b, c)
	b.Summary = fmt.Sprintf("estimated at a height of %.1f cm", e.height)
	if !e.heightOwn {
		b.Summary = fmt.Sprintf("estimated; what is known goes with a height of about %.0f cm", e.height)
	}
	return b, nil
}

// An estimator holds one child's evidence and the heights it allows.
type estimator struct {
	ref       *Reference
	child     Child
	sex       Sex
	cond      *conditional
	heights   []guess
	height    float64 // the middle of heights
	heightOwn bool
	evidence  []string // names of the measurements used
	doubts    []string // measurements left out, in words
	chart     *Chart   // for what the survey lacks
	places    []Place  // on chart, of each of heights; without a run where it has none
}

func (ref *Reference) newEstimator(c Child) (*estimator, error) {
	e := &estimator{ref: ref, child: c, sex: c.Sex, chart: ref.charts[defaultChart]}
	if e.sex == "" {
		e.sex = Both
	}
	rel := ref.relations[e.sex]
	if rel == nil {
		return nil, fmt.Errorf("there are no relations for sex %s", e.sex)
	}
	obs := e.gather(rel)
	var ok bool
	if e.cond, ok = newConditional(rel, obs); !ok {
		return nil, fmt.Errorf("the measurements %s say the same thing twice", List(e.evidence))
	}
	low, high, _ := rel.run.Has("height")
	if h, own := c.Own["height"]; own {
		if h < low || h > high {
			return nil, fmt.Errorf("%w; name sizes instead", &RangeError{"height", h, low, high, "the survey of measured children"})
		}
		e.heights, e.height, e.heightOwn = []guess{e.cond.at(h, 1)}, h, true
		e.evidence = slices.Insert(e.evidence, 0, "height")
		e.placeHeights()
		return e, nil
	}
	if len(obs) == 0 {
		return nil, ErrNothingKnown
	}
	prior, err := e.agePrior()
	if err != nil {
		return nil, err
	}
	if err := e.searchHeights(obs, low, high, prior); err != nil {
		return nil, err
	}
	if e.child.AgeYears != 0 {
		e.evidence = append(e.evidence, "age")
	}
	for _, g := range e.heights {
		e.height += g.height * g.weight
	}
	e.placeHeights()
	return e, nil
}

// searchHeights finds the heights that the evidence leaves likely. A measurement
// that no height suits, beside the others, is left out and doubted; where it is
// the only one, there is nothing to go by.
func (e *estimator) searchHeights(obs []evidence, low, high float64, prior func(float64) float64) error {
	outside := func() error {
		return fmt.Errorf("the child's %s would go with a height outside %.4g to %.4g cm, which the survey of measured children covers; check the tape and the unit, give the height or name sizes",
			List(e.evidence), low, high)
	}
	for {
		guesses, likeliest, edge := e.cond.guesses(low, high, prior)
		worst, far := -1, float64(farOut)
		for i, o := range obs {
			if z := math.Abs(o.departure(likeliest)) / e.cond.rel.sd(o.v, likeliest); z > far {
				worst, far = i, z
			}
		}
		switch {
		case worst < 0 && edge, worst >= 0 && len(obs) == 1:
			return outside()
		case worst < 0:
			e.heights = guesses
			return nil
		}
		id := obs[worst].id
		m := e.ref.measurements[id]
		obs = slices.Delete(slices.Clone(obs), worst, worst+1)
		e.evidence = slices.Delete(e.evidence, worst, worst+1)
		e.doubts = append(e.doubts, fmt.Sprintf("%s %.4g %s does not go with the child's %s at any height; it says nothing of the others; check the tape",
			m.Name, e.child.Own[id], m.Unit, List(e.evidence)))
		var ok bool
		if e.cond, ok = newConditional(e.cond.rel, obs); !ok {
			return outside()
		}
	}
}

// placeHeights finds the likely heights on the default chart.
func (e *estimator) placeHeights() {
	e.places = make([]Place, len(e.heights))
	for i, g := range e.heights {
		if p, err := e.chart.AtHeight(g.height, e.sex); err == nil {
			e.places[i] = p
		}
	}
}

// read estimates a measurement that was not taken.
func (e *estimator) read(m data.Measurement) (Reading, bool) {
	if m.ID == "height" {
		return e.readHeight(m)
	}
	if v, ok := e.cond.rel.index[m.Relation]; ok {
		if run, centre := e.centre(m.ID); centre != nil {
			r := closeness(m)
			mean, spread, ok := e.mix(func(i int, g guess) (float64, float64) {
				return math.Log(centre(i)) + r*g.mean[v], r*r*e.cond.covariance(g, v, v) + (1-r*r)*g.sd[v]*g.sd[v]
			})
			return e.reading(m, mean, spread, run), ok
		}
		return Reading{}, false
	}
	if terms := e.terms(m.ID); terms != nil {
		return e.readSum(m, terms)
	}
	if m.Relation != "" { // moved with something that is itself a sum
		return e.readAlong(m)
	}
	// Nothing is known of how it goes with the others: the chart at that height.
	p, err := e.cond.rel.run.place(e.height)
	if err != nil {
		return Reading{}, false
	}
	r, err := e.ref.Read(p, m.ID, Monotone)
	if err != nil {
		if p, err = e.chart.AtHeight(e.height, e.sex); err == nil {
			r, err = e.ref.Read(p, m.ID, Monotone)
		}
	}
	return r, err == nil
}

func (e *estimator) readHeight(m data.Measurement) (Reading, bool) {
	mean, spread, ok := e.mix(func(_ int, g guess) (float64, float64) { return math.Log(g.height), 0 })
	return e.reading(m, mean, spread, nil), ok
}

// centre returns the run, and the median at each of the likely heights, of
// what the survey has, or else the default chart.
func (e *estimator) centre(id string) (*Run, func(guess int) float64) {
	rel := e.cond.rel
	if c := rel.run.columns[id]; c != nil {
		if low, high := c.values.Range(); e.height >= low-carryCm && e.height <= high {
			curve := e.byHeight(id, rel)
			return rel.run, func(i int) float64 { return curve.At(e.heights[i].height) }
		}
	}
	place, err := e.chart.AtHeight(e.height, e.sex)
	if err != nil || math.IsNaN(place.Run.Value(id, place.Position)) {
		return nil, nil
	}
	return place.Run, func(i int) float64 {
		if e.places[i].Run == nil {
			return math.NaN()
		}
		return e.places[i].Run.Value(id, e.places[i].Position)
	}
}

// mix weighs a log value and its variance over the likely heights. Heights at
// which it is not known are left out.
func (e *estimator) mix(at func(i int, g guess) (mean, variance float64)) (mean, spread float64, ok bool) {
	var sum, first, second, within float64
	for i, g := range e.heights {
		m, v := at(i, g)
		if math.IsNaN(m) {
			continue
		}
		sum += g.weight
		first += g.weight * m
		second += g.weight * m * m
		within += g.weight * v
	}
	if sum < 0.5 {
		return 0, 0, false
	}
	mean = first / sum
	return mean, math.Sqrt(max(0, within/sum+second/sum-mean*mean)), true
}

func (e *estimator) reading(m data.Measurement, mean, spread float64, run *Run) Reading {
	r := Reading{Measurement: m, Value: math.Exp(mean), Got: Estimated, Spread: "p10–p90",
		Low: math.Exp(mean - zP90*spread), High: math.Exp(mean + zP90*spread),
		From: List(e.evidence), Sources: []string{e.cond.rel.run.Chart.Source}}
	r.Imperial = r.inImperial(r.Value)
	if run == nil {
		return r
	}
	for _, id := range run.columns[m.ID].sources {
		if !slices.Contains(r.Sources, id) {
			r.Sources = append(r.Sources, id)
		}
	}
	if run == e.cond.rel.run {
		if low, _, _ := run.Has(m.ID); e.height < low {
			r.Notes = []string{fmt.Sprintf("measured from %.4g cm of height up; carried down with height to %.4g cm", low, e.height)}
		}
	}
	if run.Chart == e.chart {
		r.From += ", from the trade chart's figure at that height"
	}
	return r
}

// terms returns the formula by which the survey's chart derives a measurement.
func (e *estimator) terms(id string) []term {
	for i, d := range e.ref.tables.Derivations {
		if d.Chart == surveyChart && d.Measurement == id {
			return e.ref.formulas[i]
		}
	}
	return nil
}

// readSum estimates a measurement that is a sum of others, from the child's
// own figures where there are any.
func (e *estimator) readSum(m data.Measurement, terms []term) (Reading, bool) {
	rel := e.cond.rel
	curves := make([]*Curve, len(terms))
	var notes []string
	for i, t := range terms {
		c := rel.run.columns[t.measurement]
		if c == nil {
			return Reading{}, false
		}
		low, high := c.values.Range()
		if e.height < low-carryCm || e.height > high {
			return Reading{}, false
		}
		if curves[i] = e.byHeight(t.measurement, rel); curves[i] == nil {
			return Reading{}, false
		}
		if _, own := e.child.Own[t.measurement]; e.height < low && !own {
			notes = append(notes, fmt.Sprintf("%s measured from %.4g cm of height up; carried down with height to %.4g cm",
				e.ref.measurements[t.measurement].Name, low, e.height))
		}
	}
	mean, spread, ok := e.mix(func(_ int, g guess) (float64, float64) {
		sum, variance := 0.0, 0.0
		parts := make([]float64, len(terms)) // of what is uncertain
		for i, t := range terms {
			if own, ok := e.child.Own[t.measurement]; ok {
				if _, doubted := e.ref.rare(e.child, t.measurement); !doubted {
					sum += t.factor * own
					continue
				}
			}
			v, known := rel.index[t.measurement]
			x := curves[i].At(g.height)
			if t.measurement == "height" {
				x = g.height
			} else if known {
				x *= math.Exp(g.mean[v])
				parts[i] = t.factor * x
			}
			sum += t.factor * x
		}
		for i, a := range terms {
			for j, b := range terms {
				if parts[i] != 0 && parts[j] != 0 {
					variance += parts[i] * parts[j] * e.cond.covariance(g, rel.index[a.measurement], rel.index[b.measurement])
				}
			}
		}
		if !(sum > 0) {
			return math.NaN(), 0
		}
		return math.Log(sum), max(0, variance) / (sum * sum)
	})
	if !ok {
		return Reading{}, false
	}
	r := e.reading(m, mean, spread, nil)
	r.Notes = notes
	if c := rel.run.columns[m.ID]; c != nil {
		r.From += ": " + c.how
		r.Sources = slices.Clone(c.sources)
	}
	return r, true
}

// readAlong estimates a measurement of the trade chart that keeps its
// proportion to a derived one.
func (e *estimator) readAlong(m data.Measurement) (Reading, bool) {
	other, ok := e.ref.measurements[m.Relation], true
	if other == nil || other.Relation != "" {
		return Reading{}, false // it would lead on, perhaps in a circle
	}
	var lead Reading
	if v, own := e.child.Own[other.ID]; own {
		lead = e.ref.own(other.ID, v)
	} else if lead, ok = e.read(*other); !ok {
		return Reading{}, false
	}
	place, err := e.chart.AtHeight(e.height, e.sex)
	if err != nil {
		return Reading{}, false
	}
	r, err := e.ref.Read(place, m.ID, Monotone)
	usual := place.Run.Value(other.ID, place.Position)
	if err != nil || math.IsNaN(usual) {
		return Reading{}, false
	}
	r.Value *= lead.Value / usual
	r.Imperial = r.inImperial(r.Value)
	r.Got = Estimated
	spread := divisionSpread
	if lead.Spread != "" {
		spread = math.Hypot(spread, math.Log(lead.High/lead.Low)/(2*zP90))
	}
	r.Spread, r.Low, r.High = "p10–p90", r.Value*math.Exp(-zP90*spread), r.Value*math.Exp(zP90*spread)
	r.From = List(e.evidence) + ", in proportion to the " + other.Name
	return r, true
}

// share makes the estimated parts of the trunk add up to it.
func (e *estimator) share(b *Body) {
	trunk, back, rise := b.find("trunk"), b.find("back_waist_length"), b.find("rise")
	if trunk == nil || back == nil || rise == nil || back.Got != Estimated || rise.Got != Estimated {
		return
	}
	f := trunk.Value / (back.Value + rise.Value)
	for _, r := range []*Reading{back, rise} {
		r.Value, r.Imperial, r.Low, r.High = r.Value*f, r.Imperial*f, r.Low*f, r.High*f
	}
}
