package plan

import (
	"fmt"
	"math"
	"slices"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// A Change is what a section that was tried on should be.
type Change struct {
	Section string
	// LongerCm and WiderCm are against the plan; less than 0 is shorter and
	// narrower. What is wider is so at the section's end.
	LongerCm, WiderCm float64
	Ends              *End
}

// An End is where a sleeve, leg or body should end.
type End struct {
	BeyondCm float64 // the landmark; above it is less than 0
	Mark     Landmark
	// FromHereCm is how far the landmark is from the last row, measured with the
	// work on; nil: the body's measurements say.
	FromHereCm *float64
}

// A RipBack is work that must be undone for what should be changed.
type RipBack struct {
	Section string
	ToRow   int      // the last row that stays, of the copy in work
	Rows    int      // that are undone
	Onto    int      // stitches
	Whole   []string // sections that are undone whole
}

// A changer changes a plan from the row on that is worked.
type changer struct {
	p    *Plan // as it becomes
	was  *Plan
	done map[string]int // rows, over all copies
	r    *Remaining
	left map[string]*Left
}

// at is how far a section is: its whole copies, and the rows of the one in work.
// One that is finished was tried on at its end.
func (c *changer) at(s *Section) (whole, part int) {
	l := c.left[s.ID]
	if l.part == 0 && l.whole > 0 {
		return l.whole - 1, s.Rows()
	}
	return l.whole, l.part
}

// begunAfter are the sections that are begun and grow from one.
func (c *changer) begunAfter(s *Section) []*Section {
	var all []*Section
	for _, later := range c.p.Sections {
		if c.done[later.ID] > 0 && c.p.growsFrom(later.ID, s.ID) {
			all = append(all, later)
		}
	}
	return all
}

// fixed are the sections whose rows follow from something else than a length.
var fixed = map[string]string{
	"back-neck": "yoke", "seat-back": "hips", "rise-fold": "hips", "front-neck": "front", "crown": "side", "tip": "hand", "toe": "foot", "heel": "foot",
	"hood-crown": "hood", "hood-panel": "hood", "front-edges": "body", "underlap": "body", "slit": "front",
}

func (c *changer) apply(ch Change) error {
	s, ok := c.p.Section(ch.Section)
	if !ok {
		return c.p.unknownSection(ch.Section)
	}
	longer := ch.LongerCm
	if ch.Ends != nil {
		more, err := c.toEnd(s, *ch.Ends)
		if err != nil {
			return err
		}
		longer += more
	}
	if longer != 0 || ch.Ends != nil {
		if err := c.longer(s, longer); err != nil {
			return err
		}
	}
	if ch.WiderCm != 0 {
		s, _ = c.p.Section(ch.Section)
		return c.wider(s, ch.WiderCm)
	}
	return nil
}

// toEnd is how much longer than planned a limb must be to end where it should.
func (c *changer) toEnd(s *Section, end End) (float64, error) {
	of := c.p.limbOf(s.ID)
	planned, err := c.p.beyondCm(of, end.Mark)
	if end.FromHereCm == nil {
		return end.BeyondCm - planned, err
	}
	if _, known := c.landmark(of, end.Mark); !known {
		return 0, err
	}
	toGo := 0.0
	for _, x := range c.p.Sections {
		if c.p.limbOf(x.ID) != of || x.ID == "back-neck" || x.ID == "seat-back" {
			continue
		}
		done := min(c.done[x.ID], x.Rows())
		if c.done[x.ID] > 0 {
			_, done = c.at(x)
		}
		toGo += x.Gauge.HeightCm(x.Rows() - done - x.foldedAfter(done))
	}
	return *end.FromHereCm + end.BeyondCm - toGo, nil
}

func (c *changer) landmark(of limb, mark Landmark) ([]string, bool) {
	_, marks := c.p.reachOf(of)
	along, ok := marks[mark]
	return along, ok
}

// rowsOf counts a length in rows of a section: an even number where a part of
// turned rows is to end on the wrong side.
func (c *changer) rowsOf(s *Section, cm float64) int {
	n := s.Gauge.Rows(cm)
	if c.p.rightSideOnly(s) && !s.Ribbed {
		return 2 * int(math.Round(n/2))
	}
	return int(math.Round(n))
}

// longer makes a section end so much lower than planned.
func (c *changer) longer(s *Section, cm float64) error {
	if to, ok := fixed[s.ID]; ok {
		return fmt.Errorf("%s: its rows follow from its stitches; say it of %s", s.ID, to)
	}
	// A yoke that is too short cannot be made up for below.
	if len(c.begunAfter(s)) > 0 && !slices.Contains(aboveUnderarm, s.ID) {
		s = c.lowerDown(s)
	}
	n := c.rowsOf(s, cm)
	if n == 0 {
		c.r.note("change-under-a-row", s.Kind, sizing.Length(cm))
		return nil
	}
	if err := c.reshape(s, s.Rows()+n, s.To()); err != nil {
		return err
	}
	if below := c.below(s); below != nil {
		c.r.note("below-moves-too", s.Kind, below.Kind, below.ID+"="+fmt.Sprintf("%+.1f", -s.Gauge.HeightCm(n))+"cm")
	}
	for _, id := range oppositeOf[s.ID] { // front and back meet at the underarm
		if x, ok := c.p.Section(id); ok {
			return c.reshape(x, x.Rows()+n, x.To())
		}
	}
	return nil
}

var oppositeOf = map[string][]string{"back": {"front", "slit"}, "front": {"back"}}

// below is the section under a yoke that can be worked shorter or longer, so that
// what hangs from it stays where it was planned.
func (c *changer) below(yoke *Section) *Section {
	if !slices.Contains(aboveUnderarm, yoke.ID) {
		return nil
	}
	for _, id := range []string{"body", "bodice"} {
		if s, ok := c.p.Section(id); ok {
			return s
		}
	}
	return nil
}

// lowerDown is the section below that can take the rows of one that is finished;
// the section itself where there is none.
func (c *changer) lowerDown(s *Section) *Section {
	found := false
	for _, x := range c.p.Sections {
		if x.ID == s.ID {
			found = true
		} else if found && c.p.limbOf(x.ID) == c.p.limbOf(s.ID) && !x.Ribbed && fixed[x.ID] == "" {
			if len(c.begunAfter(x)) == 0 && c.done[x.ID] < x.Rows()*x.Copies {
				c.r.note("change-lower-down", s.Kind, x.Kind)
				return x
			}
		}
	}
	return s
}

// reshape gives a section other rows and stitches at its end, from the row on that
// is worked; where that cannot be done, from the last row before from which it can.
func (c *changer) reshape(s *Section, rows, to int) error {
	if s.ID == "strap" {
		return fmt.Errorf("%s: its buttonholes are counted in its rows; begin it again, longer with extra", s.ID)
	}
	whole, part := 0, 0
	if c.done[s.ID] > 0 {
		whole, part = c.at(s)
	}
	var first error
	var best *Section
	from := -1
	for at := part; at >= 0; at-- {
		out, err := c.p.reshaped(s, at, rows, to)
		if err != nil {
			if first == nil {
				first = err
			}
			continue
		}
		if best == nil {
			best, from = out, at
		}
		// Where work is undone anyway, far enough that the rest is not crowded.
		if at == part && s.Schedule != nil || !c.p.crowded(out, at) || at > 0 && c.load(s, out, at) <= 1.2*c.load(s, out, 0) {
			best, from = out, at
			break
		}
	}
	if best == nil {
		return fmt.Errorf("%s cannot be changed so, not from its first row either: %w", s.ID, first)
	}
	c.keep(s, best, whole, part, from)
	return c.others(s, best, whole)
}

// load is how many stitches a row gains or loses from a row on, on average.
func (c *changer) load(s, out *Section, at int) float64 {
	return math.Abs(float64(out.To()-s.StitchesAfter(at))) / float64(max(1, out.Rows()-at))
}

// crowded reports shaping that is too close after a row: sides that go in by more
// than they can, a yoke that gains more than lies flat, a raglan that gains two
// stitches on one side of a line.
func (p *Plan) crowded(s *Section, at int) bool {
	rows := s.Rows() - at
	if s.ID == "yoke" && rows > 0 {
		for _, step := range s.Steps {
			if step.Kind == "raglan-repeat-two" {
				return true
			}
		}
		c, err := stitch.CheckCircle(s.Gauge, float64(s.To()-s.StitchesAfter(at))/float64(rows))
		return err == nil && c.Lie(p.flatTolerance) == stitch.Ruffles
	}
	return s.Schedule != nil && steep(p, *s.Schedule, s.Gauge)
}

// keep puts the changed section into the plan, and notes what is undone for it.
func (c *changer) keep(s, out *Section, whole, part, at int) {
	l := c.left[s.ID]
	l.Rest, l.RestFrom = out.Steps, at
	if at < part {
		c.done[s.ID] -= part - at
	}
	begun := c.begunAfter(s)
	if at < part || len(begun) > 0 {
		rip := RipBack{Section: s.ID, ToRow: at, Rows: part - at, Onto: out.StitchesAfter(at)}
		for _, x := range begun {
			rip.Whole = append(rip.Whole, x.ID)
			c.done[x.ID] = 0
			c.left[x.ID].whole, c.left[x.ID].part = 0, 0
		}
		c.r.RipBack = append(c.r.RipBack, rip)
	}
	if c.p.crowded(out, at) {
		if s.ID == "yoke" {
			c.r.note("yoke-ruffles")
		} else if out.To() > out.StitchesAfter(at) {
			c.r.note("section-widens-steeply", s.Kind)
		} else {
			c.r.note("section-narrows-steeply", s.Kind)
		}
	}
	steps := out.Steps
	out.Steps = s.Steps
	i := slices.Index(c.p.Sections, s)
	c.p.Sections[i] = out
	l.Section, l.Planned = out, orSelf(l.Planned, s)
	l.Rest = steps
	l.whole, l.part = whole, at
}

func orSelf(planned, s *Section) *Section {
	if planned != nil {
		return planned
	}
	return s
}

// others plans the copies not yet begun like the one in work.
func (c *changer) others(s, like *Section, whole int) error {
	l := c.left[s.ID]
	if s.Copies-whole < 2 || whole == 0 && l.part == 0 {
		return nil // there is no other, or all are worked like this one
	}
	again, err := c.p.reshaped(s, 0, like.Rows(), like.To())
	if err != nil {
		return fmt.Errorf("the other %s: %w", s.ID, err)
	}
	again.Steps = slices.DeleteFunc(again.Steps, func(x Step) bool { return x.ID == "bridge" }) // one for both legs
	l.Others, l.other = again.Steps, again
	return nil
}

// steep reports that each side goes in by more than it can.
func steep(p *Plan, rest stitch.Schedule, g stitch.Gauge) bool {
	in := math.Abs(float64(rest.From-rest.To())) / 2 * g.StitchWidthCm()
	return in > p.steepestTaper*g.HeightCm(rest.Rows)
}
