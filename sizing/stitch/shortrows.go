package stitch

// ShortRows are rows that turn before the end, each a few stitches past the turn
// before it, so that the middle becomes higher than the ends by a pair of rows
// each. The first row works First stitches in the middle, Lead from either end.
type ShortRows struct {
	Stitches int // of the whole row
	Pairs    int
	Lead     int // stitches outside the first pair, at each end
	First    int // stitches of the first pair
	Further  int // stitches that each later row goes past the turn before it
}

// SpreadShortRows turns last at about a count of stitches, and first at about
// another, by the same step each time. There are fewer pairs where the stitches are
// too few for all.
func SpreadShortRows(stitches, pairs, first, last int) ShortRows {
	pairs = max(1, min(pairs, (last-2)/2+1))
	r := ShortRows{Stitches: stitches, Pairs: pairs}
	if steps := 2 * (pairs - 1); steps > 0 {
		r.Further = max(1, min((2*(last-first)+steps)/(2*steps), (last-2)/steps))
		first = last - r.Further*steps
	}
	r.First = max(1, first)
	if (stitches-r.First)%2 != 0 {
		r.First++
	}
	r.Lead = (stitches - r.First) / 2
	return r
}

// Worked is the stitches of a row, from the second on, which turns at both ends.
func (r ShortRows) Worked(row int) int { return r.First + (row-2)*r.Further }
