package stitch

import "fmt"

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
// stitches allow. In turned rows half a group is put at the end and the edge
// stitches stay plain; in rounds the last shaping ends the round.
func ShapeAcross(stitches, change int, inRounds bool) (Across, error) {
	if err := checkCount("stitches of the row", stitches, 1); err != nil {
		return Across{}, err
	}
	a := Across{Stitches: stitches, Change: change}
	edges := 0 // plain stitches at least, of both edges
	if !inRounds {
		edges = 2
	}
	n, most := abs(change), max(0, (stitches-edges)/a.uses())
	if n > most || n < 0 {
		what, how := "increases across the row", "one in each stitch: spread them over two rows"
		if change < 0 {
			what, how = "decreases across the row", "one in every two stitches: spread them over two rows"
		}
		return Across{}, &InputError{what, fmt.Sprintf("%d in %d stitches", change, stitches), fmt.Sprintf("at most %d, %s", most, how)}
	}
	if n == 0 {
		return a, nil
	}
	a.Gaps = gaps(n, stitches)
	if first := edges + a.uses(); a.Gaps[0] < first {
		a.Gaps = append([]int{first}, gaps(n-1, stitches-first)...)
	}
	if !inRounds {
		a.Trail = (a.Gaps[0] - a.uses()) / 2
	}
	return a, nil
}

// gaps shares stitches among groups as evenly as whole ones allow.
func gaps(groups, stitches int) []int {
	all := EvenRows(groups, stitches)
	for i := groups - 1; i > 0; i-- {
		all[i] -= all[i-1]
	}
	return all
}

// between puts plain stitches before and after a row that shapes.
func (a Across) between(plain int) Across {
	a.Stitches += 2 * plain
	a.Gaps[0] += 2 * plain
	a.Trail += plain
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

// Ends is a round of an oval: all that is gained is gained round its two ends,
// half at each; the straight stitches along both sides stay plain.
func Ends(stitches, straight, change int) Across {
	half := change / 2
	curve := (stitches - 2*straight) / 2
	a := Across{Stitches: stitches, Change: 2 * half}
	gaps := EvenRows(half, curve)
	for range 2 {
		for i, end := range gaps {
			gap := end + straight
			if i > 0 {
				gap = end - gaps[i-1]
			}
			a.Gaps = append(a.Gaps, gap)
		}
	}
	return a
}
