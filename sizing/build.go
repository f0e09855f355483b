package sizing

import (
	"fmt"
	"slices"

	"growtuck/data"
)

// buildPublished makes the runs that body.csv has values for. Their rows are read now,
// with every fault found, or when a column of theirs is first asked for.
func (ref *Reference) buildPublished(body []data.BodyRows, atOnce bool) error {
	var runs []*Run
	sizes, k := ref.tables.Sizes, 0 // the rows follow their order
	for i := range body {
		b := &body[i]
		tried := 0
		for ; tried < len(sizes) && (sizes[k].Size != b.Size || sizes[k].Chart != b.Chart); tried++ {
			k = (k + 1) % len(sizes)
		}
		if tried == len(sizes) {
			return &data.Error{File: "body.csv", Line: b.Line(), Msg: fmt.Sprintf("chart %s has no size %.80q", b.Chart, b.Size)}
		}
		run := ref.charts[b.Chart].makeRun(Scale(sizes[k].Scale), Sex(b.Sex))
		if len(run.rows) == 0 {
			runs = append(runs, run)
		}
		run.rows = append(run.rows, b)
	}
	for _, run := range runs {
		ref.placeSizes(run)
		if len(run.Sizes) == 0 {
			return &data.Error{File: "body.csv", Line: run.rows[0].Line(),
				Msg: fmt.Sprintf("%s has no heights to place its classes at", run.name())}
		}
		if !atOnce {
			continue
		}
		if run.read.Do(run.readRows); run.unread != nil {
			return run.unread
		}
		for _, p := range run.printed {
			if _, err := p.get(); err != nil {
				return err
			}
		}
	}
	return nil
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
// position is the median height of the class, where the run has rows of height.
func (ref *Reference) placeSizes(run *Run) {
	heights := make(map[string]float64)
	if run.Scale == Height {
		for _, b := range run.rows {
			if cm, ok := medianHeight(b); ok {
				heights[b.Size] = cm
			}
		}
	}
	for _, s := range ref.tables.Sizes {
		if s.Chart != run.Chart.ID || Scale(s.Scale) != run.Scale {
			continue
		}
		m := Mark{Size: s.Size, Note: s.Note}
		switch {
		case len(heights) > 0:
			median, ok := heights[s.Size]
			if !ok {
				continue // no child of that sex in the class
			}
			m.Position = median
		case run.Scale == Band:
			m.Position = float64(len(run.Sizes))
		case s.Position != nil: // so stand the heights of a chart that has no medians
			m.Position = *s.Position
		}
		run.Sizes = append(run.Sizes, m)
	}
}

// medianHeight is the median or given height of a size.
func medianHeight(rows *data.BodyRows) (float64, bool) {
	cm, best := 0.0, len(middles)
	for b := range rows.Of("height") {
		if i := slices.Index(middles[:best], b.Statistic); i >= 0 {
			cm, best = inOwnUnit(b.Value, b.Unit), i
		}
	}
	return cm, best < len(middles)
}

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

func join(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}
