package plan

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"growtuck/data"
	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// A Plan is a garment to work.
type Plan struct {
	Garment data.Garment
	Spec    sizing.Spec
	Body    *sizing.Body
	// Finished is what it was planned from.
	Finished *sizing.Finished
	How      How // with defaults filled in

	Sections []*Section
	Parts    []Part            // every finished measurement, in the order of the garment
	Notes    []sizing.Fact     // what it misses, and what to watch out for
	Yarn     *Yarn             // nil without yarn data
	Practice []sizing.Practice // figures of the trade that it rests on, in the order of their use

	Circular *stitch.YokePlan   // nil unless the yoke is circular
	Raglan   *stitch.RaglanPlan // nil unless it is a raglan
	Legs     *stitch.LegPlan    // nil without legs
	Hood     *stitch.HoodPlan   // nil without a hood
	Zipper   *Zipper            // nil without one
	Added    []Added            // parts sewn on

	maker    *maker                      // that made it
	openRows struct{ rows, ribRows int } // of a front opening
	held     []Held

	steepestTaper float64              // how far a side may go in, of its length
	flatTolerance float64              // of the increases of a yoke that lie flat
	increaseMost  float64              // most increases of a yoke's row, of those that lie flat
	departures    map[string]departure // what the construction adds to parts, on purpose
	openings      []opening
	tapers        map[string]taperEnd // how sleeve and leg end before their cuffs
	yarnClass     func(class int) (data.Yarn, bool)
}

// An opening is a slit or edge that is not a finished part of the garment.
type opening struct {
	place, how string // how: "", "zipper", "buttonband"
	cm, withCm float64
}

// A departure is how far the construction takes a part from its finished
// measurement, and why. One that is the child's own need not be told.
type departure struct {
	cm  float64
	why sizing.Fact
	own bool
}

// A taperEnd is a taper's decreases (pairs) and last count.
type taperEnd struct{ pairs, stitches int }

// Section returns a section by its id.
func (p *Plan) Section(id string) (*Section, bool) {
	i := slices.IndexFunc(p.Sections, func(s *Section) bool { return s.ID == id })
	if i < 0 {
		return nil, false
	}
	return p.Sections[i], true
}

// Part returns a finished measurement by its part.
func (p *Plan) Part(part string) (Part, bool) {
	i := slices.IndexFunc(p.Parts, func(x Part) bool { return x.Line.Part.Part == part })
	if i < 0 {
		return Part{}, false
	}
	return p.Parts[i], true
}

// Make plans a garment from its finished measurements.
func Make(f *sizing.Finished, how How) (*Plan, error) {
	m, err := newMaker(f, how)
	if err != nil {
		return nil, err
	}
	return m.make()
}

// A maker plans one garment.
type maker struct {
	f      *sizing.Finished
	given  How // as it was given
	how    How // with defaults filled in
	g, rib stitch.Gauge
	common common
	p      *Plan
	edges  edges // of a front that opens
	parts  []Part
	notes  map[string]bool // that were made

	decisions []held // how room is held
	rooms     []Room // that the garment has
}

// common is what all sizes of a run have in common.
type common struct {
	perRound int             // increases of a round of a circular yoke; 0: free
	rows     stitch.Multiple // of rows that are turned
	held     map[Room]held   // how room is held, once that is decided for a run
}

func newMaker(f *sizing.Finished, how How) (*maker, error) {
	if f == nil || f.Body == nil {
		return nil, errors.New("no finished measurements to plan from")
	}
	given := how
	how, err := how.complete(f)
	if err != nil {
		return nil, err
	}
	m := &maker{f: f, given: given, how: how, g: how.Gauge, rib: how.Gauge, common: common{rows: stitch.Plain}, notes: make(map[string]bool)}
	if how.Rib != nil {
		m.rib = *how.Rib
	}
	if how.Craft == Knit {
		m.common.rows = stitch.Even // a part begins on the right side
	}
	m.p = &Plan{Garment: f.Garment, Spec: f.Spec, Body: f.Body, Finished: f, How: how, steepestTaper: f.Practice("steepest_taper").Share(),
		yarnClass: f.YarnClass, departures: make(map[string]departure), tapers: make(map[string]taperEnd)}
	return m, nil
}

func (m *maker) make() (*Plan, error) {
	work := map[string]func() error{
		"upper": m.upper, "one-piece": m.onePiece, "lower": m.trousers, "head": m.hat, "hand": m.mittens, "foot": m.socks,
	}[m.f.Garment.Group]
	if work == nil {
		return nil, fmt.Errorf("%s: garments of the group %.80q cannot be planned", m.f.Garment.ID, m.f.Garment.Group)
	}
	m.planEdges()
	if err := work(); err != nil {
		return nil, fmt.Errorf("%s: %w", m.f.Garment.ID, err)
	}
	if err := m.unheld(); err != nil {
		return nil, fmt.Errorf("%s: %w", m.f.Garment.ID, err)
	}
	if err := m.additions(); err != nil {
		return nil, fmt.Errorf("%s: %w", m.f.Garment.ID, err)
	}
	m.loads()
	m.ports()
	for _, f := range m.f.Beside() {
		m.noteFact(f)
	}
	m.general()
	m.finishParts()
	if err := m.p.Check(); err != nil {
		return nil, fmt.Errorf("%s: %w", m.f.Garment.ID, err)
	}
	if err := m.p.number(); err != nil {
		return nil, fmt.Errorf("%s: %w", m.f.Garment.ID, err)
	}
	if err := m.p.colours(); err != nil {
		return nil, err
	}
	m.yarn()
	m.p.held = m.p.findHeld()
	m.p.maker, m.p.flatTolerance = m, m.f.Practice("flat_tolerance").Share()
	m.p.increaseMost = m.f.Practice("yoke_increase_most").Share()
	return m.p, nil
}

// general notes what holds for the whole work.
func (m *maker) general() {
	for _, advice := range m.f.Advice() {
		m.noteFact(advice)
	}
	m.doubtStitch()
	if m.how.Rib == nil && slices.ContainsFunc(m.p.Sections, func(s *Section) bool { return s.Ribbed }) {
		m.note("rib-gauge-unknown")
	}
	if m.how.Before != nil {
		w := stitch.WashedGauge{Before: *m.how.Before, After: m.g}
		m.note("sizes-after-washing", sizing.Length(10), sizing.Length(w.WorkWidthCm(10)), sizing.Length(10), sizing.Length(w.WorkHeightCm(10)))
	}
}

// Check verifies what must hold in every plan.
func (p *Plan) Check() error {
	for _, s := range p.Sections {
		if s.Rows() < 1 {
			return &SectionError{Section: s.ID, NoRows: true}
		}
		for r := 0; r <= s.Rows(); r++ {
			if s.StitchesAfter(r) < 1 {
				return &SectionError{Section: s.ID, Row: r}
			}
		}
	}
	if p.Circular != nil {
		if err := p.Circular.Check(); err != nil {
			return err
		}
	}
	if p.Raglan != nil {
		if err := p.Raglan.Check(); err != nil {
			return err
		}
	}
	if p.Legs != nil {
		return p.Legs.Check()
	}
	return nil
}

// note adds a note.
func (m *maker) note(id string, args ...any) { m.noteFact(sizing.NewFact(id, args...)) }

// noteFact adds a note, once.
func (m *maker) noteFact(f sizing.Fact) {
	key := fmt.Sprint(f)
	if !m.notes[key] {
		m.notes[key] = true
		m.p.Notes = append(m.p.Notes, f)
	}
}

// begin starts a section on a count.
func (m *maker) begin(id string, from int, inRounds bool) *Section {
	s := &Section{ID: id, Kind: id, Copies: 1, InRounds: inRounds, Gauge: m.g, From: from}
	m.p.Sections = append(m.p.Sections, s)
	return s
}

// beginRib starts a section of ribbing.
func (m *maker) beginRib(id string, from int, inRounds bool) *Section {
	s := m.begin(id, from, inRounds)
	s.Gauge, s.Ribbed = m.rib, true
	return s
}

// A target is a finished measurement to plan.
type target struct {
	line sizing.Line
	cm   float64
	// leastCm is the body with its least ease; no girth is planned under it.
	leastCm float64
}

func (m *maker) has(part string) bool {
	_, ok := m.f.Line(part)
	return ok
}

// target returns the target of a part. A part whose body measurement is not
// known cannot be planned.
func (m *maker) target(part string) (target, error) {
	l, ok := m.f.Line(part)
	if !ok {
		for _, p := range m.f.Missing {
			if p.Part == part {
				return target{}, &UnmeasuredError{Part: p}
			}
		}
		return target{}, fmt.Errorf("the garment has no part %s", part)
	}
	t := target{line: l, cm: l.Finished, leastCm: l.Finished}
	if len(l.Ease) > 0 {
		for _, e := range l.Ease {
			t.leastCm -= e.Cm
		}
		t.leastCm += l.EaseLow
	} else if l.Share.Cm != 0 {
		t.leastCm = 0 // a share of the body, such as ribbing that is drawn in, has no least
	}
	t.leastCm = max(min(t.leastCm, t.cm), 0.1)
	return t, nil
}

// targets returns the targets of several parts.
func (m *maker) targets(parts ...string) (map[string]target, error) {
	out := make(map[string]target, len(parts))
	for _, p := range parts {
		t, err := m.target(p)
		if err != nil {
			return nil, err
		}
		out[p] = t
	}
	return out, nil
}

// body returns a measurement of the body.
func (m *maker) body(measurement string) (float64, bool) {
	r, ok := m.f.Body.Get(measurement)
	return r.Value, ok && r.Value > 0
}

// rows counts a height in rows, never under a floor; turned rows are of the
// kept multiple.
func (m *maker) rows(heightCm, leastCm float64, inRounds bool) (int, error) {
	multiple := stitch.Plain
	if !inRounds {
		multiple = m.common.rows
	}
	f, err := m.g.FitHeightAtLeast(heightCm, leastCm, multiple)
	return f.Count, err
}

// nearestRows counts a height that has no least in rows.
func (m *maker) nearestRows(heightCm float64, inRounds bool) (int, error) {
	return m.rows(heightCm, 0, inRounds)
}

// ribRows is the rows of ribbing of a depth, at least one.
func (m *maker) ribRows(depthCm float64) int {
	return max(1, int(math.Round(m.rib.Rows(depthCm))))
}

// rightSideOnly says whether turned rows are shaped on their right side alone.
func (m *maker) rightSideOnly(inRounds bool) bool { return m.how.Craft == Knit && !inRounds }
