package follow

import (
	"fmt"
	"slices"
)

// strapHole works a buttonhole in the middle of a row to come.
func (w *worker) strapHole(n []int) error {
	row, side, size := n[0], n[1], n[2]
	switch {
	case size != n[3] || 2*side+size != n[4] || n[4] != w.live:
		return fmt.Errorf("a hole of %d after %d of %d stitches, closed with %d", size, side, w.live, n[3])
	case row < 1 || len(w.StrapHoles) > 0 && row <= w.StrapHoles[len(w.StrapHoles)-1]+1:
		return fmt.Errorf("a hole in row %d after %v", row, w.StrapHoles)
	}
	w.StrapHoles = append(w.StrapHoles, row)
	return nil
}

func (w *worker) strapButtons(n []int) error {
	switch holes := len(w.StrapHoles); {
	case n[0] != 2:
		return fmt.Errorf("%d buttons for two straps", n[0])
	case holes == 0 || w.StrapHoles[holes-1] >= w.at:
		return fmt.Errorf("straps of %d rows with holes in rows %v", w.at, w.StrapHoles)
	}
	return nil
}

// nextHole is the step from one hole of the straps to the next.
func (w *worker) nextHole(on, to int) (Tuck, error) {
	i := slices.Index(w.StrapHoles, on)
	if i < 0 || i+1 == len(w.StrapHoles) || w.StrapHoles[i+1] != to {
		return Tuck{}, fmt.Errorf("rows %d and %d are no neighbours of the holes in rows %v", on, to, w.StrapHoles)
	}
	return Tuck{on, to - on}, nil
}

func (w *worker) buttonShorter(id string, m []string) (string, string, error) {
	t, err := w.nextHole(count(m[3]), count(m[2]))
	w.Held[id] = append(w.Held[id], t)
	return m[4], m[5], err
}

func (w *worker) buttonLonger(id string, m []string) (string, string, error) {
	t, err := w.nextHole(count(m[3]), count(m[2]))
	i := slices.Index(w.Held[id], t)
	if err == nil && i != len(w.Held[id])-1 {
		err = fmt.Errorf("the straps are not buttoned in row %s", m[3])
	}
	if err != nil {
		return "", "", err
	}
	w.Held[id] = w.Held[id][:i]
	return m[4], m[5], nil
}

// strapHoleCrochet is that of crochet, whose chain is said before the stitches it is over.
func (w *worker) strapHoleCrochet(n []int) error {
	if n[2] != n[3] {
		return fmt.Errorf("a chain of %d over %d stitches", n[2], n[3])
	}
	return w.strapHole(n)
}

const buttonHead = "Buttonholes, in the first row of the other front edge: "

// buttonholes works a row of an edge, which is one of those that are counted with it.
func (w *worker) buttonholes(text string) (int, error) {
	end := countEnd.FindStringSubmatch(text)
	if end == nil {
		return 0, fmt.Errorf("the row of buttonholes has no count")
	}
	body, err := w.ends(end[1])
	if err != nil {
		return 0, err
	}
	all, err := readRow(body)
	if err != nil {
		return 0, err
	}
	r := row{w: w, have: w.Edges.Stitches}
	w.holes, w.holeSize = 0, 0
	if err := r.do(all); err != nil {
		return 0, err
	}
	if err := r.finish(); err != nil {
		return 0, err
	}
	live := w.live
	w.live = r.made
	err = w.counted(end)
	w.live = live
	return len(end[0]), err
}
