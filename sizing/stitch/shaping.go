package stitch

import (
	"strconv"
	"strings"
)

// A Step is shaping on every Every-th row, Times times.
type Step struct {
	Every, Times int
}

// rows is the number of rows the step takes.
func (s Step) rows() int { return s.Every * s.Times }

// spread shares shapings evenly over rows, so that the steps take exactly that
// many rows, the last shaping on the last row. With q = rows ÷ shapings and
// remainder m, m of them come every (q+1)-th row and the others every q-th
// (the trade's formula). The short gaps come first. There is a row for each at least.
func spread(shapings, rows int) []Step {
	q, m := rows/shapings, rows%shapings
	if m == 0 {
		return []Step{{q, shapings}}
	}
	return []Step{{q, shapings - m}, {q + 1, m}}
}

// EvenRows gives the rows (from 1) of shapings mixed as evenly as whole rows
// allow, the last on the last row: the gaps are those of spread, but long and
// short ones alternate. It is nil where there are none, or more than rows.
func EvenRows(shapings, rows int) []int {
	if shapings <= 0 || shapings > rows || rows > maxCount {
		return nil
	}
	at := make([]int, shapings)
	for i := range at {
		at[i] = (i + 1) * rows / shapings
	}
	return at
}

// A Schedule is shaping laid out over the rows of a part.
type Schedule struct {
	From     int    // stitches before the first row
	Change   int    // stitches gained (negative: lost) by one shaping row
	Sides    int    // 1 or 2
	Rows     int    // rows of the part, plain ones included
	FirstRow int    // row of the first shaping, from 1; 0 when there is none
	Steps    []Step // gaps between shapings; the first one counts from before FirstRow

	InRounds      bool // wording: rounds, not rows
	RightSideOnly bool
}

// Shapings is the number of shaping rows.
func (s Schedule) Shapings() int {
	n := 0
	for _, st := range s.Steps {
		n += st.Times
	}
	return n
}

// To is the count of stitches after the last row.
func (s Schedule) To() int { return s.From + s.Change*s.Shapings() }

// lastRow is the row of the last shaping, 0 when there is none.
func (s Schedule) lastRow() int {
	if len(s.Steps) == 0 {
		return 0
	}
	last := s.FirstRow - s.Steps[0].Every
	for _, st := range s.Steps {
		last += st.rows()
	}
	return last
}

// PlainAfter is the number of rows worked plain after the last shaping.
func (s Schedule) PlainAfter() int { return s.Rows - s.lastRow() }

// StitchesAfter is the count of stitches once row (from 1) is worked; row 0 is
// the start. Rows past the end count as the last.
func (s Schedule) StitchesAfter(row int) int {
	if len(s.Steps) == 0 || row < s.FirstRow {
		return s.From
	}
	at := s.FirstRow - s.Steps[0].Every
	done := 0
	for _, st := range s.Steps {
		done += min(st.Times, max(0, (row-at)/st.Every))
		at += st.rows()
	}
	return s.From + s.Change*done
}

func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	if strings.HasSuffix(noun, "ch") {
		return strconv.Itoa(n) + " " + noun + "es"
	}
	return strconv.Itoa(n) + " " + noun + "s"
}
