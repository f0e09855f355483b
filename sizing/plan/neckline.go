package plan

import (
	"fmt"
	"math"
)

// A neckline is a neck between two shoulders that is straight at the back and
// lower in front: straight down at first, then widened towards the middle,
// where the rest is added.
type neckline struct {
	neck     int // stitches of the back between the shoulders
	shoulder int
	drop     int // rows of the front's neck
	widen    int // stitches each side gains at the neck's edge, in the last rows of the drop
	every    int // rows from one to the next
	middle   int // stitches added in the middle, or half of it at each front
	edgeCm   float64
	pickUp   int
}

// neckline finds the neck whose edge is nearest to its girth, on a back and
// fronts of so many stitches over an armhole of so many rows.
func (m *maker) neckline(neck target, back, fronts, rows int) (neckline, error) {
	drop := min(int(math.Round(m.g.Rows(m.neckDropCm()))), rows-2)
	if m.common.rows.Repeat == 2 {
		drop -= drop % 2 // the front's neck begins and ends on the right side
	}
	if drop < 1 {
		return neckline{}, fmt.Errorf("an armhole of %d rows leaves none for the neck", rows)
	}
	var best neckline
	for n := 2 - back%2; n <= back-2; n += 2 {
		l := m.necklineOf(n, back, fronts, drop)
		if l.middle < 1 || m.g.WidthCm(l.pickUp) < neck.leastCm-1e-9 {
			continue
		}
		if best.neck == 0 || math.Abs(l.edgeCm-neck.cm) < math.Abs(best.edgeCm-neck.cm) {
			best = l
		}
	}
	if best.neck == 0 {
		return best, fmt.Errorf("a back of %.1f cm has no room for a neck of %.1f cm", m.g.WidthCm(back), neck.cm)
	}
	return best, nil
}

func (m *maker) necklineOf(neck, back, fronts, drop int) neckline {
	l := neckline{neck: neck, shoulder: (back - neck) / 2, drop: drop, every: 1}
	if m.rightSideOnly(false) {
		l.every = 2
	}
	front := fronts - 2*l.shoulder
	l.widen = max(0, min(front/4, drop/2/l.every))
	l.middle = front - 2*l.widen
	slant := l.widen * l.every
	side := m.g.HeightCm(drop-slant) + math.Hypot(m.g.WidthCm(l.widen), m.g.HeightCm(slant))
	l.edgeCm = m.g.WidthCm(neck+l.middle) + 2*side
	l.pickUp = 2 * int(math.Round(m.g.Stitches(l.edgeCm)/2))
	return l
}
