package plan

import (
	"strings"

	"growtuck/sizing/stitch"
)

// A Section is a part of the work, worked without a break.
type Section struct {
	ID, Name string
	Copies   int  // worked so often: 2 for sleeves and legs
	InRounds bool // else in turned rows
	Gauge    stitch.Gauge
	Ribbed   bool
	From     int // stitches it starts on
	Lines    []Line

	Schedule *stitch.Schedule // its side shaping, where it has one

	stitches []int // after each row
}

// Rows is the number of rows or rounds of one copy.
func (s *Section) Rows() int { return len(s.stitches) }

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

// say adds an instruction.
func (s *Section) say(id, words string, n ...int) {
	s.add(Line{ID: id, Words: words, Counts: counts(n...)})
}

func (s *Section) add(l Line) {
	if s.InRounds {
		l.Words = strings.ReplaceAll(l.Words, "{rows}", "{rounds}")
	}
	s.Lines = append(s.Lines, l)
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

// follow adds the rows of a schedule and words it.
func (s *Section) follow(sc stitch.Schedule) {
	for r := 1; r <= sc.Rows; r++ {
		s.stitches = append(s.stitches, sc.StitchesAfter(r))
	}
	s.Schedule = &sc
	s.add(shaping(sc))
}

// where is what one of its rows is called.
func (s *Section) where() string {
	if s.InRounds {
		return "round"
	}
	return "row"
}
