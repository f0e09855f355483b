package sizing

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// Place is a size, or a point between sizes, on a run of a chart. [Chart.Place]
// finds it. The zero Place is on no chart, and nothing is read there.
type Place struct {
	Run      *Run
	Position float64 // in what Run.Scale counts: months, years or cm of height
	How      *Fact   // how a label was read that is no size of the chart; nil for others
}

var errNoPlace = errors.New("no place on a chart given; Chart.Place finds one")

// Label names the place: a size of the chart, or a number between.
func (p Place) Label() string {
	if p.Run == nil {
		return ""
	}
	return p.Run.label(p.Position)
}

// Height is the height in cm that the place is for, if the chart says.
func (p Place) Height() (float64, bool) {
	if p.Run == nil {
		return 0, false
	}
	h := p.Run.Value("height", p.Position)
	return h, !math.IsNaN(h)
}

// The forms in which sizes and ages are written, each compiled on first use.
var (
	monthsForm = form(`^(\d+(?:[.,]\d+)?) ?(?:m|mo|months?)$`)
	ageForm    = form(`^(\d+(?:[.,]\d+)?) ?(?:y|years?)(?: ?(\d+(?:[.,]\d+)?) ?(?:m|months?))?$`)
	plainForm  = form(`^\d+(?:[.,]\d+)?$`)
)

func form(pattern string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(pattern) })
}

// Place finds a size on the chart for a sex. It takes a size of the chart
// ("4", "18m", "toddler"), a number between sizes ("3", "5.5"), an age ("18m",
// "3y6m"), a height ("104cm", "41 in") or what labels of children's clothes say ("4T",
// "4-5 years", "98/104", "EU 110"). Outside the chart it returns a
// [RangeError], for a size that the chart does not have a [SizeError], and an
// error of no type for an age or height on a chart that has none. What the chart
// has only for another sex is a [SexError].
func (c *Chart) Place(size string, sex Sex) (Place, error) {
	p, err := c.find(size, sex)
	if err != nil {
		return p, c.orSex(sex, err, func(of Sex) error { _, err := c.find(size, of); return err })
	}
	return p, nil
}

// orSex is the error of a place that was not found for a sex: a [SexError] where it
// is found for another, or the chart has nothing of this one.
func (c *Chart) orSex(sex Sex, err error, find func(Sex) error) error {
	sex = sex.orBoth()
	e := &SexError{Chart: c.ID}
	none := !slices.ContainsFunc(c.runs, func(r *Run) bool { return r.Sex == sex || r.Sex == Both })
	for _, of := range []Sex{Boy, Girl} {
		has := slices.ContainsFunc(c.runs, func(r *Run) bool { return r.Sex == of })
		if of != sex && has && (none || sex == Both && find(of) == nil) {
			e.Of = append(e.Of, of)
		}
	}
	if len(e.Of) == 0 {
		return err
	}
	return e
}

// CheckSex returns a [SexError] where the chart has no size of a sex, nor of both
// together.
func (c *Chart) CheckSex(sex Sex) error {
	return c.orSex(sex, nil, func(Sex) error { return &SexError{} })
}

// A SexError says that a chart has boys and girls apart, or one of them alone, and
// that another sex was asked for.
type SexError struct {
	Chart string
	Of    []Sex // that it has
}

func (e *SexError) Error() string {
	switch {
	case len(e.Of) > 1:
		return "chart " + e.Chart + " is of boys and girls apart; give the sex m or f"
	case slices.Contains(e.Of, Boy):
		return "chart " + e.Chart + " is of boys alone; give the sex m"
	}
	return "chart " + e.Chart + " is of girls alone; give the sex f"
}

// Fact tells which sex the chart needs.
func (e *SexError) Fact() Fact {
	switch {
	case len(e.Of) > 1:
		return NewFact("sex-needed.either", e.Chart)
	case slices.Contains(e.Of, Boy):
		return NewFact("sex-needed.m", e.Chart)
	}
	return NewFact("sex-needed.f", e.Chart)
}

func (c *Chart) find(size string, sex Sex) (Place, error) {
	s := strings.ToLower(strings.TrimSpace(size))
	for _, r := range c.runs {
		best, ok := c.Run(r.Scale, sex)
		if !ok {
			continue
		}
		for _, m := range best.Sizes {
			if m.Size == s {
				return Place{Run: best, Position: m.Position}, nil
			}
		}
	}
	if plainForm().MatchString(s) {
		for _, scale := range []Scale{Years, Height, Months} {
			if run, ok := c.Run(scale, sex); ok {
				p, err := run.place(decimal(s))
				if err != nil && decimal(s) >= labelFrom && scale != Height {
					return c.placeLabel(size, sex)
				}
				return p, err
			}
		}
	}
	if m := ageForm().FindStringSubmatch(s); m != nil {
		years := decimal(m[1])
		if m[2] != "" {
			years += decimal(m[2]) / 12
		}
		return c.atAge(years, sex)
	}
	if m := monthsForm().FindStringSubmatch(s); m != nil {
		return c.atAge(decimal(m[1])/12, sex)
	}
	if p, err := c.placeLabel(size, sex); !errors.Is(err, errNoLabel) {
		return p, err
	}
	if l, err := ParseLength(s, ""); err == nil {
		return c.findHeight(float64(l), sex)
	}
	var known []string
	for _, r := range c.runs {
		for _, m := range r.Sizes {
			if !slices.Contains(known, m.Size) {
				known = append(known, m.Size)
			}
		}
	}
	return Place{}, &SizeError{&UnknownError{Kind: "size of chart " + c.ID, Name: size, Known: known}}
}

// decimal reads digits that a regexp has let through.
func decimal(s string) float64 {
	v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	if err != nil {
		return math.NaN() // too large; refused as out of range
	}
	return v
}

func (r *Run) place(position float64) (Place, error) {
	low, high := r.Sizes[0].Position, r.Sizes[len(r.Sizes)-1].Position
	if !(position >= low && position <= high) {
		return Place{}, &RangeError{"size", position, low, high, r.name()}
	}
	return Place{Run: r, Position: position}, nil
}

// atAge places an age on the months scale up to its end, and above it on the
// years scale.
func (c *Chart) atAge(years float64, sex Sex) (Place, error) {
	months, hasMonths := c.Run(Months, sex)
	inYears, hasYears := c.Run(Years, sex)
	switch {
	case hasMonths && (!hasYears || years < inYears.Sizes[0].Position):
		return months.place(years * 12)
	case hasYears:
		return inYears.place(years)
	}
	return Place{}, fmt.Errorf("chart %s has no ages", c.ID)
}

// AtHeight places a height in cm: where the chart's own height column has it.
// Of the scales that have it, years come before months.
func (c *Chart) AtHeight(cm float64, sex Sex) (Place, error) {
	p, err := c.findHeight(cm, sex)
	if err != nil {
		return p, c.orSex(sex, err, func(of Sex) error { _, err := c.findHeight(cm, of); return err })
	}
	return p, nil
}

func (c *Chart) findHeight(cm float64, sex Sex) (Place, error) {
	if p, ok := c.atHeight(cm, sex); ok {
		return p, nil
	}
	low, high := inf, -inf
	for _, scale := range heightScales {
		if run, ok := c.Run(scale, sex); ok {
			if a, b, ok := run.Has("height"); ok {
				low, high = min(low, run.Value("height", a)), max(high, run.Value("height", b))
			}
		}
	}
	if low > high {
		return Place{}, fmt.Errorf("chart %s has no heights", c.ID)
	}
	return Place{}, &RangeError{"height", cm, low, high, "chart " + c.ID}
}

var heightScales = [...]Scale{Height, Years, Months}

func (c *Chart) atHeight(cm float64, sex Sex) (Place, bool) {
	for _, scale := range heightScales {
		if run, ok := c.Run(scale, sex); ok {
			if low, _, ok := run.inverse("height", cm); ok {
				return Place{Run: run, Position: low}, true
			}
		}
	}
	return Place{}, false
}
