package plan

import (
	"fmt"
	"math"

	"growtuck/sizing/stitch"
)

// socks plans two socks from the leg to the toe, with a heel of short rows.
func (m *maker) socks() error {
	if !m.hasPart("foot") {
		return m.legWarmers()
	}
	w, err := m.targets("foot", "ankle", "foot_length", "leg_height")
	if err != nil {
		return err
	}
	w["foot"], w["ankle"] = m.nearestInEase(w["foot"], m.g), m.nearestInEase(w["ankle"], m.rib)
	long := w["foot_length"]
	turned := m.how.Turned
	multiple := even(m.bodyMultiple(!turned))
	fit, err := m.g.FitWidthAtLeast(w["foot"].cm, w["foot"].leastCm, multiple)
	if err != nil {
		return err
	}
	foot := fit.Count
	if foot < 8 {
		return fmt.Errorf("a foot of %d stitches is too few for a heel: use a finer gauge", foot)
	}
	leg := m.cuffOf("ankle", w["ankle"], 2*foot).count
	rows, err := m.rows(long.cm, max(long.leastCm, long.line.Body.Value), true)
	if err != nil {
		return err
	}
	half := foot / 2
	left := min((half-1)/2, max(1, int(math.Round(float64(half)*(1-m.share("heel_middle_share"))/2)))) // at each end, in the end
	pairs := min(left, max(1, int(math.Round(m.g.Rows(long.cm*m.share("heel_depth_share"))/2))))
	toe := m.tipRounds(foot, rows)
	straight := rows - 2*pairs - toe
	if straight < 1 {
		return fmt.Errorf("a foot of %d rows is too short for heel and toe: use a finer gauge", rows)
	}
	join, err := stitch.ShapeAcross(leg, foot-leg, !turned)
	if err != nil {
		return fmt.Errorf("ankle: %w", err)
	}

	s := m.beginRib("leg", leg, !turned)
	s.Copies = 2
	s.step("start", "cast-on", Values{"cast_on": leg})
	s.plain(m.ribRows(w["leg_height"].cm))
	s.step("rib", "rib", Values{"rows": s.Rows(), "stitches": leg})
	if join.Change != 0 {
		s.add(rowShaped("join", "last", join))
		s.rows[len(s.rows)-1] = row{foot, foot}
	}
	m.ribPart("ankle", leg)
	m.heightPart("leg_height", 0, s.Rows())

	m.heel(half, left, pairs)
	s = m.begin("foot", foot, !turned)
	s.Copies = 2
	s.step("straight", "foot-straight", Values{"rows": straight, "stitches": foot})
	s.plain(straight)
	m.tip("toe", foot, toe, turned)
	m.widthPart("foot", foot, multiple)
	m.heightPart("foot_length", 2*pairs+straight+toe, 0)
	return nil
}

// nearestInEase lets an edge that stretches be counted under its least ease too,
// where no even count lies within its ease: the nearest count then is nearer than
// the next one up.
func (m *maker) nearestInEase(t target, g stitch.Gauge) target {
	high := t.leastCm - t.line.EaseLow + t.line.EaseHigh
	if up, err := g.FitWidth(t.leastCm, stitch.Even, stitch.Up); err == nil && up.SizeCm > high+1e-9 {
		t.leastCm = max(0.1, t.leastCm-g.WidthCm(2))
	}
	return t
}

// heel turns a heel of short rows: in pairs of rows, ever more stitches are
// left at both ends, then taken up again.
func (m *maker) heel(half, left, pairs int) {
	s := m.begin("heel", half, false)
	s.Copies = 2
	widths := make([]int, pairs)
	done := 0
	for i, at := range stitch.EvenRows(pairs, left) {
		done = at
		widths[i] = half - 2*done
	}
	for _, n := range widths {
		s.row(n)
		s.row(n)
	}
	for i := pairs - 1; i >= 0; i-- {
		n := half
		if i > 0 {
			n = widths[i-1]
		}
		s.row(n)
		s.row(n)
	}
	each, more := left/pairs, left%pairs
	s.step("heel", "heel", Values{"stitches": half, "pairs": pairs})
	if more == 0 {
		s.step("leave", "heel-leave", Values{"rows": 2 * pairs, "each": each, "middle": half - 2*left})
	} else {
		s.step("leave", "heel-leave-uneven", Values{"rows": 2 * pairs, "all_pairs": pairs, "each": each, "pairs": pairs - more, "each_other": each + 1, "pairs_other": more, "middle": half - 2*left})
	}
	s.step("take-up", "heel-take-up", Values{"rows": 2 * pairs, "pairs": pairs})
}
