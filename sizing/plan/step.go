package plan

import (
	"maps"
	"strconv"

	"growtuck/sizing/stitch"
)

// A Step is one instruction of a section, in values: what is done, on which
// stitches, how often. Words for it are chosen where it is shown.
type Step struct {
	// ID names the step within its section: the steps of several sizes that
	// have it in common are graded together.
	ID string
	// Kind says what is done and where: "increase-evenly", "divide",
	// "pick-up-neck". Words are found by it.
	Kind   string
	Values Values

	InRounds      bool // else in turned rows
	RightSideOnly bool // shaped on right-side rows alone

	Row, Rows int  // rows of its section that it works, from 1; Rows is 0 where it works none
	Offset    int  // rows of the section before the first of Shaping
	From, To  int  // stitches before and after it
	WrongSide bool // its first row is on the wrong side

	// The row stitch by stitch, or the shaping over the rows; nil where there is
	// none.
	Across      *stitch.Across
	PickUp      *stitch.PickUp
	Buttonholes *stitch.Buttonholes
	Shaping     *stitch.Schedule
	Repeat      *stitch.Repeat // one row of shaping, worked again and again
}

// Values are a step's numbers and what it works on, by name. An int is a count
// of stitches, rows, rounds or pairs, a float64 a number in the trade's unit, a
// sizing.Length a length, a string an id.
type Values map[string]any

// with is the values with one of them changed.
func (v Values) with(name string, value any) Values {
	out := maps.Clone(v)
	out[name] = value
	return out
}

// rowShaped is a row that gains or loses stitches evenly; where says which row
// it is: "first", "last", or "row" for the one that the values name.
func rowShaped(id, where string, a stitch.Across) Step {
	kind := "work-evenly-"
	switch {
	case a.Change > 0:
		kind = "increase-evenly-"
	case a.Change < 0:
		kind = "decrease-evenly-"
	}
	return Step{ID: id, Kind: kind + where, Values: Values{"from": a.Stitches, "change": max(a.Change, -a.Change), "to": a.After()}, Across: &a}
}

// sidesShaped is shaping at both sides over the rows of a section.
func sidesShaped(sc stitch.Schedule) Step {
	return Step{ID: "shape", Kind: "shape-sides", Shaping: &sc, RightSideOnly: sc.RightSideOnly}
}

// numbered is the id of one of several steps of a kind.
func numbered(kind string, n int) string { return kind + "-" + strconv.Itoa(n) }
