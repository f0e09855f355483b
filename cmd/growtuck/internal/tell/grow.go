package tell

import (
	"fmt"
	"math"
	"slices"

	"growtuck/data"
	"growtuck/sizing"
)

// A GrownBody is a body as it will be in so many months; Body is nil where the survey
// has none of its height.
type GrownBody struct {
	Months float64
	Height sizing.Figure
	Body   *sizing.Body
}

// GrowthSteps are the months of a forecast of so many: now, steps of a quarter of a year
// or of half a year, and the last.
func GrowthSteps(months float64) []float64 {
	step := 3.0
	if months > 12 {
		step = 6
	}
	steps := []float64{0}
	for m := step; m < months-0.5; m += step {
		steps = append(steps, m)
	}
	return append(steps, months)
}

// A grownRecord is a measurement at a time, as JSON shows it.
type grownRecord struct {
	Measurement string  `json:"measurement" doc:"id of the body measurement"`
	Name        string  `json:"name" doc:"name in words"`
	Months      Figure  `json:"months" doc:"months from when the child was measured"`
	Date        string  `json:"date" doc:"the day; empty where none is known"`
	Value       Figure  `json:"value" doc:"the value, in the unit"`
	Low         *Figure `json:"low" doc:"lower end of the range; null where there is none"`
	High        *Figure `json:"high" doc:"upper end of the range; null where there is none"`
	Unit        string  `json:"unit" doc:"cm or kg"`
}

// A GrowDocument is how a child grows, as JSON.
type GrowDocument struct {
	Child    childRecord   `json:"child" doc:"what is known of the child"`
	AgeYears Figure        `json:"growth_age_years" doc:"age from which it grows"`
	Implied  bool          `json:"age_implied" doc:"whether that is the age at which the height is the median"`
	Paced    bool          `json:"paced" doc:"whether earlier heights tell how fast it grows"`
	Grown    []grownRecord `json:"grown" doc:"each measurement at each time"`
	Sources  []string      `json:"sources" doc:"ids of the sources that it rests on"`
	Credits  []string      `json:"credits" doc:"credit lines that the sources used ask for"`
}

// when names a time: its day, or the months from now.
func when(c sizing.Child, months float64) string {
	switch {
	case months == 0:
		return "now"
	case c.Measured.IsZero():
		return fmt.Sprintf("in %s months", sizing.FormatExact(math.Round(months*10)/10))
	}
	return dayAfter(c, months)
}

func dayAfter(c sizing.Child, months float64) string {
	if c.Measured.IsZero() {
		return ""
	}
	return sizing.AfterMonths(c.Measured, months).Format(sizing.Day)
}

// Grow reports how a child grows.
func (st Style) Grow(ref *sizing.Reference, c sizing.Child, g *sizing.Growth, b *sizing.Body, columns []GrownBody, shown func(data.Measurement) bool) Document {
	r := Document{Doubts: st.CheckFirst(b.Questions)}
	doc := GrowDocument{Child: newChildRecord(c), AgeYears: Figure(g.Years), Implied: g.Implied, Paced: g.Paced, Grown: []grownRecord{}}
	unit := st.Units()[0]
	table := Table{Columns: []Column{{Head: "measurement"}}}
	for _, at := range columns {
		table.Columns = append(table.Columns, Column{Head: when(c, at.Months), Right: true})
	}
	table.Columns = append(table.Columns, Column{Head: "eight in ten, " + unit})
	row := func(m data.Measurement, figures []sizing.Reading) {
		cells := []string{m.Name}
		for i, f := range figures {
			cells = append(cells, "")
			if f.Value > 0 {
				cells[i+1] = amount(f, unit)
				doc.Grown = append(doc.Grown, grownRecord{m.ID, m.Name, Figure(columns[i].Months), dayAfter(c, columns[i].Months), Figure(f.Value), Known(f.Low, f.Spread != ""), Known(f.High, f.Spread != ""), m.Unit})
			}
		}
		at := ""
		if last := figures[len(figures)-1]; last.Value > 0 {
			at = spread(last, unit)
		}
		table.Rows = append(table.Rows, Row{Cells: append(cells, at)})
	}
	for _, m := range ref.Measurements() {
		_, known := b.Get(m.ID)
		if !known && m.ID != "height" || !shown(m) && m.ID != "height" {
			continue
		}
		var figures []sizing.Reading
		for _, at := range columns {
			f := sizing.Reading{Measurement: m}
			if m.ID == "height" {
				f.Value, f.Low, f.High, f.Spread = at.Height.Value, at.Height.Low, at.Height.High, at.Height.Spread
				f.Imperial = f.Value / sizing.CmPerInch
			} else if at.Body != nil {
				f, _ = at.Body.Get(m.ID)
			}
			figures = append(figures, f)
		}
		row(m, figures)
	}
	r.Sources = InOrder(append(slices.Clone(b.Sources()), "cdc-2000", "growtuck"))
	r.Credits = CreditLines(ref, r.Sources)
	doc.Sources, doc.Credits = r.Sources, r.Credits
	r.Rows, r.JSON = doc.Grown, doc
	r.Heading = []string{"How the child grows, in " + unit}
	if who := ChildLine(c); who != "" {
		r.Heading = append(r.Heading, who)
	}
	r.Tables = []Table{table}
	r.Remarks = append(r.Remarks, "The height keeps its place on the growth charts (CDC 2000); all else follows it, as it does among surveyed children, and keeps how it departs from the usual.")
	if g.Implied {
		r.Remarks = append(r.Remarks, st.Fact(sizing.NewFact("growth-implied-age", sizing.Length(columns[0].Height.Value), g.Years)))
	}
	if g.Paced {
		r.Remarks = append(r.Remarks, st.Fact(sizing.NewFact("growth-paced")))
	}
	return r
}
