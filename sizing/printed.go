package sizing

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"growtuck/data"
)

// A printed column is what a chart prints of a measurement. Curves are laid through it
// when it is first read.
type printed struct {
	slot
	measurement string
	line        int // of its first row
	series      []series
	column      *column
	size        int // that the row before is of, if any, and where it is from
	before      struct {
		source, where, note string
		n                   *float64
	}
}

// A series is one statistic of a column in one unit: a value for each of the run's
// sizes, NaN where there is none.
type series struct {
	statistic, unit string
	values          []float64
}

// readRows reads all the run's rows: a question about one of its measurements is mostly
// one about many.
func (r *Run) readRows() {
	for _, m := range r.Sizes {
		r.positions = append(r.positions, m.Position)
	}
	k := -1 // of the measurement; they are in the same order at every size
	for _, rows := range r.rows {
		size := slices.IndexFunc(r.Sizes, func(m Mark) bool { return m.Size == rows.Size })
		for b := range rows.All() {
			if k < 0 || r.printed[k].measurement != b.Measurement {
				if k++; k >= len(r.printed) || r.printed[k].measurement != b.Measurement {
					k = r.printedAs(b)
				}
			}
			if size >= 0 {
				r.printed[k].add(size, b, len(r.Sizes))
			}
		}
	}
	for _, row := range r.formulas {
		r.columns[r.Chart.ref.tables.Derivations[row].Measurement] = r.derived(row)
	}
}

// printedAs is the number of the printed column that a row is of.
func (r *Run) printedAs(b *data.Body) int {
	if k := slices.IndexFunc(r.printed, func(p *printed) bool { return p.measurement == b.Measurement }); k >= 0 {
		return k
	}
	if r.Chart.ref.measurements[b.Measurement] == nil && r.unread == nil {
		r.unread = &data.Error{File: "body.csv", Line: b.Line, Msg: fmt.Sprintf("no measurement %.80q", b.Measurement)}
	}
	p := &printed{measurement: b.Measurement, line: b.Line, column: &column{sizes: make([]origins, 0, len(r.Sizes))}}
	p.make = func() (*column, error) { return r.lay(p) }
	r.columns[b.Measurement] = &p.slot
	r.printed = append(r.printed, p)
	return len(r.printed) - 1
}

// add adds a row of one of so many sizes.
func (p *printed) add(size int, b *data.Body, sizes int) {
	values := p.values(b.Statistic, b.Unit)
	if values == nil {
		values = unknowns(sizes)
		p.series = append(p.series, series{b.Statistic, b.Unit, values})
	}
	values[size] = b.Value
	before := p.before
	p.before.source, p.before.where, p.before.note, p.before.n = b.Source, b.Where, b.Note, b.N
	if size == p.size && p.before == before {
		return
	}
	p.size = size
	of := p.column.add(b.Size)
	of.published = true
	if b.Note != "" {
		said := ""
		for _, n := range of.notes {
			said = join(said, n.String())
		}
		if note := data.NoteText(b.Note); !strings.Contains(said, note) {
			of.notes = append(of.notes, Text(note))
		}
	}
	where := b.Where
	if b.N != nil {
		where += ", n=" + strconv.FormatFloat(*b.N, 'f', -1, 64)
	}
	of.addWhere(where)
	p.column.addSources(b.Source)
}

// values are those of a statistic in a unit, nil where there are none.
func (p *printed) values(statistic, unit string) []float64 {
	for i := range p.series {
		if s := &p.series[i]; s.statistic == statistic && s.unit == unit {
			return s.values
		}
	}
	return nil
}

// unknowns are so many figures that are not known.
func unknowns(n int) []float64 {
	all := make([]float64, n)
	for i := range all {
		all[i] = math.NaN()
	}
	return all
}

// lay lays curves through a printed column.
func (r *Run) lay(p *printed) (*column, error) {
	c := p.column
	var err error
	curve := func(values []float64) *Curve {
		var made *Curve
		if values != nil && err == nil {
			made, err = r.fit(values)
		}
		return made
	}
	// of is a statistic in cm or kg, at each size from the first unit that it is printed in.
	of := func(statistic string) (all []float64) {
		for _, unit := range [...]string{"cm", "kg", "mm", "in", "lb", "oz"} {
			own := p.values(statistic, unit)
			if all == nil && own != nil && (unit == "cm" || unit == "kg") && !slices.ContainsFunc(own, math.IsNaN) {
				return own
			}
			for i, v := range own {
				if all == nil {
					all = unknowns(len(r.Sizes))
				}
				if math.IsNaN(all[i]) {
					all[i] = inOwnUnit(v, unit)
				}
			}
		}
		return all
	}
	for _, s := range middles {
		if c.values == nil {
			c.values = curve(of(s))
		}
		for _, unit := range []string{"in", "lb"} {
			if c.imperial == nil {
				c.imperial = curve(p.values(s, unit))
			}
		}
	}
	for _, ends := range [...][2]string{{"low", "high"}, {"p25", "p75"}, {"p5", "p95"}, {"p10", "p90"}, {"p3", "p97"}} {
		if low, high := of(ends[0]), of(ends[1]); low != nil && high != nil {
			c.low, c.high, c.spread = curve(low), curve(high), spreadOf(ends[0], ends[1])
			break
		}
	}
	if mean, sd := of("mean"), of("sd"); mean != nil && sd != nil && c.low == nil {
		low, high := slices.Clone(mean), slices.Clone(mean)
		for i := range mean {
			low[i], high[i] = mean[i]-sd[i], mean[i]+sd[i]
		}
		c.low, c.high, c.spread = curve(low), curve(high), TwoInThree
	}
	if c.values == nil && c.low != nil && err == nil {
		if !slices.Equal(c.low.x, c.high.x) {
			err = errors.New("a range has one end only")
		} else if c.values, err = between(c.low, c.high); err == nil {
			c.middle = true
		}
	}
	if err != nil {
		return nil, &data.Error{File: "body.csv", Line: p.line, Msg: fmt.Sprintf("%s %s: %v", r.name(), p.measurement, err)}
	}
	return c, nil
}

// fit makes a curve through the values that are there, one for each size.
func (r *Run) fit(values []float64) (*Curve, error) {
	if !slices.ContainsFunc(values, math.IsNaN) {
		return curveOf(r.positions, values)
	}
	var x, y []float64
	for i, v := range values {
		if !math.IsNaN(v) {
			x, y = append(x, r.positions[i]), append(y, v)
		}
	}
	return curveOf(x, y)
}

// between fits a curve through the points halfway between two that share their
// positions.
func between(a, b *Curve) (*Curve, error) {
	y := slices.Clone(a.y)
	for i := range y {
		y[i] = (y[i] + b.y[i]) / 2
	}
	return curveOf(a.x, y)
}
