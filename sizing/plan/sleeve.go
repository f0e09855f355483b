package plan

import (
	"fmt"
	"slices"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// sleeves works two sleeves from the underarm down to their cuffs.
func (m *maker) sleeves(t top) error {
	w, err := m.targets("sleeve_length", "cuff")
	if err != nil {
		return err
	}
	length := w["sleeve_length"]
	if t.widthCm > 0 {
		length.cm = m.dropSleeve(length, t.widthCm)
	}
	c := m.cuffOf("cuff", w["cuff"], t.sleeve)
	turned := m.how.Turned
	rows, cuffRows := 0, m.ribRows(m.cuffDepthCm(length.cm))
	h, err := m.hold(holdAt{room: SleeveRoom, parts: []string{"sleeve_length"}, inRounds: !turned, ribbed: true, below: m.f.Practice("tuck_from_edge"), fits: func(need int) string {
		all, _ := m.nearestRows(length.cm-m.rib.HeightCm(cuffRows), !turned)
		return m.taperLeft(all-need, t.sleeve, c, "sleeve between underarm and cuff")
	}})
	if err != nil {
		return err
	}
	if h.edge() > 0 {
		cuffRows = m.ribRows(m.cuffDepthCm(length.cm-h.cm(m))) + h.edge()
	}
	if rows, err = m.nearestRows(max(length.cm-m.rib.HeightCm(cuffRows), m.g.RowHeightCm()), !turned); err != nil {
		return err
	}
	s := m.begin("sleeve", t.sleeve, !turned)
	s.Copies = 2
	if t.widthCm > 0 {
		s.step("pick-up", "pick-up-sides", Values{"stitches": t.sleeve})
	} else {
		s.step("pick-up", "sleeve-from-yoke", Values{"on_hold": t.split.SleevePart, "underarm": t.sleeve - t.split.SleevePart, "half": (t.sleeve - t.split.SleevePart) / 2, "rest": t.sleeve - t.split.SleevePart - (t.sleeve-t.split.SleevePart)/2, "stitches": t.sleeve})
	}
	s.tucks(h)
	down := max(1, rows-h.later()-h.need())
	c = m.gathered("sleeve-gathered", c, t.sleeve, down-1)
	sc, err := slope{from: t.sleeve, target: c.above, least: c.count, most: t.sleeve, rows: down, plain: int(m.g.Rows(m.practice("sleeve_plain").Value)), joins: 1,
		inRounds: !turned, rightSideOnly: m.rightSideOnly(!turned)}.taper()
	if err != nil {
		return fmt.Errorf("sleeve: %w", err)
	}
	s.shapeTube(sc)
	s.straight(h.need(), "straight-on", "straight-on")
	s.holdLater(h)
	m.p.tapers["sleeve"] = taperEnd{(sc.From - sc.To()) / 2, sc.To()}
	if err := m.cuff("cuff", "cuff", c.count, sc.To(), cuffRows, turned, h); err != nil {
		return err
	}
	m.heightPart("sleeve_length", rows, cuffRows)
	return nil
}

// gathered ends a sleeve or leg wider than its cuff where so many rows are too few
// to narrow it: what is left is gathered into the cuff.
func (m *maker) gathered(note string, c cuffCount, from, rows int) cuffCount {
	if above := float64(from - 2*m.steepest(rows)); above > c.above+1 {
		c.above = min(above, float64(2*c.count-2))
		m.note(note)
	}
	return c
}

// taperLeft says why a taper does not fit above folds across; "" where it does: it is as
// far from where the part begins as a fold must be, and narrows in the rows it has.
func (m *maker) taperLeft(rows, from int, c cuffCount, what string) string {
	if least := m.wholeRows(m.f.Practice("tuck_from_join"), 1); rows < least {
		return fmt.Sprintf("the %s is too short: a tuck lies %s cm from its beginning at least", what, exact(m.practice("tuck_from_join").Value))
	}
	if from-2*m.steepest(rows-1) > max(2*c.count-2, int(c.above)+1) { // what is left is gathered
		return fmt.Sprintf("the %s has too few rows to narrow above a tuck", what)
	}
	return ""
}

// steepest is how many decreases at each side rows have room for: one in every
// second row, or more often in tall stitches.
func (m *maker) steepest(rows int) int {
	gentle := int(m.p.steepestTaper * m.g.HeightCm(rows) / m.g.StitchWidthCm())
	return max(rows/2, min(rows, gentle))
}

// dropSleeve is the length of a sleeve that begins at the side of a wide body.
func (m *maker) dropSleeve(length target, widthCm float64) float64 {
	s, ok := dropSleeveCm(m.f, widthCm)
	if _, known := m.body("neck_to_wrist"); !known {
		m.note("neck-to-wrist-unknown")
	}
	if !ok {
		return length.cm
	}
	m.depart("sleeve_length", s-length.cm, "drop-shoulder-sleeve-length")
	return s
}

// dropSleeveCm is how long a sleeve is that begins where a back so wide ends.
func dropSleeveCm(f *sizing.Finished, widthCm float64) (float64, bool) {
	long, known := f.Body.Get("neck_to_wrist")
	line, ok := f.Line("sleeve_length")
	if !known || !ok {
		return 0, false
	}
	s, err := stitch.DropSleeveCm(long.Value+sizing.TotalCm(line.Adjust), widthCm)
	return s, err == nil
}

// DropShoulderCm are the parts that a drop shoulder makes otherwise than their
// finished measurements: a sleeve as wide as the armholes that it is picked up
// along, and as long as is left of the arm beside the body.
func DropShoulderCm(f *sizing.Finished) map[string]float64 {
	out := make(map[string]float64)
	hole, ok := f.Line("armhole_depth")
	if _, sleeved := f.Line("upper_arm"); ok && sleeved {
		out["upper_arm"] = 2 * hole.Finished
	}
	if chest, ok := f.Line("chest"); ok {
		if s, ok := dropSleeveCm(f, chest.Finished/2); ok {
			out["sleeve_length"] = s
		}
	}
	return out
}

// cuffDepthCm is the depth of ribbing at the end of a sleeve or leg of a
// length: twice of what shows where the cuff is folded back.
func (m *maker) cuffDepthCm(lengthCm float64) float64 {
	depth := m.cuffCm()
	if slices.Contains(m.f.Spec.Options, "fold-back-cuffs") {
		depth *= 2
		m.note("cuffs-folded-back", sizing.Length(depth))
	}
	return min(depth, lengthCm*m.share("cuff_most"))
}

// A cuffCount is a cuff and what the sleeve or leg above it should end on.
type cuffCount struct {
	count int
	above float64 // unrounded
}

// cuffOf counts a cuff: nearest to its girth, not under its least ease, wide
// enough for what must pass if it is known how far it stretches, and no wider
// than the sleeve or leg it ends.
func (m *maker) cuffOf(edge string, t target, from int) cuffCount {
	t = m.wideEnough(edge, t)
	n, ok := nearest(m.rib.Stitches(t.cm), max(2, atLeast(m.rib.Stitches(t.leastCm))), from, isEven)
	if !ok {
		n = from - from%2
	}
	m.noteStretch(edge, m.rib.WidthCm(n))
	return cuffCount{n, min(float64(n)/m.ribShare(), float64(from))}
}

func isEven(n int) bool { return n%2 == 0 }

// cuff works ribbing at the end of sleeves or legs.
func (m *maker) cuff(id, part string, count, above, rows int, turned bool, h held) error {
	most := above / 2 // that one row can take away
	if turned {
		most = (above - 2) / 2
	}
	if above-count > most {
		count = above - most
		count += count % 2
	}
	join, err := stitch.ShapeAcross(above, count-above, !turned)
	if err != nil {
		return fmt.Errorf("%s: %w", part, err)
	}
	s := m.beginRib(id, count, !turned)
	s.Copies = 2
	if count != above {
		s.add(rowShaped("join", "first", join))
	}
	s.plain(rows)
	s.step("rib", "rib-finish-on", Values{"rows": rows, "stitches": count})
	if turned {
		s.step("seam", "seam-sides", nil)
	}
	s.holdEdge(h)
	m.ribPart(part, count)
	return nil
}
