package tell

import (
	"strconv"

	"growtuck/sizing"
	"growtuck/sizing/plan"
)

type gradedSection struct {
	Section string       `json:"section" doc:"id of the section"`
	Name    string       `json:"name" doc:"name in words"`
	Sizes   []string     `json:"sizes" doc:"the sizes that have it, in order: those of the numbers in brackets"`
	Copies  int          `json:"copies" doc:"how often the section is worked: 2 for sleeves and legs"`
	From    string       `json:"from_stitches" doc:"stitches that the section begins with"`
	To      string       `json:"to_stitches" doc:"stitches that the section ends with"`
	Rows    string       `json:"rows" doc:"rows or rounds of one copy"`
	Steps   []stepRecord `json:"steps" doc:"the instructions"`
}

type gradedPart struct {
	Part  string `json:"part" doc:"id of the garment's part"`
	Name  string `json:"name" doc:"name in words"`
	Count string `json:"count" doc:"the counts in brackets, in the order of the sizes"`
	Unit  string `json:"count_unit" doc:"stitches or rows"`
	Size  string `json:"size" doc:"what the counts give, cm, in brackets"`
	Error string `json:"error" doc:"size given less size asked, cm"`
	InCm  string `json:"unit" doc:"unit of the values beside it: cm or kg"`
}

// A GradedDocument is a plan for a run of sizes, as JSON.
type GradedDocument struct {
	Garment  string          `json:"garment" doc:"id of the garment"`
	Title    string          `json:"title" doc:"title in words"`
	Spec     string          `json:"making" doc:"in words: fit, clothes underneath, growth room"`
	Sizes    []string        `json:"sizes" doc:"the sizes, in order"`
	Gauge    string          `json:"gauge" doc:"the gauge in words"`
	Sections []gradedSection `json:"sections" doc:"the work, in its order"`
	Parts    []gradedPart    `json:"parts" doc:"the parts of the garment"`
	Balls    string          `json:"balls" doc:"balls for each size, in brackets; empty without a ball and a swatch"`
	Notes    []string        `json:"notes" doc:"what to watch out for"`
	Sources  []string        `json:"sources" doc:"ids of the sources that it rests on"`
	Credits  []string        `json:"credits" doc:"credit lines that the sources used ask for"`
}

// Graded reports a run of sizes, with every count in brackets.
func (st Style) Graded(ref *sizing.Reference, g *plan.Graded) Document {
	p := g.Plans[0]
	run := Style{}.For(p.How).Run(g) // JSON and CSV are in centimetres
	var r Document
	doc := GradedDocument{Garment: p.Garment.ID, Title: p.Garment.Title, Spec: st.Spec(p.Spec), Sizes: g.Labels, Gauge: st.craftAndGauge(p.How),
		Balls: run.Balls, Notes: append([]string{}, run.Notes...)}
	rows := []stepRow{}
	for _, x := range run.Parts {
		doc.Parts = append(doc.Parts, gradedPart{x.Part, x.Name, x.Count, x.Unit, x.SizeCm, x.Error, "cm"})
		text := x.SizeCm + " cm"
		if x.Count != "" {
			text = x.Counted() + ", " + text
		}
		rows = append(rows, stepRow{Section: "finished", Name: x.Name, Step: x.Part, Text: text})
	}
	for _, s := range run.Sections {
		rec := gradedSection{s.ID, s.Name, s.Sizes, s.Copies, s.From, s.To, s.Rows, []stepRecord{}}
		for _, l := range s.Steps {
			rec.Steps = append(rec.Steps, stepRecord{l.ID, l.Sizes, l.Text})
			rows = append(rows, stepRow{s.ID, s.Name, strconv.Itoa(s.Copies), s.From, s.To, s.Rows, l.ID, l.Sizes, l.Text})
		}
		doc.Sections = append(doc.Sections, rec)
	}
	told := patternRun{pattern: pattern{Style: Style{Unit: st.Unit, Place: st.Place, Over4In: st.Over4In}.For(p.How), plan: p}, graded: g}
	r.Chapters = told.chapters()
	rows = append(rows, itemRows(r.Chapters, "materials", "finishing")...)
	for _, q := range g.Plans {
		r.Sources = append(r.Sources, q.Sources()...)
	}
	r.Sources = InOrder(r.Sources)
	r.Credits = CreditLines(ref, r.Sources)
	doc.Sources, doc.Credits = r.Sources, r.Credits
	r.Rows, r.JSON = rows, doc
	r.Heading = []string{p.Garment.Title + " in sizes " + Brackets(g.Labels), Capital(st.Spec(p.Spec)) + "."}
	return r
}

// A sizedRow is a finished measurement at a size as CSV shows it.
type sizedRow struct {
	Size string `json:"size"`
	finishedRow
}

// GarmentSizes reports the finished measurements of a garment at several sizes.
func (st Style) GarmentSizes(ref *sizing.Reference, labels []string, sizes []*sizing.Finished) Document {
	f := sizes[0]
	r := Document{Heading: []string{f.Garment.Title + " in sizes " + Brackets(labels) + ", " + st.Spec(f.Spec)}, Tables: []Table{st.FinishedSizes(labels, sizes, nil)}}
	rows := []sizedRow{}
	for i, f := range sizes {
		for _, l := range f.Lines {
			rows = append(rows, sizedRow{labels[i], newFinishedRecord(f.Garment.ID, l).finishedRow})
			r.Sources = append(r.Sources, l.Sources()...)
		}
	}
	r.Sources = InOrder(r.Sources)
	r.Credits = CreditLines(ref, r.Sources)
	r.Rows = rows
	return r
}

// FinishedSizes shows the finished measurements of a garment at several sizes side by
// side, with the counts of a run where it is planned: nil where it is not.
func (st Style) FinishedSizes(labels []string, sizes []*sizing.Finished, g *plan.Graded) Table {
	t := Table{Columns: []Column{{Head: "part, " + st.Units()[0]}}}
	for _, label := range labels {
		t.Columns = append(t.Columns, Column{Head: label, Right: true, Opens: true})
	}
	t.Columns = append(t.Columns, Column{Head: "count"})
	counts := make(map[string]string)
	if g != nil {
		for _, x := range g.Parts {
			if p := runPart(x); p.Count != "" {
				counts[p.Part] = p.Count + " " + p.Unit
			}
		}
	}
	for _, part := range longest(sizes) {
		row := newRow(part.Part.Name)
		var why bySize
		for i, f := range sizes {
			text := absent
			if l, ok := f.Line(part.Part.Part); ok {
				text = st.finished(l, st.Units()[0])
				why.reading(labels[i], text, st.terms(l))
			}
			row.Cells = append(row.Cells, text)
		}
		row.Cells = append(row.Cells, counts[part.Part.Part])
		row.ID, row.Why = "part-"+part.Part.Part, why.lines()
		t.Rows = append(t.Rows, row)
	}
	return t
}

// longest are the lines of the size with the most parts known.
func longest(sizes []*sizing.Finished) []sizing.Line {
	var most []sizing.Line
	for _, f := range sizes {
		if len(f.Lines) > len(most) {
			most = f.Lines
		}
	}
	return most
}
