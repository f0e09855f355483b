package stitch

import (
	"fmt"
	"strconv"
	"strings"
)

// Across is a row of stitches with increases or decreases spread evenly over
// it. An increase is two stitches worked in one; a decrease is two worked
// together.
type Across struct {
	Stitches int   // before the row
	Change   int   // gained, or negative: lost
	Gaps     []int // stitches of each group, its shaping worked on the last of them; they sum to Stitches
	Trail    int   // stitches of the first group put off to the end of the row
}

// ShapeAcross spreads change (positive: increases, negative: decreases) over a
// row. The groups differ by one stitch at most and are mixed as evenly as whole
// stitches allow. In turned rows half a group is put at the end, so that no
// edge is shaped; in rounds the last shaping ends the round.
func ShapeAcross(stitches, change int, inRounds bool) (Across, error) {
	if err := checkCount("stitches of the row", stitches, 1); err != nil {
		return Across{}, err
	}
	uses, most := 1, stitches
	if change < 0 {
		uses, most = 2, stitches/2
	}
	if change > most || change < -most {
		what, how := "increases across the row", "one in each stitch: spread them over two rows"
		if change < 0 {
			what, how = "decreases across the row", "one in every two stitches: spread them over two rows"
		}
		return Across{}, &InputError{what, fmt.Sprintf("%d in %d stitches", change, stitches), fmt.Sprintf("at most %d, %s", most, how)}
	}
	a := Across{Stitches: stitches, Change: change}
	n := abs(change)
	if n == 0 {
		return a, nil
	}
	a.Gaps = EvenRows(n, stitches)
	for i := n - 1; i > 0; i-- {
		a.Gaps[i] -= a.Gaps[i-1]
	}
	if !inRounds {
		a.Trail = (a.Gaps[0] - uses) / 2
	}
	return a, nil
}

// staggered is the same round with its shapings moved by half a group, for
// every second increase round: increases on one line make corners.
func (a Across) staggered() Across {
	if len(a.Gaps) > 0 {
		a.Trail = (a.Gaps[0] - a.uses()) / 2
	}
	return a
}

func (a Across) uses() int {
	if a.Change < 0 {
		return 2
	}
	return 1
}

// After is the count of stitches after the row.
func (a Across) After() int { return a.Stitches + a.Change }

// Wording is the row as a maker follows it: "(work 7, 2 in the next stitch) 6
// times" or "(work 6, work 2 together) 8 times".
func (a Across) Wording() string {
	if len(a.Gaps) == 0 {
		return "work " + strconv.Itoa(a.Stitches)
	}
	plain := make([]int, len(a.Gaps))
	for i, g := range a.Gaps {
		plain[i] = g - a.uses()
	}
	if a.Trail == 0 {
		// The gaps repeat as often as the divisor common to stitches and shapings.
		if k := gcd(a.Stitches, len(plain)); k > 1 && k < len(plain) {
			once := a.runs(plain[:len(plain)/k])
			if strings.HasPrefix(once, "(") || strings.Contains(once, ", (") {
				return "[" + once + "] " + times(k)
			}
			return "(" + once + ") " + times(k)
		}
		return a.runs(plain)
	}
	plain[0] -= a.Trail
	return a.runs(plain) + ", work " + strconv.Itoa(a.Trail)
}

// runs words groups in order, equal neighbours taken together.
func (a Across) runs(plain []int) string {
	var parts []string
	for i := 0; i < len(plain); {
		j := i
		for j < len(plain) && plain[j] == plain[i] {
			j++
		}
		s := "2 in the next stitch"
		if a.Change < 0 {
			s = "work 2 together"
		}
		if plain[i] > 0 {
			s = "work " + strconv.Itoa(plain[i]) + ", " + s
		}
		if j-i > 1 {
			s = "(" + s + ") " + times(j-i)
		}
		parts = append(parts, s)
		i = j
	}
	return strings.Join(parts, ", ")
}
