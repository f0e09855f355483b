package ask

import (
	"time"

	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// DraftRows are the rows of a draft that name the child or the size. Where a draft
// has no rows for them, there are none, and the draft lists the body.
func (r *Request) DraftRows() []plan.Row { return DraftRows(r.ref, r.Child, r.Sizes) }

// DraftRows are the rows of a draft for a child and sizes.
func DraftRows(ref *sizing.Reference, c sizing.Child, z sizing.Sizes) []plan.Row {
	var rows []plan.Row
	add := func(field, part, value, unit string) {
		rows = append(rows, plan.Row{Field: field, Part: part, Value: value, Unit: unit})
	}
	if c.Sex == sizing.Boy || c.Sex == sizing.Girl {
		add("sex", "", string(c.Sex), "")
	}
	if c.AgeYears > 0 {
		add("age", "", sizing.FormatExact(c.AgeYears), "years")
	}
	for _, day := range []struct {
		field string
		on    time.Time
	}{{"born", c.Born}, {"measured", c.Measured}} {
		if !day.on.IsZero() {
			add(day.field, "", day.on.Format(sizing.Day), "")
		}
	}
	if z.Method == sizing.Linear {
		return rows
	}
	for _, m := range ref.Measurements() {
		if v, ok := c.Own[m.ID]; ok {
			add("body", m.ID, sizing.FormatExact(v), m.Unit)
		}
	}
	switch {
	case z.All != "":
		add("size", "", z.All, "")
	case z.Widths != "":
		add("widths", "", z.Widths, "")
		add("lengths", "", z.Lengths, "")
	default:
		return rows
	}
	if z.Chart != "" && z.Chart != sizing.DefaultChart {
		add("chart", "", z.Chart, "")
	}
	return rows
}
