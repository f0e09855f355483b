package plan

import (
	"fmt"
	"slices"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// hat plans a close cap: in crochet from the crown down, in knitting from the
// brim up.
func (m *maker) hat() error {
	if m.hasPart("hood_height") {
		return m.balaclava()
	}
	w, err := m.targets("brim", "hat_height")
	if err != nil {
		return err
	}
	brim, height := w["brim"], w["hat_height"]
	fit, err := m.g.FitWidthAtLeast(brim.cm, brim.leastCm, even(m.bodyMultiple(true)))
	if err != nil {
		return err
	}
	body := fit.Count
	band := m.cuffOf("brim", brim, 2*body).count
	crown, err := m.planCrown(body)
	if err != nil {
		return err
	}
	bandRows := m.ribRows(min(m.bandCm(), height.cm*m.share("hem_most")))
	rows, err := m.nearestRows(height.cm-m.rib.HeightCm(bandRows), true)
	if err != nil {
		return err
	}
	crownRounds := crown.Rounds
	if m.how.Craft == Knit {
		crownRounds = max(1, crown.Narrow().Last())
	}
	straight := rows - crownRounds
	join, err := stitch.ShapeAcross(body, band-body, true)
	if m.how.Craft == Knit {
		join, err = stitch.ShapeAcross(band, body-band, true)
	}
	if err != nil {
		return err
	}
	if straight < 1 {
		return fmt.Errorf("a hat of %d rounds above its brim has none beside the %d of its crown: use a finer gauge", rows, crownRounds)
	}
	if m.how.Craft == Knit {
		s := m.beginRib("brim", band, true)
		s.step("start", "cast-on-brim", Values{"cast_on": band})
		s.plain(bandRows)
		s.step("rib", "rib", Values{"rows": bandRows, "stitches": band})
		m.sideOfHat(body, straight, join)
		if err := m.narrowCrown(body, crown); err != nil {
			return err
		}
	} else {
		if err := m.widenCrown(body, crown); err != nil {
			return err
		}
		m.sideOfHat(body, straight, stitch.Across{Stitches: body})
		s := m.beginRib("brim", band, true)
		if join.Change != 0 {
			s.add(rowShaped("join", "first", join))
		}
		s.plain(bandRows)
		s.step("rib", "rib-finish", Values{"rows": bandRows, "stitches": band})
	}
	switch crown.Lie.Lie(m.share("crown_slack")) {
	case stitch.Cups:
		m.note("crown-cups")
	case stitch.Ruffles:
		m.note("crown-ruffles")
	}
	m.ribPart("brim", band)
	m.heightPart("hat_height", rows, bandRows)
	return nil
}

func (m *maker) sideOfHat(body, rows int, join stitch.Across) {
	s := m.begin("side", body, true)
	if join.Change != 0 {
		s.add(rowShaped("join", "first", join))
	}
	s.plain(rows)
	s.step("straight", "straight-on", Values{"rows": rows, "stitches": body})
}

// planCrown counts the crown of a hat: in crochet increases in every round, in
// knitting decreases in every second.
func (m *maker) planCrown(body int) (stitch.Crown, error) {
	every, customary := 1, []sizing.Practice{m.f.Practice("crown_single"), m.f.Practice("crown_half_double"), m.f.Practice("crown_double")}
	if m.how.Craft == Knit {
		every, customary = 2, []sizing.Practice{m.f.Practice("crown_knit")}
	}
	var rates []int
	for _, c := range customary {
		rates = append(rates, int(c.Value))
	}
	c, err := stitch.PlanCrown(m.g, body, every, rates, m.share("crown_slack"))
	if i := slices.Index(rates, c.Middle); i >= 0 {
		m.practice(customary[i].ID)
	}
	return c, err
}

// widenCrown works a crown from its middle out.
func (m *maker) widenCrown(body int, c stitch.Crown) error {
	s := m.begin("crown", c.Middle, true)
	s.step("start", "start-ring", Values{"row": 1, "cast_on": c.Middle})
	s.row(c.Middle)
	if c.Widen.Times > 0 {
		s.repeat("increase-1", "crown-increase", c.Widen)
	}
	if c.Rest == 0 {
		return nil
	}
	return s.shapedRow("rest", c.Rounds, body)
}

// narrowCrown works a crown from its edge in, to be drawn together.
func (m *maker) narrowCrown(body int, c stitch.Crown) error {
	s := m.begin("crown", body, true)
	narrow := c.Narrow()
	if c.Rest > 0 {
		if err := s.shapedRow("rest", 1, narrow.From); err != nil {
			return err
		}
	}
	if narrow.Times > 0 {
		s.repeat("decrease-1", "crown-decrease", narrow)
	}
	s.step("gather", "gather", Values{"stitches": s.To()})
	return nil
}

// shapedRow works to a row that gains or loses stitches evenly, and the row.
func (s *Section) shapedRow(id string, row, to int) error {
	s.plain(row - 1 - s.Rows())
	a, err := stitch.ShapeAcross(s.To(), to-s.To(), s.InRounds)
	if err != nil {
		return err
	}
	s.row(to)
	step := rowShaped(id, "row", a)
	step.Values["row"] = row
	s.add(step)
	return nil
}
