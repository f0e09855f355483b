package plan

import (
	"fmt"
	"math"

	"growtuck/sizing/stitch"
)

// poncho works a garment without sleeves from its neck: wider at both sides down to
// a straight hem that does not draw in.
func (m *maker) poncho() error {
	w, err := m.targets("neck", "hem", "body_length")
	if err != nil {
		return err
	}
	neck, err := m.g.FitWidthAtLeast(w["neck"].cm, w["neck"].leastCm, stitch.Even)
	if err != nil {
		return err
	}
	length := w["body_length"].cm
	back, _, err := m.raise(neck.Count, 0, true)
	if err != nil {
		return err
	}
	rows, err := m.nearestRows(max(length-m.g.HeightCm(back), 2*m.g.RowHeightCm()), true)
	if err != nil {
		return err
	}
	h, err := m.hold(holdAt{room: BodyRoom, parts: []string{"body_length"}, inRounds: true})
	if err != nil {
		return err
	}
	edge := min(max(1, int(math.Round(m.g.Rows(m.bandCm()))))+h.edge(), rows-h.later()-1)
	s := m.begin("drape", neck.Count, true)
	s.step("sides", "mark-sides", Values{"half": neck.Count / 2})
	sides, err := m.sideShaping(neck.Count, w["hem"], rows-h.later()-edge, 0, false)
	if err != nil {
		return fmt.Errorf("hem: %w", err)
	}
	s.shape(sides)
	m.widthPart("neck", neck.Count, stitch.Even)
	m.widthPart("hem", s.To(), stitch.Even)
	s = m.begin("drape-hem", s.To(), true)
	s.plain(edge)
	s.step("straight", "skirt-straight", Values{"rows": edge, "stitches": s.To()})
	s.holdEdge(h)
	s.holdLater(h)
	m.heightPart("body_length", back+rows, 0)
	m.slitRows(m.g.WidthCm(neck.Count))
	m.neckband(neck.Count, false)
	return nil
}

// legWarmers plans two tubes from the ankle up to a ribbed edge under the knee.
func (m *maker) legWarmers() error {
	w, err := m.targets("ankle", "calf", "leg_height")
	if err != nil {
		return err
	}
	turned := m.how.Turned
	calf, err := m.g.FitWidthAtLeast(w["calf"].cm, w["calf"].leastCm, even(m.bodyMultiple(!turned)))
	if err != nil {
		return err
	}
	ankle := m.cuffOf("ankle", w["ankle"], calf.Count)
	h, err := m.hold(holdAt{room: LegRoom, parts: []string{"leg_height"}, inRounds: !turned, ribbed: true})
	if err != nil {
		return err
	}
	edgeRows := m.ribRows(m.cuffDepthCm(w["leg_height"].cm - h.cm(m)))
	topRows := edgeRows + h.edge()
	rows, err := m.nearestRows(max(w["leg_height"].cm-m.rib.HeightCm(edgeRows+topRows), 2*m.g.RowHeightCm()), !turned)
	if err != nil {
		return err
	}
	from, ok := nearest(ankle.above, ankle.count, min(calf.Count, 2*ankle.count), isEven)
	if !ok {
		from = ankle.count
	}
	join, err := stitch.ShapeAcross(ankle.count, from-ankle.count, !turned)
	if err != nil {
		return fmt.Errorf("ankle: %w", err)
	}
	s := m.beginRib("leg", ankle.count, !turned)
	s.Copies = 2
	s.step("start", "cast-on", Values{"cast_on": ankle.count})
	s.plain(edgeRows)
	s.step("rib", "rib", Values{"rows": edgeRows, "stitches": ankle.count})
	m.ribPart("ankle", ankle.count)

	s = m.begin("calf", from, !turned)
	s.Copies = 2
	if join.Change != 0 {
		s.add(rowShaped("join", "first", join))
	}
	sc, err := slope{from: from, target: float64(calf.Count), least: from, most: calf.Count, rows: rows, plain: rows / 4, joins: 1,
		inRounds: !turned, rightSideOnly: m.rightSideOnly(!turned)}.taper()
	if err != nil {
		return fmt.Errorf("calf: %w", err)
	}
	s.shapeTube(sc)
	m.widthPart("calf", sc.To(), stitch.Even)
	top := m.cuffOf("calf", w["calf"], sc.To())
	if err := m.cuff("top", "calf", top.count, sc.To(), topRows, turned, h); err != nil {
		return err
	}
	m.heightPart("leg_height", rows, edgeRows+topRows)
	return nil
}

// balaclava works a hood on a ribbed tube for the neck.
func (m *maker) balaclava() error {
	w, err := m.targets("neck", "neck_height")
	if err != nil {
		return err
	}
	m.edges = m.edgesOf(false)
	neck := m.cuffOf("neck", w["neck"], 4*atLeast(m.rib.Stitches(w["neck"].cm))).count
	rows := m.ribRows(w["neck_height"].cm)
	s := m.beginRib("neck", neck, true)
	s.step("start", "cast-on-tube", Values{"cast_on": neck})
	s.plain(rows)
	s.step("rib", "rib", Values{"rows": rows, "stitches": neck})
	m.ribPart("neck", neck)
	m.heightPart("neck_height", 0, rows)
	return m.hood(neck)
}
