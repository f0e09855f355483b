package tell

import (
	"fmt"

	"growtuck/sizing"
)

type standingRecord struct {
	Measurement string  `json:"measurement" doc:"id of the body measurement"`
	Name        string  `json:"name" doc:"name in words"`
	Value       Figure  `json:"value" doc:"the value, in the unit"`
	Unit        string  `json:"unit" doc:"unit of the values beside it: cm or kg"`
	ValueIn     *Figure `json:"value_in" doc:"the value in inches; null for a weight"`
	ValueLb     *Figure `json:"value_lb" doc:"the value in pounds; null for a length"`
	Size        string  `json:"size" doc:"the size that has the value; empty where none has"`
	Scale       string  `json:"scale" doc:"months, years, height or band; empty where the chart does not have the value"`
	From        *Figure `json:"position_low" doc:"lowest place on the scale that has the value; null where there is none"`
	To          *Figure `json:"position_high" doc:"highest place on the scale that has the value; null where there is none"`
	Usual       string  `json:"usual_at" doc:"height in cm of the children for whom the value is typical, by the survey"`
	Reason      string  `json:"reason" doc:"why the chart does not have it; empty where it does"`
}

// A ProfileDocument is where a child's measurements are on a chart, as JSON.
type ProfileDocument struct {
	Doubts       []DoubtRecord    `json:"doubts" doc:"what is hardly to be believed of what was said of the child"`
	Child        childRecord      `json:"child" doc:"what is known of the child"`
	Chart        string           `json:"chart" doc:"id of the chart"`
	Measurements []standingRecord `json:"measurements" doc:"the body measurements"`
	Sources      []string         `json:"sources" doc:"ids of the sources that it rests on"`
	Credits      []string         `json:"credits" doc:"credit lines that the sources used ask for"`
}

// Profile reports at which size each of a child's measurements is, and where it is
// typical among surveyed children.
func (st Style) Profile(ref *sizing.Reference, c sizing.Child, chart *sizing.Chart, standings, survey []sizing.Standing) Document {
	doubts := ref.Doubts(c)
	r := Document{Doubts: st.CheckFirst(doubts)}
	g := Table{Columns: []Column{{Head: "measurement"}}}
	for _, u := range st.Units() {
		g.Columns = append(g.Columns, Column{Head: u, Right: true})
	}
	g.Columns = append(g.Columns, Column{Head: "is a size"})
	if survey != nil {
		g.Columns = append(g.Columns, Column{Head: "typical at height, cm", Right: true})
	}
	g.Columns = append(g.Columns, Column{Head: "notes"})
	records := []standingRecord{}
	for i, s := range standings {
		m := newBodyRecord(s.Reading)
		rec := standingRecord{Measurement: m.Measurement, Name: m.Name, Value: m.Value, Unit: m.Unit,
			ValueIn: m.ValueIn, ValueLb: m.ValueLb, Size: s.Label()}
		cells := []string{title(s.Reading, st.Units())}
		for _, u := range st.Units() {
			cells = append(cells, amount(s.Reading, u))
		}
		note := ""
		if s.Run != nil {
			rec.Scale, rec.From, rec.To = string(s.Run.Scale), Known(s.From, true), Known(s.To, true)
			if at, err := ref.Read(sizing.Place{Run: s.Run, Position: s.From}, m.Measurement, sizing.Monotone); err == nil {
				r.Sources = append(r.Sources, at.Sources...)
			}
		} else {
			rec.Size = ""
			if s.Err != nil {
				rec.Reason = s.Err.Error()
				note = r.Notes.mark(rec.Reason)
			}
		}
		label := rec.Size
		if label == "" {
			label = "none"
		}
		cells = append(cells, label)
		if survey != nil {
			rec.Usual = usualAt(survey[i])
			cells = append(cells, rec.Usual)
		}
		g.Rows = append(g.Rows, Row{Cells: append(cells, note)})
		records = append(records, rec)
	}
	r.Sources = InOrder(r.Sources)
	r.Credits = CreditLines(ref, r.Sources)
	r.Tables = []Table{g}
	if who := ChildLine(c); who != "" {
		r.Heading = append(r.Heading, who)
	}
	r.Heading = append(r.Heading, fmt.Sprintf("Sizes of the child's measurements on chart %s (%s)", chart.ID, chart.Title))
	r.Rows = records
	r.JSON = ProfileDocument{DoubtRecords(doubts), newChildRecord(c), chart.ID, records, r.Sources, r.Credits}
	return r
}

// usualAt is the height, in cm, of the children for whom a measurement is
// typical.
func usualAt(s sizing.Standing) string {
	switch {
	case s.Run == nil:
		return ""
	case s.To-s.From < 1:
		return fmt.Sprintf("%.0f", s.From)
	}
	return fmt.Sprintf("%.0f–%.0f", s.From, s.To)
}
