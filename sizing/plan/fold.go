package plan

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"

	"growtuck/sizing"
)

// A HoldError says that room cannot be held in the way that was asked for.
type HoldError struct {
	Room Room
	Way  Way
	Why  string
	Want []Way // that can hold it
}

func (e *HoldError) Error() string {
	want := ""
	if len(e.Want) > 0 {
		want = "; want " + join(e.Want)
	}
	return fmt.Sprintf("hold %s=%s: %s%s", e.Room, e.Way, e.Why, want)
}

// join lists ways.
func join(ways []Way) string {
	text := ""
	for i, w := range ways {
		switch {
		case i > 0 && i == len(ways)-1:
			text += " or "
		case i > 0:
			text += ", "
		}
		text += string(w)
	}
	return text
}

// waysOf are the ways that a garment has for a room, the usual one first.
func (m *maker) waysOf(room Room) []Way {
	switch room {
	case SleeveRoom, LegRoom:
		if m.f.Garment.Group == "foot" { // the edge at the top is worked last
			return []Way{FoldCuff}
		}
		return []Way{FoldCuff, Tuck, DeepHem, OnHold}
	case SkirtRoom:
		if m.f.Garment.Opening == "front" {
			return []Way{OnHold}
		}
		return []Way{DeepHem, Tuck, OnHold}
	case RiseRoom:
		return []Way{RiseFold}
	case StrapRoom:
		return []Way{Buttoned}
	}
	switch {
	case m.f.Garment.Group == "one-piece":
		return []Way{Tuck}
	case m.hasPart("hem"): // shaped all the way down
		return []Way{DeepHem, OnHold}
	case m.f.Garment.Opening == "front": // a fold across would gape at it
		return []Way{OnHold, DeepHem}
	}
	return []Way{Tuck, DeepHem, OnHold}
}

// A held is what was decided about a room: rows of each fold, from the top down, and
// what lies between and below them.
type held struct {
	room           Room
	way            Way // "" where the room is worn as it is
	parts          []string
	folds          []int
	between, below int
	rows           int // of all folds
}

// need is the rows of a section that folds across it, and what lies below them, take up.
func (h held) need() int {
	if h.way != Tuck && h.way != RiseFold {
		return 0
	}
	return h.rows + h.between*(len(h.folds)-1) + h.below
}

// edge is the rows of an edge that are folded away.
func (h held) edge() int {
	if h.way == FoldCuff || h.way == DeepHem {
		return h.rows
	}
	return 0
}

// later is the rows that are worked once they are needed.
func (h held) later() int {
	if h.way == OnHold {
		return h.rows
	}
	return 0
}

// cm is how much is held.
func (h held) cm(m *maker) float64 {
	if h.way == "" {
		return 0
	}
	return m.roomCm(h.parts[0])
}

// roomCm is what a part has to grow.
func (m *maker) roomCm(part string) float64 {
	l, _ := m.f.Line(part)
	return l.RoomCm()
}

// A holdAt is a place where room may be held.
type holdAt struct {
	room     Room
	parts    []string        // the first is the one that has the room
	inRounds bool            // its fabric
	ribbed   bool            // its edge
	below    sizing.Practice // least distance of a fold from the edge below it
	// fits says why folds across that need so many rows do not fit; "" where they do.
	fits func(need int) string
}

// hold decides how room is held: as was asked for, else in the first usual way that
// fits. All sizes of a run decide alike.
func (m *maker) hold(at holdAt) (held, error) {
	none := held{room: at.room}
	m.rooms = append(m.rooms, at.room)
	if common, ok := m.common.held[at.room]; ok {
		if common.way == "" {
			return none, nil
		}
		if why := m.unfit(at, common); why != "" {
			return none, &HoldError{at.room, common.way, why, nil}
		}
		return m.decided(common), nil
	}
	cm := m.roomCm(at.parts[0])
	if cm <= 0 {
		return none, nil
	}
	can := m.waysOf(at.room)
	asked, named := m.how.Hold[at.room]
	if !named {
		if asked = m.how.Hold[everywhere]; asked == Tuck && at.room == RiseRoom {
			asked = RiseFold // a tuck in its place
		}
		if asked != Worn && !slices.Contains(can, asked) {
			asked = ""
		}
	}
	switch {
	case asked == Worn:
		return none, nil
	case named && !slices.Contains(can, asked):
		return none, &HoldError{at.room, asked, m.cannot(at.room, asked), can}
	case named:
		h, why := m.held(at, asked, cm)
		if why != "" {
			var fit []Way
			for _, way := range can {
				if _, why := m.held(at, way, cm); why == "" {
					fit = append(fit, way)
				}
			}
			return none, &HoldError{at.room, asked, why, fit}
		}
		return m.decided(h), nil
	case asked == "" && cm < m.practice("hold_least").Value:
		m.note("room-worn", string(at.room), sizing.Length(cm))
		return none, nil
	case asked != "" && cm < m.practice("hold_least").Value:
		can = []Way{asked}
	case asked != "":
		can = append([]Way{asked}, can...)
	}
	for _, way := range can {
		if h, why := m.held(at, way, cm); why == "" {
			return m.decided(h), nil
		}
	}
	m.note("room-worn", string(at.room), sizing.Length(cm))
	return none, nil
}

// unheld refuses what was asked for and the garment has not.
func (m *maker) unheld() error {
	if len(m.how.Hold) == 0 {
		return nil
	}
	if !slices.ContainsFunc(m.f.Lines, func(l sizing.Line) bool { return m.roomCm(l.Part.Part) > 0 }) {
		return errors.New("hold: the garment has no room to grow; say how much it should have")
	}
	for _, room := range slices.Sorted(maps.Keys(m.how.Hold)) {
		if room != everywhere && !slices.Contains(m.rooms, room) {
			return &HoldError{room, m.how.Hold[room], "the garment has no such room", nil}
		}
	}
	if way, asked := m.how.Hold[everywhere]; asked && way != Worn && len(m.rooms) == 0 {
		m.note("room-nowhere")
	}
	return nil
}

func (m *maker) decided(h held) held {
	m.decisions = append(m.decisions, h)
	return h
}

// cannot says why a garment does not hold a room in a way.
func (m *maker) cannot(room Room, way Way) string {
	switch {
	case m.f.Garment.Opening == "front" && (way == Tuck || room == SkirtRoom):
		return "a fold across a front that opens would gape at the opening"
	case room == BodyRoom && m.f.Garment.Group == "one-piece":
		return "the legs follow the body: nothing but a tuck above them holds its room"
	}
	return "the garment does not hold it so"
}

// held lays out a way of holding so much, or says why it cannot be.
func (m *maker) held(at holdAt, way Way, cm float64) (held, string) {
	h := held{room: at.room, way: way, parts: at.parts, folds: []int{0}}
	g := m.g
	multiple := 1
	if !at.inRounds && m.common.rows.Repeat == 2 { // the side that the next part begins on stays
		multiple = 2
	}
	switch way {
	case FoldCuff, DeepHem:
		if at.ribbed {
			g, multiple = m.rib, 1
		}
		low, high := m.practice("fold_back_least").Value, m.practice("fold_back_most").Value
		if way == DeepHem {
			low, high = 0, m.practice("hem_turned_most").Value
		}
		if cm < low || cm > high+1e-9 {
			return h, fmt.Sprintf("it holds %.3g to %.3g cm, and the room is %.2g cm", low, high, cm)
		}
	case Buttoned:
		if at.ribbed {
			g = m.rib
		}
		n := int(math.Ceil(cm/m.practice("strap_hole_apart").Value - 1e-9))
		h.folds = make([]int, max(1, min(n, int(g.Rows(cm)/strapHoleRows))))
		h.below = max(2, m.ribRows(m.practice("strap_end").Value))
	case Tuck, RiseFold:
		if g.Rows(cm) < 1.5 {
			return h, fmt.Sprintf("a fold takes 2 rows at least, %.2g cm, and the room is %.2g cm", g.HeightCm(2), cm)
		}
		n := int(math.Ceil(cm/(2*m.practice("tuck_depth_most").Value) - 1e-9))
		h.folds = make([]int, n)
		h.between = m.wholeRows(m.f.Practice("tuck_apart"), multiple)
		if way == Tuck {
			h.below = m.wholeRows(at.below, multiple)
		}
	}
	unit := multiple * len(h.folds)
	h.rows = max(2*len(h.folds), multiple*int(math.Round(g.Rows(cm)/float64(multiple))))
	if way == OnHold {
		h.rows = max(multiple, multiple*int(math.Round(g.Rows(cm)/float64(multiple))))
	}
	if way == Buttoned { // whatever side the hole is worked on
		unit, multiple, h.rows = len(h.folds), 1, max(strapHoleRows, int(math.Round(g.Rows(cm))))
	}
	for i := range h.folds { // as even as whole rows are
		h.folds[i] = h.rows / unit * multiple
		if i < h.rows%unit/multiple {
			h.folds[i] += multiple
		}
	}
	return h, m.unfit(at, h)
}

// strapHoleRows are the least rows from one buttonhole of a strap to the next: two to work
// it, and one between.
const strapHoleRows = 3

// unfit says why what was decided does not fit a place; "" where it does.
func (m *maker) unfit(at holdAt, h held) string {
	if h.need() == 0 || at.fits == nil {
		return ""
	}
	return at.fits(h.need())
}

// wholeRows is a distance of the trade in whole rows of a multiple, at least one.
func (m *maker) wholeRows(p sizing.Practice, multiple int) int {
	n := int(math.Round(m.g.Rows(m.practice(p.ID).Value)))
	return max(multiple, n+n%multiple)
}

// tucks notes the folds across that a section gets; straight works them.
func (s *Section) tucks(h held) {
	if h.way != Tuck && h.way != RiseFold {
		return
	}
	below := h.below
	for _, rows := range slices.Backward(h.folds) {
		s.Folds = append([]Fold{{Room: h.room, Way: h.way, Parts: h.parts, Rows: rows, Below: below}}, s.Folds...)
		below += rows + h.between
	}
}

// holdEdge notes the rows of an edge that are folded away.
func (s *Section) holdEdge(h held) {
	if n := h.edge(); n > 0 {
		s.Folds = append(s.Folds, Fold{Room: h.room, Way: h.way, Parts: h.parts, Rows: n})
		kind := "edge-" + string(h.way)
		if slices.Contains(h.parts, "front_opening") {
			kind += "-open"
		}
		s.step("held", kind, Values{"cm": sizing.Length(s.Gauge.HeightCm(n))})
	}
}

// holdLater notes the rows that a section gets once they are needed.
func (s *Section) holdLater(h held) {
	if n := h.later(); n > 0 {
		s.Folds = append(s.Folds, Fold{Room: h.room, Way: h.way, Parts: h.parts, Rows: n})
		s.step("held", "marked", Values{"stitches": s.To()})
	}
}

// straight works so many rows straight, with the folds across that the section has,
// which end where it does. The rows after them are of another kind where they end it.
func (s *Section) straight(rows int, kind, last string) {
	end, n := s.Rows()+rows, 0
	for _, f := range s.Folds {
		if f.Way != Tuck && f.Way != RiseFold {
			continue
		}
		n++
		if before := end - f.Below - f.Rows - s.Rows(); before > 0 {
			id := "straight"
			if n > 1 {
				id = numbered("between", n-1)
			}
			s.plain(before)
			s.add(Step{ID: id, Kind: kind, Values: Values{"rows": before, "stitches": s.To()}})
		}
		s.plain(f.Rows)
		s.step(numbered("tuck", n), "tuck", Values{"rows": f.Rows, "stitches": s.To(), "after": s.Rows() - f.Rows})
	}
	if rest := end - s.Rows(); rest > 0 {
		id := "straight"
		if n > 0 {
			id = "below-tuck"
		}
		s.plain(rest)
		s.add(Step{ID: id, Kind: last, Values: Values{"rows": rest, "stitches": s.To()}})
	}
}

// foldRows are the rows from the first fold across to the end of the section.
func (s *Section) foldRows() int {
	for _, f := range s.Folds {
		if f.Way == Tuck || f.Way == RiseFold {
			return f.Rows + f.Below
		}
	}
	return 0
}
