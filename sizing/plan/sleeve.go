package plan

import (
	"fmt"
	"math"
	"slices"

	"growtuck/sizing/stitch"
)

// sleeves works two sleeves from the underarm down to their cuffs.
func (m *maker) sleeves(t top) error {
	w, err := m.wants("sleeve_length", "cuff")
	if err != nil {
		return err
	}
	length := w["sleeve_length"]
	if t.widthCm > 0 {
		length.cm = m.dropSleeve(length, t.widthCm)
	}
	c := m.cuffOf("cuff", "hand", w["cuff"], t.sleeve)
	depth := m.cuffDepthCm(length.cm)
	cuffRows := m.ribRows(depth)
	turned := m.how.Turned
	rows, err := m.rows(max(length.cm-m.rib.HeightCm(cuffRows), m.g.RowHeightCm()), 0, !turned)
	if err != nil {
		return err
	}
	s := m.begin("sleeve", "Sleeve", t.sleeve, !turned)
	s.Copies = 2
	if t.widthCm > 0 {
		s.say("pick-up", "Pick up {stitches} along the sides of front and back.", t.sleeve)
	} else {
		s.say("pick-up", "Work the stitches put aside and one in each of those under the arm: {stitches}.", t.sleeve)
	}
	sc, err := slope{from: t.sleeve, want: c.above, least: c.count, most: t.sleeve, rows: rows, plain: int(m.g.Rows(2)),
		inRounds: !turned, rightSideOnly: m.rightSideOnly(!turned)}.taper()
	if err != nil {
		return fmt.Errorf("sleeve: %w", err)
	}
	s.follow(sc)
	m.p.ends["sleeve"] = end{(sc.From - sc.To()) / 2, sc.To()}
	if err := m.cuff("cuff", "Cuff", "cuff", c.count, sc.To(), cuffRows, turned); err != nil {
		return err
	}
	m.heightPart("sleeve_length", rows, cuffRows)
	return nil
}

// dropSleeve is the length of a sleeve that begins at the side of a wide body.
func (m *maker) dropSleeve(length target, widthCm float64) float64 {
	long, ok := m.body("neck_to_wrist")
	if !ok {
		m.note("The length from the middle of the back to the wrist is not known: the sleeve is as long as the arm from the armpit. Measure it and plan again.")
		return length.cm
	}
	for _, a := range length.line.Adjust {
		long += a.Cm
	}
	s, err := stitch.DropSleeveCm(long, widthCm)
	if err != nil {
		return length.cm
	}
	m.mean("sleeve_length", s-length.cm, "it begins where the wide body ends, and is measured from the middle of the back")
	return s
}

// cuffDepthCm is the depth of ribbing at the end of a sleeve or leg of a
// length: twice of what shows where the cuff is folded back.
func (m *maker) cuffDepthCm(lengthCm float64) float64 {
	depth := m.how.CuffCm
	if slices.Contains(m.f.Spec.Options, "fold-back-cuffs") {
		depth *= 2
		m.note("The cuffs are worked %s cm deep and folded back.", cm(depth))
	}
	return min(depth, lengthCm/3)
}

// A cuffCount is a cuff and what the sleeve or leg above it should end on.
type cuffCount struct {
	count int
	above float64 // unrounded
}

// cuffOf counts a cuff: nearest to its girth, not under its least ease, wide
// enough for what must pass if it is known how far it stretches, and no wider
// than the sleeve or leg it ends.
func (m *maker) cuffOf(edge, passing string, t target, from int) cuffCount {
	least := max(t.leastCm, m.passing(edge, passing, t))
	n, ok := nearest(m.rib.Stitches(t.cm), max(2, atLeast(m.rib.Stitches(least))), from, isEven)
	if !ok {
		n = from - from%2
	}
	m.noteStretch(edge, passing, m.rib.WidthCm(n))
	return cuffCount{n, min(float64(n)/m.how.RibShare, float64(from))}
}

func isEven(n int) bool { return n%2 == 0 }

// passing is the least girth of an edge that lets a part of the body through,
// 0 where nothing is known or the edge does not need to.
func (m *maker) passing(edge, passing string, t target) float64 {
	over, ok := m.body(passing)
	if !ok || over <= t.cm {
		return 0
	}
	stretch, measured := m.how.Stretch[edge]
	if !measured {
		return 0
	}
	if over/stretch > t.cm {
		m.note("The %s is wider than the %s cm asked for: with %s cm the %s would not pass, %s cm round.", edge, cm(t.cm), cm(t.cm*stretch), passing, cm(over))
	}
	return over / stretch
}

// noteStretch says how far an edge as counted has to stretch, where it is not
// known how far it does.
func (m *maker) noteStretch(edge, passing string, girthCm float64) {
	over, ok := m.body(passing)
	if _, measured := m.how.Stretch[edge]; measured || !ok || over <= girthCm {
		return
	}
	m.note("The %s of %s cm must pass the %s, %s cm: it must stretch %.2f times. Measure on the swatch whether the ribbing does.",
		edge, cm(girthCm), passing, cm(over), math.Ceil(over/girthCm*100)/100)
}

// cuff works ribbing at the end of sleeves or legs.
func (m *maker) cuff(id, name, part string, count, above, rows int, turned bool) error {
	join, err := stitch.ShapeAcross(above, count-above, !turned)
	if err != nil {
		return fmt.Errorf("%s: %w", part, err)
	}
	s := m.beginRib(id, name, count, !turned)
	s.Copies = 2
	if count != above {
		s.add(across("join", "In the first "+s.where(), join))
	}
	s.plain(rows)
	s.say("rib", "Work {rows} of ribbing on {stitches}; finish loosely.", rows, count)
	if turned {
		s.say("seam", "Join the sides edge to edge.")
	}
	m.ribPart(part, count)
	return nil
}
