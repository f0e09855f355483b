package plan

import (
	"math"

	"growtuck/sizing/stitch"
)

// hat plans a close cap: in crochet from the crown down, in knitting from the
// brim up.
func (m *maker) hat() error {
	w, err := m.wants("brim", "hat_height")
	if err != nil {
		return err
	}
	brim, height := w["brim"], w["hat_height"]
	fit, err := m.g.FitWidthAtLeast(brim.cm, brim.leastCm, even(m.bodyMultiple(true)))
	if err != nil {
		return err
	}
	body := fit.Count
	band := m.cuffOf("brim", "head", brim, 2*body).count
	crown, err := stitch.PlanCrown(m.g, m.g.WidthCm(body))
	if err != nil {
		return err
	}
	bandRows := m.ribRows(min(m.how.BandCm, height.cm/4))
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
		s := m.beginRib("brim", "Brim", band, true)
		s.say("start", "Cast on {stitches} for the brim.", band)
		s.plain(bandRows)
		s.say("rib", "Work {rows} of ribbing.", bandRows)
		m.sideOfHat(body, straight, join)
		m.crown(body, crown.Rounds, false)
	} else {
		m.crown(body, crown.Rounds, true)
		m.sideOfHat(body, straight, stitch.Across{Stitches: body})
		s := m.beginRib("brim", "Brim", band, true)
		if join.Change != 0 {
			s.add(across("join", "In the first round", join))
		}
		s.plain(bandRows)
		s.say("rib", "Work {rows} of ribbing; finish loosely.", bandRows)
	}
	if crown.Lie.Lie() != stitch.Flat {
		m.note("The crown %s a little at this gauge.", crown.Lie.Lie())
	}
	m.widthPart("brim", band, true)
	m.heightPart("hat_height", rows, bandRows)
	return nil
}

func (m *maker) sideOfHat(body, rows int, join stitch.Across) {
	s := m.begin("side", "Side", body, true)
	if join.Change != 0 {
		s.add(across("join", "In the first round", join))
	}
	s.plain(rows)
	s.say("straight", "Work {rows} straight on {stitches}.", rows, body)
}

// crown works a flat circle from its middle out, or back to its middle: the
// same number of stitches more in every round, as near as whole ones allow.
func (m *maker) crown(body, rounds int, outwards bool) {
	count := func(i int) int { return int(math.Round(float64(body) * float64(i) / float64(rounds))) }
	if outwards {
		s := m.begin("crown", "Crown", count(1), true)
		s.say("start", "Begin with {stitches} in a ring: round 1.", count(1))
		s.row(count(1))
		for i := 2; i <= rounds; i++ {
			m.crownRound(s, i, count(i-1), count(i))
		}
		return
	}
	s := m.begin("crown", "Crown", body, true)
	s.plain(1)
	s.say("plain", "Work 1 round on {stitches}.", body)
	for i := rounds - 1; i >= 1; i-- {
		m.crownRound(s, rounds-i+1, count(i+1), count(i))
	}
	s.say("gather", "Draw the yarn through the {stitches} left and pull tight.", s.To())
}

// crownRound works one round of a crown; tight decreases come two rounds at
// once, where there are too many for one.
func (m *maker) crownRound(s *Section, round, from, to int) {
	s.row(to)
	a, err := stitch.ShapeAcross(from, to-from, true)
	if err != nil {
		s.say(lineID("round", round), "Round {}: decrease as often as there are pairs, to {stitches}.", round, to)
		return
	}
	l := across(lineID("round", round), "Round {}", a)
	l.Counts = append(counts(round), l.Counts...)
	s.add(l)
}
