package follow

import "fmt"

// shortRows are rows that are turned before their end: what lies between the turns.
type shortRows struct {
	over      int   // stitches that they are worked over
	low, high int   // unworked at each end
	left      []int // unworked at both ends after each pair of a heel
}

// shortPair is the first pair of short rows, from begin stitches on.
func (w *worker) shortPair(first, last, begin, there, back int) error {
	if first != w.at+1 || last != first+1 {
		return fmt.Errorf("rows %d to %d follow row %d", first, last, w.at)
	}
	if there != back || begin+there > w.live {
		return fmt.Errorf("%d there and %d back, after %d of %d", there, back, begin, w.live)
	}
	w.short = shortRows{over: w.live, low: begin, high: w.live - begin - there}
	w.Short[w.id] += 2
	w.worked(w.live)
	w.worked(w.live)
	return nil
}

// further are the pairs after it, each further at both ends.
func (w *worker) further(n []int) error {
	first, last, by := n[0], n[1], n[2]
	if first != w.at+1 || (last-first)%2 != 1 {
		return fmt.Errorf("rows %d to %d follow row %d", first, last, w.at)
	}
	for range (last - first + 1) / 2 {
		w.short.low, w.short.high = w.short.low-by, w.short.high-by
		if w.short.low < 0 || w.short.high < 0 {
			return fmt.Errorf("%d sts further is past the end", by)
		}
		w.Short[w.id] += 2
		w.worked(w.live)
		w.worked(w.live)
	}
	return nil
}

// heel begins short rows over half of a foot.
func (w *worker) heel(n []int) error {
	if 2*n[0] != w.live {
		return fmt.Errorf("%d is not half of %d", n[0], w.live)
	}
	w.short, w.foot = shortRows{over: n[0]}, w.live
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
