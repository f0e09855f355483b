package plan

import (
	"math"

	"growtuck/sizing"
)

// straps works two straps from the back of the waist over the shoulders to its front,
// with a buttonhole for each step of their room to grow: the nearest to the end is used
// last.
func (m *maker) straps() error {
	if !m.hasPart("strap_length") {
		return nil
	}
	long, err := m.target("strap_length")
	if err != nil {
		return err
	}
	h, err := m.hold(holdAt{room: StrapRoom, parts: []string{"strap_length"}, ribbed: m.how.Craft == Knit})
	if err != nil {
		return err
	}
	begin, g, kind := m.begin, m.g, "straight-on"
	if m.how.Craft == Knit { // ribbing does not curl
		begin, g, kind = m.beginRib, m.rib, "rib"
	}
	end := max(2, m.ribRows(m.practice("strap_end").Value))
	rows := max(int(math.Round(g.Rows(long.cm))), end+h.rows+2)
	size := max(1, int(math.Round(g.Stitches(m.practice("buttonhole").Value))))
	stitches := max(size+4, int(math.Round(g.Stitches(m.practice("strap_width").Value))))
	stitches += (stitches - size) % 2

	s := begin("strap", stitches, false)
	s.Copies = 2
	s.step("start", "cast-on-strap", Values{"cast_on": stitches})
	s.plain(rows)
	at := rows - end - h.rows
	holes := []int{at}
	for _, n := range h.folds {
		s.Folds = append(s.Folds, Fold{Room: h.room, Way: h.way, Parts: h.parts, Rows: n, Below: rows - at - n})
		at += n
		holes = append(holes, at)
	}
	for i, row := range holes {
		s.step(numbered("hole", i+1), "strap-hole", Values{"hole_row": row, "side": (stitches - size) / 2, "size": size, "stitches": stitches})
	}
	worked := Values{"rows": rows, "stitches": stitches}
	s.step("straight", kind, worked)
	waist, err := m.target("waist")
	if err != nil {
		return err
	}
	s.step("sew", "strap-sew", Values{"buttons": s.Copies, "apart": sizing.Length(waist.cm * m.share("strap_apart"))})
	if s.Ribbed {
		m.heightPart("strap_length", 0, rows)
	} else {
		m.heightPart("strap_length", rows, 0)
	}
	return nil
}
