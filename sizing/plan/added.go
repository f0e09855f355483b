package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/sizing/stitch"
)

// An Added is a part sewn to the garment, as planned.
type Added struct {
	Addition
	Row     data.AddedPart
	Piece   stitch.Piece // one of them
	Zone    string       // of the garment, as a draft names it
	FillG   float64      // to fill all of them, grams
	YarnG   float64      // in all of them; 0 where no swatch was weighed
	Section *Section
}

// HangsCm is how far it stands out or hangs down.
func (a Added) HangsCm() float64 {
	if a.Row.Folded == "yes" {
		return a.Piece.WidthCm / 2
	}
	return a.Piece.HeightCm
}

// additions plans the parts that are sewn on, once the garment is planned.
func (m *maker) additions() error {
	for _, a := range m.how.Add {
		if err := m.addition(a); err != nil {
			return fmt.Errorf("add %s: %w", a.Name(), err)
		}
	}
	return nil
}

func (m *maker) addition(a Addition) error {
	row, err := m.f.AddedPart(a.Kind)
	if err != nil {
		return err
	}
	where, err := m.placeOf(row, a)
	if err != nil {
		return err
	}
	a.Place = where.place
	if a.HeightCm == 0 {
		a.HeightCm = a.WidthCm * row.HeightShare / 100
	}
	if err := m.hangsClear(row, where, a); err != nil {
		return err
	}
	target := stitch.PieceTarget{Gauge: m.g, Shape: stitch.Shape(row.Shape), WidthCm: a.WidthCm, HeightCm: a.HeightCm, Every: 1}
	if m.how.Craft == Knit {
		target.Every = 2
	}
	if row.Folded == "yes" { // the width of the fabric is twice the width that is seen
		target.WidthCm, target.HeightCm = 2*min(a.WidthCm, a.HeightCm), max(a.WidthCm, a.HeightCm)
	}
	piece, err := stitch.PlanPiece(target)
	if err != nil {
		return err
	}
	if a.Pieces == 0 {
		a.Pieces = m.usualPieces(row, where, piece)
	}
	s := m.piece(row, a, piece)
	added := Added{Addition: a, Row: row, Piece: piece, Zone: where.zone, Section: s}
	if row.Filled == "yes" {
		volumeCm3 := piece.VolumeCm3
		if volumeCm3 == 0 { // a flat piece, filled to a third of its width
			volumeCm3 = math.Pi / 4 * piece.WidthCm * piece.HeightCm * piece.WidthCm / 3
		}
		added.FillG = volumeCm3 / 1000 * m.practice("added_fill").Value * float64(a.Pieces)
	}
	if perCm2, ok := m.gramsPerCm2(); ok {
		added.YarnG = s.AreaCm2() * perCm2
	}
	m.finishPiece(s, added)
	if err := m.sewOn(s, where, a, piece); err != nil {
		return err
	}
	m.p.Added = append(m.p.Added, added)
	return nil
}

// usualPieces is how many there usually are of a kind, as far as there is room.
func (m *maker) usualPieces(row data.AddedPart, w where, p stitch.Piece) int {
	n := int(row.Pieces)
	switch {
	case w.begins || w.place == "seat":
		return 1
	case w.each:
		return 2
	case n > 2:
		return min(n, max(1, int(m.g.HeightCm(m.line(w).Rows())/p.WidthCm)))
	}
	return n
}

// piece lays out the rounds of a piece as a section.
func (m *maker) piece(row data.AddedPart, a Addition, p stitch.Piece) *Section {
	id := row.ID
	if slices.ContainsFunc(m.p.Sections, func(s *Section) bool { return s.ID == id }) {
		id += "-" + a.Place
	}
	s := m.begin(id, p.Counts[0], true)
	s.Kind, s.Copies = row.ID, a.Pieces
	if p.Foundation > 0 {
		s.step("start", "start-oval", Values{"cast_on": p.Foundation, "chain": p.Foundation + 1, "first": p.PerShaping/2 - 1, "straight": p.Foundation - 2, "curve": p.PerShaping / 2,
			"other_side": p.Counts[0] - p.Foundation, "stitches": p.Counts[0]})
	} else {
		s.step("start", "start-ring", Values{"cast_on": p.Counts[0]})
	}
	s.row(p.Counts[0])
	for r := 1; r < p.Rounds(); {
		from, to := p.Counts[r-1], p.Counts[r]
		if from != to {
			step := rowShaped(numbered("round", r+1), "row", across(p, from, to))
			step.Values["row"] = r + 1
			s.row(to)
			s.add(step)
			r++
			continue
		}
		n := 1
		for r+n < p.Rounds() && p.Counts[r+n] == to {
			n++
		}
		s.plain(n)
		rows := n
		if r == 1 { // those of the first round are among them
			rows++
		}
		s.step(numbered("straight", r+1), "straight-on", Values{"rows": rows, "stitches": to})
		r += n
	}
	return s
}

// across is a shaping round of a piece: of an oval at its ends, of others evenly.
func across(p stitch.Piece, from, to int) stitch.Across {
	if p.Foundation > 0 {
		return stitch.Ends(from, p.Foundation-2, to-from)
	}
	a, err := stitch.ShapeAcross(from, to-from, true)
	if err != nil { // no round of a piece more than doubles or less than halves
		panic(err)
	}
	return a
}

// finishPiece fills and closes a piece.
func (m *maker) finishPiece(s *Section, a Added) {
	if a.FillG > 0 {
		s.step("fill", "fill", Values{"grams": a.FillG / float64(a.Pieces), "volume": a.FillG / float64(a.Pieces) / m.practice("added_fill").Value * 1000})
	}
	if a.Piece.Shape == stitch.Sphere {
		s.step("gather", "gather", Values{"stitches": s.To()})
		return
	}
	if a.Row.Folded == "yes" {
		s.step("fold", "fold-in-half", Values{})
	}
	s.step("finish", "finish-piece", Values{})
}

// gramsPerCm2 is the weight of the fabric, where its swatch says it.
func (m *maker) gramsPerCm2() (float64, bool) {
	y, b := m.how.Swatch, m.how.Ball
	grams := y.Grams
	if grams == 0 && b.Metres > 0 {
		grams = y.Metres * b.Grams / b.Metres
	}
	area := y.WidthCm * y.HeightCm
	return grams / area, grams > 0 && area > 0
}

// hangsClear refuses what would reach the floor or trip the child.
func (m *maker) hangsClear(row data.AddedPart, w where, a Addition) error {
	if row.Field != "tail" {
		return nil
	}
	leg, ok := m.body("inside_leg")
	if !ok {
		m.note("added-leg-unknown", a.Kind)
		return nil
	}
	most := max(0, leg-max(m.practice("stair_rise").Value, m.practice("floor_clear").Value))
	if a.HeightCm <= most {
		return nil
	}
	return &HangsError{Kind: row.ID, LengthCm: a.HeightCm, MostCm: most, LegCm: leg}
}

// A HangsError is a part that would hang too low on the child.
type HangsError struct {
	Kind                    string
	LengthCm, MostCm, LegCm float64
}

func (e *HangsError) Error() string {
	return fmt.Sprintf("%s cm long: want at most %s cm, so that it clears the floor and the stair behind the child (inside leg %s cm)",
		exact(e.LengthCm), exact(math.Floor(e.MostCm*10)/10), exact(e.LegCm))
}

// loads notes what the parts at a hood do to it.
func (m *maker) loads() {
	hood := 0.0
	for _, s := range m.p.Sections {
		if strings.HasPrefix(s.ID, "hood") {
			hood += s.AreaCm2()
		}
	}
	perCm2, weighed := m.gramsPerCm2()
	grams, any := 0.0, false
	for _, a := range m.p.Added {
		if a.Zone == "hood" || a.Zone == "face" {
			any, grams = true, grams+a.FillG+a.YarnG
		}
	}
	if !any || hood == 0 {
		return
	}
	if !weighed {
		m.note("added-weight-unknown")
		return
	}
	share := grams / (hood * perCm2)
	most := m.practice("added_weight_most").Share()
	if share > most {
		m.note("added-heavy", grams, hood*perCm2, most)
		return
	}
	m.note("added-weight", grams, hood*perCm2)
}

// Adds reports a section that is a part sewn on.
func (p *Plan) Adds(s *Section) bool {
	return slices.ContainsFunc(p.Added, func(a Added) bool { return a.Section == s })
}

// Filling is the grams of stuffing for all parts that are filled.
func (p *Plan) Filling() float64 {
	sum := 0.0
	for _, a := range p.Added {
		sum += a.FillG
	}
	return sum
}
