package plan

import (
	"fmt"
	"math"

	"growtuck/sizing/stitch"
)

// nearest is the whole number nearest to want, from least to most, that ok
// accepts; half way goes up. found is false where there is none.
func nearest(want float64, least, most int, ok func(n int) bool) (n int, found bool) {
	start := int(math.Floor(want + 0.5))
	for d := 0; start-d >= least || start+d <= most; d++ {
		up, down := start+d, start-d
		upOK := up >= least && up <= most && ok(up)
		downOK := down >= least && down <= most && ok(down)
		switch {
		case upOK && downOK && want-float64(down) < float64(up)-want-1e-9:
			return down, true
		case upOK:
			return up, true
		case downOK:
			return down, true
		}
	}
	return 0, false
}

// pairs is the multiple of counts that are a whole number of pairs from n.
func pairs(n int) stitch.Multiple {
	if n%2 == 1 {
		return stitch.Odd
	}
	return stitch.Even
}

// atLeast is the least whole count of an unrounded one, which division may
// have left a trifle over a whole number.
func atLeast(x float64) int { return int(math.Ceil(x - 1e-9)) }

// A slope is a change of width over rows, asked for.
type slope struct {
	from        int
	target      float64 // stitches at the end, unrounded
	least, most int
	rows, plain int // plain: rows before the shaping, given up where there are too few
	joins       int // rows at the start that join or pick up, and cannot shape
	accept      func(n int) bool
	atOnceMost  int // stitches at each side at one time

	inRounds, rightSideOnly bool
}

// sideAtOnceMost is the most stitches that are shaped at each side at one time.
const sideAtOnceMost = 4

// taper shapes both sides over rows: one stitch at a time at each side, or
// more where the rows are too few. Where they are too few for that as well, it
// comes as near as they allow; only where nothing else is possible is a row
// shaped that joins.
func (s slope) taper() (stitch.Schedule, error) {
	if s.atOnceMost == 0 {
		s.atOnceMost = sideAtOnceMost
	}
	sc, err := s.taperAs(s.accept, max(s.plain, s.joins), s.joins)
	if err == nil || s.joins == 0 {
		return sc, err
	}
	free := s.rows - s.joins
	if s.rightSideOnly {
		free /= 2
	}
	near := func(n int) bool {
		return max(n-s.from, s.from-n) <= 2*s.atOnceMost*free && (s.accept == nil || s.accept(n))
	}
	if sc, err := s.taperAs(near, s.joins); err == nil {
		return sc, nil
	}
	if s.rows <= fewRows {
		return s.taperAs(s.accept, 0)
	}
	return sc, err
}

// taperAs shapes to a count that is accepted, after so many plain rows, tried in turn.
func (s slope) taperAs(accept func(n int) bool, plains ...int) (stitch.Schedule, error) {
	var first error
	var best stitch.Schedule
	found := false
	for once := 1; once <= s.atOnceMost; once++ {
		to, ok := nearest(s.target, s.least, s.most, func(n int) bool {
			return (n-s.from)%(2*once) == 0 && (accept == nil || accept(n))
		})
		if !ok || found && s.off(best.To()) <= s.off(to)+1 {
			continue // more at once only for what is nearer by more than a stitch
		}
		for _, plain := range plains {
			sc, err := stitch.Taper{From: s.from, To: to, Rows: s.rows, AtOnce: once, PlainBefore: min(plain, s.rows),
				InRounds: s.inRounds, RightSideOnly: s.rightSideOnly}.Schedule()
			if err == nil {
				best, found = sc, true
				break
			}
			if first == nil {
				first = err
			}
		}
	}
	if found {
		return best, nil
	}
	if first == nil {
		first = fmt.Errorf("no count from %d to %d can be reached from %d by whole stitches at each side", s.least, s.most, s.from)
	}
	return stitch.Schedule{}, first
}

// fewRows are so few that the row that joins must be shaped as well.
const fewRows = 12

// off is how many stitches a count misses the target by.
func (s slope) off(n int) float64 { return math.Abs(float64(n) - s.target) }
