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
	Step  string `json:"step" doc:"id of the step within its section"`
	Sizes string `json:"sizes,omitempty" doc:"the sizes that the step is about, where not all"`
	Text  string `json:"text" doc:"the instruction as a maker follows it"`
}

type sectionRecord struct {
	Section  string       `json:"section" doc:"id of the section"`
	Name     string       `json:"name" doc:"name in words"`
	Copies   int          `json:"copies" doc:"how often the section is worked: 2 for sleeves and legs"`
	InRounds bool         `json:"in_rounds" doc:"worked in rounds, else in turned rows"`
	From     int          `json:"from_stitches" doc:"stitches that the section begins with"`
	To       int          `json:"to_stitches" doc:"stitches that the section ends with"`
	Rows     int          `json:"rows" doc:"rows or rounds of one copy"`
	HeightCm Figure       `json:"height" doc:"height of the section's rows, cm"`
	Steps    []stepRecord `json:"steps" doc:"the instructions"`
}

type plannedPart struct {
	Part     string `json:"part" doc:"id of the garment's part"`
	Name     string `json:"name" doc:"name in words"`
	Count    *int   `json:"count" doc:"stitches or rows; null where rows of several gauges make it up"`
	Unit     string `json:"count_unit" doc:"stitches or rows"`
	Size     Figure `json:"size" doc:"what the count gives, cm"`
	Asked    Figure `json:"asked" doc:"the finished measurement that was asked for, cm"`
	Error    Figure `json:"error" doc:"size given less size asked, cm"`
	SizeUnit string `json:"unit" doc:"unit of the values beside it: cm or kg"`
}

type yarnRecord struct {
	AreaCm2 Figure `json:"area_cm2" doc:"area of the fabric, cm²"`
	Margin  Figure `json:"margin" doc:"safety share of the yarn, such as 0.1"`
	Grams   Figure `json:"grams" doc:"grams of yarn, the margin included"`
	Metres  Figure `json:"metres" doc:"metres of yarn, the margin included"`
	Balls   int    `json:"balls" doc:"whole balls to buy"`
	OneMore bool   `json:"one_more" doc:"the last ball is nearly used up: buy one more of the dye lot"`
}

// A PlanDocument is a plan, as JSON.
type PlanDocument struct {
	Garment  string          `json:"garment" doc:"id of the garment"`
	Title    string          `json:"title" doc:"title in words"`
	Spec     string          `json:"making" doc:"in words: fit, clothes underneath, growth room"`
	Child    childRecord     `json:"child" doc:"what is known of the child"`
	Body     string          `json:"body" doc:"in words, what the body measurements were made from"`
	Craft    string          `json:"craft" doc:"crochet or knit"`
	Gauge    string          `json:"gauge" doc:"the gauge in words"`
	Sections []sectionRecord `json:"sections" doc:"the work, in its order"`
	Parts    []plannedPart   `json:"parts" doc:"the parts of the garment"`
	Yarn     *yarnRecord     `json:"yarn" doc:"the yarn it takes; null without a ball and a swatch"`
	Notes    []string        `json:"notes" doc:"what to watch out for"`
	Findings []Finding       `json:"findings" doc:"what the checks warn of, and the cautions"`
	Sources  []string        `json:"sources" doc:"ids of the sources that it rests on"`
	Credits  []string        `json:"credits" doc:"credit lines that the sources used ask for"`
}

// Plan reports a plan: what its counts give, and what to work, in order.
func (st Style) Plan(ref *sizing.Reference, c sizing.Child, p *plan.Plan, findings []validate.Finding) Document {
	words := Style{}.For(p.How) // JSON and CSV are in centimetres
	shown := Style{Unit: st.Unit}.For(p.How)
	var r Document
	doc := PlanDocument{Garment: p.Garment.ID, Title: p.Garment.Title, Spec: st.Spec(p.Spec), Child: newChildRecord(c), Body: Style{}.Fact(p.Body.Summary),
		Craft: string(p.How.Craft), Gauge: st.craftAndGauge(p.How), Notes: append([]string{}, words.Facts(p.Notes)...), Findings: Style{}.Findings(findings)}
	rows := []stepRow{}
	sections := Table{Caption: "Work in this order:", Columns: []Column{{Head: "section"}, {Head: "stitches", Opens: true}, {Head: "rows", Right: true, Opens: true}, {Head: "times", Right: true}}}
	for i, s := range p.Sections {
		rec := sectionRecord{Section: s.ID, Name: sectionName(s.Kind), Copies: s.Copies, InRounds: s.InRounds, From: s.From, To: s.To(), Rows: s.Rows(),
			HeightCm: Figure(s.HeightCm()), Steps: []stepRecord{}}
		line := newRow(rec.Name, span(strconv.Itoa(s.From), strconv.Itoa(s.To())), strconv.Itoa(s.Rows()), copies(s.Copies))
		if st.Place == Page {
			line.ID, line.Why = "section-"+strconv.Itoa(i), st.sectionReasons(s)
		}
		for _, step := range s.Steps {
			text := words.Step(step)
			rec.Steps = append(rec.Steps, stepRecord{Step: step.ID, Text: text})
			line.Under = append(line.Under, shown.Step(step))
			rows = append(rows, stepRow{s.ID, rec.Name, strconv.Itoa(s.Copies), strconv.Itoa(s.From), strconv.Itoa(s.To()), strconv.Itoa(s.Rows()), step.ID, "", text})
		}
		doc.Sections = append(doc.Sections, rec)
		sections.Rows = append(sections.Rows, line)
	}
	parts := st.partsTable(p, &doc, &rows)
	r.Sources = InOrder(p.Sources())
	r.Credits = CreditLines(ref, r.Sources)
	doc.Sources, doc.Credits = r.Sources, r.Credits
	r.Tables = []Table{parts, sections}
	if y := p.Yarn; y != nil {
		doc.Yarn = &yarnRecord{Figure(y.AreaCm2), Figure(y.Margin), Figure(y.Need.Grams), Figure(y.Need.Metres), y.Need.Balls, y.OneMore}
		r.Remarks = append(r.Remarks, yarnWords(y))
	}
	r.Remarks = append(r.Remarks, shown.Facts(p.Notes)...)
	options := shown
	options.Place = Command
	for _, f := range findings {
		r.Remarks = append(r.Remarks, fmt.Sprintf("Check, %s %s: %s.", f.Severity, f.Rule, options.Message(f)))
	}
	r.Asides = append(r.Asides, Style{}.Questions(p.Body.Questions)...)
	r.Rows, r.JSON = rows, doc
	r.Heading = append([]string{p.Garment.Title + ", " + st.Spec(p.Spec), Capital(st.craftAndGauge(p.How))}, st.bodyHeading(c, p.Body)...)
	return r
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
	g := Table{Columns: []Column{{Head: "part", Wrap: true}, {Head: "count", Right: true, Opens: true}}}
	for _, u := range st.Units() {
		g.Columns = append(g.Columns, Column{Head: "gives, " + u, Right: true}, Column{Head: "asked", Right: true})
	}
	for _, x := range p.Parts {
		rec := plannedPart{Part: x.Line.Part.Part, Name: x.Line.Part.Name, Unit: x.Unit, Size: Figure(x.SizeCm), Asked: Figure(x.WantCm),
			Error: Figure(x.ErrorCm()), SizeUnit: "cm"}
		count := absent
		if x.Count > 0 {
			n := x.Count
			rec.Count = &n
			count = strconv.Itoa(n) + " " + x.Unit
		}
		doc.Parts = append(doc.Parts, rec)
		line := newRow(x.Line.Part.Name, count)
		if st.Place == Page {
			line.ID, line.Why = "count-"+x.Line.Part.Part, st.countReasons(p.How, x)
		}
		for _, u := range st.Units() {
			line.Cells = append(line.Cells, LengthIn(x.SizeCm, u), LengthIn(x.WantCm, u))
		}
		g.Rows = append(g.Rows, line)
		text := fmt.Sprintf("%s cm, asked for %s cm", Figure(x.SizeCm), Figure(x.WantCm))
		if rec.Count != nil {
			text = count + ", " + text
		}
		*rows = append(*rows, stepRow{Section: "finished", Name: x.Line.Part.Name, Step: x.Line.Part.Part, Text: text})
	}
	return g
}

// span is the stitches that a section goes from and to.
func span(from, to string) string {
	if from == to {
		return from
	}
	return from + " → " + to
}

// copies is how often a section is worked; "" for once.
func copies(n int) string {
	if n == 1 {
		return ""
	}
	return strconv.Itoa(n) + " ×"
}
