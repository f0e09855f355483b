package sizing

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"growtuck/data"
)

// Sex is m, f or both.
type Sex string

const (
	Boy  Sex = "m"
	Girl Sex = "f"
	Both Sex = "both"
)

var sexes = []Sex{Boy, Girl, Both}

// orBoth is the sex whose figures a child is compared with: both if not known.
func (s Sex) orBoth() Sex {
	if s == "" {
		return Both
	}
	return s
}

// The charts that the engine itself reads: the default chart, and the survey
// whose medians and relations estimates rest on.
const (
	defaultChart = "child"
	surveyChart  = "measured"
)

// Scale is what a chart's sizes are counted in.
type Scale string

const (
	Months Scale = "months" // of age
	Years  Scale = "years"  // of age, as size labels are
	Height Scale = "height" // cm
	Band   Scale = "band"   // names only; not read between
)

// Chart is a table of sizes by one publisher, or worked out from others. Its
// sizes lie in runs, one for each scale and sex.
type Chart struct {
	data.Chart
	ref  *Reference
	runs []*Run
}

// Run is one series of sizes of a chart, for one sex, in which measurements
// can be read at the sizes and between them.
type Run struct {
	Chart *Chart
	Scale Scale
	Sex   Sex
	Sizes []Mark
	both  *Run // of a run of boys or girls: of both together on the scale, nil where the chart has none

	rows      []*data.BodyRows // that the chart prints
	formulas  []int            // rows of the derivations that add to it
	read      sync.Once        // what follows is of its making: see slot
	columns   map[string]*slot
	printed   []*printed
	positions []float64 // of the sizes
	unread    error     // the first fault of the rows
}

// A slot makes its column when it is first read.
type slot struct {
	made atomic.Pointer[column] // nil while it is not, or if there is none after all
	once sync.Once
	make func() (*column, error)
	err  error
}

func (s *slot) get() (*column, error) {
	s.once.Do(func() {
		c, err := s.make()
		s.err = err
		s.made.Store(c)
	})
	return s.made.Load(), s.err
}

// slot is that of a measurement, nil where the run has none.
func (r *Run) slot(measurement string) *slot {
	r.read.Do(r.readRows)
	return r.columns[measurement]
}

// column returns the column of a measurement: that of both sexes together where
// boys or girls have none of their own, nil where there is none.
func (r *Run) column(measurement string) *column {
	if s := r.slot(measurement); s != nil {
		if c := s.made.Load(); c != nil {
			return c
		}
		if c, _ := s.get(); c != nil {
			return c
		}
	}
	if r.both == nil {
		return nil
	}
	return r.both.column(measurement)
}

// columnAt returns the column that a measurement is read from at a position: that of
// both together where that of boys or girls ends before it.
func (r *Run) columnAt(measurement string, position float64) *column {
	own := r.column(measurement)
	if own == nil || own.values == nil || r.both == nil || !math.IsNaN(own.values.At(position)) {
		return own
	}
	if c := r.both.column(measurement); c != nil && c.values != nil && !math.IsNaN(c.values.At(position)) {
		return c
	}
	return own
}

// Mark is a size and its position on the run's scale.
type Mark struct {
	Size     string
	Position float64
	Note     string
}

// A column is one measurement along a run.
type column struct {
	values   *Curve // cm or kg
	imperial *Curve // as published in inches; nil where the chart has none
	low      *Curve // the ends of a range, where the chart has one
	high     *Curve
	spread   Spread // what low and high are
	sources  []string
	sizes    []origins
	middle   bool // values are the middle of a range
}

// origins are where a column has the value of a size from.
type origins struct {
	size      string
	published bool             // as printed in the chart
	derived   *data.Derivation // the row that it is worked out by
	where     string           // the place in the source
	notes     []Fact
}

// of is what the column has to say of a size.
func (c *column) of(size string) origins {
	for i := range c.sizes {
		if c.sizes[i].size == size {
			return c.sizes[i]
		}
	}
	return origins{}
}

// add is for what there is to add of a size.
func (c *column) add(size string) *origins {
	for i := range c.sizes {
		if c.sizes[i].size == size {
			return &c.sizes[i]
		}
	}
	c.sizes = append(c.sizes, origins{size: size})
	return &c.sizes[len(c.sizes)-1]
}

// prints reports whether the column's value of some size is printed.
func (c *column) prints() bool {
	return c != nil && slices.ContainsFunc(c.sizes, func(o origins) bool { return o.published })
}

func (o *origins) addWhere(where string) {
	if !strings.Contains(o.where, where) {
		o.where = join(o.where, where)
	}
}

// formulaOf is by which formula the values of two sizes are worked out, and why:
// once where it is the same, else size by size. above is "" where there is one
// size.
func (c *column) formulaOf(below, above string) (formula, why string) {
	d, other := c.of(below).derived, c.of(above).derived
	switch {
	case d == nil && other == nil:
		return "", ""
	case d == nil:
		return other.Formula, other.Why
	case other == nil || other == d:
		return d.Formula, d.Why
	}
	return below + ": " + d.Formula + "; " + above + ": " + other.Formula, d.Why + "; " + other.Why
}

// whereOf is the place in their source of the figures of two sizes: once where
// it is the same, else size by size. above is "" where there is one size.
func (c *column) whereOf(below, above string) string {
	at := c.of(below).where
	if above == "" || c.of(above).where == at {
		return at
	}
	all := ""
	for _, s := range []string{below, above} {
		if w := c.of(s).where; w != "" {
			all = join(all, s+": "+w)
		}
	}
	return all
}

// Runs returns the chart's runs.
func (c *Chart) Runs() []*Run { return slices.Clone(c.runs) }

// Run returns the run on a scale for a sex, falling back to both.
func (c *Chart) Run(scale Scale, sex Sex) (*Run, bool) {
	var fallback *Run
	for _, r := range c.runs {
		if r.Scale != scale {
			continue
		}
		if r.Sex == sex {
			return r, true
		}
		if r.Sex == Both {
			fallback = r
		}
	}
	return fallback, fallback != nil
}

// Value reads a measurement (cm, or kg for weight) at a position. It is NaN
// where the run does not have it. It does not allocate.
func (r *Run) Value(measurement string, position float64) float64 {
	c := r.column(measurement)
	if c == nil || c.values == nil {
		return math.NaN()
	}
	return c.values.At(position)
}

// Has reports whether the run has the measurement, and between which positions.
func (r *Run) Has(measurement string) (low, high float64, ok bool) {
	c := r.column(measurement)
	if c == nil || c.values == nil {
		return 0, 0, false
	}
	low, high = c.values.Range()
	return low, high, true
}

// Inverse returns the positions at which the run has the value: equal, unless
// the measurement is level there or turns.
func (r *Run) Inverse(measurement string, value float64) (low, high float64, err error) {
	if low, high, ok := r.inverse(measurement, value); ok {
		return low, high, nil
	}
	c := r.column(measurement)
	if c == nil || c.values == nil {
		return 0, 0, fmt.Errorf("%s has no %s", r.name(), measurement)
	}
	least, most := slices.Min(c.values.y), slices.Max(c.values.y)
	return 0, 0, &RangeError{What: measurement, Value: value, Low: least, High: most, Where: r.name()}
}

func (r *Run) inverse(measurement string, value float64) (low, high float64, ok bool) {
	c := r.column(measurement)
	if c == nil || c.values == nil {
		return 0, 0, false
	}
	return c.values.Inverse(value)
}

func (r *Run) name() string { return "chart " + r.Chart.ID + " (" + string(r.Scale) + ")" }

// RangeError says that a value lies outside what a chart covers.
type RangeError struct {
	What      string  // the measurement, or size
	Value     float64 // cm, or kg for weight; of a size, as its scale counts
	Low, High float64 // what the chart has, in the unit of Value
	Where     string  // the chart, in words
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("%s %.4g is outside %s, which has %.4g to %.4g; nothing is extrapolated",
		e.What, e.Value, e.Where, e.Low, e.High)
}

// label names a position on the run: one of its sizes, or a number.
func (r *Run) label(position float64) string {
	for _, m := range r.Sizes {
		if m.Position == position {
			return m.Size
		}
	}
	switch r.Scale {
	case Months:
		return fmt.Sprintf("%.3gm", position)
	case Height:
		return fmt.Sprintf("%.4gcm", position)
	}
	return fmt.Sprintf("%.3g", position)
}

// neighbours returns the sizes beside a position among those in which the
// column has values. At a size there is that alone, and above is "".
func (r *Run) neighbours(c *column, position float64) (below, above string) {
	low, high := c.values.Range()
	for _, m := range r.Sizes {
		switch {
		case m.Position < low || m.Position > high || !slices.Contains(c.values.x, m.Position):
		case m.Position == position:
			return m.Size, ""
		case m.Position < position:
			below = m.Size
		case above == "":
			above = m.Size
		}
	}
	return below, above
}
