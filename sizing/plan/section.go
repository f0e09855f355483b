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

	// Colours are those of the rows; none where the whole garment has one.
	Colours []string

	stitches []int // after each row
}

// Rows is the number of rows or rounds of one copy.
func (s *Section) Rows() int { return len(s.stitches) }

// line is what one is called: a row, or a round.
func (s *Section) line() string {
	if s.InRounds {
		return "round"
	}
	return "row"
}

// To is the count of stitches after the last row.
func (s *Section) To() int {
	if len(s.stitches) == 0 {
		return s.From
	}
	return s.stitches[len(s.stitches)-1]
}

// StitchesAfter is the count of stitches once a row (from 1) is worked; row 0
// is the start. Rows past the end count as the last.
func (s *Section) StitchesAfter(row int) int {
	if row <= 0 || len(s.stitches) == 0 {
		return s.From
	}
	return s.stitches[min(row, len(s.stitches))-1]
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
	for _, c := range s.stitches[:rows] {
		n += c
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
		s.stitches = append(s.stitches, n)
	}
}

// row adds one row that ends with a count.
func (s *Section) row(stitches int) { s.stitches = append(s.stitches, stitches) }

// shape adds the rows of a schedule and its step.
func (s *Section) shape(sc stitch.Schedule) {
	for r := 1; r <= sc.Rows; r++ {
		s.stitches = append(s.stitches, sc.StitchesAfter(r))
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
