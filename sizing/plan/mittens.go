package plan

import (
	"fmt"
	"math"

	"growtuck/sizing/stitch"
)

// thumbShare is the girth of the thumb as a share of the hand's (from memory).
const thumbShare = 0.4

// mittens plans two mittens from the cuff to the tip.
func (m *maker) mittens() error {
	w, err := m.wants("hand", "cuff", "hand_length", "thumb_length")
	if err != nil {
		return err
	}
	long := w["hand_length"]
	multiple := even(m.bodyMultiple(!m.how.Turned))
	fit, err := m.g.FitWidthAtLeast(w["hand"].cm, w["hand"].leastCm, multiple)
	if err != nil {
		return err
	}
	hand := fit.Count
	if hand < 6 {
		return fmt.Errorf("a hand of %d stitches is too few for a thumb: use a finer gauge", hand)
	}
	cuff := m.cuffOf("cuff", "hand", w["cuff"], 2*hand).count
	rows, err := m.rows(long.cm, max(long.leastCm, long.line.Body.Value), true)
	if err != nil {
		return err
	}
	turned := m.how.Turned
	low := max(1, int(math.Round(m.g.Rows(w["thumb_length"].cm))))
	tip := tipRounds(hand, rows, 4)
	if rows-low-tip < 1 {
		return fmt.Errorf("a hand of %d rows is too short for thumb and tip: use a finer gauge", rows)
	}
	join, err := stitch.ShapeAcross(cuff, hand-cuff, !turned)
	if err != nil {
		return fmt.Errorf("cuff: %w", err)
	}

	s := m.beginRib("cuff", "Cuff", cuff, !turned)
	s.Copies = 2
	s.say("start", "Chain or cast on {stitches}.", cuff)
	s.plain(m.ribRows(m.cuffDepthCm(3 * long.cm)))
	s.say("rib", "Work {rows} of ribbing.", s.Rows())
	m.ribPart("cuff", cuff)

	s = m.begin("palm", "Hand, below the thumb", hand, !turned)
	s.Copies = 2
	s.add(across("join", "In the first "+s.where(), join))
	s.plain(low)
	s.say("straight", "Work {rows}.", low)
	hole := max(1, int(math.Round((thumbShare*float64(hand)-2)/2)))
	s.say("hole", "Thumb hole: put {stitches} aside at the side, and chain or cast on {} over them.", hole, hole)

	s = m.begin("hand", "Hand, above the thumb", hand, !turned)
	s.Copies = 2
	s.plain(rows - low - tip)
	s.say("straight", "Work {rows} straight on {stitches}.", s.Rows(), hand)
	m.tip("tip", "Tip", hand, tip, turned)

	s = m.begin("thumb", "Thumb", 2*hole+2, !turned)
	s.Copies = 2
	s.say("pick-up", "Pick up the {} put aside, {} along their other side and 1 in each corner: {stitches}.", hole, hole, s.From)
	s.plain(low)
	s.say("straight", "Work {rows}; decrease to half in the last one and draw the yarn through.", low)
	m.widthPart("hand", hand, multiple)
	m.heightPart("hand_length", rows, 0)
	m.heightPart("thumb_length", low, 0)
	m.note("Make both alike; the thumb is at the side.")
	return nil
}

// tipRounds is how many rounds of four decreases close a tip: to about a
// quarter of the stitches, in at most a share of the rows.
func tipRounds(stitches, rows, part int) int {
	return max(0, min(int(math.Round(float64(stitches)*0.75/4)), rows/part, (stitches-2)/4))
}

// tip closes the end of a mitten or sock with two decreases at each side.
func (m *maker) tip(id, name string, from, rounds int, turned bool) {
	if rounds == 0 {
		if last := m.p.Sections[len(m.p.Sections)-1]; last != nil {
			last.say("close", "Join the last {stitches} flat.", from)
		}
		return
	}
	s := m.begin(id, name, from, !turned)
	s.Copies = 2
	for range rounds {
		s.row(s.To() - 4)
	}
	s.say("tip", "Work {rows}, in each decrease 2 at each side: {stitches}. Join them flat.", rounds, s.To())
}
