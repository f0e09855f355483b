package plan

import (
	"fmt"
	"math"

	"growtuck/sizing"
)

// onePiece plans body and legs in one, opening down the front.
func (m *maker) onePiece() error {
	t, err := m.top(true)
	if err != nil {
		return err
	}
	hip, frontRows, err := m.trunk(t)
	if err != nil {
		return err
	}
	if err := m.legs(hip); err != nil {
		return err
	}
	if err := m.sleevesOrBands(t); err != nil {
		return err
	}
	if m.hasPart("hood_round") {
		if err := m.hood(m.neckCount()); err != nil {
			return err
		}
	} else {
		m.neckband(m.neckCount(), true)
	}
	return m.front(frontRows, 0)
}

// trunk works the body from the underarm over waist and hips to the crotch. It
// returns the stitches there and the rows of the front opening.
func (m *maker) trunk(t top) (hip, openRows int, err error) {
	w, err := m.targets("waist", "hip", "body_length", "rise", "trunk", "front_opening")
	if err != nil {
		return 0, 0, err
	}
	toWaist, seat, err := m.trunkRows(t, w)
	if err != nil {
		return 0, 0, err
	}
	h, err := m.hold(holdAt{room: BodyRoom, parts: []string{"trunk", "rise"}, inRounds: true, below: m.f.Practice("tuck_from_crotch"), fits: func(need int) string {
		if seat-need < m.wholeRows(m.f.Practice("tuck_from_waist"), 1) {
			return "the seat is too low for a tuck between hips and crotch"
		}
		return ""
	}})
	if err != nil {
		return 0, 0, err
	}
	torso := m.g.HeightCm(t.back+toWaist+seat) - w["body_length"].cm - w["rise"].cm
	if h.way == Tuck { // the opening ends above it and keeps its length
		torso -= m.roomCm("front_opening")
	}
	open := m.openRows(t, m.followNeckDrop(w["front_opening"].cm)+torso, t.front+toWaist+seat) - t.front // below the underarm

	waist, err := m.toWaist(t, w["waist"], toWaist, open)
	if err != nil {
		return 0, 0, fmt.Errorf("waist: %w", err)
	}
	hip, open, err = m.seat(waist, m.notNarrower(w["hip"]), toWaist, seat, open, h)
	if err != nil {
		return 0, 0, fmt.Errorf("hip: %w", err)
	}
	m.heightPart("body_length", t.back+toWaist, 0)
	m.heightPart("rise", seat, 0)
	m.heightPart("trunk", t.back+toWaist+seat, 0)
	if h.way == Tuck {
		d := m.p.departures["front_opening"]
		if l, ok := m.f.Line("front_opening"); ok {
			d.cm = m.g.HeightCm(t.front+open) - l.Finished
		}
		d.why = sizing.NewFact("opening-above-tuck")
		m.p.departures["front_opening"] = d
		m.noteFact(d.why)
	}
	m.heightPart("front_opening", t.front+open, 0)
	return hip, t.front + open, nil
}

// toWaist works from the underarm to the waist, open in front over the first of
// its rows or over all.
func (m *maker) toWaist(t top, waist target, rows, open int) (stitches int, err error) {
	s := m.beginBody(t, "body", "body-to-waist")
	if open >= rows {
		sc, err := m.sideShaping(t.body, waist.fabric(m.edges.girthCm), rows, 1, true)
		if err != nil {
			return 0, err
		}
		s.shape(sc)
		m.openWidthPart("waist", s.To(), pairs(s.To()))
		return s.To(), nil
	}
	s.Kind = "body-beside-opening"
	s.plain(open)
	s.step("straight", "straight", Values{"rows": open, "stitches": s.To()})
	s = m.closeFronts("body-closed", s.To())
	sc, err := m.sideShaping(s.From, waist, rows-open, 1, false)
	if err != nil {
		return 0, err
	}
	s.shape(sc)
	m.widthPart("waist", s.To(), pairs(s.To()))
	return s.To(), nil
}

// seat works from the waist to the crotch. The opening, of so many rows from
// the underarm, ends in it or above. It returns the stitches round the hips and
// the rows of the opening, which does not end where the sides are shaped.
func (m *maker) seat(waist int, hip target, toWaist, rows, open int, h held) (stitches, opened int, err error) {
	all, clear := rows, 1 // rows below the opening, above what comes next
	if h.way == Tuck {
		rows -= h.need()
		clear = m.wholeRows(m.f.Practice("tuck_from_opening"), 1)
	}
	inSeat := open - toWaist
	from, between := waist, 0
	switch {
	case inSeat == 0:
		from += m.edgeStitches()
	case inSeat > 0:
		between = m.edgeStitches()
	}
	down := min(max(m.pairsTo(from+between, hip), int(math.Round(float64(rows)*m.share("hip_share_of_rise")))), rows)
	if inSeat > 0 {
		if down > inSeat {
			down = max(inSeat, min(down, m.pairsTo(from+between, hip)))
		}
		inSeat = max(1, min(max(inSeat, down), rows-clear))
		if kept := m.common.rows; rows > 3 && !kept.Has(inSeat) { // the next part begins on the right side, in all sizes
			if inSeat++; inSeat > rows-clear {
				inSeat -= 2
			}
		}
		down = min(down, inSeat)
	}
	var s *Section
	joins := 0
	if inSeat == 0 {
		s, joins = m.closeFronts("seat", waist), 1
	} else {
		s = m.begin("seat", waist, inSeat < 0)
	}
	round := target{line: hip.line, cm: hip.cm - m.g.WidthCm(between), leastCm: max(hip.leastCm-m.g.WidthCm(between), 0.1)}
	sc, err := m.sideShaping(from, round, down, joins, inSeat > 0)
	if err != nil {
		return 0, 0, err
	}
	s.shape(sc)
	left := all - down
	if inSeat > 0 {
		s.Kind = "seat-beside-opening"
		if more := inSeat - down; more > 0 {
			s.plain(more)
			s.step("straight", "straight", Values{"rows": more, "stitches": s.To()})
		}
		s = m.closeFronts("seat-closed", s.To())
		left, open = all-inSeat, toWaist+inSeat
	}
	s.tucks(h)
	s.straight(left, "straight", "straight-to-crotch")
	m.widthPart("hip", s.To(), pairs(s.To()))
	return s.To(), open, nil
}

// notNarrower raises the hips of a one-piece to what is planned above them, so
// that the seat is nowhere narrower than waist or chest.
func (m *maker) notNarrower(hip target) target {
	above := 0.0
	for _, p := range m.parts {
		if part := p.Line.Part.Part; part == "chest" || part == "waist" {
			above = max(above, p.SizeCm)
		}
	}
	if above > hip.cm {
		m.depart("hip", above-hip.cm, "hip-not-narrower")
		hip.cm = above
	}
	hip.leastCm = max(hip.leastCm, above)
	return hip
}

// trunkRows shares the rows between underarm and crotch. Nape to waist, rise
// and trunk are three measurements of two lengths: where they do not agree,
// each misses a third.
func (m *maker) trunkRows(t top, w map[string]target) (toWaist, seat int, err error) {
	back, rise, trunk := w["body_length"], w["rise"], w["trunk"]
	differ := trunk.cm - back.cm - rise.cm
	if math.Abs(differ) > seenCm {
		m.note("trunk-lengths-differ", sizing.Length(back.cm+rise.cm), sizing.Length(trunk.cm))
	}
	above := m.g.HeightCm(t.back)
	if toWaist, err = m.rows(max(back.cm+differ/3-above, m.g.RowHeightCm()), max(back.leastCm-above, 0), false); err != nil {
		return 0, 0, err
	}
	waistCm := above + m.g.HeightCm(toWaist)
	want := (rise.cm + trunk.cm - waistCm) / 2
	least := max(rise.leastCm, trunk.leastCm-waistCm)
	if least > want {
		want = least
	}
	seat, err = m.rows(want, least, false)
	return toWaist, seat, err
}

// openRows is the length of the front opening, which grows with the torso and
// ends above the crotch.
func (m *maker) openRows(t top, wantCm float64, frontRows int) int {
	n := int(math.Round(m.g.Rows(wantCm)))
	return min(max(n, t.front+1), frontRows-1)
}
