package plan

import (
	"fmt"
	"math"
	"slices"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// Done is how far a section is.
type Done struct {
	Section string
	Rows    int // over all its copies: of two sleeves of 40 rows, 55 is one and 15 rows
	// TriedOn says that the work was tried on and the section should end
	// LowerCm lower than it does now.
	TriedOn bool
	LowerCm float64
}

// Left is what is left of a section.
type Left struct {
	Section  *Section
	RowsDone int
	Rows     int   // to go, over all copies
	Rest     *Step // how to go on, where the plan's rows were changed
	Others   *Step // how to work the copies that are not begun, where that is changed
	stitches int
	areaCm2  float64
}

// Remaining is what is left of the work.
type Remaining struct {
	Left     []Left // sections that are not finished, in working order
	Progress stitch.Progress
	// NeedMetres is the yarn for the rest by the plan's own estimate, margin
	// included; 0 without yarn data.
	NeedMetres float64
	Notes      []sizing.Fact

	plan *Plan
}

// Remaining says what is left. Sections before the last one that is named,
// in working order, count as finished unless they are named themselves; those
// after it as not begun.
func (p *Plan) Remaining(done []Done) (*Remaining, error) {
	named, last := make(map[string]Done), -1
	for _, d := range done {
		i := slices.IndexFunc(p.Sections, func(s *Section) bool { return s.ID == d.Section })
		if i < 0 {
			var known []string
			for _, s := range p.Sections {
				known = append(known, s.ID)
			}
			return nil, &sizing.UnknownError{Kind: "section", Name: d.Section, Known: known}
		}
		if _, twice := named[d.Section]; twice {
			return nil, fmt.Errorf("section %s is given twice", d.Section)
		}
		if !(math.Abs(d.LowerCm) <= stitch.MaxLengthCm) {
			return nil, fmt.Errorf("section %s: %g cm is not a length", d.Section, d.LowerCm)
		}
		named[d.Section] = d
		last = max(last, i)
	}
	r := &Remaining{plan: p}
	all, left := 0.0, 0.0
	for i, s := range p.Sections {
		d, ok := named[s.ID]
		if !ok {
			d = Done{Section: s.ID}
			if i < last {
				d.Rows = s.Rows() * s.Copies
			}
		}
		l, err := r.rest(s, d)
		if err != nil {
			return nil, err
		}
		all += s.AreaCm2()
		left += l.areaCm2
		r.Progress.RowsDone += d.Rows
		r.Progress.RowsLeft += l.Rows
		if l.Rows > 0 {
			r.Left = append(r.Left, l)
			r.Progress.Left = append(r.Progress.Left, stitch.Remaining{Name: s.ID, Rows: l.Rows, Stitches: float64(l.stitches)})
		}
	}
	r.Progress.Rows = r.Progress.RowsDone + r.Progress.RowsLeft
	if sum := r.Progress.StitchesDone + r.Progress.StitchesLeft; sum > 0 {
		r.Progress.DoneShare = r.Progress.StitchesDone / sum
	}
	if p.Yarn != nil && all > 0 {
		r.NeedMetres = p.Yarn.Need.Metres * left / all
	}
	return r, nil
}

// rest is what is left of one section.
func (r *Remaining) rest(s *Section, d Done) (Left, error) {
	rows := s.Rows()
	if d.Rows < 0 || d.Rows > rows*s.Copies {
		return Left{}, fmt.Errorf("%d rows done of %s: want 0 to %d", d.Rows, s.ID, rows*s.Copies)
	}
	whole, part := d.Rows/rows, d.Rows%rows
	if d.TriedOn && part == 0 && whole > 0 {
		whole, part = whole-1, rows // tried on at its end
	}
	begun := part > 0
	worked := whole*s.worked(rows) + s.worked(part)
	l := Left{Section: s, RowsDone: d.Rows, Rows: rows*s.Copies - d.Rows, stitches: s.worked(rows)*s.Copies - worked}
	if d.TriedOn {
		if err := r.lengthen(s, d, &l, whole, part, begun); err != nil {
			return Left{}, err
		}
	}
	r.Progress.StitchesDone += float64(worked)
	r.Progress.StitchesLeft += float64(l.stitches)
	l.areaCm2 = float64(l.stitches) * s.Gauge.StitchWidthCm() * s.Gauge.RowHeightCm()
	return l, nil
}

// lengthen plans the rest of a section that was tried on.
func (r *Remaining) lengthen(s *Section, d Done, l *Left, whole, part int, begun bool) error {
	if !begun {
		return fmt.Errorf("%s was tried on, but none of its rows is done", s.ID)
	}
	n, err := stitch.RowsToGo(s.Gauge, d.LowerCm)
	if err != nil {
		return err
	}
	more := n - (s.Rows() - part)
	others := s.Copies - whole - 1
	if d.LowerCm < -s.Gauge.RowHeightCm()/2 {
		r.Notes = append(r.Notes, sizing.NewFact("section-too-long", s.Kind, sizing.Length(-d.LowerCm), int(math.Round(s.Gauge.Rows(-d.LowerCm)))))
	}
	l.Rows = n + others*(s.Rows()+more)
	l.stitches = 0
	rest, shaped := stitch.Schedule{}, s.Schedule != nil && s.Schedule.Rows == s.Rows()
	if shaped {
		if rest, err = s.Schedule.Respace(part, n); err != nil {
			return fmt.Errorf("%s: %w", s.ID, err)
		}
		for row := 1; row <= n; row++ {
			l.stitches += rest.StitchesAfter(row)
		}
		step := sidesShaped(rest)
		step.InRounds = s.InRounds
		l.Rest = &step
	} else {
		for row := 1; row <= n; row++ {
			l.stitches += s.StitchesAfter(part + row)
		}
		l.Rest = &Step{ID: "rest", Kind: "work-rest", InRounds: s.InRounds, Values: Values{"rows": n, "stitches": s.To()}}
	}
	if others > 0 {
		if err := r.sameAgain(s, l, others, s.Rows()+more); err != nil {
			return err
		}
	}
	if shaped && r.plan.steep(rest, n, s.Gauge) {
		r.Notes = append(r.Notes, sizing.NewFact("section-narrows-steeply", s.Kind))
	}
	if whole > 0 && more != 0 {
		r.Notes = append(r.Notes, sizing.NewFact("first-copy-differs", s.Kind, s.Rows(), s.Rows()+more))
	}
	return nil
}

// sameAgain plans the copies not yet begun in the rows that the first one was
// given.
func (r *Remaining) sameAgain(s *Section, l *Left, others, rows int) error {
	if s.Schedule == nil || s.Schedule.Rows != s.Rows() {
		l.stitches += others * max(0, s.worked(s.Rows())+(rows-s.Rows())*s.To())
		l.Others = &Step{ID: "others", Kind: "work-other", InRounds: s.InRounds, Values: Values{"rows": rows}}
		return nil
	}
	again, err := s.Schedule.Respace(0, rows)
	if err != nil {
		return fmt.Errorf("the other %s: %w", s.ID, err)
	}
	for row := 1; row <= rows; row++ {
		l.stitches += others * again.StitchesAfter(row)
	}
	step := sidesShaped(again)
	step.ID, step.InRounds = "others", s.InRounds
	step.Kind = "work-other-shaped"
	l.Others = &step
	return nil
}

// steep reports that each side goes in by more than it can.
func (p *Plan) steep(rest stitch.Schedule, rows int, g stitch.Gauge) bool {
	in := math.Abs(float64(rest.From-rest.To())) / 2 * g.StitchWidthCm()
	return in > p.steepestTaper*g.HeightCm(rows)
}
