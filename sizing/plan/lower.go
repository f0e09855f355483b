package plan

import (
	"fmt"
	"math"

	"growtuck/sizing/stitch"
)

// trousers plans a waistband, hips, and legs.
func (m *maker) trousers() error {
	w, err := m.targets("waist", "hip", "rise")
	if err != nil {
		return err
	}
	waist, hip, rise := w["waist"], w["hip"], w["rise"]
	multiple := even(m.bodyMultiple(true))
	fit, err := m.g.FitWidthAtLeast(hip.cm, hip.leastCm, multiple)
	if err != nil {
		return err
	}
	band := m.cuffOf("waist", waist, fit.Count)
	bandRows := m.ribRows(min(m.hemCm(), rise.cm*m.share("hem_most")))
	rows, err := m.rows(max(rise.cm-m.rib.HeightCm(bandRows), m.g.RowHeightCm()), rise.leastCm-m.rib.HeightCm(bandRows), true)
	if err != nil {
		return err
	}

	s := m.beginRib("waistband", band.count, true)
	s.step("start", "cast-on-waist", Values{"cast_on": band.count})
	s.plain(bandRows)
	s.step("rib", "rib-elastic", Values{"rows": bandRows, "stitches": band.count})
	m.ribPart("waist", band.count)

	down := min(max(1, int(math.Round(m.g.Rows(rise.cm*m.share("hip_share_of_rise"))))-bandRows), rows)
	// The rest must be gained in the rows down to the hips, a pair in each.
	start, ok := nearest(max(band.above, float64(fit.Count-2*down)), band.count, min(fit.Count, 2*band.count), isEven)
	if !ok {
		start = band.count
	}
	join, err := stitch.ShapeAcross(band.count, start-band.count, true)
	if err != nil {
		return err
	}
	m.seatRaise(start, join)
	s = m.begin("hips", start, true)
	sc, err := slope{from: start, target: m.g.Stitches(hip.cm), least: atLeast(m.g.Stitches(hip.leastCm)), most: 2*fit.Count + multiple.Repeat,
		rows: down, accept: multiple.Has, inRounds: true}.taper()
	if err != nil {
		return fmt.Errorf("hip: %w", err)
	}
	s.shape(sc)
	m.widthPart("hip", sc.To(), multiple)
	if rows > down {
		s = m.begin("seat", sc.To(), true)
		s.Kind = "seat-below-hips"
		s.plain(rows - down)
		s.step("straight", "straight-to-crotch", Values{"rows": rows - down, "stitches": sc.To()})
	}
	m.heightPart("rise", rows, bandRows)
	return m.legs(sc.To())
}

// seatRaise works short rows over the back below the waistband.
func (m *maker) seatRaise(stitches int, join stitch.Across) {
	pairs, _, err := stitch.ShortRowSets(m.g, m.practice("seat_raise").Value)
	if err != nil || pairs < 1 {
		pairs = 1
	}
	s := m.begin("seat-back", stitches, false)
	if join.Change != 0 {
		s.add(rowShaped("join", "above-waistband", join))
	}
	first := max(2, 2*int(math.Round(float64(stitches)/12)))
	step := 0
	if pairs > 1 {
		step = max(0, (stitches/2-first)/2/(pairs-1))
	}
	s.step("first", "short-rows-first-seat", Values{"rows": 2, "pairs": pairs, "first": first})
	if pairs > 1 && step > 0 {
		s.step("next", "short-rows-next", Values{"rows": 2 * (pairs - 1), "further": step, "pairs": pairs - 1})
	}
	for i := range pairs {
		s.row(first + 2*step*i)
		s.row(first + 2*step*i)
	}
}
