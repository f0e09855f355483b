package plan

import (
	"fmt"
	"math"

	"growtuck/sizing/stitch"
)

// mittens plans two mittens from the cuff to the tip.
func (m *maker) mittens() error {
	w, err := m.targets("hand", "cuff", "hand_length", "thumb_length")
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
	cuff := m.cuffOf("cuff", w["cuff"], 2*hand).count
	rows, err := m.rows(long.cm, max(long.leastCm, long.line.Body.Value), true)
	if err != nil {
		return err
	}
	turned := m.how.Turned
	low := max(1, int(math.Round(m.g.Rows(w["thumb_length"].cm))))
	tip := m.tipRounds(hand, rows)
	if rows-low-tip < 1 {
		return fmt.Errorf("a hand of %d rows is too short for thumb and tip: use a finer gauge", rows)
	}
	join, err := stitch.ShapeAcross(cuff, hand-cuff, !turned)
	if err != nil {
		return fmt.Errorf("cuff: %w", err)
	}

	s := m.beginRib("cuff", cuff, !turned)
	s.Copies = 2
	s.step("start", "cast-on", Values{"cast_on": cuff})
	s.plain(m.ribRows(m.cuffDepthCm(3 * long.cm)))
	s.step("rib", "rib", Values{"rows": s.Rows(), "stitches": cuff})
	m.ribPart("cuff", cuff)

	s = m.begin("palm", hand, !turned)
	s.Copies = 2
	s.add(rowShaped("join", "first", join))
	s.plain(low)
	s.step("straight", "work-rows", Values{"rows": low, "stitches": hand})
	hole := max(1, int(math.Round((m.share("thumb_share")*float64(hand)-2)/2)))
	s.step("hole", "thumb-hole", Values{"on_hold": hole, "cast_on": hole})

	s = m.begin("hand", hand, !turned)
	s.Copies = 2
	s.plain(rows - low - tip)
	s.step("straight", "straight-on", Values{"rows": s.Rows(), "stitches": hand})
	m.tip("tip", hand, tip, turned)

	s = m.begin("thumb", 2*hole+2, !turned)
	s.Copies = 2
	s.step("pick-up", "pick-up-thumb", Values{"on_hold": hole, "other_side": hole, "corners": 2, "stitches": s.From})
	s.plain(low)
	s.step("straight", "thumb", Values{"rows": low, "stitches": s.From})
	m.widthPart("hand", hand, multiple)
	m.heightPart("hand_length", rows, 0)
	m.heightPart("thumb_length", low, 0)
	m.note("mittens-alike")
	return nil
}

// tipRounds is how many rounds close a tip, four stitches in each that decreases:
// down to a share of the stitches, in at most a share of the rows.
func (m *maker) tipRounds(stitches, rows int) int {
	goes := float64(stitches) * (1 - m.share("tip_left"))
	least := 4 // left, so that both decreases of a side have their stitches
	if m.how.Turned {
		least = 6
	}
	return max(0, min(int(math.Round(goes/4)), int(float64(rows)*m.share("tip_most"))/m.tipEvery(), (stitches-least)/4)) * m.tipEvery()
}

// tipEvery is the distance of a tip's decreases: knitting in turned rows
// decreases on right-side rows alone.
func (m *maker) tipEvery() int {
	if m.rightSideOnly(!m.how.Turned) {
		return 2
	}
	return 1
}

// tip closes the end of a mitten or sock with two decreases at each side. In
// turned rows one side is the middle of the row, the other its two edges, whose
// own stitches stay plain.
func (m *maker) tip(id string, from, rounds int, turned bool) {
	if rounds == 0 {
		if last := m.p.Sections[len(m.p.Sections)-1]; last != nil {
			last.step("close", "join-flat", Values{"stitches": from})
		}
		return
	}
	s := m.begin(id, from, !turned)
	s.Copies = 2
	every := m.tipEvery()
	for range rounds / every {
		if every == 1 || !m.wrongNext() {
			s.row(s.To() - 4)
			s.plain(every - 1)
		} else {
			s.plain(1)
			s.row(s.To() - 4)
		}
	}
	v := Values{"rows": rounds, "each_side": 2, "stitches": s.To()}
	kind := "tip"
	if turned {
		kind = "tip-turned"
		v = Values{"rows": rounds, "edge": 1, "middle": 2, "stitches": s.To()}
	}
	if every > 1 {
		kind = "tip-turned-every"
		v["every"] = every
	}
	s.step("tip", kind, v)
	if turned {
		s.step("seam", "seam-sides", nil)
	}
}
