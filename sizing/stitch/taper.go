package stitch

import (
	"fmt"
	"strconv"
)

// A Taper is a straight slope between two counts, such as that of a sleeve or a
// leg.
type Taper struct {
	From, To int
	Rows     int

	Sides  int // edges shaped at once; 0 is 2
	AtOnce int // stitches at each edge at one shaping; 0 is 1

	PlainBefore, PlainAfter int // rows kept plain, within Rows

	// RightSideOnly shapes turned rows on their right side, row 1 being one, as
	// is usual in flat knitting.
	RightSideOnly bool
	InRounds      bool

	// LongGapsFirst starts with the gentler slope.
	LongGapsFirst bool
}

// Schedule spreads the shaping of the taper over its rows, exactly.
func (t Taper) Schedule() (Schedule, error) {
	if t.Sides == 0 {
		t.Sides = 2
	}
	if t.AtOnce == 0 {
		t.AtOnce = 1
	}
	if err := t.validate(); err != nil {
		return Schedule{}, err
	}
	per := t.Sides * t.AtOnce
	shapings := abs(t.To-t.From) / per
	s := Schedule{From: t.From, Change: per, Sides: t.Sides, Rows: t.Rows,
		InRounds: t.InRounds, RightSideOnly: t.RightSideOnly}
	if t.To < t.From {
		s.Change = -per
	}
	if shapings == 0 {
		s.Change = 0
		return s, nil
	}
	free := t.Rows - t.PlainBefore - t.PlainAfter
	pace, first := 1, t.PlainBefore+1 // rows from one possible shaping row to the next; the first of them
	if t.RightSideOnly {
		free = (t.PlainBefore+free+1)/2 - (t.PlainBefore+1)/2
		pace, first = 2, first+t.PlainBefore%2
	}
	if shapings > free {
		return Schedule{}, t.tooSteep(shapings, free)
	}
	steps := spread(shapings, free)
	if t.LongGapsFirst && len(steps) == 2 {
		steps[0], steps[1] = steps[1], steps[0]
	}
	s.FirstRow = first + pace*(steps[0].Every-1)
	for i := range steps {
		steps[i].Every *= pace
	}
	s.Steps = steps
	return s, nil
}

func (t Taper) validate() error {
	if err := firstError(
		checkCount("stitches before the taper", t.From, 1),
		checkCount("stitches after the taper", t.To, 1),
		checkCount("rows of the taper", t.Rows, 0),
		checkCount("plain rows before the taper", t.PlainBefore, 0),
		checkCount("plain rows after the taper", t.PlainAfter, 0),
	); err != nil {
		return err
	}
	if t.Sides != 1 && t.Sides != 2 {
		return &InputError{"sides shaped", strconv.Itoa(t.Sides), "1 or 2"}
	}
	if t.AtOnce < 1 || t.AtOnce > 20 {
		return &InputError{"stitches shaped at once", strconv.Itoa(t.AtOnce), "1 to 20"}
	}
	if t.RightSideOnly && t.InRounds {
		return &InputError{"taper", "in rounds and on right-side rows only", "one of the two: rounds have no wrong side"}
	}
	if t.PlainBefore+t.PlainAfter > t.Rows {
		return &InputError{"plain rows of the taper", strconv.Itoa(t.PlainBefore + t.PlainAfter), fmt.Sprintf("at most its %d rows", t.Rows)}
	}
	if per := t.Sides * t.AtOnce; (t.To-t.From)%per != 0 {
		rest := (t.To - t.From) % per
		return &InputError{"taper", fmt.Sprintf("from %d to %d, by %d at a time", t.From, t.To, per),
			fmt.Sprintf("a change that divides by %d: end on %d or %d", per, t.To-rest, t.To-rest+per*sign(rest))}
	}
	return nil
}

func (t Taper) tooSteep(shapings, free int) error {
	rows := "rows"
	if t.RightSideOnly {
		rows = "right-side rows"
	}
	want := fmt.Sprintf("at least %d %s", shapings, rows)
	if free > 0 {
		want += fmt.Sprintf(", or %d stitches at each side at once", (shapings*t.AtOnce+free-1)/free)
	}
	return &InputError{"taper", fmt.Sprintf("%d shapings in %d %s", shapings, free, rows), want}
}

func sign(n int) int {
	if n < 0 {
		return -1
	}
	return 1
}

// Respace spreads what is left of a schedule over newRows rows, from the row
// last worked: the way to lengthen a sleeve that is already begun. The plain
// rows at its end stay.
func (s Schedule) Respace(done, newRows int) (Schedule, error) {
	if done < 0 || done > s.Rows {
		return Schedule{}, &InputError{"rows done", strconv.Itoa(done), fmt.Sprintf("0 to %d", s.Rows)}
	}
	sides := max(s.Sides, 1)
	t := Taper{From: s.StitchesAfter(done), To: s.To(), Rows: newRows, Sides: sides, AtOnce: abs(s.Change) / sides,
		PlainAfter: min(s.PlainAfter(), newRows, s.Rows-done), InRounds: s.InRounds, RightSideOnly: s.RightSideOnly}
	if len(s.Steps) == 2 {
		t.LongGapsFirst = s.Steps[0].Every > s.Steps[1].Every
	}
	if t.RightSideOnly && done%2 == 1 {
		// The next row is a wrong-side one; count from the right-side row before it.
		t.PlainBefore, t.Rows = 1, t.Rows+1
		r, err := t.Schedule()
		if err == nil {
			r.Rows--
			r.FirstRow = max(r.FirstRow-1, 0)
		}
		return r, err
	}
	return t.Schedule()
}
