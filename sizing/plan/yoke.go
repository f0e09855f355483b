package plan

import (
	"fmt"
	"math"

	"growtuck/sizing/stitch"
)

// weights are those of stitch, but for the depth and the underarm, which
// together make the armhole, and whose fit has the narrowest range of all.
var weights = stitch.Weights{Neck: 2, Body: 4, Sleeve: 2, Depth: 2, Underarm: 1, Balance: 0.25, NeckSplit: 0.25}

// yokeTarget is the yoke in finished measurements.
func (m *maker) yokeTarget(open bool) (stitch.YokeTarget, error) {
	w, err := m.targets("neck", "chest", "upper_arm", "armhole_depth")
	if err != nil {
		return stitch.YokeTarget{}, err
	}
	arm, hole := w["upper_arm"], w["armhole_depth"]
	underarm := w["chest"].cm * m.share("underarm_share")
	neck, chest := w["neck"].fabric(m.edges.girthCm), w["chest"].fabric(m.edges.girthCm)
	t := stitch.YokeTarget{
		Gauge:  m.g,
		NeckCm: neck.cm, NeckLeastCm: neck.leastCm, Neck: stitch.Even,
		BodyCm: chest.cm, BodyLeastCm: chest.leastCm, Body: even(m.bodyMultiple(!open)),
		SleeveCm: arm.cm, SleeveLeastCm: arm.leastCm, Sleeve: stitch.Even,
		// Half the underarm turns down into the side: the yoke is as much less deep.
		DepthCm: hole.cm - underarm/2, UnderarmCm: underarm,
		FrontOpening: open, EdgeStitches: m.edgeStitches(), PerRound: m.common.perRound, Depth: stitch.Plain, Weights: weights,
		IncreaseMost: m.f.Practice("yoke_increase_most").Share(), SleeveNeckShare: m.f.Practice("raglan_sleeve_neck_share").Share(),
	}
	if t.DepthCm <= m.g.RowHeightCm() {
		return t, fmt.Errorf("an armhole of %.1f cm is too shallow for a yoke over a chest of %.1f cm", hole.cm, chest.cm)
	}
	t.DepthLeastCm = max(0, hole.leastCm-underarm/2)
	if m.how.Construction == Raglan {
		t.PerRound, t.RaglanAtOnce = 0, 2
		t.SleeveNeckShare = m.share("raglan_sleeve_neck_share")
	} else {
		t.IncreaseMost = m.share("yoke_increase_most")
	}
	if turned := open || m.needsSlit(neck.cm); turned {
		t.Depth = m.common.rows
		t.RightSideOnly = m.rightSideOnly(false)
	}
	return t, nil
}

// needsSlit reports a neck that the head does not pass.
func (m *maker) needsSlit(neckCm float64) bool {
	head, ok := m.passes("neck")
	return ok && neckCm*max(1, m.how.Stretch["neck"]) < head.cm
}

// yoke plans a circular yoke or a raglan and its split.
func (m *maker) yoke(open bool) (top, error) {
	t, err := m.yokeTarget(open)
	if err != nil {
		return top{}, err
	}
	y, err := m.planYoke(t)
	if err != nil {
		return top{}, err
	}
	sp, neck, rows := y.split, y.neck, y.rows
	m.openWidthPart("neck", neck, stitch.Even)
	slit := 0
	if !open {
		slit = m.slitRows(m.g.WidthCm(neck))
	}
	raised, err := m.raise(neck, rows)
	if err != nil {
		return top{}, err
	}
	turned := open || slit > 0
	s := m.begin("yoke", neck, !turned)
	if slit > 0 && slit < rows { // said before the first row, so that nobody joins it
		s.step("join", "slit-join", Values{"open_rows": slit})
	} else if slit > 0 {
		s.step("join", "slit-through", nil)
	}
	if err := y.write(s); err != nil {
		return top{}, err
	}
	m.openWidthPart("chest", sp.Body, t.Body)
	m.widthPart("upper_arm", sp.Sleeve, stitch.Even)
	hole := stitch.ArmholeDepthCm(m.g.HeightCm(rows), m.g.WidthCm(sp.Underarm))
	m.sizePart("armhole_depth", hole)
	return top{open: open, slit: max(0, slit-rows), turned: open || slit > rows, band: turned, body: sp.Body, sleeve: sp.Sleeve, onHold: sp.SleevePart,
		split: &sp, back: raised + rows, front: rows}, nil
}

// A shapedYoke is a circular yoke or a raglan.
type shapedYoke struct {
	circular   *stitch.YokePlan   // one of the two
	raglan     *stitch.RaglanPlan // is nil
	split      stitch.Split
	neck, rows int
	deeper     int // rows more than asked for, so that it does not ruffle
	cost       float64
}

// planYoke plans the yoke.
func (m *maker) planYoke(t stitch.YokeTarget) (shapedYoke, error) {
	hole := stitch.ArmholeDepthCm(t.DepthCm, t.UnderarmCm)
	least := stitch.ArmholeDepthCm(t.DepthLeastCm, t.UnderarmCm)
	best, err := m.flatYoke(t)
	if err != nil {
		return best, err
	}
	off := func(y shapedYoke) float64 {
		return math.Abs(stitch.ArmholeDepthCm(m.g.HeightCm(y.rows), m.g.WidthCm(y.split.Underarm)) - hole)
	}
	var shares []float64
	if off(best) > m.g.RowHeightCm() {
		shares = m.underarmShares()
	}
	for _, share := range shares {
		if off(best) <= m.g.RowHeightCm() {
			break
		}
		t.UnderarmCm = t.BodyCm * share
		t.DepthCm, t.DepthLeastCm = hole-t.UnderarmCm/2, max(0, least-t.UnderarmCm/2)
		if t.DepthCm <= 0 {
			continue
		}
		if y, err := m.flatYoke(t); err == nil && off(y) < off(best)-1e-9 && y.cost < best.cost+1 {
			best = y
		}
	}
	if m.ruffles(best) {
		m.note("yoke-ruffles")
	} else if best.deeper > 0 {
		m.note("yoke-deeper", best.deeper)
	}
	m.p.Circular, m.p.Raglan = best.circular, best.raglan
	return best, nil
}

// flatYoke plans the yoke, deeper than asked for where it would ruffle.
func (m *maker) flatYoke(t stitch.YokeTarget) (shapedYoke, error) {
	y, err := m.tryYoke(t)
	if err != nil {
		return y, err
	}
	usual := y.rows
	for m.ruffles(y) && y.rows < usual+int(m.practice("yoke_deeper_most").Value) {
		t.DepthLeastCm = m.g.HeightCm(y.rows + 1)
		t.DepthCm = max(t.DepthCm, t.DepthLeastCm)
		next, err := m.tryYoke(t)
		if err != nil || next.rows <= y.rows {
			break
		}
		y = next
	}
	y.deeper = y.rows - usual
	return y, nil
}

func (m *maker) ruffles(y shapedYoke) bool {
	c, err := stitch.CheckCircle(m.g, float64(max(0, y.split.Yoke-y.neck))/float64(y.rows))
	return err == nil && c.Lie(m.share("flat_tolerance")) == stitch.Ruffles
}

func (m *maker) tryYoke(t stitch.YokeTarget) (shapedYoke, error) {
	if m.how.Construction == Raglan {
		p, err := stitch.PlanRaglan(t)
		return shapedYoke{raglan: &p, split: p.Split, neck: p.Neck, rows: p.Rows, cost: p.Cost.Total()}, err
	}
	p, err := stitch.PlanCircularYoke(t)
	return shapedYoke{circular: &p, split: p.Split, neck: p.Neck, rows: p.Rows, cost: p.Cost.Total()}, err
}

// write writes the rows.
func (y shapedYoke) write(s *Section) error {
	if y.raglan != nil {
		return raglanRows(s, *y.raglan)
	}
	return circularRows(s, *y.circular)
}

// circularRows writes the rows of a circular yoke.
func circularRows(s *Section, p stitch.YokePlan) error {
	s.step("rows", "yoke-rows", Values{"rows": p.Rows, "increase_rows": len(p.Rounds)})
	at := 0
	for i, r := range p.Rounds {
		s.plain(r.Row - 1 - at)
		s.row(r.Stitches)
		at = r.Row
		a, err := p.Round(i)
		if err != nil {
			return err
		}
		step := rowShaped(numbered("increase", i+1), "row", a)
		step.Values["row"] = r.Row
		s.add(step)
	}
	s.plain(p.Rows - at)
	return nil
}

// raglanRows writes the rows of a raglan.
func raglanRows(s *Section, p stitch.RaglanPlan) error {
	if p.FrontOpening {
		s.step("mark", "raglan-lines-open", Values{"front": p.NeckFront, "sleeve": p.NeckSleeve, "back": p.NeckBack})
	} else {
		half := p.NeckFront / 2
		s.step("mark", "raglan-lines", Values{"front": half, "sleeve": p.NeckSleeve, "back": p.NeckBack, "other_front": p.NeckFront - half})
	}
	s.step("rows", "yoke-rows", Values{"rows": p.Rows, "increase_rows": len(p.Rounds)})
	at := 0
	for i, r := range p.Rounds {
		s.plain(r.Row - 1 - at)
		s.row(r.Stitches)
		at = r.Row
		s.step(numbered("increase", i+1), "raglan-increase", Values{"row": r.Row, "body": r.Body, "sleeve": r.Sleeves, "to": r.Stitches})
	}
	s.plain(p.Rows - at)
	return nil
}

// divide divides the yoke between body and sleeves, in the first row of the body.
func divide(s *Section, sp stitch.Split) {
	left, right := sp.Front, sp.Front
	if !sp.FrontOpening {
		left = sp.Front / 2
		right = sp.Front - left
	}
	s.step("split", "divide", Values{"front": left, "on_hold": sp.SleevePart, "cast_on": sp.Underarm, "back": sp.Back, "other_front": right, "body": sp.Body, "worked": sp.Body - 2*sp.Underarm})
}
