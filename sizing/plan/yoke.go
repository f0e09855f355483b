package plan

import (
	"fmt"
	"math"

	"growtuck/sizing/stitch"
)

// weights are those of stitch, but for the depth and the underarm, which
// together make the armhole, and whose fit has the narrowest range of all.
var weights = stitch.Weights{Neck: 2, Body: 4, Sleeve: 2, Depth: 2, Underarm: 1, Balance: 0.25, NeckSplit: 0.25, Rhythm: 1}

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
		DepthCm: m.yokeCm(hole.cm, underarm), UnderarmCm: underarm,
		FrontOpening: open, EdgeStitches: m.edgeStitches(), PerRound: m.common.perRound, Depth: stitch.Plain, Weights: weights,
		IncreaseMost: m.f.Practice("yoke_increase_most").Share(), SleeveNeckShare: m.f.Practice("raglan_sleeve_neck_share").Share(),
	}
	if t.DepthCm <= 0 {
		return t, fmt.Errorf("an armhole of %.1f cm is too shallow for a yoke over a chest of %.1f cm", hole.cm, chest.cm)
	}
	t.DepthLeastCm = max(0, m.yokeCm(hole.leastCm, underarm))
	if m.how.Construction == Raglan {
		t.PerRound = 0
		t.SleeveNeckShare = m.share("raglan_sleeve_neck_share")
	} else {
		t.IncreaseMost = m.share("yoke_increase_most")
	}
	if open || m.needsSlit(neck.cm) {
		m.turn(&t)
	}
	return t, nil
}

// turn lays a yoke out for turned rows.
func (m *maker) turn(t *stitch.YokeTarget) {
	t.Turned, t.Depth, t.RightSideOnly = true, m.common.rows, m.rightSideOnly(false)
}

// neckRows are the rows of the back of the neck that go round it.
const neckRows = 1

// holeCm is the depth of the armhole that a yoke of a depth below the back of the
// neck gives, and yokeCm the depth of the yoke that gives an armhole.
func (m *maker) holeCm(yokeCm, underarmCm float64) float64 {
	return stitch.ArmholeDepthCm(m.g.HeightCm(neckRows)+yokeCm, underarmCm)
}

func (m *maker) yokeCm(holeCm, underarmCm float64) float64 {
	return holeCm - underarmCm/2 - m.g.HeightCm(neckRows)
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
	if !t.Turned && m.needsSlit(m.g.WidthCm(y.neck)) { // its neck came out under what was asked for
		m.turn(&t)
		if y, err = m.planYoke(t); err != nil {
			return top{}, err
		}
	}
	sp, neck, rows := y.split, y.neck, y.rows
	m.openWidthPart("neck", neck, stitch.Even)
	slit := 0
	if !open {
		slit = m.slitRows(m.g.WidthCm(neck))
	}
	turned := open || slit > 0
	back, front, err := m.raise(neck, rows, !turned)
	if err != nil {
		return top{}, err
	}
	if slit > 0 {
		slit = max(1, slit-front)
	}
	s := m.begin("yoke", neck, !turned)
	if slit > 0 && slit < rows { // said before the first row, so that nobody joins it
		s.step("join", "slit-join", Values{"open_rows": slit})
	} else if slit > 0 {
		s.step("join", "slit-through", nil)
	}
	y.write(s)
	m.openWidthPart("chest", sp.Body, t.Body)
	m.widthPart("upper_arm", sp.Sleeve, stitch.Even)
	hole := stitch.ArmholeDepthCm(m.g.HeightCm(front+rows), m.g.WidthCm(sp.Underarm))
	m.sizePart("armhole_depth", hole)
	return top{open: open, slit: max(0, slit-rows), turned: open || slit > rows, band: turned, body: sp.Body, sleeve: sp.Sleeve, split: &sp,
		back: back + rows, front: front + rows}, nil
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

// armholeOff is what an armhole more than a row off costs, beside the yoke's own
// errors in cm². A judgement.
const armholeOff = 0.5

// planYoke plans the yoke.
func (m *maker) planYoke(t stitch.YokeTarget) (shapedYoke, error) {
	hole, least := m.holeCm(t.DepthCm, t.UnderarmCm), m.holeCm(t.DepthLeastCm, t.UnderarmCm)
	best, err := m.flatYoke(t)
	if err != nil {
		return best, err
	}
	// An armhole more than a row off is weighed against what other underarms cost.
	row := m.g.RowHeightCm()
	score := func(y shapedYoke) float64 {
		off := math.Abs(m.holeCm(m.g.HeightCm(y.rows), m.g.WidthCm(y.split.Underarm))-hole) - row
		if off <= 1e-9 {
			return y.cost
		}
		return y.cost + armholeOff + off*off/(row*row)
	}
	var shares []float64
	if score(best) > best.cost {
		shares = m.underarmShares()
	}
	for _, share := range shares {
		t.UnderarmCm = t.BodyCm * share
		t.DepthCm, t.DepthLeastCm = m.yokeCm(hole, t.UnderarmCm), max(0, m.yokeCm(least, t.UnderarmCm))
		if t.DepthCm <= 0 {
			continue
		}
		if y, err := m.flatYoke(t); err == nil && score(y) < score(best)-1e-9 {
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
	c, err := stitch.CheckCircle(m.g, float64(max(0, y.split.Yoke-y.neck))/float64(neckRows+y.rows))
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
func (y shapedYoke) write(s *Section) {
	if y.raglan != nil {
		raglanRows(s, *y.raglan)
	} else {
		circularRows(s, *y.circular)
	}
}

// circularRows writes the rows of a circular yoke.
func circularRows(s *Section, p stitch.YokePlan) {
	s.step("rows", "yoke-rows", Values{"rows": p.Rows, "increase_rows": len(p.Rounds)})
	for i, phase := range p.Phases {
		s.repeat(numbered("increase", i+1), "yoke-repeat", phase)
	}
	yokeRest(s, p.Rows)
}

// yokeRest works the yoke plain to its last row.
func yokeRest(s *Section, rows int) {
	if left := rows - s.Rows(); left > 0 {
		s.plain(left)
		s.step("rest", "yoke-rest", Values{"rows": left, "to": s.To()})
	}
}

// raglanRows writes the rows of a raglan.
func raglanRows(s *Section, p stitch.RaglanPlan) {
	if p.FrontOpening {
		s.step("mark", "raglan-lines-open", Values{"front": p.NeckFront, "sleeve": p.NeckSleeve, "back": p.NeckBack})
	} else {
		half := p.NeckFront / 2
		s.step("mark", "raglan-lines", Values{"front": half, "sleeve": p.NeckSleeve, "back": p.NeckBack, "other_front": p.NeckFront - half})
	}
	rows := 0
	for _, phase := range p.Phases {
		rows += phase.Times
	}
	s.step("rows", "yoke-rows", Values{"rows": p.Rows, "increase_rows": rows})
	for i, phase := range p.Phases {
		s.raglanPhase(numbered("increase", i+1), phase)
	}
	yokeRest(s, p.Rows)
}

// raglanPhase adds rows of a raglan that increase alike, up to the last of them,
// and their step.
func (s *Section) raglanPhase(id string, p stitch.RaglanPhase) {
	for i := range p.Times {
		s.plain(p.RowOf(i) - 1 - s.Rows())
		s.row(p.After(i))
	}
	v := Values{"row": p.Row, "every": p.Every, "times": p.Times, "from": p.From, "first_to": p.After(0), "to": p.To(), "last": p.Last(),
		"body": p.Body, "sleeve": p.Sleeves, "apart": p.Apart, "change": p.Gain()}
	s.step(id, raglanKind(p), v)
}

// raglanKind says which parts a raglan's rows widen.
func raglanKind(p stitch.RaglanPhase) string {
	switch {
	case max(p.Body, p.Sleeves) > 1:
		return "raglan-repeat-two"
	case p.Sleeves == 0:
		return "raglan-repeat-body"
	case p.Body == 0:
		return "raglan-repeat-sleeves"
	}
	return "raglan-repeat"
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
