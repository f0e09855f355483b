package stitch

import (
	"fmt"
	"strconv"
)

// A Section is a part of the work, in the order it is worked.
type Section struct {
	Name     string
	Rows     int
	From, To int // stitches of its first row and of its last
	Copies   int // worked so often: 2 for sleeves and legs; 0 is 1

	Schedule *Schedule // its shaping, for exact counts; nil is a straight slope from From to To
}

func (s Section) copies() int { return max(s.Copies, 1) }

// Stitches is the stitches of all copies.
func (s Section) Stitches() float64 { return s.stitches(s.Rows) * float64(s.copies()) }

// stitches is the stitches of the first rows of one copy.
func (s Section) stitches(rows int) float64 {
	if rows == 0 {
		return 0
	}
	if s.Schedule != nil {
		sum := 0
		for r := 1; r <= rows; r++ {
			sum += s.Schedule.StitchesAfter(r)
		}
		return float64(sum)
	}
	slope := 0.0
	if s.Rows > 1 {
		slope = float64(s.To-s.From) / float64(s.Rows-1)
	}
	n := float64(rows)
	return n*float64(s.From) + slope*n*(n-1)/2
}

// SectionOf is the section that a schedule makes.
func SectionOf(name string, s Schedule, copies int) Section {
	return Section{Name: name, Rows: s.Rows, From: s.StitchesAfter(1), To: s.To(), Copies: copies, Schedule: &s}
}

// Remaining is what is left of a section.
type Remaining struct {
	Name     string
	Rows     int // over all copies
	Stitches float64
}

// A Progress is how far the work is.
type Progress struct {
	Left           []Remaining // sections not finished
	RowsLeft       int
	StitchesDone   float64
	StitchesLeft   float64
	DoneShare      float64 // by stitches, as yarn goes
	RowsDone, Rows int
}

// ProgressOf counts what remains, given the rows done of each section, over
// all its copies (of two sleeves of 40 rows, 55 is one and 15 rows). done may
// be shorter than sections: the rest is not begun.
func ProgressOf(sections []Section, done []int) (Progress, error) {
	if len(done) > len(sections) {
		return Progress{}, &InputError{"sections done", strconv.Itoa(len(done)), fmt.Sprintf("at most %d", len(sections))}
	}
	var p Progress
	for i, s := range sections {
		if err := firstError(checkCount("rows of "+s.Name, s.Rows, 0), checkCount("stitches of "+s.Name, s.From, 0),
			checkCount("stitches of "+s.Name, s.To, 0), checkCount("copies of "+s.Name, s.Copies, 0)); err != nil {
			return Progress{}, err
		}
		d, rows := 0, s.Rows*s.copies()
		if i < len(done) {
			d = done[i]
		}
		if d < 0 || d > rows {
			return Progress{}, &InputError{"rows done of " + s.Name, strconv.Itoa(d), fmt.Sprintf("0 to %d", rows)}
		}
		worked := 0.0
		if s.Rows > 0 {
			worked = float64(d/s.Rows)*s.stitches(s.Rows) + s.stitches(d%s.Rows)
		}
		left := s.Stitches() - worked
		p.Rows += rows
		p.RowsDone += d
		p.StitchesDone += worked
		p.StitchesLeft += left
		if d < rows {
			p.Left = append(p.Left, Remaining{s.Name, rows - d, left})
		}
	}
	p.RowsLeft = p.Rows - p.RowsDone
	if all := p.StitchesDone + p.StitchesLeft; all > 0 {
		p.DoneShare = p.StitchesDone / all
	}
	return p, nil
}

// YarnLeft is yarn against what remains.
type YarnLeft struct {
	NeedMetres float64 // for the rest, margin included
	HaveMetres float64
	SpareBalls float64 // of the yarn at hand, once done; negative: to buy
	Enough     bool
}

// YarnToGo tells whether the yarn at hand finishes the work. It goes by what
// was used so far per stitch, which is better than any estimate once a few
// thousand stitches are done. Metres follow from weighing: grams × metres of a
// ball ÷ grams of a ball.
func (p Progress) YarnToGo(usedMetres, haveMetres, margin float64, b Ball) (YarnLeft, error) {
	if err := firstError(checkRange("yarn used", usedMetres, 0.001, 1e7, "m"), checkRange("yarn at hand", haveMetres, 0, 1e7, "m"),
		checkRange("margin", margin, 0, 1, ""), checkBall(b)); err != nil {
		return YarnLeft{}, err
	}
	if p.StitchesDone <= 0 {
		return YarnLeft{}, &InputError{"work done", "nothing", "some rows, to know what a stitch takes"}
	}
	y := YarnLeft{NeedMetres: usedMetres / p.StitchesDone * p.StitchesLeft * (1 + margin), HaveMetres: haveMetres}
	y.SpareBalls = (haveMetres - y.NeedMetres) / b.Metres
	y.Enough = y.NeedMetres <= haveMetres
	return y, nil
}

// RowsToGo is the rows still to work when the part, tried on, should end
// leftCm lower than it does: 0 when it is long enough or too long already.
func RowsToGo(g Gauge, leftCm float64) (int, error) {
	if err := firstError(g.Validate(), checkRange("length to go", leftCm, -MaxLengthCm, MaxLengthCm, "cm")); err != nil {
		return 0, err
	}
	return max(0, nearestInt(g.Rows(leftCm))), nil
}
