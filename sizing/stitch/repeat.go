package stitch

// A Repeat is one row of shaping worked again and again, each time with a stitch
// more between its increases (or one fewer between its decreases): a yoke or a
// crown in a sentence.
//
// In rounds it is "(work Between, increase) so many times, work Trail". In turned
// rows about half of what is between is left at either edge, so that no edge
// stitch is shaped: "work Lead, increase, (work Between, increase) one time fewer,
// work Trail".
type Repeat struct {
	Row, Every, Times int // row of the first, from 1; rows from one to the next; how often

	From   int // stitches before the first
	Change int // stitches gained by each; negative: lost

	// Plain stitches of the first: before its first shaping, between two of them
	// and after the last one.
	Lead, Between, Trail int

	InRounds bool
}

// RowOf is the row of shaping i, from 0.
func (r Repeat) RowOf(i int) int { return r.Row + i*r.Every }

// Last is the row of the last shaping.
func (r Repeat) Last() int { return r.RowOf(r.Times - 1) }

// After is the count of stitches once shaping i is worked.
func (r Repeat) After(i int) int { return r.From + (i+1)*r.Change }

// To is the count of stitches in the end.
func (r Repeat) To() int { return r.After(r.Times - 1) }

// Across is shaping i, stitch by stitch.
func (r Repeat) Across(i int) Across {
	n, grown := abs(r.Change), i*sign(r.Change)
	between, edges := r.Between+grown, r.Lead+r.Trail+grown
	a := Across{Stitches: r.From + i*r.Change, Change: r.Change, Gaps: make([]int, n), Trail: edges / 2}
	if r.InRounds {
		a.Trail = r.Trail
		edges = between + r.Trail
	}
	for k := range a.Gaps {
		a.Gaps[k] = between + a.uses()
	}
	a.Gaps[0] = edges + a.uses()
	return a
}

// rest is what is left of increases after so many of them, worked in rows of its
// own.
func (r Repeat) rest(done, row, every, times int) Repeat {
	a := r.Across(done)
	return Repeat{Row: row, Every: every, Times: times, From: a.Stitches, Change: r.Change,
		Lead: a.Gaps[0] - a.uses() - a.Trail, Between: r.Between + done, Trail: a.Trail, InRounds: r.InRounds}
}

// spaceIncreases lays out increases, the same number in each row, on a count of
// stitches. ok is false where they leave no plain stitch between them, or, in
// turned rows, at an edge.
func spaceIncreases(from, change int, inRounds bool) (r Repeat, ok bool) {
	r = Repeat{From: from, Change: change, InRounds: inRounds}
	plain := from - change
	if inRounds {
		r.Between = plain / change
		r.Lead, r.Trail = r.Between, plain%change
		return r, r.Between >= 1
	}
	r.Between = min((2*plain+change)/(2*change), (plain-2)/max(1, change-1))
	edges := plain - r.Between*(change-1)
	r.Trail = edges / 2
	r.Lead = edges - r.Trail
	return r, r.Between >= 1 && r.Trail >= 1
}

// unevenness is how many stitches of a spacing do not divide: those left over at
// the end of the round, or by which both edges together are wider than one spacing.
func (r Repeat) unevenness() int {
	if r.InRounds {
		return r.Trail
	}
	return r.Lead + r.Trail - r.Between
}
