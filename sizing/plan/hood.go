package plan

import "growtuck/sizing/stitch"

// hood works a hood up from the neck.
func (m *maker) hood(neck int) error {
	w, err := m.targets("hood_round", "hood_height")
	if err != nil {
		return err
	}
	round, height := w["hood_round"], w["hood_height"]
	head := round.line.Body.Value
	both := 2 * m.edges.depthCm // the edges of the face
	p, err := stitch.PlanHood(stitch.HoodTarget{Gauge: m.g, Neck: neck, RoundCm: round.cm - both, RoundLeastCm: m.share("hood_least")*head - both,
		HeightCm: height.cm, CrownCm: m.share("hood_crown_height") * head, Shape: hoodShapes[m.how.Hood], RightSideOnly: m.rightSideOnly(false),
		BackShare: m.share("hood_back_share"), GrowthMost: m.share("hood_growth_most"), IncreaseCm: m.practice("hood_increase_height").Value, CrownShare: m.share("hood_crown_share")})
	if err != nil {
		return err
	}
	m.p.Hood = &p
	s := m.begin("hood", neck, false)
	pickUp := "hood-pick-up"
	if m.onTube() {
		pickUp = "hood-from-tube"
	}
	s.step("pick-up", pickUp, Values{"stitches": neck})
	if n := len(p.Increases); n > 0 {
		s.step("rows", "hood-rows", Values{"rows": p.Increases[n-1].Row, "increase_rows": n})
	}
	at := 0
	for i, r := range p.Increases {
		s.plain(r.Row - 1 - at)
		s.row(r.After())
		at = r.Row
		step := rowShaped(numbered("increase", i+1), "row", r.Across)
		step.Values["row"] = r.Row
		s.add(step)
	}
	if at == 0 {
		s.plain(1)
	}
	s.plain(p.PlainRows)
	s.step("straight", "straight", Values{"rows": p.PlainRows, "stitches": p.Stitches})
	m.hoodTop(s, p)
	m.record(Part{Count: p.Stitches, Unit: "stitches", Multiple: stitch.Even, SizeCm: m.g.WidthCm(p.Stitches) + both, EdgesCm: both}, "hood_round")
	m.heightPart("hood_height", p.Rows, 0)
	return m.faceEdge(s, p)
}

// hoodTop closes the hood, whose sides end in section s.
func (m *maker) hoodTop(s *Section, p stitch.HoodPlan) {
	switch p.Shape {
	case stitch.StraightHood:
		s.step("seam", "hood-seam-point", Values{"half": p.SeamStitches})
		m.note("hood-has-point")
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

// faceEdge edges the face of a hood whose sides are worked in section sides, in
// one with the front edges.
func (m *maker) faceEdge(sides *Section, p stitch.HoodPlan) error {
	rows, kind := p.Rows, "hood-edge"
	panel := 0
	if p.Shape == stitch.PanelHood {
		rows, panel, kind = sides.Rows(), p.Panel, "hood-edge-panel"
	}
	if m.onTube() {
		kind += "-alone"
	}
	side, err := stitch.PlanPickUp(rows, m.g, m.g, stitch.Plain)
	if err != nil {
		return err
	}
	s := m.begin("hood-edge", 2*side.Stitches+panel, false)
	s.plain(m.edges.rows)
	s.add(Step{ID: "edge", Kind: kind, PickUp: &side,
		Values: Values{"each": side.Stitches, "panel": panel, "stitches": s.From, "rows": m.edges.rows}})
	return nil
}

// onTube reports a hood that stands on a tube for the neck, not on a garment.
func (m *maker) onTube() bool { return m.f.Garment.Group == "head" }
