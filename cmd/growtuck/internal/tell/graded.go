package tell

import (
	"fmt"
	"strconv"

	"growtuck/sizing"
	"growtuck/sizing/plan"
)

type gradedSection struct {
	Section string       `json:"section"`
	Name    string       `json:"name"`
	Copies  int          `json:"copies"`
	From    string       `json:"from_stitches"`
	To      string       `json:"to_stitches"`
	Rows    string       `json:"rows"`
	Steps   []stepRecord `json:"steps"`
}

type gradedPart struct {
	Part  string `json:"part"`
	Name  string `json:"name"`
	Count string `json:"count"`
	Unit  string `json:"count_unit"`
	Size  string `json:"size"`
	Error string `json:"error"`
	InCm  string `json:"unit"`
}

// A GradedDocument is a plan for a run of sizes, as JSON.
type GradedDocument struct {
	Garment  string          `json:"garment"`
	Title    string          `json:"title"`
	Spec     string          `json:"making"`
	Sizes    []string        `json:"sizes"`
	Gauge    string          `json:"gauge"`
	Sections []gradedSection `json:"sections"`
	Parts    []gradedPart    `json:"parts"`
	Balls    string          `json:"balls"`
	Notes    []string        `json:"notes"`
	Sources  []string        `json:"sources"`
	Credits  []string        `json:"credits"`
}

// Graded reports a run of sizes, with every count in brackets.
func (st Style) Graded(ref *sizing.Reference, g *plan.Graded) Document {
	p := g.Plans[0]
	run := Style{Craft: string(p.How.Craft)}.Run(g)
	var r Document
	doc := GradedDocument{Garment: p.Garment.ID, Title: p.Garment.Title, Spec: st.Spec(p.Spec), Sizes: g.Labels, Gauge: gaugeWords(p.How),
		Balls: run.Balls, Notes: append([]string{}, run.Notes...)}
	rows := []stepRow{}
	parts := Table{Columns: []Column{{Head: "part"}, {Head: "count", Wrap: true}, {Head: "gives, cm"}, {Head: "off, cm"}}}
	for _, x := range run.Parts {
		doc.Parts = append(doc.Parts, gradedPart{x.Part, x.Name, x.Count, x.Unit, x.SizeCm, x.Error, "cm"})
		count := x.Count
		if count != "" {
			count += " " + x.Unit
		}
		parts.Rows = append(parts.Rows, NewRow(x.Name, count, x.SizeCm, x.Error))
		text := x.SizeCm + " cm"
		if count != "" {
			text = count + ", " + text
		}
		rows = append(rows, stepRow{Section: "finished", Name: x.Name, Step: x.Part, Text: text})
	}
	sections := Table{Caption: "To work, in this order:", Columns: []Column{{Head: "section", Wrap: true}, {Head: "stitches"}, {Head: "rows"}, {Head: "times", Right: true}}}
	for _, s := range run.Sections {
		rec := gradedSection{s.ID, s.Name, s.Copies, s.From, s.To, s.Rows, []stepRecord{}}
		line := NewRow(s.Name, span(s.From, s.To), s.Rows, copies(s.Copies))
		for _, l := range s.Steps {
			rec.Steps = append(rec.Steps, stepRecord{l.ID, l.Sizes, l.Text})
			line.Under = append(line.Under, l.String())
			rows = append(rows, stepRow{s.ID, s.Name, strconv.Itoa(s.Copies), s.From, s.To, s.Rows, l.ID, l.Sizes, l.Text})
		}
		doc.Sections = append(doc.Sections, rec)
		sections.Rows = append(sections.Rows, line)
	}
	for _, q := range g.Plans {
		r.Sources = append(r.Sources, q.Sources()...)
	}
	r.Sources = InOrder(r.Sources)
	r.Credits = CreditLines(ref, r.Sources)
	doc.Sources, doc.Credits = r.Sources, r.Credits
	r.Heading = []string{p.Garment.Title + ", " + st.Spec(p.Spec), "Sizes " + Brackets(g.Labels), sentenceCase(gaugeWords(p.How))}
	r.Tables = []Table{parts, sections}
	if run.Balls != "" {
		r.Remarks = append(r.Remarks, fmt.Sprintf("Yarn: %s balls of %.0f m, with something to spare.", run.Balls, p.How.Ball.Metres))
	}
	r.Remarks = append(r.Remarks, run.Notes...)
	r.Rows, r.JSON = rows, doc
	return st.inInches(r)
}
