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
	h, err := m.hold(holdAt{room: RiseRoom, parts: []string{"rise"}, inRounds: true, fits: func(need int) string {
		if rows-need < m.wholeRows(m.f.Practice("tuck_from_crotch"), 1)+2 {
			return "the rise is too short for a fold under the waistband"
		}
		return ""
	}})
	if err != nil {
		return err
	}
	rise.cm -= h.cm(m)
	raise, _, err := stitch.ShortRowSets(m.g, m.seatRaiseCm())
	if err != nil {
		return err
	}

	s := m.beginRib("waistband", band.count, true)
	s.step("start", "cast-on-waist", Values{"cast_on": band.count})
	s.plain(bandRows)
	s.step("rib", "rib-elastic", Values{"rows": bandRows, "stitches": band.count})
	m.ribPart("waist", band.count)

	const widening = 1 // round above the waistband
	down := max(1, min(int(math.Round(m.g.Rows(rise.cm*m.share("hip_share_of_rise"))))-bandRows, rows-h.need()-min(h.need(), 1))-widening)
	// The rest must be gained in the rows down to the hips, a pair in each.
	start, ok := nearest(max(band.above, float64(fit.Count-2*down)), band.count, min(fit.Count, 2*band.count), isEven)
	if !ok {
		start = band.count
	}
	join, err := stitch.ShapeAcross(band.count, start-band.count, true)
	if err != nil {
		return err
	}
	fold, err := m.riseFold(h, start, join)
	if err != nil {
		return err
	}
	if fold > 0 {
		join = stitch.Across{Stitches: start} // gained above the fold
	}
	s = m.begin("seat-back", start, true)
	above := m.seatRaise(s, start, raise, join)
	s = m.begin("hips", start, true)
	sc, err := slope{from: start, target: m.g.Stitches(hip.cm), least: atLeast(m.g.Stitches(hip.leastCm)), most: 2*fit.Count + multiple.Repeat,
		rows: down, accept: multiple.Has, inRounds: true}.taper()
	if err != nil {
		return fmt.Errorf("hip: %w", err)
	}
	s.shape(sc)
	m.widthPart("hip", sc.To(), multiple)
	above += fold
	if left := rows - above - down; left > 0 {
		s = m.begin("seat", sc.To(), true)
		s.Kind = "seat-below-hips"
		s.plain(left)
		s.step("straight", "straight-to-crotch", Values{"rows": left, "stitches": sc.To()})
	}
	m.heightPart("rise", max(rows, above+down), bandRows)
	if err := m.legs(sc.To()); err != nil {
		return err
	}
	return m.straps()
}

// riseFold works a fold under the waistband: what is gained from it to the hips is
// gained in the round that the fold is caught to. It returns its rounds.
func (m *maker) riseFold(h held, stitches int, join stitch.Across) (int, error) {
	if h.way != RiseFold {
		return 0, nil
	}
	s := m.begin("rise-fold", stitches, true)
	if join.Change != 0 {
		step := rowShaped("join", "row", join)
		step.Values["row"] = 1
		s.add(step)
	}
	s.tucks(h)
	s.row(stitches)
	if join.Change == 0 {
		s.step("first", "straight-on", Values{"rows": 1, "stitches": stitches})
	}
	s.straight(h.need(), "straight-on", "straight-on")
	return s.Rows(), nil
}

// seatRaise widens the waistband to the hips and works short rows over the back
// below it. The round begins at the middle of the back, before the first short row
// and after the last. It returns the rounds that it adds in front.
func (m *maker) seatRaise(s *Section, stitches, pairs int, join stitch.Across) (rounds int) {
	if join.Change != 0 {
		step := rowShaped("join", "above-waistband", join)
		step.Values["row"] = 1
		s.add(step)
		s.row(stitches)
	}
	rounds = s.Rows()
	r := stitch.SpreadShortRows(stitches, pairs, stitches/6, stitches/2)
	s.step("first", "short-rows-seat", Values{"row": rounds + 1, "last_row": rounds + 2, "pairs": r.Pairs, "half": r.First / 2, "first": r.First})
	begun := len(s.Steps) - 1
	s.workShort(r, r.First/2)
	for i := begun; i < len(s.Steps); i++ {
		s.Steps[i].InRounds = false
	}
	back := r.First - r.First/2 + (r.Pairs-1)*r.Further
	s.short(back)
	s.step("end", "short-rows-seat-end", Values{"row": s.Rows(), "half": back})
	return rounds
}
