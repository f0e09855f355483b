package tell

import (
	"fmt"
	"strconv"

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
	HeightCm Figure       `json:"height"`
	Steps    []stepRecord `json:"steps"`
}

type plannedPart struct {
	Part     string `json:"part"`
	Name     string `json:"name"`
	Count    *int   `json:"count"`
	Unit     string `json:"count_unit"`
	Size     Figure `json:"size"`
	Asked    Figure `json:"asked"`
	Error    Figure `json:"error"`
	SizeUnit string `json:"unit"`
}

type yarnRecord struct {
	AreaCm2 Figure `json:"area_cm2"`
	Margin  Figure `json:"margin"`
	Grams   Figure `json:"grams"`
	Metres  Figure `json:"metres"`
	Balls   int    `json:"balls"`
	OneMore bool   `json:"one_more"`
}

// A PlanDocument is a plan, as JSON.
type PlanDocument struct {
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
	Findings []Finding       `json:"findings"`
	Sources  []string        `json:"sources"`
	Credits  []string        `json:"credits"`
}

func gaugeWords(h plan.How) string {
	return fmt.Sprintf("%s, %s stitches and %s rows to 10 cm", h.Craft, Figure(h.Gauge.StitchesPer10Cm), Figure(h.Gauge.RowsPer10Cm))
}

// Plan reports a plan: what its counts give, and what to work, in order.
func (st Style) Plan(ref *sizing.Reference, c sizing.Child, p *plan.Plan, findings []validate.Finding) Document {
	words := Style{Craft: string(p.How.Craft)}
	notes := words.Facts(p.Notes)
	var r Document
	doc := PlanDocument{Garment: p.Garment.ID, Title: p.Garment.Title, Spec: st.Spec(p.Spec), Child: newChildRecord(c), Body: Style{}.Fact(p.Body.Summary),
		Craft: string(p.How.Craft), Gauge: gaugeWords(p.How), Notes: append([]string{}, notes...), Findings: Style{}.Findings(findings)}
	rows := []stepRow{}
	sections := Table{Caption: "To work, in this order:", Columns: []Column{{Head: "section"}, {Head: "stitches"}, {Head: "rows", Right: true}, {Head: "times", Right: true}}}
	for _, s := range p.Sections {
		rec := sectionRecord{Section: s.ID, Name: SectionName(s.Kind), Copies: s.Copies, InRounds: s.InRounds, From: s.From, To: s.To(), Rows: s.Rows(),
			HeightCm: Figure(s.HeightCm()), Steps: []stepRecord{}}
		line := NewRow(rec.Name, span(strconv.Itoa(s.From), strconv.Itoa(s.To())), strconv.Itoa(s.Rows()), copies(s.Copies))
		for _, step := range s.Steps {
			text := words.Step(step)
			rec.Steps = append(rec.Steps, stepRecord{Step: step.ID, Text: text})
			line.Under = append(line.Under, text)
			rows = append(rows, stepRow{s.ID, rec.Name, strconv.Itoa(s.Copies), strconv.Itoa(s.From), strconv.Itoa(s.To()), strconv.Itoa(s.Rows()), step.ID, "", text})
		}
		doc.Sections = append(doc.Sections, rec)
		sections.Rows = append(sections.Rows, line)
	}
	parts := st.partsTable(p, &doc, &rows)
	r.Sources = InOrder(p.Sources())
	r.Credits = CreditLines(ref, r.Sources)
	doc.Sources, doc.Credits = r.Sources, r.Credits
	r.Heading = append([]string{p.Garment.Title + ", " + st.Spec(p.Spec), sentenceCase(gaugeWords(p.How))}, st.bodyHeading(c, p.Body)...)
	r.Tables = []Table{parts, sections}
	if y := p.Yarn; y != nil {
		doc.Yarn = &yarnRecord{Figure(y.AreaCm2), Figure(y.Margin), Figure(y.Need.Grams), Figure(y.Need.Metres), y.Need.Balls, y.OneMore}
		r.Remarks = append(r.Remarks, yarnWords(y))
	}
	r.Remarks = append(r.Remarks, notes...)
	for _, f := range findings {
		r.Remarks = append(r.Remarks, fmt.Sprintf("Check, %s %s: %s.", f.Severity, f.Rule, Style{}.Message(f)))
	}
	r.Asides = append(r.Asides, Style{}.Questions(p.Body.Questions)...)
	r.Rows, r.JSON = rows, doc
	return st.inInches(r)
}

func yarnWords(y *plan.Yarn) string {
	balls := "1 ball"
	if y.Need.Balls > 1 {
		balls = strconv.Itoa(y.Need.Balls) + " balls"
	}
	return fmt.Sprintf("Yarn: %s, %.0f m, %.0f g, with %.0f %% to spare.", balls, y.Need.Metres, y.Need.Grams, y.Margin*100)
}

// partsTable shows the finished measurements as planned beside what was asked
// for.
func (st Style) partsTable(p *plan.Plan, doc *PlanDocument, rows *[]stepRow) Table {
	g := Table{Columns: []Column{{Head: "part", Wrap: true}, {Head: "count", Right: true}}}
	for _, u := range st.Units() {
		g.Columns = append(g.Columns, Column{Head: "gives, " + u, Right: true}, Column{Head: "asked", Right: true})
	}
	for _, x := range p.Parts {
		rec := plannedPart{Part: x.Line.Part.Part, Name: x.Line.Part.Name, Unit: x.Unit, Size: Figure(x.SizeCm), Asked: Figure(x.WantCm),
			Error: Figure(x.ErrorCm()), SizeUnit: "cm"}
		count := ""
		if x.Count > 0 {
			n := x.Count
			rec.Count = &n
			count = strconv.Itoa(n) + " " + x.Unit
		}
		doc.Parts = append(doc.Parts, rec)
		line := NewRow(x.Line.Part.Name, count)
		for _, u := range st.Units() {
			line.Cells = append(line.Cells, LengthIn(x.SizeCm, u), LengthIn(x.WantCm, u))
		}
		g.Rows = append(g.Rows, line)
		text := fmt.Sprintf("%s cm, asked for %s cm", Figure(x.SizeCm), Figure(x.WantCm))
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
