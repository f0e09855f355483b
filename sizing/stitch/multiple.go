package stitch

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A Rounding is the direction in which a size becomes a whole count.
type Rounding int

const (
	Nearest Rounding = iota // half way goes up
	Up
	Down
)

// countTolerance keeps a count that came through divisions (119.99999999999999)
// from being taken for the next lower one.
const countTolerance = 1e-9

const maxRepeat = 2000

// A Multiple is the form a stitch count must have: Repeat times a whole number
// plus Edge. A stitch pattern over 6 with 2 edge stitches is {6, 2}, written
// 6n+2. The zero value is plain: any count.
//
// The whole number may be 0, so that the edge stitches alone are a count, but
// a count is never below 1. Edge may exceed Repeat (12n+14) and may be
// negative (6n-1).
type Multiple struct {
	Repeat int // 0 and 1 alike: any
	Edge   int
}

// The multiples that have names.
var (
	Plain = Multiple{1, 0}
	Even  = Multiple{2, 0}
	Odd   = Multiple{2, 1}
)

// ParseMultiple reads "4n", "6n+2", "6n-1", "n", "even", "odd" and "plain".
// The empty string is plain. Blanks and case are ignored.
func ParseMultiple(s string) (Multiple, error) {
	t := strings.ToLower(strings.Join(strings.Fields(s), ""))
	switch t {
	case "", "plain":
		return Plain, nil
	case "even":
		return Even, nil
	case "odd":
		return Odd, nil
	}
	bad := &InputError{"multiple", strconv.Quote(s), "plain, even, odd, or a form like 4n, 6n+2 or 6n-1"}
	left, right, found := strings.Cut(t, "n")
	if !found {
		return Multiple{}, bad
	}
	m := Multiple{Repeat: 1}
	if left != "" {
		var err error
		if m.Repeat, err = strconv.Atoi(left); err != nil || m.Repeat < 1 {
			return Multiple{}, bad
		}
	}
	if right != "" {
		var err error
		if m.Edge, err = strconv.Atoi(right); err != nil || !strings.ContainsAny(right[:1], "+-") {
			return Multiple{}, bad
		}
	}
	if err := m.Validate(); err != nil {
		return Multiple{}, err
	}
	return m, nil
}

// Validate refuses a repeat over 2000 and edge stitches that eat a whole repeat.
func (m Multiple) Validate() error {
	if m.Repeat < 0 || m.Repeat > maxRepeat {
		return &InputError{"repeat of a multiple", strconv.Itoa(m.Repeat), fmt.Sprintf("1 to %d stitches", maxRepeat)}
	}
	if m.Edge <= -m.repeat() || m.Edge > maxRepeat {
		return &InputError{"edge of a multiple", strconv.Itoa(m.Edge),
			fmt.Sprintf("%d to %d stitches for a repeat of %d", 1-m.repeat(), maxRepeat, m.repeat())}
	}
	return nil
}

// String is the form ParseMultiple reads.
func (m Multiple) String() string {
	switch m.Repeat = m.repeat(); {
	case m == Plain:
		return "plain"
	case m == Even:
		return "even"
	case m == Odd:
		return "odd"
	}
	s := "n"
	if m.Repeat != 1 {
		s = strconv.Itoa(m.Repeat) + "n"
	}
	if m.Edge != 0 {
		s += fmt.Sprintf("%+d", m.Edge)
	}
	return s
}

func (m Multiple) repeat() int { return max(m.Repeat, 1) }

// least is the smallest count of the multiple.
func (m Multiple) least() int {
	if m.Edge > 0 {
		return m.Edge
	}
	return m.repeat() + m.Edge
}

// Has reports whether n is a count of the multiple.
func (m Multiple) Has(n int) bool { return n >= m.least() && (n-m.Edge)%m.repeat() == 0 }

// InTheRound is the multiple without its edge stitches, which a tube has not.
func (m Multiple) InTheRound() Multiple { return Multiple{Repeat: m.repeat()} }

// WithParity narrows the multiple to even or odd counts; ok is false when it
// has none. A sleeve that loses a stitch at each side keeps its parity.
func (m Multiple) WithParity(odd bool) (narrowed Multiple, ok bool) {
	rep := m.repeat()
	edgeOdd := m.Edge&1 == 1
	if rep%2 == 0 {
		return Multiple{rep, m.Edge}, edgeOdd == odd
	}
	if edgeOdd == odd {
		return Multiple{2 * rep, m.Edge}, true
	}
	return Multiple{2 * rep, m.Edge + rep}, true
}

// Count is the count of the multiple for an unrounded number of stitches.
// Nearest and Up never go below the smallest count; Down fails below it.
func (m Multiple) Count(stitches float64, r Rounding) (int, error) {
	if err := firstError(m.Validate(), checkRange("unrounded count", stitches, 0, maxCount, "")); err != nil {
		return 0, err
	}
	below, above := m.neighbours(stitches)
	switch r {
	case Up:
		return above, nil
	case Down:
		if below == 0 {
			return 0, &InputError{"count of " + m.String() + " rounded down", num(stitches), fmt.Sprintf("%d or more", m.least())}
		}
		return below, nil
	case Nearest:
		if below == 0 || stitches-float64(below) >= float64(above)-stitches-countTolerance {
			return above, nil
		}
		return below, nil
	}
	return 0, &InputError{"rounding", strconv.Itoa(int(r)), "Nearest, Up or Down"}
}

// AtLeast is the nearest count to stitches that is not under least.
func (m Multiple) AtLeast(stitches, least float64) (int, error) {
	if err := checkRange("least count", least, 0, maxCount, ""); err != nil {
		return 0, err
	}
	n, err := m.Count(stitches, Nearest)
	if err != nil || float64(n) >= least-countTolerance {
		return n, err
	}
	return m.Count(least, Up)
}

// Neighbours are the counts at or next to an unrounded number, to offer with
// their sizes; below is 0 when there is none. Both are equal on a count.
func (m Multiple) Neighbours(stitches float64) (below, above int, err error) {
	if err := firstError(m.Validate(), checkRange("unrounded count", stitches, 0, maxCount, "")); err != nil {
		return 0, 0, err
	}
	below, above = m.neighbours(stitches)
	return below, above, nil
}

func (m Multiple) neighbours(stitches float64) (below, above int) {
	rep, least := m.repeat(), m.least()
	tol := countTolerance * max(1, stitches)
	if stitches < float64(least)-tol {
		return 0, least
	}
	n := int(math.Floor((stitches + tol - float64(least)) / float64(rep)))
	below = least + n*rep
	if math.Abs(float64(below)-stitches) <= tol {
		return below, below
	}
	return below, below + rep
}
