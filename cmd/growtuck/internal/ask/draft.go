package ask

import (
	"strconv"

	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// DraftRows are the rows of a draft that say for whom it is. Where a draft cannot
// say it so, there are none, and the draft lists the body.
func (r *Request) DraftRows() []plan.Row {
	var rows []plan.Row
	add := func(field, part, value, unit string) {
		rows = append(rows, plan.Row{Field: field, Part: part, Value: value, Unit: unit})
	}
	c := r.Child
	if c.Sex == sizing.Boy || c.Sex == sizing.Girl {
		add("sex", "", string(c.Sex), "")
	}
	if c.AgeYears > 0 {
		add("age", "", exact(c.AgeYears), "years")
	}
	if r.Sizes.Method == sizing.Linear {
		return rows
	}
	for _, m := range r.ref.Measurements() {
		if v, ok := c.Own[m.ID]; ok {
			add("body", m.ID, exact(v), m.Unit)
		}
	}
	switch z := r.Sizes; {
	case z.All != "":
		add("size", "", z.All, "")
	case z.Widths != "":
		add("widths", "", z.Widths, "")
		add("lengths", "", z.Lengths, "")
	default:
		return rows
	}
	if r.Sizes.Chart != "" && r.Sizes.Chart != sizing.DefaultChart {
		add("chart", "", r.Sizes.Chart, "")
	}
	return rows
}

func exact(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
