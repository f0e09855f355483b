package plan

import (
	"math"

	"growtuck/sizing/stitch"
)

// An Adjustment is what makes one section longer or wider at the work, with all other
// sections as they are.
type Adjustment struct {
	Cm    float64 // by how much, in whole rows or stitches
	More  int     // rows, or stitches, for it
	Total int     // rows then, or stitches that the section begins on
	To    int     // stitches that it ends on: as planned
	Place Place   // of the rows or stitches that are more
	// Shaping is that of the sides over all its rows then; nil where it has none.
	Shaping *stitch.Schedule
}

// A Place is where in a section rows or stitches are added.
type Place string

// The places.
const (
	Throughout  Place = "throughout" // the shaping is spread over all rows
	AtEnd       Place = "end"        // plain rows after the last
	AtStart     Place = "start"      // plain rows before the first
	Nowhere     Place = "nowhere"    // it cannot be made longer or wider by itself
	Increases   Place = "increases"  // stitches gained by its last increase row, and kept
	InFirstRow  Place = "first-row"  // stitches gained in the first row and lost in the last
	AtBeginning Place = "beginning"  // stitches cast on more, and lost in the last
	Underarms   Place = "underarms"  // half of the stitches added at each underarm, where the work is divided
	Kept        Place = "kept"       // stitches gained in the first row and kept: nothing goes on from it
)

// Longer is the section made longer by about so much.
func (p *Plan) Longer(s *Section, cm float64) Adjustment {
	if s.shortRows() || s.alongEdge() {
		return Adjustment{Place: Nowhere}
	}
	n := int(math.Round(s.Gauge.Rows(cm)))
	if !s.InRounds { // the side that the next section begins on stays
		n = 2 * int(math.Round(s.Gauge.Rows(cm)/2))
	}
	n = max(n, 1)
	if !s.InRounds {
		n = max(n, 2)
	}
	a := Adjustment{Cm: s.Gauge.HeightCm(n), More: n, Total: s.Rows() + n, To: s.To(), Place: AtEnd}
	switch {
	case s.sidesShaped() && s.Schedule.Shapings() > 0:
		sc, err := s.Schedule.Respace(0, a.Total)
		if err == nil {
			a.Place, a.Shaping = Throughout, &sc
		}
	case s.To() < s.StitchesAfter(1) && !s.Ribbed: // a top that narrows to its end
		a.Place = AtStart
	}
	return a
}

// Wider is the section made wider by about so much, to end on the stitches that the
// next section begins on.
func (p *Plan) Wider(s *Section, cm float64) Adjustment {
	if s.shortRows() || s.alongEdge() || s.Ribbed && s.Rows() < 2 || s.ID == "yoke" { // what a yoke ends on is divided
		return Adjustment{Place: Nowhere}
	}
	if s.To() < s.From && s.Schedule == nil { // a top that closes
		return Adjustment{Place: Nowhere}
	}
	if s.To() > s.From && !s.sidesShaped() {
		return p.moreIncreases(s, cm)
	}
	per := 2
	if r := p.How.Multiple.Repeat; r > 2 && !s.Ribbed {
		per = r
	}
	n := max(per, per*int(math.Round(s.Gauge.Stitches(cm)/float64(per))))
	a := Adjustment{Cm: s.Gauge.WidthCm(n), More: n, Total: s.From + n, To: s.To(), Place: InFirstRow}
	i := p.index(s)
	switch {
	case len(s.Steps) > 0 && s.Steps[0].Kind == "divide":
		a.Place = Underarms
	case s.From == s.To() && !p.goesOn(i):
		a.Place, a.To = Kept, s.To()+n
	case i == 0 || p.before(i) == nil:
		a.Place = AtBeginning
	}
	if s.sidesShaped() && s.Schedule.Shapings() > 0 {
		sc, err := p.widened(s, n)
		if err != nil {
			return Adjustment{Place: Nowhere}
		}
		a.Shaping, a.To = &sc, sc.To()
	}
	return a
}

// moreIncreases widens a section that grows by increase rows: a circle by whole rounds
// of its own rate.
func (p *Plan) moreIncreases(s *Section, cm float64) Adjustment {
	per := 2
	if s.ID == "crown" {
		for r := s.Rows(); r > 1; r-- {
			if gain := s.StitchesAfter(r) - s.StitchesAfter(r-1); gain > 0 {
				per = gain
				break
			}
		}
	}
	n := max(per, per*int(math.Round(s.Gauge.Stitches(cm)/float64(per))))
	return Adjustment{Cm: s.Gauge.WidthCm(n), More: n, Total: s.From, To: s.To() + n, Place: Increases}
}

// widened is the side shaping of a section that begins on more stitches, and ends as
// planned where what follows is joined to it.
func (p *Plan) widened(s *Section, more int) (stitch.Schedule, error) {
	old := s.Schedule
	sides := max(old.Sides, 1)
	at := old.Change / sides
	if at < 0 {
		at = -at
	}
	t := stitch.Taper{From: old.From + more, To: old.To(), Rows: old.Rows, Sides: sides, AtOnce: at, PlainAfter: old.PlainAfter(),
		InRounds: old.InRounds, RightSideOnly: old.RightSideOnly}
	if old.Change > 0 { // it widens: the stitches that are more stay to its end
		t.To += more
	}
	if len(old.Steps) == 2 {
		t.LongGapsFirst = old.Steps[0].Every > old.Steps[1].Every
	}
	return t.Schedule()
}

// sidesShaped reports a section whose sides are shaped over all its rows.
func (s *Section) sidesShaped() bool { return s.Schedule != nil && s.Schedule.Rows == s.Rows() }

// index is the place of a section in the work.
func (p *Plan) index(s *Section) int {
	for i, x := range p.Sections {
		if x == s {
			return i
		}
	}
	return -1
}

// goesOn reports that a section is worked on from the i-th.
func (p *Plan) goesOn(i int) bool {
	for k := range p.Sections {
		if p.before(k) == p.Sections[i] {
			return true
		}
	}
	return false
}
