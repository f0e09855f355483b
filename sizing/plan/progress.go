package plan

import (
	"fmt"
	"math"
	"slices"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// A Trial is how far the work is, and what was found when it was tried on.
type Trial struct {
	Done    []Done
	Worked  []Worked
	Changes []Change
}

// Done is how far a section is.
type Done struct {
	Section string
	Rows    int // over all its copies: of two sleeves of 40 rows, 55 is one and 15 rows
}

// Worked is a sleeve, leg or other section that was worked in other rows, or ended
// on other stitches, than planned; its other copies are to be like it.
type Worked struct {
	Section        string
	Rows, Stitches int // 0: as planned
}

// Left is what is left of a section.
type Left struct {
	Section  *Section // as it is worked now
	Planned  *Section // as it was planned, where that is something else
	RowsDone int
	Rows     int    // to go, over all copies
	OnWork   int    // stitches of the copy that is begun, after its last row that stays
	RestFrom int    // row after which Rest goes on
	Rest     []Step // how to go on, where the plan's rows were changed
	Others   []Step // how to work the copies that are not begun, where that is changed

	other       *Section // a copy that is not begun, where it differs
	whole, part int      // copies, and rows of the one in work, that stay as they are
	asWorked    bool     // whole copies are as the section is now
	stitches    int
}

// A Move is a finished measurement that is something else than planned.
type Move struct {
	Part      Part
	WasCm, Cm float64
}

// Remaining is what is left of the work.
type Remaining struct {
	Left              []Left    // sections that are not finished, in working order
	Section           *Section  // the one that is in work, nil where none is
	OnWork            int       // stitches on it now
	RowsLeft          int       // of it, of the copy in work
	RipBack           []RipBack // what must be undone first
	Moves             []Move    // what else moves
	Zipper, WasZipper *Zipper   // where an opening becomes longer or shorter
	Progress          stitch.Progress
	// NeedMetres is the yarn for the rest by the plan's own estimate, margin
	// included; 0 without yarn data. MoreMetres is what of it the changes cost.
	NeedMetres, MoreMetres float64
	Notes                  []sizing.Fact

	was, now *Plan
}

func (r *Remaining) note(id string, args ...any) {
	r.Notes = append(r.Notes, sizing.NewFact(id, args...))
}

func (p *Plan) unknownSection(id string) error {
	var known []string
	for _, s := range p.Sections {
		known = append(known, s.ID)
	}
	return &sizing.UnknownError{Kind: "section", Name: id, Nearest: sizing.Nearest(id, known), Known: known}
}

// Remaining says what is left, and how it is worked so that it becomes what it
// should. Sections before the last one that is named, in working order, count as
// finished unless they are named themselves; those after it as not begun.
func (p *Plan) Remaining(t Trial) (*Remaining, error) {
	now := *p
	now.Sections = slices.Clone(p.Sections)
	r := &Remaining{was: p, now: &now}
	c := &changer{p: &now, was: p, done: make(map[string]int), r: r, left: make(map[string]*Left)}
	for _, s := range p.Sections {
		c.left[s.ID] = &Left{Section: s}
	}
	for _, w := range t.Worked {
		if err := c.worked(w); err != nil {
			return nil, err
		}
	}
	if err := c.howFar(t.Done); err != nil {
		return nil, err
	}
	if err := check(t.Changes); err != nil {
		return nil, err
	}
	r.inWork(c, t.Done)
	for _, ch := range t.Changes {
		if err := c.apply(ch); err != nil {
			return nil, err
		}
	}
	c.count()
	c.moves()
	return r, nil
}

// check refuses changes that are no lengths, and two of one section.
func check(changes []Change) error {
	named := make(map[string]bool)
	for _, ch := range changes {
		if named[ch.Section] {
			return fmt.Errorf("section %s is changed twice", ch.Section)
		}
		named[ch.Section] = true
		lengths := []float64{ch.LongerCm, ch.WiderCm}
		if ch.Ends != nil {
			lengths = append(lengths, ch.Ends.BeyondCm)
			if ch.Ends.FromHereCm != nil {
				lengths = append(lengths, *ch.Ends.FromHereCm)
			}
		}
		for _, cm := range lengths {
			if !(math.Abs(cm) <= stitch.MaxLengthCm) {
				return fmt.Errorf("section %s: %g cm is not a length", ch.Section, cm)
			}
		}
	}
	return nil
}

// howFar reads the rows that are worked.
func (c *changer) howFar(done []Done) error {
	last := -1
	for _, d := range done {
		i := slices.IndexFunc(c.p.Sections, func(s *Section) bool { return s.ID == d.Section })
		if i < 0 {
			return c.p.unknownSection(d.Section)
		}
		s := c.p.Sections[i]
		if _, twice := c.done[s.ID]; twice {
			return fmt.Errorf("section %s is given twice", d.Section)
		}
		if all := s.Rows() * s.Copies; d.Rows < 0 || d.Rows > all {
			return fmt.Errorf("%d rows done of %s: want 0 to %d", d.Rows, s.ID, all)
		}
		c.done[s.ID] = d.Rows
		last = max(last, i)
	}
	for i, s := range c.p.Sections {
		if _, named := c.done[s.ID]; !named && i < last {
			c.done[s.ID] = s.Rows() * s.Copies
		}
		if n := c.done[s.ID]; n > 0 {
			c.left[s.ID].whole, c.left[s.ID].part = n/s.Rows(), n%s.Rows()
		}
	}
	return nil
}

// inWork finds the section that was worked last: the last one named that is begun.
func (r *Remaining) inWork(c *changer, done []Done) {
	for _, s := range slices.Backward(c.p.Sections) {
		named := slices.ContainsFunc(done, func(d Done) bool { return d.Section == s.ID })
		if c.done[s.ID] == 0 || !named {
			continue
		}
		_, part := c.at(s)
		r.Section, r.OnWork = s, s.StitchesAfter(part)
		return
	}
}

// worked lays a section out as one of its copies was worked.
func (c *changer) worked(w Worked) error {
	s, ok := c.p.Section(w.Section)
	if !ok {
		return c.p.unknownSection(w.Section)
	}
	if w.Rows < 0 || w.Rows > 4*s.Rows()+40 || w.Stitches < 0 || w.Stitches > 4*s.From+40 {
		return fmt.Errorf("as-worked %s: %d rows to %d stitches is far from the planned %d rows to %d", s.ID, w.Rows, w.Stitches, s.Rows(), s.To())
	}
	rows, to := w.Rows, w.Stitches
	if rows == 0 {
		rows = s.Rows()
	}
	if to == 0 {
		to = s.To()
	}
	if rows == s.Rows() && to == s.To() {
		return nil
	}
	if err := c.reshape(s, rows, to); err != nil {
		return fmt.Errorf("as-worked: %w", err)
	}
	c.left[s.ID].asWorked = true
	c.r.note("as-worked", s.Kind, rows, to)
	return c.follow(s)
}

// count adds up what is left.
func (c *changer) count() {
	r := c.r
	all, planned, left := 0.0, 0.0, 0.0
	for i, s := range c.p.Sections {
		l := c.left[s.ID]
		l.Section = s
		other := l.other
		if other == nil {
			other = s
		}
		rows, stitches := 0, 0 // of all copies that are not whole
		if copies := s.Copies - l.whole; copies > 0 {
			rows = s.Rows() - l.part + (copies-1)*other.Rows()
			stitches = s.worked(s.Rows()) - s.worked(l.part) + (copies-1)*other.worked(other.Rows())
		}
		was := c.was.Sections[i]
		l.RowsDone = c.done[s.ID]
		l.Rows, l.stitches = rows, stitches
		if l.part > 0 {
			l.OnWork = s.StitchesAfter(l.part)
		}
		done := l.whole*was.worked(was.Rows()) + s.worked(l.part)
		if l.asWorked {
			done = l.whole*s.worked(s.Rows()) + s.worked(l.part)
		} else if l.whole > 0 && (s.Rows() != was.Rows() || s.To() != was.To()) {
			r.note("first-copy-differs", was.Kind, was.Rows(), was.To(), s.Rows(), s.To())
		}
		r.Progress.StitchesDone += float64(done)
		r.Progress.StitchesLeft += float64(stitches)
		r.Progress.RowsDone += l.RowsDone
		r.Progress.RowsLeft += rows
		area := s.Gauge.StitchWidthCm() * s.Gauge.RowHeightCm()
		planned += was.AreaCm2()
		all += float64(done+stitches) * area
		left += float64(stitches) * area
		if r.Section != nil && r.Section.ID == s.ID {
			_, part := c.at(s)
			if len(r.RipBack) > 0 {
				part = l.part
			}
			r.RowsLeft = max(0, s.Rows()-part)
		}
		if rows > 0 || len(l.Rest) > 0 {
			r.Left = append(r.Left, *l)
			r.Progress.Left = append(r.Progress.Left, stitch.Remaining{Name: s.ID, Rows: rows, Stitches: float64(stitches)})
		}
	}
	r.Progress.Rows = r.Progress.RowsDone + r.Progress.RowsLeft
	if sum := r.Progress.StitchesDone + r.Progress.StitchesLeft; sum > 0 {
		r.Progress.DoneShare = r.Progress.StitchesDone / sum
	}
	if y := c.p.Yarn; y != nil && planned > 0 {
		r.NeedMetres = y.Need.Metres * left / planned
		r.MoreMetres = y.Need.Metres * (all - planned) / planned
	}
}

// moves compares the finished lengths and the opening with the plan.
func (c *changer) moves() {
	longer := make(map[string]float64)
	rows, ribRows := 0, 0
	for i, s := range c.p.Sections {
		was := c.was.Sections[i]
		n := s.Rows() - was.Rows()
		if n == 0 {
			continue
		}
		for _, part := range c.p.partsAlong(s.ID) {
			longer[part] += s.Gauge.HeightCm(s.Rows()) - was.HeightCm()
		}
		if slices.Contains(c.p.partsAlong(s.ID), "front_opening") {
			if s.Ribbed {
				ribRows += n
			} else {
				rows += n
			}
		}
	}
	for _, p := range c.p.Parts {
		if cm := longer[p.Line.Part.Part]; cm != 0 {
			c.r.Moves = append(c.r.Moves, Move{Part: p, WasCm: p.SizeCm, Cm: p.SizeCm + cm})
		}
	}
	for _, girth := range []struct{ part, section string }{
		{"chest", "body"}, {"chest", "bodice"}, {"upper_arm", "sleeve"}, {"cuff", "cuff"}, {"ankle", "ankle"}, {"thigh", "leg"},
	} {
		now, ok := c.p.Section(girth.section)
		was, _ := c.was.Section(girth.section)
		p, known := c.p.Part(girth.part)
		if !ok || !known {
			continue
		}
		// A sleeve may get its width in the row after it is picked up.
		if n := now.StitchesAfter(min(2, now.Rows())) - was.StitchesAfter(min(2, was.Rows())); n != 0 {
			c.r.Moves = append(c.r.Moves, Move{Part: p, WasCm: p.SizeCm, Cm: p.SizeCm + now.Gauge.WidthCm(n)})
		}
	}
	if rows != 0 || ribRows != 0 {
		c.closeAnew(rows, ribRows)
	}
}

// closeAnew edges and closes a front opening of so many rows more.
func (c *changer) closeAnew(rows, ribRows int) {
	m := c.was.maker
	if c.was.openRows.rows == 0 || m == nil {
		return
	}
	again := *m
	p := &Plan{Garment: c.p.Garment, Spec: c.p.Spec, Body: c.p.Body, How: c.p.How, departures: make(map[string]departure)}
	for _, s := range c.p.Sections { // the edges go along the ribbing too
		if c.p.limbOf(s.ID) != frontLimb {
			p.Sections = append(p.Sections, s)
		}
	}
	others := len(p.Sections)
	again.p, again.notes = p, make(map[string]bool)
	if err := again.front(c.was.openRows.rows+rows, c.was.openRows.ribRows+ribRows); err != nil {
		return
	}
	for _, s := range p.Sections[others:] {
		if l, ok := c.left[s.ID]; ok && c.done[s.ID] == 0 && s.number(0) == nil {
			l.Rest = s.Steps
			for i := range c.r.Left {
				if c.r.Left[i].Section.ID == s.ID {
					c.r.Left[i].Section, c.r.Left[i].Rest = s, s.Steps
				}
			}
		}
	}
	c.r.Notes = append(c.r.Notes, p.Notes...)
	if p.Zipper != nil {
		z := *p.Zipper
		c.r.Zipper, c.r.WasZipper = &z, c.was.Zipper
	}
}
