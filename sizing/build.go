package sizing

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"growtuck/data"
)

// A sheet is the rows of one run.
type sheet struct {
	chart string
	scale Scale
	sex   Sex
	block []int // by measurement: one more than where its block is in the list of them
}

// A block is the rows of one column, linked.
type block struct {
	sheet       *sheet
	measurement int
	first, last *link
}

// A link is rows of one size, and what stands further down for other sizes.
type link struct {
	*data.BodyRows
	next *link
}

// groups are the rows from a link on, size by size.
func (l *link) groups(yield func(*data.BodyRows) bool) {
	for ; l != nil && yield(l.BodyRows); l = l.next {
	}
}

// buildPublished makes the runs and columns that body.csv has values for.
func (ref *Reference) buildPublished(body []data.BodyRows, atOnce bool) error {
	blocks, err := ref.gatherBody(body)
	if err != nil {
		return err
	}
	// Height first: on a height scale a class is at its median height.
	slices.SortStableFunc(blocks, func(a, b block) int { return cmp.Compare(a.measurement, b.measurement) })
	for _, b := range blocks {
		rows, id := b.first, ref.tables.Measurements[b.measurement].ID
		run := ref.charts[b.sheet.chart].makeRun(b.sheet.scale, b.sheet.sex)
		if len(run.Sizes) == 0 {
			ref.placeSizes(run, rows)
		}
		if len(run.Sizes) == 0 {
			return &data.Error{File: "body.csv", Line: rows.Line,
				Msg: fmt.Sprintf("%s has no heights to place its classes at", run.name())}
		}
		s := &slot{make: func() (*column, error) { return run.published(id, rows) }}
		if atOnce {
			if _, err := s.get(); err != nil {
				return err
			}
		}
		run.columns[id] = s
	}
	return nil
}

// gatherBody sorts the rows of body.csv into blocks, in the order in which they
// first come up.
func (ref *Reference) gatherBody(body []data.BodyRows) ([]block, error) {
	type place struct{ chart, size string }
	scales := make(map[place]Scale)
	for _, s := range ref.tables.Sizes {
		scales[place{s.Chart, s.Size}] = Scale(s.Scale)
	}
	var blocks []block
	var sheets []*sheet
	var at place // of the row before
	var scale Scale
	k := -1
	links := make([]link, len(body))
	for i := range body {
		b := &body[i]
		if p := (place{b.Chart, b.Size}); i == 0 || p != at {
			var ok bool
			if scale, ok = scales[p]; !ok {
				return nil, &data.Error{File: "body.csv", Line: b.Line, Msg: fmt.Sprintf("chart %s has no size %.80q", b.Chart, b.Size)}
			}
			at = p
		}
		m, ok := ref.order[b.Measurement]
		if !ok {
			return nil, &data.Error{File: "body.csv", Line: b.Line, Msg: fmt.Sprintf("no measurement %.80q", b.Measurement)}
		}
		holds := func(s *sheet) bool { return s.chart == b.Chart && s.scale == scale && s.sex == Sex(b.Sex) }
		if k < 0 || !holds(sheets[k]) {
			k = slices.IndexFunc(sheets, holds)
		}
		if k < 0 {
			k = len(sheets)
			sheets = append(sheets, &sheet{b.Chart, scale, Sex(b.Sex), make([]int, len(ref.tables.Measurements))})
		}
		s := sheets[k]
		links[i].BodyRows = b
		if of := s.block[m]; of > 0 {
			blocks[of-1].last.next, blocks[of-1].last = &links[i], &links[i]
			continue
		}
		blocks = append(blocks, block{s, m, &links[i], &links[i]})
		s.block[m] = len(blocks)
	}
	return blocks, nil
}

func (c *Chart) makeRun(scale Scale, sex Sex) *Run {
	for _, r := range c.runs {
		if r.Scale == scale && r.Sex == sex {
			return r
		}
	}
	r := &Run{Chart: c, Scale: scale, Sex: sex, columns: make(map[string]*slot)}
	c.runs = append(c.runs, r)
	both, _ := c.findRun(scale, Both)
	for _, of := range c.runs {
		if of.Scale == scale && of != both {
			of.both = both
		}
	}
	return r
}

// placeSizes lists the run's sizes with their positions. On a height scale the
// position is the median height of the class, from the rows given, where they are of
// height.
func (ref *Reference) placeSizes(run *Run, heights *link) {
	// A chart of heights without medians stands where its table of sizes says.
	measured := heights != nil && heights.Measurement == "height"
	for _, s := range ref.tables.Sizes {
		if s.Chart != run.Chart.ID || Scale(s.Scale) != run.Scale {
			continue
		}
		m := Mark{Size: s.Size, Note: s.Note}
		switch {
		case run.Scale == Height && measured:
			median, ok := medianHeight(heights, s.Size)
			if !ok {
				continue // no child of that sex in the class
			}
			m.Position = median
		case run.Scale == Band:
			m.Position = float64(len(run.Sizes))
		case s.Position != nil:
			m.Position = *s.Position
		}
		run.Sizes = append(run.Sizes, m)
	}
}

// medianHeight is the median or given height of a size.
func medianHeight(heights *link, size string) (float64, bool) {
	for ; heights != nil && heights.Size != size; heights = heights.next {
	}
	if heights == nil {
		return 0, false
	}
	cm, best := 0.0, len(middles)
	for b := range data.ParsedRows((&link{BodyRows: heights.BodyRows}).groups) {
		if i := slices.Index(middles[:best], b.Statistic); i >= 0 {
			cm, best = inOwnUnit(b.Value, b.Unit), i
		}
	}
	return cm, best < len(middles)
}

// A series is one statistic of a column in one unit: a value for each of the run's
// sizes, NaN where there is none.
type series struct{ statistic, unit string }

// middles are the statistics that a measurement is read from, the first that is there.
var middles = []string{"given", "p50", "mean"}

// inOwnUnit is a published figure in cm or kg.
func inOwnUnit(v float64, unit string) float64 {
	switch unit {
	case "mm":
		return v / 10
	case "in":
		return v * CmPerInch
	case "lb":
		return v * KgPerPound
	case "oz":
		return v * KgPerPound / 16
	}
	return v
}

// published makes a column from its rows.
func (r *Run) published(measurement string, rows *link) (*column, error) {
	c := &column{sizes: make([]origins, 0, len(r.Sizes))}
	values := make(map[series][]float64)
	noted := make(map[string]string) // size → all its notes
	for b := range data.ParsedRows(rows.groups) {
		i := slices.IndexFunc(r.Sizes, func(m Mark) bool { return m.Size == b.Size })
		if i < 0 {
			continue
		}
		key := series{b.Statistic, b.Unit}
		if values[key] == nil {
			values[key] = slices.Repeat([]float64{math.NaN()}, len(r.Sizes))
		}
		values[key][i] = b.Value
		of := c.add(b.Size)
		of.published = true
		if note := data.NoteText(b.Note); note != "" && !strings.Contains(noted[b.Size], note) {
			noted[b.Size] = join(noted[b.Size], note)
			of.notes = append(of.notes, Text(note))
		}
		where := b.Where
		if b.N != nil {
			where += ", n=" + strconv.FormatFloat(*b.N, 'f', -1, 64)
		}
		of.addWhere(where)
		c.addSources(b.Source)
	}
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
		for _, unit := range []string{"cm", "kg", "mm", "in", "lb", "oz"} {
			for i, v := range values[series{statistic, unit}] {
				if all == nil {
					all = slices.Repeat([]float64{math.NaN()}, len(r.Sizes))
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
				c.imperial = curve(values[series{s, unit}])
			}
		}
	}
	for _, ends := range [][2]string{{"low", "high"}, {"p25", "p75"}, {"p5", "p95"}, {"p10", "p90"}, {"p3", "p97"}} {
		if low, high := of(ends[0]), of(ends[1]); low != nil && high != nil && c.low == nil {
			c.low, c.high, c.spread = curve(low), curve(high), spreadOf(ends[0], ends[1])
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
		return nil, &data.Error{File: "body.csv", Line: rows.Line, Msg: fmt.Sprintf("%s %s: %v", r.name(), measurement, err)}
	}
	return c, nil
}

// fit makes a curve through the values that are there, one for each size.
func (r *Run) fit(values []float64) (*Curve, error) {
	var x, y []float64
	for i, v := range values {
		if !math.IsNaN(v) {
			x, y = append(x, r.Sizes[i].Position), append(y, v)
		}
	}
	return NewCurve(x, y)
}

func join(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}

// between fits a curve through the points halfway between two that share their
// positions.
func between(a, b *Curve) (*Curve, error) {
	y := slices.Clone(a.y)
	for i := range y {
		y[i] = (y[i] + b.y[i]) / 2
	}
	return NewCurve(a.x, y)
}
