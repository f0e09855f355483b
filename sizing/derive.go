package sizing

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"growtuck/data"
)

// buildDerived adds the columns of derivations.csv, in the order of the table,
// for each sex that the terms are known for.
func (ref *Reference) buildDerived(atOnce bool) error {
	for _, d := range ref.tables.Derivations {
		terms, err := parseFormula(d.Formula)
		ref.formulas = append(ref.formulas, terms)
		if err == nil {
			err = ref.derive(d, terms, atOnce)
		}
		if err != nil {
			return &data.Error{File: "derivations.csv", Line: d.Line, Msg: d.Measurement + ": " + err.Error()}
		}
	}
	return nil
}

func (ref *Reference) derive(d data.Derivation, terms []term, atOnce bool) error {
	chart := ref.charts[d.Chart]
	if chart == nil {
		return fmt.Errorf("no chart %q", d.Chart)
	}
	for _, t := range terms {
		if ref.charts[t.chart] == nil {
			return fmt.Errorf("no chart %q in the formula", t.chart)
		}
		if ref.measurements[t.measurement] == nil {
			return fmt.Errorf("no measurement %q in the formula", t.measurement)
		}
	}
	derived := false
	for _, sex := range sexes {
		if Scale(d.Scale) == Height { // only where the chart has children of that sex
			if _, ok := chart.findRun(Height, sex); !ok {
				continue
			}
		}
		run := chart.makeRun(Scale(d.Scale), sex)
		if len(run.Sizes) == 0 {
			ref.placeSizes(run, nil)
		}
		before := run.columns[d.Measurement]
		s := newSlot(func() (*column, error) {
			c, err := ref.deriveColumn(run, d, terms)
			if c == nil && err == nil && before != nil {
				return before.get()
			}
			return c, err
		})
		if atOnce { // before the run has it: a formula that leads back to itself finds nothing
			c, err := s.get()
			if err != nil {
				return err
			}
			if c == nil || before != nil && c == before.made.Load() {
				continue
			}
		}
		run.columns[d.Measurement] = s
		derived = true
	}
	if !derived {
		return fmt.Errorf("the formula has no value at any size")
	}
	return nil
}

func (c *Chart) findRun(scale Scale, sex Sex) (*Run, bool) {
	for _, r := range c.runs {
		if r.Scale == scale && r.Sex == sex {
			return r, true
		}
	}
	return nil, false
}

// deriveColumn works the formula out at each of the run's sizes. A size at
// which some term has no value is left out; a column without sizes is nil.
func (ref *Reference) deriveColumn(run *Run, d data.Derivation, terms []term) (*column, error) {
	reach := 0.0
	if d.ReachCm != nil {
		reach = *d.ReachCm
	}
	c := &column{
		formula: d.Formula, why: d.Why, sources: []string{d.Source},
		published: make(map[string]bool), notes: make(map[string][]Fact), where: make(map[string]string),
	}
	var x, y, yi, low, high []float64
	for _, m := range run.Sizes {
		d := ref.deriveAt(c, run, m, terms, reach)
		if math.IsNaN(d.sum) {
			continue
		}
		x, y, yi = append(x, m.Position), append(y, d.sum), append(yi, d.imperial)
		low, high = append(low, d.low), append(high, d.high)
	}
	if len(x) == 0 {
		return nil, nil
	}
	var err error
	if c.values, err = NewCurve(x, y); err != nil {
		return nil, err
	}
	// The copies in inches and the ranges are kept where they are whole.
	if !slices.ContainsFunc(yi, math.IsNaN) {
		c.imperial, err = NewCurve(x, yi)
	}
	if err == nil && !slices.ContainsFunc(low, math.IsNaN) && !slices.ContainsFunc(high, math.IsNaN) {
		if c.low, err = NewCurve(x, low); err == nil {
			c.high, err = NewCurve(x, high)
		}
	}
	return c, err
}

// derived is a formula worked out at a size, in cm or kg, and in inches or pounds;
// NaN where some term has no value. The range is that of a single term.
type derived struct{ sum, imperial, low, high float64 }

// deriveAt works the terms out at a size, and adds to the column where they are
// from.
func (ref *Reference) deriveAt(c *column, run *Run, m Mark, terms []term, reach float64) derived {
	d := derived{low: math.NaN(), high: math.NaN()}
	for _, t := range terms {
		src, at, factor, note := ref.locate(run, m, t, reach)
		if src == nil {
			d.sum = math.NaN()
			return d
		}
		d.sum += t.factor * factor * src.values.At(at)
		if src.imperial != nil {
			d.imperial += t.factor * src.imperial.At(at)
		} else {
			d.imperial = math.NaN()
		}
		c.addSources(src.sources)
		for where := range strings.SplitSeq(src.where[m.Size], "; ") {
			if where != "" && len(terms) > 1 && src.formula == "" {
				where = t.measurement + " " + where
			}
			c.addWhere(m.Size, where)
		}
		if !note.IsZero() {
			c.notes[m.Size] = append(c.notes[m.Size], note)
		}
		if len(terms) > 1 {
			continue
		}
		if t.factor == 1 && factor == 1 && at == m.Position {
			c.published[m.Size] = src.published[m.Size]
			c.notes[m.Size] = append(c.notes[m.Size], src.notes[m.Size]...)
		}
		if src.low != nil && src.high != nil {
			d.low, d.high = t.factor*factor*src.low.At(at), t.factor*factor*src.high.At(at)
			c.spread = src.spread
		}
	}
	return d
}

func (c *column) addSources(ids []string) {
	for _, id := range ids {
		if !slices.Contains(c.sources, id) {
			c.sources = append(c.sources, id)
		}
	}
}

// locate finds the column a term names and the position to read it at: the
// same position on a run of the same scale, or the size's height on a height
// scale. Below the lowest class, within reach, it is read at the lowest class
// and made smaller by factor, as children's measurements go with height: a
// length in proportion, a girth or width by half of that, a weight by twice.
// Where too few of one sex were measured, both are read together.
func (ref *Reference) locate(run *Run, m Mark, t term, reach float64) (src *column, at, factor float64, note Fact) {
	sex := run.Sex
	if t.sex != "" {
		sex = t.sex
	}
	chart := ref.charts[t.chart]
	if r, ok := chart.Run(run.Scale, sex); ok {
		if c := r.column(t.measurement); c != nil && c.values != nil && !math.IsNaN(c.values.At(m.Position)) {
			return c, m.Position, 1, Fact{}
		}
		return nil, 0, 0, Fact{}
	}
	height := run.Value("height", m.Position)
	for _, s := range []Sex{sex, Both} {
		r, ok := chart.Run(Height, s)
		if !ok {
			continue
		}
		c := r.column(t.measurement)
		if c == nil || c.values == nil {
			continue
		}
		low, high := c.values.Range()
		switch {
		case height >= low && height <= high:
			return c, height, 1, Fact{}
		case height < low && height >= low-reach:
			return c, low, math.Pow(height/low, ref.heightPower()[ref.measurements[t.measurement].Kind]),
				NewFact("made-smaller", Length(low), Length(height))
		}
	}
	return nil, 0, 0, Fact{}
}

// heightPower says how each kind of measurement goes with height among
// children just tall enough to be surveyed.
func (ref *Reference) heightPower() map[string]float64 {
	girth, mass := ref.Practice("girth_height_power").Value, ref.Practice("mass_height_power").Value
	return map[string]float64{"length": 1, "girth": girth, "width": girth, "mass": mass}
}
