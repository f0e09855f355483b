package plan

import (
	"math"

	"growtuck/sizing/stitch"
)

// hat plans a close cap: in crochet from the crown down, in knitting from the
// brim up.
func (m *maker) hat() error {
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
	crown, err := stitch.PlanCrown(m.g, m.g.WidthCm(body))
	if err != nil {
		return err
	}
	bandRows := m.ribRows(min(m.bandCm(), height.cm*m.share("hem_most")))
	rows, err := m.rows(height.cm-m.rib.HeightCm(bandRows), 0, true)
	if err != nil {
		return err
	}
	straight := rows - crown.Rounds
	join, err := stitch.ShapeAcross(body, band-body, true)
	if m.how.Craft == Knit {
		join, err = stitch.ShapeAcross(band, body-band, true)
	}
	if err != nil {
		return err
	}
	if m.how.Craft == Knit {
		s := m.beginRib("brim", band, true)
		s.step("start", "cast-on-brim", Values{"cast_on": band})
		s.plain(bandRows)
		s.step("rib", "rib", Values{"rows": bandRows, "stitches": band})
		m.sideOfHat(body, straight, join)
		if err := m.crown(body, crown.Rounds, false); err != nil {
			return err
		}
	} else {
		if err := m.crown(body, crown.Rounds, true); err != nil {
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
	switch crown.Lie.Lie(m.share("flat_tolerance")) {
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

// crown works a flat circle from its middle out, or back to its middle: the
// same number of stitches more in every round, as near as whole ones allow.
func (m *maker) crown(body, rounds int, outwards bool) error {
	counts := crownCounts(body, rounds)
	if outwards {
		s := m.begin("crown", counts[0], true)
		s.step("start", "start-ring", Values{"cast_on": counts[0]})
		s.row(counts[0])
		for i := 1; i < rounds; i++ {
			if err := crownRound(s, i+1, counts[i-1], counts[i]); err != nil {
				return err
			}
		}
		return nil
	}
	s := m.begin("crown", body, true)
	s.step("plain", "work-first-round", Values{"stitches": body})
	s.row(body)
	for i := rounds - 1; i >= 1; i-- {
		if err := crownRound(s, rounds-i+1, counts[i], counts[i-1]); err != nil {
			return err
		}
	}
	s.step("gather", "gather", Values{"stitches": s.To()})
	return nil
}

// crownCounts are the stitches of each round; none has more than twice those
// before it.
func crownCounts(body, rounds int) []int {
	counts := make([]int, rounds)
	for i := range counts {
		counts[i] = int(math.Round(float64(body) * float64(i+1) / float64(rounds)))
		if i > 0 {
			counts[i] = min(counts[i], 2*counts[i-1])
		}
	}
	return counts
}

func crownRound(s *Section, round, from, to int) error {
	a, err := stitch.ShapeAcross(from, to-from, true)
	if err != nil {
		return err
	}
	s.row(to)
	step := rowShaped(numbered("round", round), "row", a)
	step.Values["row"] = round
	s.add(step)
	return nil
}
