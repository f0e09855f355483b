package plan

import (
	"math"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// dropShoulder plans a top whose front and back are rectangles; the sleeves
// are picked up along their sides.
func (m *maker) dropShoulder(open bool) (top, error) {
	w, err := m.targets("neck", "chest", "armhole_depth", "upper_arm")
	if err != nil {
		return top{}, err
	}
	chest, neck := w["chest"].fabric(m.edges.girthCm), w["neck"].fabric(m.edges.girthCm)
	t := stitch.DropShoulderTarget{
		Gauge: m.g, BodyCm: chest.cm, BodyLeastCm: chest.leastCm, Body: even(m.bodyMultiple(!open)),
		NeckWidthCm: w["neck"].cm * m.share("neck_width_share"), ArmholeDepthCm: w["armhole_depth"].cm, ArmholeLeastCm: w["armhole_depth"].leastCm,
		Sleeve: stitch.Even, FrontOpening: open, EdgeStitches: m.edgeStitches(),
	}
	rows, err := m.rows(t.ArmholeDepthCm, t.ArmholeLeastCm, false)
	if err != nil {
		return top{}, err
	}
	t.OddRowsAtShoulder = rows%2 == 1
	p, err := stitch.PlanDropShoulder(t)
	if err != nil {
		return top{}, err
	}
	fronts := p.Front
	if open {
		fronts *= 2
	}
	l, err := m.neckline(neck, p.Back, fronts, p.ArmholeRows)
	if err != nil {
		return top{}, err
	}
	m.openWidthPart("neck", l.pickUp, stitch.Even)
	slit := 0
	if !open {
		slit = m.slitRows(m.g.WidthCm(l.pickUp))
	}
	m.backPiece(p.Back, l, p.ArmholeRows, 0)
	m.frontPieces(p.Front, open, l, p.ArmholeRows, slit, 0)
	m.openWidthPart("chest", p.Body, t.Body)
	m.heightPart("armhole_depth", p.ArmholeRows, 0)
	m.widthPart("upper_arm", p.SleeveTop, stitch.Even)
	m.depart("upper_arm", m.g.WidthCm(p.SleeveTop)-w["upper_arm"].cm, "drop-shoulder-sleeve-wide")
	rest := max(0, slit-(p.ArmholeRows-l.drop))
	return top{open: open, slit: rest, turned: open || rest > 0, band: open || slit > 0, body: p.Body, sleeve: p.SleeveTop,
		back: p.ArmholeRows, front: p.ArmholeRows - l.drop, widthCm: m.g.WidthCm(p.Back)}, nil
}

// backPiece works the back from the shoulders down to the underarm.
func (m *maker) backPiece(back int, l neckline, rows, widen int) {
	s := m.begin("back", back, false)
	s.step("start", "cast-on-back", Values{"cast_on": back, "shoulder": l.shoulder, "neck": l.neck})
	m.armhole(s, rows, widen)
}

// armhole works a piece straight, but for stitches gained at each side in the
// last rows.
func (m *maker) armhole(s *Section, rows, widen int) {
	every := 1
	if m.rightSideOnly(false) {
		every = 2
	}
	widen = min(widen, rows/every)
	s.plain(rows - widen*every)
	for range widen {
		if every == 1 || !m.wrongNext() {
			s.row(s.To() + 2)
			s.plain(every - 1)
		} else {
			s.plain(1)
			s.row(s.To() + 2)
		}
	}
	switch {
	case widen == 0:
		s.step("armhole", "straight", Values{"rows": rows, "stitches": s.To()})
	case every == 1:
		s.step("armhole", "armhole-increase-every-row", Values{"rows": rows, "last": widen, "each_side": 1, "to": s.To()})
	default:
		s.step("armhole", "armhole-increase-every-2nd", Values{"rows": rows, "last": widen * every, "each_side": 1, "to": s.To()})
	}
}

// frontPieces works the front or both fronts down to the underarm.
func (m *maker) frontPieces(front int, open bool, l neckline, rows, slit, widen int) {
	s := m.begin("front-neck", l.shoulder, false)
	s.Copies = 2
	s.step("pick-up", "pick-up-shoulders", Values{"stitches": l.shoulder})
	straight := l.drop - l.widen*l.every
	s.plain(straight)
	for range l.widen {
		s.plain(l.every - 1)
		s.row(s.To() + 1)
	}
	switch {
	case l.widen > 0 && l.every == 1:
		s.step("neck", "neck-increase-every-row", Values{"rows": straight, "then": l.widen, "to": s.To()})
	case l.widen > 0:
		s.step("neck", "neck-increase-every-nth", Values{"rows": straight, "then": l.widen * l.every, "every": l.every, "to": s.To()})
	default:
		s.step("neck", "straight", Values{"rows": straight, "stitches": s.To()})
	}
	left := rows - l.drop
	if open {
		s = m.begin("front", front, false)
		s.Kind = "fronts"
		s.Copies = 2
		s.step("middle", "cast-on-neck-edge", Values{"cast_on": front - l.shoulder - l.widen, "to": front})
		m.armhole(s, left, widen)
		return
	}
	half := front / 2
	if slit > 0 {
		s = m.begin("slit", half, false)
		s.Copies = 2
		s.step("middle", "cast-on-neck-edges", Values{"cast_on": half - l.shoulder - l.widen, "cast_on_other": front - half - l.shoulder - l.widen,
			"to": half, "to_other": front - half})
		done := min(slit, left)
		s.plain(done)
		s.step("open", "work-each", Values{"rows": done})
		if left -= done; left == 0 {
			return
		}
	}
	s = m.begin("front", front, false)
	if slit > 0 {
		s.step("join", "join-halves", Values{"stitches": front})
	} else {
		s.step("join", "join-halves-cast-on", Values{"cast_on": l.middle, "stitches": front})
	}
	m.armhole(s, left, widen)
}

// vest plans a top without sleeves: the back between the armholes is as wide
// as the child's, and widens to the chest at the underarm.
func (m *maker) vest() (top, error) {
	w, err := m.targets("neck", "chest", "armhole_depth", "cross_back")
	if err != nil {
		return top{}, err
	}
	body := even(m.bodyMultiple(true))
	fit, err := m.g.FitWidthAtLeast(w["chest"].cm, w["chest"].leastCm, body)
	if err != nil {
		return top{}, err
	}
	half := fit.Count / 2
	across := w["cross_back"]
	back, ok := nearest(m.g.Stitches(across.cm), atLeast(m.g.Stitches(across.leastCm)), half, func(n int) bool { return (half-n)%2 == 0 })
	if !ok {
		back = half
		m.note("back-half-chest", sizing.Length(m.g.WidthCm(half)))
	}
	rows, err := m.rows(w["armhole_depth"].cm, w["armhole_depth"].leastCm, false)
	if err != nil {
		return top{}, err
	}
	l, err := m.neckline(w["neck"], back, back, rows)
	if err != nil {
		return top{}, err
	}
	m.widthPart("neck", l.pickUp, stitch.Even)
	slit := m.slitRows(m.g.WidthCm(l.pickUp))
	// Half of what the chest needs more is gained above the underarm, half is
	// chained or cast on at the underarm; the front has the rows below its slit for it.
	side := (half - back) / 2
	every := 1
	if m.rightSideOnly(false) {
		every = 2
	}
	widen := min(side/2, max(0, rows-l.drop-slit)/(2*every))
	m.backPiece(back, l, rows, widen)
	m.frontPieces(back, false, l, rows, slit, widen)
	m.widthPart("cross_back", back, stitch.Plain)
	m.widthPart("chest", fit.Count, body)
	m.heightPart("armhole_depth", rows, 0)
	rest := max(0, slit-(rows-l.drop))
	return top{slit: rest, turned: rest > 0, band: slit > 0, body: fit.Count, under: 2 * (side - widen), back: rows, front: rows - l.drop}, nil
}

// armbands finishes the armholes of a garment without sleeves.
func (m *maker) armbands(rows int, underCm float64) {
	n := 2 * int(math.Round(m.g.Stitches(2*m.g.HeightCm(rows)+underCm)*m.ribShare()/2))
	s := m.beginRib("armbands", max(2, n), true)
	s.Copies = 2
	s.step("pick-up", "pick-up-armholes", Values{"stitches": s.From})
	s.plain(m.ribRows(m.bandCm()))
	s.step("rib", "rib-finish", Values{"rows": s.Rows(), "stitches": s.From})
}
