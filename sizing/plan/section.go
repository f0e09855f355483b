package plan

import "growtuck/sizing/stitch"

// A Section is a part of the work, worked without a break.
type Section struct {
	ID string
	// Kind says what it is where the ID alone does not: a body that ends at the
	// waist, fronts instead of a front. It is the ID otherwise.
	Kind     string
	Copies   int  // worked so often: 2 for sleeves and legs
	InRounds bool // else in turned rows
	// WrongSide says that its first row, turned, is on the wrong side.
	WrongSide bool
	Gauge     stitch.Gauge
	Ribbed    bool
	From      int // stitches it starts on
	Steps     []Step

	Schedule *stitch.Schedule // its side shaping, where it has one

	Folds []Fold // of its rows, from its first to its last

	// Colours are those of the rows; none where the whole garment has one.
	Colours []string

	rows []row
}

// A row is how many stitches are on the work after it, and how many were worked:
// in a short row fewer.
type row struct{ after, worked int }

// Rows is the number of rows or rounds of one copy.
func (s *Section) Rows() int { return len(s.rows) }

// line is what one is called: a row, or a round.
func (s *Section) line() string {
	if s.InRounds {
		return "round"
	}
	return "row"
}

// To is the count of stitches after the last row.
func (s *Section) To() int { return s.StitchesAfter(len(s.rows)) }

// StitchesAfter is the count of stitches once a row (from 1) is worked; row 0
// is the start. Rows past the end count as the last.
func (s *Section) StitchesAfter(row int) int {
	if row <= 0 || len(s.rows) == 0 {
		return s.From
	}
	return s.rows[min(row, len(s.rows))-1].after
}

// HeightCm is the height of the rows.
func (s *Section) HeightCm() float64 { return s.Gauge.HeightCm(s.Rows()) }

// AreaCm2 is the area of all copies.
func (s *Section) AreaCm2() float64 {
	return float64(s.worked(s.Rows())*s.Copies) * s.Gauge.StitchWidthCm() * s.Gauge.RowHeightCm()
}

// worked is the stitches of the first rows of one copy.
func (s *Section) worked(rows int) int {
	n := 0
	for _, r := range s.rows[:rows] {
		n += r.worked
	}
	return n
}

// step adds an instruction.
func (s *Section) step(id, kind string, v Values) { s.add(Step{ID: id, Kind: kind, Values: v}) }

func (s *Section) add(step Step) {
	step.InRounds = s.InRounds
	s.Steps = append(s.Steps, step)
}

// stepOf returns the step of an id, nil where there is none.
func (s *Section) stepOf(id string) *Step {
	for i := range s.Steps {
		if s.Steps[i].ID == id {
			return &s.Steps[i]
		}
	}
	return nil
}

// plain adds rows on the stitches there are.
func (s *Section) plain(rows int) {
	n := s.To()
	for range rows {
		s.row(n)
	}
}

// row adds one row that ends with a count.
func (s *Section) row(stitches int) { s.rows = append(s.rows, row{stitches, stitches}) }

// short adds a short row over so many of the stitches.
func (s *Section) short(worked int) { s.rows = append(s.rows, row{s.To(), worked}) }

// repeat adds shaping that is worked again and again, up to its last row, and its
// step.
func (s *Section) repeat(id, kind string, r stitch.Repeat) {
	for i := range r.Times {
		s.plain(r.RowOf(i) - 1 - s.Rows())
		s.row(r.After(i))
	}
	s.add(Step{ID: id, Kind: kind, Repeat: &r, Values: Values{"row": r.Row, "every": r.Every, "times": r.Times, "change": max(r.Change, -r.Change), "from": r.From,
		"lead": r.Lead, "between": r.Between, "trail": r.Trail, "first_to": r.After(0), "to": r.To(), "last": r.Last()}})
}

// shape adds the rows of a schedule and its step.
func (s *Section) shape(sc stitch.Schedule) {
	for r := 1; r <= sc.Rows; r++ {
		s.row(sc.StitchesAfter(r))
	}
	s.Schedule = &sc
	s.add(sidesShaped(sc))
}

// shapeTube adds the rows of a schedule that shapes beside the beginning of a
// tube's rounds, or inside both edges where it is worked flat.
func (s *Section) shapeTube(sc stitch.Schedule) {
	s.shape(sc)
	s.Steps[len(s.Steps)-1].Kind = "shape-tube"
}
