package main

import (
	"fmt"
	"strconv"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// A stepRow is an instruction, or, in the section "finished", a finished
// measurement, as CSV shows it.
type stepRow struct {
	Section string `json:"section"`
	Name    string `json:"name"`
	Copies  string `json:"copies"`
	From    string `json:"from"`
	To      string `json:"to"`
	Rows    string `json:"rows"`
	Step    string `json:"step"`
	Sizes   string `json:"sizes"`
	Text    string `json:"text"`
}

type stepRecord struct {
	Step  string `json:"step"`
	Sizes string `json:"sizes,omitempty"`
	Text  string `json:"text"`
}

type sectionRecord struct {
	Section  string       `json:"section"`
	Name     string       `json:"name"`
	Copies   int          `json:"copies"`
	InRounds bool         `json:"in_rounds"`
	From     int          `json:"from_stitches"`
	To       int          `json:"to_stitches"`
	Rows     int          `json:"rows"`
	HeightCm figure       `json:"height"`
	Steps    []stepRecord `json:"steps"`
}

type plannedPart struct {
	Part     string `json:"part"`
	Name     string `json:"name"`
	Count    *int   `json:"count"`
	Unit     string `json:"count_unit"`
	Size     figure `json:"size"`
	Asked    figure `json:"asked"`
	Error    figure `json:"error"`
	SizeUnit string `json:"unit"`
}

type yarnRecord struct {
	AreaCm2 figure `json:"area_cm2"`
	Margin  figure `json:"margin"`
	Grams   figure `json:"grams"`
	Metres  figure `json:"metres"`
	Balls   int    `json:"balls"`
	OneMore bool   `json:"one_more"`
}

type planDocument struct {
	Garment  string          `json:"garment"`
	Title    string          `json:"title"`
	Spec     string          `json:"making"`
	Child    childRecord     `json:"child"`
	Body     string          `json:"body"`
	Craft    string          `json:"craft"`
	Gauge    string          `json:"gauge"`
	Sections []sectionRecord `json:"sections"`
	Parts    []plannedPart   `json:"parts"`
	Yarn     *yarnRecord     `json:"yarn"`
	Notes    []string        `json:"notes"`
	Findings []tell.Finding  `json:"findings"`
	Sources  []string        `json:"sources"`
	Credits  []string        `json:"credits"`
}

func gaugeWords(h plan.How) string {
	return fmt.Sprintf("%s, %s stitches and %s rows to 10 cm", h.Craft, figure(h.Gauge.StitchesPer10Cm), figure(h.Gauge.RowsPer10Cm))
}

func (a *app) planReport(ref *sizing.Reference, c sizing.Child, p *plan.Plan, findings []validate.Finding) report {
	var r report
	doc := planDocument{Garment: p.Garment.ID, Title: p.Garment.Title, Spec: p.Spec.Describe(), Child: newChildRecord(c), Body: p.Body.Summary,
		Craft: string(p.How.Craft), Gauge: gaugeWords(p.How), Notes: append([]string{}, p.Notes...), Findings: tell.Style{}.Findings(findings)}
	rows := []stepRow{}
	sections := grid{caption: "To work, in this order:", columns: []column{{head: "section"}, {head: "stitches"}, {head: "rows", right: true}, {head: "times", right: true}}}
	for _, s := range p.Sections {
		rec := sectionRecord{Section: s.ID, Name: s.Name, Copies: s.Copies, InRounds: s.InRounds, From: s.From, To: s.To(), Rows: s.Rows(),
			HeightCm: figure(s.HeightCm()), Steps: []stepRecord{}}
		line := tableRow(s.Name, span(strconv.Itoa(s.From), strconv.Itoa(s.To())), strconv.Itoa(s.Rows()), copies(s.Copies))
		for _, l := range s.Lines {
			rec.Steps = append(rec.Steps, stepRecord{Step: l.ID, Text: l.Text()})
			line.under = append(line.under, l.Text())
			rows = append(rows, stepRow{s.ID, s.Name, strconv.Itoa(s.Copies), strconv.Itoa(s.From), strconv.Itoa(s.To()), strconv.Itoa(s.Rows()), l.ID, "", l.Text()})
		}
		doc.Sections = append(doc.Sections, rec)
		sections.rows = append(sections.rows, line)
	}
	parts := a.partsGrid(p, &doc, &rows)
	for _, x := range p.Parts {
		r.sources = append(r.sources, x.Line.Sources()...)
	}
	r.sources = inOrder(r.sources)
	r.credits = creditLines(ref, r.sources)
	doc.Sources, doc.Credits = r.sources, r.credits
	r.heading = append([]string{p.Garment.Title + ", " + p.Spec.Describe(), sentenceCase(gaugeWords(p.How))}, bodyHeading(c, p.Body, sizing.List(p.Body.Evidence))...)
	r.grids = []grid{parts, sections}
	if y := p.Yarn; y != nil {
		doc.Yarn = &yarnRecord{figure(y.AreaCm2), figure(y.Margin), figure(y.Need.Grams), figure(y.Need.Metres), y.Need.Balls, y.Need.OneMore}
		r.remarks = append(r.remarks, yarnWords(y))
	}
	r.remarks = append(r.remarks, p.Notes...)
	for _, f := range findings {
		r.remarks = append(r.remarks, fmt.Sprintf("Check, %s %s: %s.", f.Severity, f.Rule, tell.Style{}.Message(f)))
	}
	r.asides = append(r.asides, p.Body.Questions...)
	r.rows, r.document = rows, doc
	return r
}

func yarnWords(y *plan.Yarn) string {
	balls := "1 ball"
	if y.Need.Balls > 1 {
		balls = strconv.Itoa(y.Need.Balls) + " balls"
	}
	return fmt.Sprintf("Yarn: %s, %.0f m, %.0f g, with %.0f %% to spare.", balls, y.Need.Metres, y.Need.Grams, y.Margin*100)
}

// partsGrid shows the finished measurements as planned beside what was asked
// for.
func (a *app) partsGrid(p *plan.Plan, doc *planDocument, rows *[]stepRow) grid {
	g := grid{columns: []column{{head: "part", wrap: true}, {head: "count", right: true}}}
	for _, u := range a.inTable() {
		g.columns = append(g.columns, column{head: "gives, " + u, right: true}, column{head: "asked", right: true})
	}
	for _, x := range p.Parts {
		rec := plannedPart{Part: x.Line.Part.Part, Name: x.Line.Part.Name, Unit: x.Unit, Size: figure(x.SizeCm), Asked: figure(x.WantCm),
			Error: figure(x.ErrorCm()), SizeUnit: "cm"}
		count := ""
		if x.Count > 0 {
			n := x.Count
			rec.Count = &n
			count = strconv.Itoa(n) + " " + x.Unit
		}
		doc.Parts = append(doc.Parts, rec)
		line := tableRow(x.Line.Part.Name, count)
		for _, u := range a.inTable() {
			line.cells = append(line.cells, lengthIn(x.SizeCm, u), lengthIn(x.WantCm, u))
		}
		g.rows = append(g.rows, line)
		text := fmt.Sprintf("%s cm, asked for %s cm", figure(x.SizeCm), figure(x.WantCm))
		if count != "" {
			text = count + ", " + text
		}
		*rows = append(*rows, stepRow{Section: "finished", Name: x.Line.Part.Name, Step: x.Line.Part.Part, Text: text})
	}
	return g
}

func span(from, to string) string {
	if from == to {
		return from
	}
	return from + " → " + to
}

func copies(n int) string {
	if n == 1 {
		return ""
	}
	return strconv.Itoa(n) + " ×"
}

func sentenceCase(s string) string {
	if s == "" {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
