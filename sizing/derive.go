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
	for i := range ref.tables.Derivations {
		d := &ref.tables.Derivations[i]
		terms, err := parseFormula(d.Formula)
		ref.formulas = append(ref.formulas, terms)
		if err == nil {
			err = ref.derive(i, terms, atOnce)
		}
		if err != nil {
			return &data.Error{File: "derivations.csv", Line: d.Line, Msg: d.Measurement + ": " + err.Error()}
		}
	}
	return nil
}

func (ref *Reference) derive(row int, terms []term, atOnce bool) error {
	d := &ref.tables.Derivations[row]
	chart := ref.charts[d.Chart]
	if chart == nil {
		return fmt.Errorf("no chart %.80q", d.Chart)
	}
	for _, t := range terms {
		if ref.charts[t.chart] == nil {
			return fmt.Errorf("no chart %.80q in the formula", t.chart)
		}
		if ref.measurements[t.measurement] == nil {
			return fmt.Errorf("no measurement %.80q in the formula", t.measurement)
		}
		if t.measure == "" {
			continue
		}
		if ref.charts[t.measureChart] == nil {
			return fmt.Errorf("no chart %.80q in the formula", t.measureChart)
		}
		if ref.measurements[t.measure] == nil {
			return fmt.Errorf("no measurement %.80q in the formula", t.measure)
		}
	}
	derived := false
	for _, sex := range sexes {
		if sex != Both && !ref.differs(chart, terms, sex) {
			continue // they read what both together read
		}
		if Scale(d.Scale) == Height { // only where the chart has children of that sex
			if _, ok := chart.findRun(Height, sex); !ok {
				continue
			}
		}
		run := chart.makeRun(Scale(d.Scale), sex)
		if len(run.Sizes) == 0 {
			ref.placeSizes(run)
		}
		if !atOnce {
			run.formulas, derived = append(run.formulas, row), true
			continue
		}
		// Before the run has it: a formula that leads back to itself finds nothing.
		run.read.Do(run.readRows)
		before := run.columns[d.Measurement]
		s := run.derived(row)
		c, err := s.get()
		if err != nil {
			return err
		}
		if c == nil {
			continue
		}
		if before == nil || c != before.made.Load() { // else there was nothing left to fill in
			run.columns[d.Measurement] = s
		}
		derived = true
	}
	if !derived {
		return fmt.Errorf("the formula has no value at any size")
	}
	return nil
}

// derived is the slot of a row of the derivations, on top of what the run has of the
// measurement.
func (r *Run) derived(row int) *slot {
	ref := r.Chart.ref
	d := &ref.tables.Derivations[row]
	before := r.columns[d.Measurement]
	return &slot{make: func() (*column, error) { return ref.deriveColumn(r, d, ref.formulas[row], before) }}
}

// differs reports whether a formula may give boys or girls another value than both
// together: its chart, or one that it reads, has figures of theirs.
func (ref *Reference) differs(chart *Chart, terms []term, sex Sex) bool {
	has := func(c *Chart) bool {
		return c != nil && slices.ContainsFunc(c.runs, func(r *Run) bool { return r.Sex == sex })
	}
	return has(chart) || slices.ContainsFunc(terms, func(t term) bool {
		return has(ref.charts[t.chart]) || has(ref.charts[t.measureChart])
	})
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
// which some term has no value is left out; a column without sizes is nil. What
// an earlier row of the table has worked out for the same column stays: a later
// row fills in the sizes that the earlier leaves out.
func (ref *Reference) deriveColumn(run *Run, d *data.Derivation, terms []term, before *slot) (*column, error) {
	reach := 0.0
	if d.ReachCm != nil {
		reach = *d.ReachCm
	}
	c := new(column)
	var earlier *column
	if before != nil {
		var err error
		if earlier, err = before.get(); err != nil {
			return nil, err
		}
	}
	if earlier != nil && earlier.isDerived() {
		c.takeFrom(earlier)
	}
	room := make([][]float64, 6)
	for i := range room {
		room[i] = make([]float64, 0, len(run.Sizes))
	}
	x, y, yi, rx, low, high := room[0], room[1], room[2], room[3], room[4], room[5]
	filled := false
	for _, m := range run.Sizes {
		var v derived
		if c.of(m.Size).derived != nil {
			v = earlier.at(m.Position)
		} else {
			v = ref.deriveAt(c, run, m, d.Source, terms, reach)
			if math.IsNaN(v.sum) {
				continue
			}
			c.add(m.Size).derived, filled = d, true
		}
		x, y, yi = append(x, m.Position), append(y, v.sum), append(yi, v.imperial)
		if !math.IsNaN(v.low) && !math.IsNaN(v.high) && v.spread == c.spread {
			rx, low, high = append(rx, m.Position), append(low, v.low), append(high, v.high)
		}
	}
	if !filled {
		return earlier, nil
	}
	var err error
	if c.values, err = curveOf(x, y); err != nil {
		return nil, err
	}
	// The copies in inches are kept where they are whole.
	if !slices.ContainsFunc(yi, math.IsNaN) {
		c.imperial, err = curveOf(x, yi)
	}
	if err == nil && len(rx) > 0 {
		if c.low, err = curveOf(rx, low); err == nil {
			c.high, err = curveOf(rx, high)
		}
	}
	return c, err
}

// takeFrom takes over where the values of an earlier column are from.
func (c *column) takeFrom(earlier *column) {
	c.sizes = append(c.sizes, earlier.sizes...)
	c.addSources(earlier.sources...)
	c.spread = earlier.spread
}

// isDerived reports whether the column is worked out.
func (c *column) isDerived() bool {
	return slices.ContainsFunc(c.sizes, func(o origins) bool { return o.derived != nil })
}

// at is what the column has at one of its sizes.
func (c *column) at(position float64) derived {
	d := derived{sum: c.values.At(position), imperial: math.NaN(), low: math.NaN(), high: math.NaN(), spread: c.spread}
	if c.imperial != nil {
		d.imperial = c.imperial.At(position)
	}
	if c.low != nil && c.high != nil {
		d.low, d.high = c.low.At(position), c.high.At(position)
	}
	return d
}

// derived is a formula worked out at a size, in cm or kg, and in inches or pounds;
// NaN where some term has no value. The range is that of a single term.
type derived struct {
	sum, imperial, low, high float64
	spread                   Spread
}

// deriveAt works the terms out at a size, and adds to the column where they are
// from, unless some term has no value.
func (ref *Reference) deriveAt(c *column, run *Run, m Mark, source string, terms []term, reach float64) derived {
	d := derived{low: math.NaN(), high: math.NaN()}
	read := make([]located, len(terms))
	for i, t := range terms {
		read[i] = ref.locate(run, m, t, reach)
		if read[i].column == nil {
			d.sum = math.NaN()
			return d
		}
	}
	c.addSources(source)
	of := c.add(m.Size)
	for i, t := range terms {
		src := read[i]
		said := src.of(m.Size)
		d.sum += t.factor * src.factor * src.values.At(src.at)
		if src.imperial != nil {
			d.imperial += t.factor * src.imperial.At(src.at)
		} else {
			d.imperial = math.NaN()
		}
		c.addSources(src.sources...)
		for where := range strings.SplitSeq(said.where, "; ") {
			if where != "" && len(terms) > 1 && !src.isDerived() {
				where = t.measurement + " " + where
			}
			of.addWhere(where)
		}
		if !src.note.IsZero() {
			of.notes = append(of.notes, src.note)
		}
		if len(terms) > 1 {
			continue
		}
		if t.factor == 1 && src.factor == 1 && src.at == m.Position {
			of.published = said.published
			of.notes = append(of.notes, said.notes...)
		}
		if src.low != nil && src.high != nil {
			d.low, d.high = t.factor*src.factor*src.low.At(src.at), t.factor*src.factor*src.high.At(src.at)
			d.spread, c.spread = src.spread, src.spread
		}
	}
	return d
}

func (c *column) addSources(ids ...string) {
	for _, id := range ids {
		if !slices.Contains(c.sources, id) {
			c.sources = append(c.sources, id)
		}
	}
}

// A located term is the column that it is read on, nil for none, where, times
// what, and what is to be said of it.
type located struct {
	*column
	at, factor float64
	note       Fact
}

// locate finds the column a term names and the position to read it at: the
// same position on a run of the same scale, or the size's height on a height
// scale. Below the lowest class, within reach, it is read at the lowest class
// and made smaller by factor, as children's measurements go with height: a
// length in proportion, a girth or width by half of that, a weight by twice.
// Where too few of one sex were measured, both are read together.
func (ref *Reference) locate(run *Run, m Mark, t term, reach float64) located {
	sex := run.Sex
	if t.sex != "" {
		sex = t.sex
	}
	chart := ref.charts[t.chart]
	if t.measure != "" {
		return ref.locateBy(run, m, t, sex)
	}
	sameScale := false
	for _, s := range []Sex{sex, Both} {
		r, ok := chart.Run(run.Scale, s)
		if !ok {
			continue
		}
		sameScale = true
		if c := r.column(t.measurement); c != nil && c.values != nil && !math.IsNaN(c.values.At(m.Position)) {
			return located{column: c, at: m.Position, factor: 1}
		}
	}
	if sameScale {
		return located{}
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
		if even, where := c.values.level(); len(where) > 0 {
			smooth := *c
			smooth.values, c = even, &smooth
			if l, ok := levelledAt(where, height); ok {
				return located{c, height, 1, l.note()}
			}
		}
		low, high := c.values.Range()
		switch {
		case height >= low && height <= high:
			return located{column: c, at: height, factor: 1}
		case height < low && height >= low-reach:
			return located{c, low, math.Pow(height/low, ref.heightPower()[ref.measurements[t.measurement].Kind]),
				NewFact("made-smaller", Length(low), Length(height))}
		}
	}
	return located{}
}

// locateBy finds the column of a term with a measure, and the height at which its
// chart has the figure that the chart of the measure has at the size.
func (ref *Reference) locateBy(run *Run, m Mark, t term, sex Sex) located {
	from, ok := ref.charts[t.measureChart].Run(run.Scale, sex)
	if !ok {
		return located{}
	}
	value := from.Value(t.measure, m.Position)
	for _, s := range []Sex{sex, Both} {
		r, ok := ref.charts[t.chart].Run(Height, s)
		if !ok {
			continue
		}
		at, _, ok := r.inverse(t.measure, value)
		if c := r.column(t.measurement); ok && c != nil && c.values != nil && !math.IsNaN(c.values.At(at)) {
			return located{column: c, at: at, factor: 1}
		}
	}
	return located{}
}

// heightPower says how each kind of measurement goes with height among
// children just tall enough to be surveyed.
func (ref *Reference) heightPower() map[string]float64 {
	girth, mass := ref.Practice("girth_height_power").Value, ref.Practice("mass_height_power").Value
	return map[string]float64{"length": 1, "girth": girth, "width": girth, "mass": mass}
}
