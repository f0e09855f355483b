package tell

import (
	"fmt"
	"slices"
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
	Counts   []int        `json:"counts" doc:"stitches after each row"`
	Colours  []string     `json:"colours,omitempty" doc:"the colour of each row, where there is more than one"`
	Adjust   []string     `json:"adjust" doc:"what to look at when it is tried on, and how it is made longer and wider"`
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

// A PlanDocument is a plan, as JSON.
type PlanDocument struct {
	Doubts       []DoubtRecord   `json:"doubts" doc:"what is hardly to be believed of what was said of the child"`
	Garment      string          `json:"garment" doc:"id of the garment"`
	Title        string          `json:"title" doc:"title in words"`
	Spec         string          `json:"making" doc:"in words: fit, clothes underneath, growth room"`
	Child        childRecord     `json:"child" doc:"what is known of the child"`
	Body         string          `json:"body" doc:"in words, what the body measurements were made from"`
	Apart        []apartRecord   `json:"apart" doc:"girths from a size that part from those of children measured at its height"`
	Craft        string          `json:"craft" doc:"crochet or knit"`
	Gauge        string          `json:"gauge" doc:"the gauge in words"`
	Sections     []sectionRecord `json:"sections" doc:"the work, in its order"`
	Parts        []plannedPart   `json:"parts" doc:"the parts of the garment"`
	Yarn         *yarnRecord     `json:"yarn" doc:"the yarn it takes; null without a ball and a swatch"`
	Time         *timeRecord     `json:"time" doc:"how long it takes; null where the pace is not known"`
	Materials    []string        `json:"materials" doc:"what it takes"`
	Construction []string        `json:"construction" doc:"how the garment is made"`
	Finishing    []string        `json:"finishing" doc:"what is done once all is worked"`
	Growth       []string        `json:"growth" doc:"how room to grow is held, fold by fold, and then let down"`
	Held         []heldRecord    `json:"held" doc:"room to grow that is held away, in the order in which it is let down in each part"`
	Notes        []string        `json:"notes" doc:"what to watch out for"`
	Findings     []Finding       `json:"findings" doc:"what the checks warn of, and the cautions"`
	Sources      []string        `json:"sources" doc:"ids of the sources that it rests on"`
	Credits      []string        `json:"credits" doc:"credit lines that the sources used ask for"`
}

// Plan reports a plan: what its counts give, and what to work, in order.
func (st Style) Plan(ref *sizing.Reference, c sizing.Child, p *plan.Plan, findings []validate.Finding) Document {
	shown := Style{Unit: st.Unit}.For(p.How)
	var r Document
	told := pattern{Style: shown, plan: p, child: c}
	told.Place, told.Over4In = st.Place, st.Over4In
	before, rest := told.first(findings)
	chapters := append(before, told.chapters()...)
	r.Chapters = append(chapters, told.remarks(rest)...)
	r.Doubts = st.CheckFirst(p.Body.Questions)
	r.Sources = InOrder(p.Sources())
	r.Credits = CreditLines(ref, r.Sources)
	r.Records = func() (any, any) {
		rows, doc := st.planRecords(c, p, findings, itemRows(chapters, "materials", "finishing"))
		doc.Sources, doc.Credits = r.Sources, r.Credits
		return rows, doc
	}
	r.Heading = append([]string{told.title(), Capital(st.Spec(p.Spec)) + "."}, st.bodyHeading(c, p.Body)...)
	return r
}

// planRecords are a plan as rows, with those of its materials and finishing, and as JSON.
func (st Style) planRecords(c sizing.Child, p *plan.Plan, findings []validate.Finding, items []stepRow) ([]stepRow, PlanDocument) {
	words := Style{}.For(p.How) // JSON and CSV are in centimetres
	data := pattern{Style: words, plan: p, child: c}
	doc := PlanDocument{Doubts: DoubtRecords(p.Body.Questions), Garment: p.Garment.ID, Title: p.Garment.Title, Spec: st.Spec(p.Spec), Child: newChildRecord(c), Body: Style{}.Fact(p.Body.Summary), Apart: apartRecords(p.Body),
		Craft: string(p.How.Craft), Gauge: st.craftAndGauge(p.How), Notes: append([]string{}, words.Facts(p.Notes)...), Findings: Style{}.Findings(findings),
		Materials: data.materials().Items, Construction: data.construction().Items, Finishing: data.finishing().Items}
	rows := []stepRow{}
	for _, d := range p.Body.Questions {
		rows = append(rows, stepRow{Section: "doubt", Name: d.Name, Step: d.Measurement, Text: words.Doubt(d)})
	}
	for _, s := range p.Sections {
		rec := sectionRecord{Section: s.ID, Name: sectionName(s.Kind), Copies: s.Copies, InRounds: s.InRounds, From: s.From, To: s.To(), Rows: s.Rows(),
			HeightCm: Figure(s.HeightCm()), Steps: []stepRecord{}, Colours: s.Colours, Adjust: data.section(s).After}
		for row := range s.Rows() {
			rec.Counts = append(rec.Counts, s.StitchesAfter(row+1))
		}
		for _, step := range s.Steps {
			text := words.Step(step)
			rec.Steps = append(rec.Steps, stepRecord{Step: step.ID, Text: text})
			rows = append(rows, stepRow{s.ID, rec.Name, strconv.Itoa(s.Copies), strconv.Itoa(s.From), strconv.Itoa(s.To()), strconv.Itoa(s.Rows()), step.ID, "", text})
		}
		doc.Sections = append(doc.Sections, rec)
	}
	rows = append(rows, st.plannedParts(p, &doc)...)
	rows = append(rows, items...)
	doc.Growth, doc.Held = data.growth(), data.heldRecords()
	rows = append(rows, heldRows(doc.Held)...)
	doc.Yarn, doc.Time = newYarnRecord(p), newTimeRecord(p.How.Pace, p.Stitches())
	return rows, doc
}

// plannedParts puts the finished measurements into the document, and gives them as rows.
func (st Style) plannedParts(p *plan.Plan, doc *PlanDocument) []stepRow {
	var rows []stepRow
	for _, x := range p.Parts {
		rec := plannedPart{Part: x.Line.Part.Part, Name: x.Line.Part.Name, Unit: x.Unit, Size: Figure(x.SizeCm), Asked: Figure(x.WantCm),
			Error: Figure(x.ErrorCm()), SizeUnit: "cm"}
		text := fmt.Sprintf("%s cm, asked for %s cm", Figure(x.SizeCm), Figure(x.WantCm))
		if x.Count > 0 {
			n := x.Count
			rec.Count = &n
			text = strconv.Itoa(n) + " " + x.Unit + ", " + text
		}
		doc.Parts = append(doc.Parts, rec)
		rows = append(rows, stepRow{Section: "finished", Name: x.Line.Part.Name, Step: x.Line.Part.Part, Text: text})
	}
	return rows
}

// itemRows are the items of some chapters as rows.
func itemRows(chapters []Chapter, ids ...string) []stepRow {
	var rows []stepRow
	for _, c := range chapters {
		if slices.Contains(ids, c.ID) {
			for i, text := range c.Items {
				rows = append(rows, stepRow{Section: c.ID, Name: c.Title, Step: strconv.Itoa(i + 1), Text: text})
			}
		}
	}
	return rows
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
