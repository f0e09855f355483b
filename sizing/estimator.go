package sizing

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// ErrNothingKnown says that a child has no measurement to estimate from.
var ErrNothingKnown = errors.New("nothing to estimate from; give the height, or at least one girth or length")

// An estimator works out the figures of one child after another. own is set
// first, after forget; then estimate fills in figures. Measurements are numbered
// as in their table.
type estimator struct {
	ref    *Reference
	known  []int // measurements that may have been taken
	wanted []int // measurements to work out
	height int   // the measurement height, or -1
	groups map[Sex]*sexGroup

	valuesAlone bool // figures have no ranges

	// Of the child:
	own       []float64 // NaN where not taken
	group     *sexGroup
	evidence  []int        // measurements that are evidence for the others
	given     *conditional // the evidence
	dropped   []int        // what was left out of it, doubted
	limited   []limit      // what counts for less than was measured, doubted
	logs      []float64    // of the evidence's figures
	guesses   []guess
	middle    heightPoint // at the middle of the guesses
	figures   []figure
	workedOut []int // figures that were worked out

	said   said // of the child, to be held against others
	beside together
	// Scratch space, kept from child to child:
	moved                 []bool // of the relations, by some of the evidence
	z, room, costs, parts []float64
	key                   []byte
}

// A limit is a measurement that the others contradict, and what it counts as.
type limit struct {
	m     int
	value float64 // cm or kg
}

// A sexGroup is what an estimator keeps for children of one sex.
type sexGroup struct {
	*basis
	height       int                     // the measurement height, or -1
	evidence     []int                   // those of the basis that may have been taken
	survey       *chartRun               // by height
	trade        []*chartRun             // those of the default chart, in the order in which heights are looked for
	need         []int                   // measurements of the relations that what is wanted rests on
	points       []heightPoint           // heights that are searched for a child's
	conditionals map[string]*conditional // by the evidence
}

// maxConditionals bounds what is kept of combinations of evidence.
const maxConditionals = 64

// stepCm is between heights that are searched for a child's.
const stepCm = 1.0

// newEstimator makes an estimator of some measurements from others.
func newEstimator(ref *Reference, known, want []int) *estimator {
	n := len(ref.tables.Measurements)
	e := &estimator{ref: ref, known: known, height: -1, groups: make(map[Sex]*sexGroup),
		own: slices.Repeat([]float64{math.NaN()}, n), figures: make([]figure, n)}
	if h, ok := ref.order["height"]; ok {
		e.height = h
	}
	taken, wanted := make([]bool, n), make([]bool, n)
	for _, m := range known {
		taken[m] = true
	}
	for _, m := range want {
		wanted[m] = true
	}
	ref.sums.needs(wanted, taken)
	if ref.needsCrotch(wanted, taken) {
		ref.sums.needs(wanted, taken)
	}
	for m := range wanted {
		if wanted[m] {
			e.wanted = append(e.wanted, m)
		}
	}
	return e
}

// groupOf returns what is kept for a sex.
func (e *estimator) groupOf(sex Sex) (*sexGroup, error) {
	if e.group != nil && e.group.sex == sex {
		return e.group, nil
	}
	if s := e.groups[sex]; s != nil {
		return s, nil
	}
	b, err := e.ref.bases[sex]()
	if err != nil {
		return nil, err
	}
	n := len(b.rel.names)
	need := make([]bool, n)
	for _, m := range e.wanted {
		d := &b.methods[m]
		if d.v >= 0 {
			need[d.v] = true
		}
		for _, t := range d.terms {
			if t.v >= 0 {
				need[t.v] = true
			}
		}
	}
	s := &sexGroup{basis: b, height: e.height, conditionals: make(map[string]*conditional)}
	for v := range need {
		if need[v] {
			s.need = append(s.need, v)
		}
	}
	for _, m := range b.evidence {
		if slices.Contains(e.known, m) {
			s.evidence = append(s.evidence, m)
		}
	}
	s.survey = newChartRun(b.rel.run, e.ref.tables.Measurements)
	for _, scale := range heightScales {
		if run, ok := b.chart.Run(scale, sex); ok {
			s.trade = append(s.trade, newChartRun(run, e.ref.tables.Measurements))
		}
	}
	e.moved = make([]bool, max(n, len(e.moved)))
	e.groups[sex] = s
	return s, nil
}

// forget makes the estimator ready for another child.
func (e *estimator) forget() {
	for _, m := range e.known {
		e.own[m] = math.NaN()
	}
}

// child is the child whose measurements own has.
func (e *estimator) child(sex Sex, ageYears float64) Child {
	c := Child{Sex: sex, AgeYears: ageYears, Own: make(map[string]float64)}
	for m, v := range e.own {
		if !math.IsNaN(v) {
			c.Own[e.ref.tables.Measurements[m].ID] = v
		}
	}
	return c
}

func (e *estimator) took(m int) bool { return m >= 0 && !math.IsNaN(e.own[m]) }

// doubted reports that hardly any child of the height has what was measured.
func (e *estimator) doubted(m int) bool {
	_, outside := rare(e.group.methods[m].ratios, e.own[m], e.ownHeight())
	return outside
}

// ownHeight is the child's measured height, 0 where it was not taken.
func (e *estimator) ownHeight() float64 {
	if e.took(e.height) {
		return e.own[e.height]
	}
	return 0
}

// doubtful reports whether what was said of the child could be doubted: if not,
// [Reference.Doubts] is silent.
func (e *estimator) doubtful(ageYears float64) bool {
	if len(e.dropped)+len(e.limited) > 0 || e.contradicted() {
		return true
	}
	l, err := e.ref.likenesses[e.group.sex]()
	if err != nil {
		return true
	}
	s := &e.said
	s.age, s.height = math.Log(ageYears), math.Log(e.middle.height)
	if ageYears == 0 {
		s.age = math.NaN()
	}
	s.fields, s.logs = s.fields[:0], s.logs[:0]
	for _, m := range e.known {
		if e.took(m) && m != e.height {
			s.fields, s.logs = append(s.fields, m), append(s.logs, math.Log(e.own[m]))
		}
	}
	return l.suspicious(s, &e.beside, s.height)
}

// contradicted reports whether the child's own measurements do not add up.
func (e *estimator) contradicted() bool {
	for i := range e.ref.sums.identities {
		s := &e.ref.sums.identities[i]
		taken, total := e.took(s.whole), 0.0
		for k, p := range s.parts {
			if same := s.taken[k]; !e.took(p) && same != s.whole {
				p = same
			}
			taken, total = taken && e.took(p), total+e.own[p]
		}
		if taken && contradicts(e.own[s.whole], total) {
			return true
		}
	}
	return false
}

// estimate works out the figures of the child that own describes. It fails as
// [Reference.Estimate] does.
func (e *estimator) estimate(sex Sex, ageYears float64) error {
	group, err := e.groupOf(sex.orBoth())
	if err != nil {
		return err
	}
	e.group = group
	e.gather()
	c := e.condition()
	if !c.sound {
		return fmt.Errorf("the measurements %s are the same thing twice", listed(e.names(e.evidence)))
	}
	if e.took(e.height) {
		h := e.own[e.height]
		if h < e.group.low || h > e.group.high {
			return &FactError{NewFact("height-outside-survey", Length(h), Range{Length(e.group.low), Length(e.group.high)}),
				fmt.Errorf("%w; name sizes instead", &RangeError{"height", h, e.group.low, e.group.high, "the survey of measured babies and children"})}
		}
		e.middle.moveTo(e.group.basis, h)
		c.moveTo(&c.own, &e.middle)
		c.weigh(&c.own)
		e.limit(c)
		e.guesses = e.guesses[:0]
		e.guess(c, &c.own, 1)
	} else if err := e.searchHeights(c, ageYears); err != nil {
		return err
	}
	for _, m := range e.workedOut {
		e.figures[m] = figure{}
	}
	e.workedOut = e.workedOut[:0]
	for _, m := range e.wanted {
		e.figure(m)
	}
	e.standOnCrotch()
	e.ref.sums.agree(e.figures)
	return nil
}

// gather turns the child's own measurements into evidence: one for each
// surveyed measurement that was taken or that has a measurement taken in its
// place. What is known only of children of a very different height is left out.
func (e *estimator) gather() {
	e.evidence, e.dropped, e.limited, e.logs = e.evidence[:0], e.dropped[:0], e.limited[:0], e.logs[:0]
	clear(e.moved)
	for _, m := range e.group.evidence {
		d := &e.group.methods[m]
		if !e.took(m) || e.moved[d.v] || e.took(e.height) && !d.covers(e.own[e.height]) {
			continue
		}
		log, ok := e.evidenceOf(m)
		if !ok {
			continue
		}
		e.moved[d.v] = true
		e.evidence, e.logs = append(e.evidence, m), append(e.logs, log)
	}
}

// condition finds the conditional distribution given the evidence.
func (e *estimator) condition() *conditional {
	s := e.group
	if c := e.given; c == nil || c.basis != s.basis || !slices.Equal(c.evidence, e.evidence) {
		e.given = e.conditionalOf(s)
	}
	k := len(e.given.others)
	e.z, e.room = slices.Grow(e.z[:0], k)[:k], slices.Grow(e.room[:0], k)[:k]
	return e.given
}

// conditionalOf finds the conditional of the evidence among those kept, or makes
// it.
func (e *estimator) conditionalOf(s *sexGroup) *conditional {
	e.key = e.key[:0]
	for _, m := range e.evidence {
		e.key = append(e.key, byte(m), byte(m>>8))
	}
	if c := s.conditionals[string(e.key)]; c != nil {
		return c
	}
	if len(s.conditionals) >= maxConditionals {
		clear(s.conditionals)
	}
	c := newConditional(s.basis, slices.Clone(e.evidence), s.need)
	s.conditionals[string(e.key)] = c
	return c
}

// limit lets what the others contradict count only as far as it may be right.
// The worst comes first: without it the others may agree. A weight is not held
// against the height alone, since no child is too heavy or too thin.
func (e *estimator) limit(c *conditional) {
	if len(c.others) == 0 {
		return
	}
	for range e.evidence {
		worst, change := c.odd(&c.own, anyBuild, e.logs, e.z, e.room)
		if worst < 0 {
			return
		}
		e.logs[worst] += change
		l := limit{e.evidence[worst], math.Exp(e.logs[worst])}
		if i := slices.IndexFunc(e.limited, func(before limit) bool { return before.m == l.m }); i >= 0 {
			e.limited[i] = l
		} else {
			e.limited = append(e.limited, l)
		}
	}
}

// guess adds a height that the child may have.
func (e *estimator) guess(c *conditional, l *level, weight float64) {
	n, i := len(c.basis.rel.names), len(e.guesses)
	if i < cap(e.guesses) {
		e.guesses = e.guesses[:i+1]
	} else {
		e.guesses = append(e.guesses, guess{})
	}
	g := &e.guesses[i]
	g.level, g.weight = l, weight
	if len(g.mean) < n {
		g.mean = make([]float64, n)
	}
	g.build = c.expect(l, e.logs, e.z, g.mean)
}

// names are the names of measurements.
func (e *estimator) names(numbers []int) []string { return namesOf(e.ref.numbered(numbers)) }
