package plan

import (
	"fmt"

	"growtuck/sizing/stitch"
)

// yokeTarget is the yoke in finished measurements.
func (m *maker) yokeTarget(open bool) (stitch.YokeTarget, error) {
	w, err := m.wants("neck", "chest", "upper_arm", "armhole_depth")
	if err != nil {
		return stitch.YokeTarget{}, err
	}
	neck, chest, arm, hole := w["neck"], w["chest"], w["upper_arm"], w["armhole_depth"]
	underarm := chest.cm * stitch.UnderarmShare
	t := stitch.YokeTarget{
		Gauge:  m.g,
		NeckCm: neck.cm, NeckLeastCm: neck.leastCm, Neck: stitch.Even,
		BodyCm: chest.cm, BodyLeastCm: chest.leastCm, Body: even(m.bodyMultiple(!open)),
		SleeveCm: arm.cm, SleeveLeastCm: arm.leastCm, Sleeve: stitch.Even,
		// Half the underarm turns down into the side: the yoke is as much less deep.
		DepthCm: hole.cm - underarm/2, UnderarmCm: underarm,
		FrontOpening: open, PerRound: m.keep.perRound, Depth: stitch.Plain,
	}
	if t.DepthCm <= m.g.RowHeightCm() {
		return t, fmt.Errorf("an armhole of %s cm is too shallow for a yoke over a chest of %s cm", cm(hole.cm), cm(chest.cm))
	}
	t.DepthLeastCm = max(0, hole.leastCm-underarm/2)
	if m.how.Construction == Raglan {
		t.PerRound, t.RaglanAtOnce = 0, 2
	}
	if turned := open || m.needsSlit(neck.cm); turned {
		t.Depth = m.keep.rows
		t.RightSideOnly = m.rightSideOnly(false)
	}
	return t, nil
}

// needsSlit reports a neck that the head does not pass.
func (m *maker) needsSlit(neckCm float64) bool {
	head, ok := m.body("head")
	return ok && neckCm*max(1, m.how.Stretch["neck"]) < head
}

// yoke plans a circular yoke or a raglan and its split.
func (m *maker) yoke(open bool) (top, error) {
	t, err := m.yokeTarget(open)
	if err != nil {
		return top{}, err
	}
	var (
		sp         stitch.Split
		neck, rows int
		write      func(*Section) error
	)
	if m.how.Construction == Raglan {
		p, err := stitch.PlanRaglan(t)
		if err != nil {
			return top{}, err
		}
		m.p.Raglan, sp, neck, rows = &p, p.Split, p.Neck, p.Rows
		write = func(s *Section) error { return raglanRows(s, p) }
	} else {
		p, err := stitch.PlanCircularYoke(t)
		if err != nil {
			return top{}, err
		}
		m.p.Circular, sp, neck, rows = &p, p.Split, p.Neck, p.Rows
		write = func(s *Section) error { return circularRows(s, p) }
		if p.Lie.Lie() == stitch.Ruffles {
			m.note("The yoke gains %s stitches a row where %s lie flat: it ruffles a little. A deeper armhole would mend it.", cm(p.Lie.PerRound), cm(p.Lie.Flat))
		}
	}
	m.widthPart("neck", neck, false)
	slit := 0
	if !open {
		slit = m.slitRows(m.g.WidthCm(neck))
	}
	raised, err := m.raise(neck)
	if err != nil {
		return top{}, err
	}
	turned := open || slit > 0
	s := m.begin("yoke", "Yoke", neck, !turned)
	if err := write(s); err != nil {
		return top{}, err
	}
	if slit > 0 && slit < rows {
		s.say("join", "Leave the front open for {rows}; then join and go on in rounds.", slit)
	} else if slit > 0 {
		s.say("join", "Leave the front open, yoke and on into the body.")
	}
	m.split(s, sp)
	m.widthPart("chest", sp.Body, false)
	m.widthPart("upper_arm", sp.Sleeve, false)
	hole := stitch.ArmholeDepthCm(m.g.HeightCm(rows), m.g.WidthCm(sp.Underarm))
	m.sizePart("armhole_depth", hole)
	return top{open: open, slit: max(0, slit-rows), turned: open || slit > rows, body: sp.Body, sleeve: sp.Sleeve,
		back: raised + rows, front: rows}, nil
}

// circularRows writes the rows of a circular yoke.
func circularRows(s *Section, p stitch.YokePlan) error {
	s.say("rows", "Work {rows}, increasing in {} of them.", p.Rows, len(p.Rounds))
	at := 0
	for i, r := range p.Rounds {
		for ; at < r.Row-1; at++ {
			s.plain(1)
		}
		s.row(r.Stitches)
		at++
		a, err := p.Round(i)
		if err != nil {
			return err
		}
		l := across(lineID("increase", i+1), sentence(s.where())+" {}", a)
		l.Counts = append(counts(r.Row), l.Counts...)
		s.add(l)
	}
	s.plain(p.Rows - at)
	return nil
}

// raglanRows writes the rows of a raglan.
func raglanRows(s *Section, p stitch.RaglanPlan) error {
	if p.FrontOpening {
		s.say("mark", "Mark four lines: {} for the front, {} for the sleeve, {} for the back, {} for the sleeve, {} for the front.",
			p.NeckFront, p.NeckSleeve, p.NeckBack, p.NeckSleeve, p.NeckFront)
	} else {
		half := p.NeckFront / 2
		s.say("mark", "Mark four lines: {} for half the front, {} for the sleeve, {} for the back, {} for the sleeve, {} for the other half of the front.",
			half, p.NeckSleeve, p.NeckBack, p.NeckSleeve, p.NeckFront-half)
	}
	s.say("rows", "Work {rows}, increasing in {} of them.", p.Rows, len(p.Rounds))
	at := 0
	for i, r := range p.Rounds {
		for ; at < r.Row-1; at++ {
			s.plain(1)
		}
		s.row(r.Stitches)
		at++
		id, where := lineID("increase", i+1), sentence(s.where())+" {}: "
		switch {
		case r.Body > 0 && r.Sleeves > 0:
			s.say(id, where+"at each line increase {} on the body's side and {} on the sleeve's, to {stitches}", r.Row, r.Body, r.Sleeves, r.Stitches)
		case r.Body > 0:
			s.say(id, where+"at each line increase {} on the body's side, to {stitches}", r.Row, r.Body, r.Stitches)
		default:
			s.say(id, where+"at each line increase {} on the sleeve's side, to {stitches}", r.Row, r.Sleeves, r.Stitches)
		}
	}
	s.plain(p.Rows - at)
	return nil
}

// split words how the yoke is shared out.
func (m *maker) split(s *Section, sp stitch.Split) {
	const words = "Split: work {} of the front, put {} aside for a sleeve, add {} under the arm, work {} for the back, put {} aside, add {}, work {} of the front: {stitches} round the body."
	left, right := sp.Front, sp.Front
	if !sp.FrontOpening {
		left = sp.Front / 2
		right = sp.Front - left
	}
	s.say("split", words, left, sp.SleevePart, sp.Underarm, sp.Back, sp.SleevePart, sp.Underarm, right, sp.Body)
}
