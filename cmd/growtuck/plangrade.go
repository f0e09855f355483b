package main

import (
	"fmt"
	"strconv"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
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

type gradedDocument struct {
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

// gradedReport shows a run of sizes, with every count in brackets.
func (a *app) gradedReport(ref *sizing.Reference, g *plan.Graded) report {
	p := g.Plans[0]
	var r report
	doc := gradedDocument{Garment: p.Garment.ID, Title: p.Garment.Title, Spec: p.Spec.Describe(), Sizes: g.Labels, Gauge: gaugeWords(p.How),
		Balls: g.Yarn, Notes: append([]string{}, g.Notes...)}
	rows := []stepRow{}
	parts := grid{columns: []column{{head: "part"}, {head: "count", wrap: true}, {head: "gives, cm"}, {head: "off, cm"}}}
	for _, x := range g.Parts {
		doc.Parts = append(doc.Parts, gradedPart{x.Part, x.Name, x.Count, x.Unit, x.SizeCm, x.Error, "cm"})
		count := x.Count
		if count != "" {
			count += " " + x.Unit
		}
		parts.rows = append(parts.rows, tableRow(x.Name, count, x.SizeCm, x.Error))
		text := x.SizeCm + " cm"
		if count != "" {
			text = count + ", " + text
		}
		rows = append(rows, stepRow{Section: "finished", Name: x.Name, Step: x.Part, Text: text})
	}
	sections := grid{caption: "To work, in this order:", columns: []column{{head: "section", wrap: true}, {head: "stitches"}, {head: "rows"}, {head: "times", right: true}}}
	for _, s := range g.Sections {
		rec := gradedSection{s.ID, s.Name, s.Copies, s.From, s.To, s.Rows, []stepRecord{}}
		line := tableRow(s.Name, span(s.From, s.To), s.Rows, copies(s.Copies))
		for _, l := range s.Lines {
			rec.Steps = append(rec.Steps, stepRecord{l.ID, l.Sizes, l.Text})
			text := l.Text
			if l.Sizes != "" {
				text = "Size " + l.Sizes + ": " + text
			}
			line.under = append(line.under, text)
			rows = append(rows, stepRow{s.ID, s.Name, strconv.Itoa(s.Copies), s.From, s.To, s.Rows, l.ID, l.Sizes, l.Text})
		}
		doc.Sections = append(doc.Sections, rec)
		sections.rows = append(sections.rows, line)
	}
	for _, q := range g.Plans {
		for _, x := range q.Parts {
			r.sources = append(r.sources, x.Line.Sources()...)
		}
	}
	r.sources = inOrder(r.sources)
	r.credits = creditLines(ref, r.sources)
	doc.Sources, doc.Credits = r.sources, r.credits
	r.heading = []string{p.Garment.Title + ", " + p.Spec.Describe(), "Sizes " + stitch.Brackets(g.Labels), sentenceCase(gaugeWords(p.How))}
	r.grids = []grid{parts, sections}
	if g.Yarn != "" {
		r.remarks = append(r.remarks, fmt.Sprintf("Yarn: %s balls of %.0f m, with something to spare.", g.Yarn, p.How.Ball.Metres))
	}
	r.remarks = append(r.remarks, g.Notes...)
	r.rows, r.document = rows, doc
	return r
}
