package follow

import "fmt"

// shortRows are rows that are turned before their end: what lies between the turns.
type shortRows struct {
	over int    // stitches that they are worked over
	ends [2]int // unworked at each end
	last int    // worked in the last one
	left []int  // unworked at both ends after each pair of a heel
}

// shortFromEdge are the first two rows of a neck: from its edge to the first turn, and
// back to the second.
func (w *worker) shortFromEdge(n []int) error {
	from, there, back := n[0], n[len(n)-2], n[len(n)-1]
	return w.shortPair(from, n[1], there-back, back, w.live-there)
}

// shortFromMiddle are those of a seat, whose round begins in the middle of the back.
func (w *worker) shortFromMiddle(n []int) error {
	if 2*n[2] != n[3] {
		return fmt.Errorf("%d one way from the middle, %d back", n[2], n[3])
	}
	out := (w.live - n[3]) / 2
	w.fromMiddle = true
	return w.shortPair(n[0], n[1], out, n[3], w.live-n[3]-out)
}

// shortPair is the first pair of short rows, with so many stitches left at each end.
func (w *worker) shortPair(first, last, low, over, high int) error {
	if first != w.at+1 || last != first+1 {
		return fmt.Errorf("rows %d to %d follow row %d", first, last, w.at)
	}
	if over < 1 || low < 0 || high < 0 || high-low > 1 || low-high > 1 {
		return fmt.Errorf("%d and %d are left beside %d of %d", low, high, over, w.live)
	}
	w.short = shortRows{over: w.live, ends: [2]int{low, high}, last: over}
	w.shortWorked(2)
	return nil
}

func (w *worker) shortWorked(rows int) {
	w.Short[w.id] += rows
	for range rows {
		w.worked(w.live)
	}
}

// further are the rows after it, each so far past the turn before it.
func (w *worker) further(n []int) error {
	first, last, by, over := n[0], n[1], n[2], n[3]
	if first != w.at+1 || (last-first)%2 != 1 || w.short.last == 0 {
		return fmt.Errorf("rows %d to %d follow row %d", first, last, w.at)
	}
	rows := last - first + 1
	w.short.last += rows * by
	for i := range w.short.ends {
		if w.short.ends[i] -= rows / 2 * by; w.short.ends[i] < 0 {
			return fmt.Errorf("%d sts past each turn is past the end", by)
		}
	}
	if w.short.last != over {
		return fmt.Errorf("the last is over %d, %d are said", w.short.last, over)
	}
	w.shortWorked(rows)
	return nil
}

// toEnd works from the last turn to the end of the row.
func (w *worker) toEnd(_ []int, rows int, _ []string) error {
	if rows != 1 || w.short.last == 0 {
		return fmt.Errorf("no row was turned before its end")
	}
	w.short = shortRows{}
	w.worked(w.live)
	return nil
}

// toMiddle works back to where the round of a seat begins.
func (w *worker) toMiddle(n []int, rows int, _ []string) error {
	if !w.fromMiddle || 2*n[0] != w.short.last {
		return fmt.Errorf("%d are not half of %d", n[0], w.short.last)
	}
	w.fromMiddle = false
	w.Short[w.id]++
	return w.toEnd(n, rows, nil)
}

// heel begins short rows over half of a foot.
func (w *worker) heel(n []int) error {
	if 2*n[0] != w.live {
		return fmt.Errorf("%d is not half of %d", n[0], w.live)
	}
	w.short, w.foot, w.Begins[w.id] = shortRows{over: n[0]}, w.live, n[0]
	return nil
}

// leave leaves more unworked in each pair of rows.
func (w *worker) leave(n []int, rows int, _ []string) error {
	return w.leaves(rows, n[1], func(int) int { return n[0] })
}

func (w *worker) leaveUneven(n []int, rows int, _ []string) error {
	if n[1]+n[4] != n[2] || 2*n[2] != rows {
		return fmt.Errorf("%d and %d of %d pairs, in %d rows", n[1], n[4], n[2], rows)
	}
	return w.leaves(rows, n[5], func(pair int) int {
		if pair < n[1] {
			return n[0]
		}
		return n[3]
	})
}

func (w *worker) leaves(rows, middle int, each func(pair int) int) error {
	total := 0
	for pair := range rows / 2 {
		total += each(pair)
		w.short.left = append(w.short.left, total)
	}
	if rows%2 != 0 || w.short.over-2*total != middle {
		return fmt.Errorf("%d left at each end of %d are not %d in the middle", total, w.short.over, middle)
	}
	w.live = middle // as the count after the rows says
	for range rows {
		w.worked(middle)
	}
	return nil
}

// takeUp works them again.
func (w *worker) takeUp(_ []int, rows int, _ []string) error {
	if rows != 2*len(w.short.left) {
		return fmt.Errorf("%d rows take up what %d left", rows, 2*len(w.short.left))
	}
	w.live = w.short.over
	for range rows {
		w.worked(w.short.over)
	}
	return nil
}
