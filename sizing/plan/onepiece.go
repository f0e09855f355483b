package plan

import (
	"fmt"
	"math"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
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
	torso := m.g.HeightCm(t.back+toWaist+seat) - w["body_length"].cm - w["rise"].cm
	openRows = m.openRows(t, m.followNeckDrop(w["front_opening"].cm)+torso, t.front+toWaist+seat)

	s := m.beginBody(t, "body", "body-to-waist")
	waist, err := m.sideShaping(t.body, w["waist"], toWaist, 1, true)
	if err != nil {
		return 0, 0, fmt.Errorf("waist: %w", err)
	}
	s.shape(waist)
	m.closeFront(s, openRows-t.front)
	m.widthPart("waist", s.To(), stitch.Even)

	s = m.begin("seat", waist.To(), false)
	wide := m.notBelow(w["hip"], m.g.WidthCm(waist.To())-m.practice("hip_under_waist").Value)
	down := min(max(m.pairsTo(waist.To(), wide), int(math.Round(float64(seat)*m.share("hip_share_of_rise")))), seat)
	hips, err := m.sideShaping(waist.To(), wide, down, 0, true)
	if err != nil {
		return 0, 0, fmt.Errorf("hip: %w", err)
	}
	s.shape(hips)
	if seat > down {
		s.plain(seat - down)
		s.step("straight", "straight-to-crotch", Values{"rows": seat - down, "stitches": hips.To()})
	}
	m.closeFront(s, openRows-t.front-toWaist)
	m.widthPart("hip", s.To(), stitch.Even)

	m.heightPart("body_length", t.back+toWaist, 0)
	m.heightPart("rise", seat, 0)
	m.heightPart("trunk", t.back+toWaist+seat, 0)
	m.heightPart("front_opening", openRows, 0)
	return s.To(), openRows, nil
}

// notBelow sets a floor to a target, as far as its fit allows.
func (m *maker) notBelow(t target, cm float64) target {
	high := t.leastCm - t.line.EaseLow + t.line.EaseHigh
	t.leastCm = max(t.leastCm, min(cm, high))
	t.cm = max(t.cm, t.leastCm)
	return t
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

// closeFront says where in a section the opening ends, if it does.
func (m *maker) closeFront(s *Section, rows int) {
	switch {
	case rows <= 0:
		s.step("open", "front-closed", nil)
	case rows < s.Rows():
		s.step("open", "front-open", Values{"rows": rows})
	}
}

// hood works a hood up from the neck.
func (m *maker) hood(neck int) error {
	w, err := m.targets("hood_round", "hood_height")
	if err != nil {
		return err
	}
	round, height := w["hood_round"], w["hood_height"]
	head := round.line.Body.Value
	p, err := stitch.PlanHood(stitch.HoodTarget{Gauge: m.g, Neck: neck, HeadCm: head, EaseCm: round.cm - head, HeightCm: height.cm, Shape: hoodShapes[m.how.Hood],
		BackShare: m.share("hood_back_share"), IncreaseCm: m.practice("hood_increase_height").Value, CrownShare: m.share("hood_crown_share")})
	if err != nil {
		return err
	}
	m.p.Hood = &p
	s := m.begin("hood", neck, false)
	s.step("pick-up", "pick-up-neck", Values{"stitches": neck})
	for i, r := range p.Increases {
		s.row(r.Stitches)
		s.step(numbered("increase", i+1), "hood-increase", Values{"row": r.Row, "change": r.Increase, "edge": p.EdgePlain, "to": r.Stitches})
	}
	s.plain(p.PlainRows)
	s.step("straight", "straight", Values{"rows": p.PlainRows, "stitches": p.Stitches})
	m.hoodTop(s, p)
	m.widthPart("hood_round", p.Stitches, stitch.Even)
	m.heightPart("hood_height", p.Rows, 0)
	return nil
}

// hoodTop closes the hood, whose sides end in section s.
func (m *maker) hoodTop(s *Section, p stitch.HoodPlan) {
	switch p.Shape {
	case stitch.StraightHood:
		s.step("seam", "hood-seam-point", Values{"half": p.SeamStitches})
	case stitch.PanelHood:
		s = m.begin("hood-panel", p.Panel, false)
		s.plain(p.PanelRows)
		s.step("panel", "hood-panel", Values{"panel": p.Panel, "rows": p.PanelRows, "each_side": p.Side})
	default:
		s = m.begin("hood-crown", p.Stitches, false)
		for r := 1; r <= p.Crown.Rows; r++ {
			s.row(p.Crown.StitchesAfter(r))
		}
		step := sidesShaped(p.Crown)
		step.Kind = "shape-middle-back"
		s.add(step)
		s.step("seam", "hood-seam", Values{"half": p.SeamStitches})
	}
}
