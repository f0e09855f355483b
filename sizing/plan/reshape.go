package plan

import (
	"errors"
	"fmt"
	"slices"

	"growtuck/sizing/stitch"
)

// reshaped is a section as worked up to a row, and from there planned anew to
// end in rows rows on to stitches: the section as it becomes, with the steps of
// its rest alone.
func (p *Plan) reshaped(s *Section, at, rows, to int) (*Section, error) {
	if rows <= at && (rows < at || to != s.StitchesAfter(at)) {
		return nil, fmt.Errorf("%s: %d rows are worked, and it should end with row %d", s.ID, at, rows)
	}
	out := *s
	out.rows = slices.Clone(s.rows[:min(at, len(s.rows))])
	out.Steps, out.Schedule = nil, nil
	out.Folds = slices.Clone(s.Folds)
	for i, f := range s.Folds { // one that is worked stays where it is
		if !f.later() && s.foldAfter(f) < at {
			out.Folds[i].Below += rows - s.Rows()
		}
	}
	for out.Rows() < at { // tried on past its planned end
		out.row(s.To())
	}
	if at == 0 {
		for _, step := range s.Steps { // how it begins stays
			if slices.Contains([]string{"pick-up", "start", "leg", "bridge", "split", "join"}, step.ID) {
				out.Steps = append(out.Steps, step)
			}
		}
	}
	var err error
	switch {
	case s.ID == "yoke" && p.Circular != nil:
		err = p.restOfCircular(&out, at, rows, to)
	case s.ID == "yoke" && p.Raglan != nil:
		err = p.restOfRaglan(&out, at, rows, to)
	case s.Schedule != nil:
		err = p.restOfTaper(&out, s, at, rows, to)
	default:
		err = p.restInRows(&out, s, at, rows, to)
	}
	if err != nil {
		return nil, err
	}
	out.openFor(s, at)
	return &out, out.number(at)
}

// openFor says how long the front still stays open in a section, as far above its
// end as planned.
func (s *Section) openFor(planned *Section, at int) {
	open := planned.stepOf("open")
	if open == nil {
		return
	}
	step := *open
	if n, ok := step.Values["open_rows"].(int); ok {
		n += s.Rows() - planned.Rows()
		if n <= at {
			return
		}
		step.Values = step.Values.with("open_rows", n)
	}
	s.Steps = append(s.Steps, step)
}

// rightSideOnly says whether turned rows are shaped on their right side alone.
func (p *Plan) rightSideOnly(s *Section) bool { return p.How.Craft == Knit && !s.InRounds }

// restOfCircular shares the increases that are left over the rows that are left,
// in as few rhythms as they allow.
func (p *Plan) restOfCircular(s *Section, at, rows, to int) error {
	rest := stitch.YokeRest{Gauge: s.Gauge, From: s.To(), Increases: to - s.To(), Row: at, Rows: rows,
		Turned: !s.InRounds, RightSideOnly: p.rightSideOnly(s), IncreaseMost: p.increaseMost}
	phases, err := rest.Phases()
	if err != nil {
		return err
	}
	for i, phase := range phases {
		s.repeat(numbered("increase", i+1), "yoke-repeat", phase)
	}
	s.straightTo(rows)
	return nil
}

// restOfRaglan shares the increases that are left on each side of the lines. What
// the yoke gains beyond the plan it gains on the body's side, or with the sleeves'.
func (p *Plan) restOfRaglan(s *Section, at, rows, to int) error {
	body, sleeves := 0, 0
	for _, phase := range p.Raglan.Phases {
		for i := range phase.Times {
			if phase.RowOf(i) > at {
				body, sleeves = body+phase.Body, sleeves+phase.Sleeves
			}
		}
	}
	body += (to - s.To() - 4*(body+sleeves)) / 4
	if body < 0 || s.To()+4*(body+sleeves) != to {
		return fmt.Errorf("%d stitches are no whole increases at four lines", to-s.To())
	}
	phases, err := stitch.RaglanRest{Gauge: s.Gauge, Plan: *p.Raglan, Row: at, Rows: rows, Body: body, Sleeves: sleeves, RightSideOnly: p.rightSideOnly(s)}.Phases()
	if err != nil {
		return err
	}
	for i, phase := range phases {
		s.raglanPhase(numbered("increase", i+1), phase)
	}
	s.straightTo(rows)
	return nil
}

// straightTo works on straight to a row.
func (s *Section) straightTo(rows int) {
	ahead := *s
	ahead.Folds = slices.DeleteFunc(slices.Clone(s.Folds), func(f Fold) bool { return f.later() || f.Below+f.Rows > rows-s.Rows() })
	ahead.straight(rows-s.Rows(), "straight-on", "straight-on")
	s.rows, s.Steps = ahead.rows, ahead.Steps
}

// restOfTaper spreads the shaping that is left over the rows that are left; rows
// straight below the shaping stay.
func (p *Plan) restOfTaper(out, s *Section, at, rows, to int) error {
	below := s.Rows() - s.Schedule.Rows
	down := max(at, rows-below)
	if below > 0 && at >= s.Schedule.Rows && to == out.To() {
		out.straightTo(rows)
		return nil
	}
	sc, err := p.taperFrom(s, at, down, to)
	if err != nil {
		return err
	}
	out.Schedule = &sc
	for r := 1; r <= sc.Rows; r++ {
		out.row(sc.StitchesAfter(r))
	}
	step := sidesShaped(sc)
	step.InRounds = s.InRounds
	if sc.Rows > 0 {
		out.Steps = append(out.Steps, step)
	}
	out.straightTo(rows)
	return nil
}

// taperFrom is shaping at both sides from a row on.
func (p *Plan) taperFrom(s *Section, at, rows, to int) (stitch.Schedule, error) {
	t := stitch.Taper{From: s.StitchesAfter(at), To: to, Rows: rows - at, InRounds: s.InRounds, RightSideOnly: p.rightSideOnly(s)}
	if s.Schedule != nil {
		t.PlainAfter = min(s.Schedule.PlainAfter(), max(0, s.Schedule.Rows-at), t.Rows)
		if len(s.Schedule.Steps) == 2 {
			t.LongGapsFirst = s.Schedule.Steps[0].Every > s.Schedule.Steps[1].Every
		}
		t.AtOnce = max(s.Schedule.Change, -s.Schedule.Change) / 2
	}
	if (t.To-t.From)%max(2, 2*t.AtOnce) != 0 {
		t.AtOnce = 1
	}
	if t.RightSideOnly && at%2 == 1 {
		// The next row is a wrong-side one; count from the right-side row before it.
		t.PlainBefore, t.Rows = 1, t.Rows+1
		sc, err := t.Schedule()
		if err == nil {
			sc.Rows--
			sc.FirstRow = max(sc.FirstRow-1, 0)
		}
		return sc, err
	}
	if at == 0 && (s.Schedule == nil || s.Schedule.FirstRow != 1) { // the row that joins stays plain, where that can be
		t.PlainBefore = min(1, t.Rows)
		if sc, err := t.Schedule(); err == nil {
			return sc, nil
		}
		t.PlainBefore = 0
	}
	return t.Schedule()
}

var errNotStraight = errors.New("its rows follow from its stitches")

// restInRows works the rows that are left as they were planned, with more or
// fewer plain rows among them; a piece that was straight is shaped at both sides
// where it should end on other stitches.
func (p *Plan) restInRows(out, s *Section, at, rows, to int) error {
	shapedAfter := 0 // the last row after at that changes the count
	for r := at + 1; r <= s.Rows(); r++ {
		if s.StitchesAfter(r) != s.StitchesAfter(r-1) {
			shapedAfter = r
		}
	}
	if shapedAfter == 0 {
		if to == out.To() {
			if n := rows - at; n > 0 && out.foldRows() > 0 {
				out.straightTo(rows)
			} else if n > 0 {
				out.plain(n)
				kind := "work-rest"
				if at == 0 {
					kind = "straight-on"
				}
				out.add(Step{ID: "rest", Kind: kind, Values: Values{"rows": n, "stitches": to}})
			}
			return nil
		}
		if s.Ribbed {
			return fmt.Errorf("%s: ribbing is worked on one count of stitches", s.ID)
		}
		sc, err := p.taperFrom(s, at, rows, to)
		if err != nil {
			return err
		}
		out.shape(sc)
		return nil
	}
	if to != s.To() {
		return fmt.Errorf("%s: %w", s.ID, errNotStraight)
	}
	return out.withPlainRows(s, at, rows-s.Rows())
}

// withPlainRows goes on as planned after a row, with so many plain rows more: put
// in before the first shaping, or after the last where that has none before it.
func (s *Section) withPlainRows(planned *Section, at, more int) error {
	first, last := 0, 0
	for r := at + 1; r <= planned.Rows(); r++ {
		if planned.StitchesAfter(r) != planned.StitchesAfter(r-1) {
			if last = r; first == 0 {
				first = r
			}
		}
	}
	before := 0
	if first-at-1 > planned.Rows()-last {
		before = more
	}
	if before < 0 && first-at-1+before < 0 || before == 0 && more < 0 && planned.Rows()-last+more < 0 {
		return fmt.Errorf("%s: %d rows fewer are not there before its shaping", s.ID, -more)
	}
	s.plain(max(0, before))
	for r := at + 1 + max(0, -before); r <= last; r++ {
		s.row(planned.StitchesAfter(r))
	}
	if before > 0 {
		s.step("before", "straight", Values{"rows": before, "stitches": planned.StitchesAfter(at)})
	}
	for _, step := range planned.Steps {
		row, numbered := step.Values["row"].(int)
		if numbered && row <= at {
			continue
		}
		_, atEnd := step.Values["last"]
		switch {
		case numbered:
			step.Values = step.Values.with("row", row+before)
		case atEnd:
			step.Values = step.Values.with("rows", planned.Rows()+more-at)
		case step.ID == "straight" || at > 0 && step.ID == "pick-up":
			continue
		}
		s.Steps = append(s.Steps, step)
	}
	s.straightTo(planned.Rows() + more)
	return nil
}
