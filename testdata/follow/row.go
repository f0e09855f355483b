package follow

import (
	"fmt"
	"strconv"
	"strings"
)

// A piece of a row is what is done once, or in brackets so often.
type piece struct {
	text  string
	group []piece
	times int
}

// readRow takes the words of a row apart: pieces with commas between them, some of
// them in brackets with how often.
func readRow(s string) ([]piece, error) {
	r := rowReader{rest: s}
	all, err := r.pieces("")
	if err == nil && r.rest != "" {
		err = fmt.Errorf("%q is left over", r.rest)
	}
	return all, err
}

type rowReader struct{ rest string }

func (r *rowReader) pieces(end string) ([]piece, error) {
	var all []piece
	for {
		p, err := r.piece()
		if err != nil {
			return nil, err
		}
		all = append(all, p)
		if end != "" && strings.HasPrefix(r.rest, end) {
			r.rest = r.rest[len(end):]
			return all, nil
		}
		after, found := strings.CutPrefix(r.rest, ", ")
		if !found {
			if end != "" {
				return nil, fmt.Errorf("no %s before %q", end, r.rest)
			}
			return all, nil
		}
		r.rest = after
	}
}

var closing = map[byte]string{'(': ")", '[': "]"}

func (r *rowReader) piece() (piece, error) {
	if r.rest == "" {
		return piece{}, fmt.Errorf("a piece of the row is missing")
	}
	if end, ok := closing[r.rest[0]]; ok {
		r.rest = r.rest[1:]
		group, err := r.pieces(end)
		if err != nil {
			return piece{}, err
		}
		times, err := r.times()
		return piece{group: group, times: times}, err
	}
	// Up to the next comma or closing bracket; brackets inside a piece are remarks.
	depth, i := 0, 0
	for ; i < len(r.rest); i++ {
		c := r.rest[i]
		if c == '(' {
			depth++
		} else if c == ')' || c == ']' {
			if depth == 0 {
				break
			}
			depth--
		} else if c == ',' && depth == 0 {
			break
		}
	}
	p := piece{text: r.rest[:i], times: 1}
	r.rest = r.rest[i:]
	if p.text == "" {
		return p, fmt.Errorf("a piece of the row is missing before %q", r.rest)
	}
	return p, nil
}

// times reads how often a group is worked: "once", "twice", "7 times", or "to the
// end", which is 0.
func (r *rowReader) times() (int, error) {
	for _, w := range []struct {
		word string
		n    int
	}{{" once", 1}, {" twice", 2}, {" to the end", 0}} {
		if after, ok := strings.CutPrefix(r.rest, w.word); ok {
			r.rest = after
			return w.n, nil
		}
	}
	text, after, ok := strings.Cut(strings.TrimPrefix(r.rest, " "), " times")
	n, err := strconv.Atoi(text)
	if !ok || err != nil || n < 1 {
		return 0, fmt.Errorf("how often is not said before %q", r.rest)
	}
	r.rest = after
	return n, nil
}

// A row is one that is worked: what it uses of the row before, and what it makes.
type row struct {
	w          *worker
	have       int // stitches of the row before
	used, made int
	markers    []int // places on the row before
	next       int   // index of the next of them
	moved      []int // places on this row
	shaped     [][2]int
	flat       bool // turned: its edge stitches stay plain
	wrong      bool // a wrong-side row of knitting
	rib        bool
	open       int // chains over stitches that are to be skipped
	holeEnd    int // of the buttonhole before
}

// take uses stitches of the row before and makes others of them.
func (r *row) take(use, make int) error {
	if use < 0 {
		return fmt.Errorf("the row is already past there")
	}
	for r.next < len(r.markers) && r.markers[r.next] < r.used+use {
		// A marker that is not spoken of stays between its two stitches.
		if r.markers[r.next] >= r.used && len(r.moved) == r.next {
			r.moved = append(r.moved, r.made+min(make, r.markers[r.next]-r.used))
		}
		r.next++
	}
	r.used, r.made = r.used+use, r.made+make
	if r.used > r.have {
		return fmt.Errorf("it wants %d stitches of %d", r.used, r.have)
	}
	return nil
}

// shape is take, with stitches gained or lost.
func (r *row) shape(use, make int) error {
	at := r.used
	if err := r.take(use, make); err != nil {
		return err
	}
	r.shaped = append(r.shaped, [2]int{at, r.used})
	return nil
}

// marker is the place of the next marker.
func (r *row) marker() (int, error) {
	i := len(r.moved)
	if i >= len(r.markers) {
		return 0, fmt.Errorf("no marker is there")
	}
	return r.markers[i], nil
}

// pass takes the marker along.
func (r *row) pass() error {
	at, err := r.marker()
	if err != nil {
		return err
	}
	// In crochet the marker is moved up between the two halves of its shaping, in
	// knitting it is slipped.
	if at != r.used {
		return fmt.Errorf("the marker is %d stitches from here", at-r.used)
	}
	r.moved = append(r.moved, r.made)
	r.next = len(r.moved)
	return nil
}

// do works pieces.
func (r *row) do(all []piece) error {
	for _, p := range all {
		if p.group == nil {
			if err := r.w.piece(r, p.text); err != nil {
				return fmt.Errorf("%q: %w", p.text, err)
			}
			continue
		}
		for i := 0; i < p.times || p.times == 0 && r.used < r.have; i++ {
			before := r.used
			if err := r.do(p.group); err != nil {
				return err
			}
			if p.times == 0 && r.used == before {
				return fmt.Errorf("a group to the end uses nothing")
			}
		}
	}
	return nil
}

// finish ends the row.
func (r *row) finish() error {
	if r.used != r.have {
		return fmt.Errorf("%d of %d stitches are worked", r.used, r.have)
	}
	for len(r.moved) < len(r.markers) {
		r.moved = append(r.moved, r.made)
	}
	if r.flat {
		for _, s := range r.shaped {
			if s[0] < 1 || s[1] > r.have-1 {
				return fmt.Errorf("an edge stitch is shaped")
			}
		}
	}
	return nil
}
