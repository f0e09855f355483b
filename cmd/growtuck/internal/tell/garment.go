package tell

import (
	"math"

	"growtuck/data"
	"growtuck/sizing"
)

// A finishedRow is a finished measurement of a garment as CSV shows it, all
// lengths in unit: body × share + ease + adjustment = finished.
type finishedRow struct {
	Garment     string   `json:"garment" doc:"id of the garment"`
	Part        string   `json:"part" doc:"id of the garment's part"`
	Name        string   `json:"name" doc:"name in words"`
	Dimension   string   `json:"dimension" doc:"girth, width or length"`
	Measurement string   `json:"measurement" doc:"id of the body measurement"`
	Body        Figure   `json:"body" doc:"the body measurement, cm"`
	Low         *Figure  `json:"body_low" doc:"lower end of the body measurement's range, cm; null where there is none"`
	High        *Figure  `json:"body_high" doc:"upper end of the body measurement's range, cm; null where there is none"`
	Spread      string   `json:"body_spread" doc:"what the ends of the range are, such as p10–p90; empty where there is none"`
	Provenance  string   `json:"body_got" doc:"where the body measurement comes from: measured, published, between, derived or estimated"`
	Share       Figure   `json:"share_percent" doc:"percent of the body measurement that counts"`
	Ease        Figure   `json:"ease" doc:"sum of the ease, cm"`
	EaseLow     *Figure  `json:"ease_low" doc:"the least ease that belongs to the fit, cm"`
	EaseHigh    *Figure  `json:"ease_high" doc:"the most ease that belongs to the fit, cm; null where it has no end"`
	Adjustment  Figure   `json:"adjustment" doc:"sum of what lengths, style and growth add or take away, cm"`
	Finished    Figure   `json:"finished" doc:"body × share + ease + adjustment, cm"`
	Unit        string   `json:"unit" doc:"unit of the values beside it: cm or kg"`
	FinishedIn  Figure   `json:"finished_in" doc:"the same in inches"`
	Why         []string `json:"why" doc:"where each term comes from"`
	Sources     []string `json:"sources" doc:"ids of the sources that it rests on"`
}

type amountRecord struct {
	Amount Figure `json:"amount" doc:"what is added, below 0 what is taken away"`
	Unit   string `json:"unit" doc:"unit of the values beside it: cm or kg"`
	Why    string `json:"why" doc:"why it is added"`
	Source string `json:"source" doc:"id of the source; empty where it is the maker's own"`
	Basis  string `json:"basis" doc:"how far the figure can be relied on: published, common practice, memory …"`
}

type finishedRecord struct {
	finishedRow
	BodyFrom    string         `json:"body_from" doc:"in words, where the body measurement comes from"`
	EaseParts   []amountRecord `json:"ease_parts" doc:"the amounts that the ease is made of"`
	Adjustments []amountRecord `json:"adjustments" doc:"the amounts that the adjustment is made of"`
}

type missingPart struct {
	Part        string `json:"part" doc:"id of the garment's part"`
	Name        string `json:"name" doc:"name in words"`
	Measurement string `json:"measurement" doc:"id of the body measurement"`
	Title       string `json:"measurement_name" doc:"name of the body measurement"`
	Take        string `json:"how_to_measure" doc:"how the measurement is taken"`
}

// A GarmentDocument is the finished measurements of a garment, as JSON.
type GarmentDocument struct {
	Doubts    []DoubtRecord    `json:"doubts" doc:"what is hardly to be believed of what was said of the child"`
	Garment   string           `json:"garment" doc:"id of the garment"`
	Title     string           `json:"title" doc:"title in words"`
	Spec      string           `json:"making" doc:"in words: fit, clothes underneath, growth room"`
	Child     childRecord      `json:"child" doc:"what is known of the child"`
	Body      string           `json:"body" doc:"in words, what the body measurements were made from"`
	Apart     []apartRecord    `json:"apart" doc:"girths from a size that part from those of children measured at its height"`
	Parts     []finishedRecord `json:"parts" doc:"the parts of the garment"`
	Missing   []missingPart    `json:"missing" doc:"what is left out, because it is not known"`
	Questions []string         `json:"questions" doc:"the doubts in words alone"`
	Sources   []string         `json:"sources" doc:"ids of the sources that it rests on"`
	Credits   []string         `json:"credits" doc:"credit lines that the sources used ask for"`
}

func newFinishedRecord(garment string, l sizing.Line) finishedRecord {
	share := 100.0
	if l.Share.Cm != 0 {
		share = l.Share.Cm
	}
	eased := len(l.Ease) > 0
	return finishedRecord{
		finishedRow: finishedRow{
			Garment: garment, Part: l.Part.Part, Name: l.Part.Name, Dimension: l.Part.Dimension,
			Measurement: l.Part.Measurement, Body: Figure(l.Body.Value),
			Low: Known(l.Body.Low, l.Body.Spread != ""), High: Known(l.Body.High, l.Body.Spread != ""),
			Spread: string(l.Body.Spread), Provenance: string(l.Body.Provenance), Share: Figure(share),
			Ease: Figure(sizing.TotalCm(l.Ease)), EaseLow: Known(l.EaseLow, eased), EaseHigh: Known(l.EaseHigh, eased),
			Adjustment: Figure(sizing.TotalCm(l.Adjust)), Finished: Figure(l.Finished), Unit: "cm",
			FinishedIn: Figure(l.FinishedIn),
			Why:        Style{}.terms(l).Lines(), Sources: InOrder(l.Sources()),
		},
		BodyFrom:  Style{}.From(l.Body),
		EaseParts: amountRecords(l.Ease), Adjustments: amountRecords(l.Adjust),
	}
}

func amountRecords(amounts []sizing.Amount) []amountRecord {
	records := []amountRecord{}
	for _, a := range amounts {
		records = append(records, amountRecord{Figure(a.Cm), "cm", Style{}.Amount(a), a.Source, a.Basis})
	}
	return records
}

// terms say where each term of a line comes from.
func (st Style) terms(l sizing.Line) Reason {
	why := st.Reason(l.Body)
	why.How = l.Body.Measurement.Name + " " + quantity(l.Body.Value, st.Unit) + ", " + why.How
	if l.Share.Cm != 0 {
		why.Notes = append(why.Notes, "× "+Figure(l.Share.Cm).String()+" %, "+st.Because(l.Share))
	}
	for _, amounts := range [][]sizing.Amount{l.Ease, l.Adjust} {
		for _, a := range amounts {
			sign := "+ "
			if a.Cm < 0 {
				sign = "− "
			}
			why.Notes = append(why.Notes, sign+quantity(math.Abs(a.Cm), st.Unit)+", "+st.Because(a))
		}
	}
	return why
}

// Garment reports the finished measurements of a garment.
func (st Style) Garment(ref *sizing.Reference, c sizing.Child, f *sizing.Finished, why bool) Document {
	cm := Style{} // in which JSON and standard error are
	r := Document{Doubts: st.CheckFirst(f.Body.Questions)}
	rows := []finishedRow{}
	doc := GarmentDocument{
		Doubts:  DoubtRecords(f.Body.Questions),
		Garment: f.Garment.ID, Title: f.Garment.Title, Spec: cm.Spec(f.Spec), Child: newChildRecord(c),
		Body: cm.Fact(f.Body.Summary), Apart: apartRecords(f.Body), Questions: cm.Questions(f.Body.Questions), Missing: []missingPart{},
	}
	for _, l := range f.Lines {
		rec := newFinishedRecord(f.Garment.ID, l)
		doc.Parts = append(doc.Parts, rec)
		rows = append(rows, rec.finishedRow)
		r.Sources = append(r.Sources, rec.Sources...)
	}
	for _, p := range f.Missing {
		m, err := ref.Measurement(p.Measurement)
		if err != nil {
			continue // the tables are checked: every part has its measurement
		}
		doc.Missing = append(doc.Missing, missingPart{p.Part, p.Name, m.ID, m.Name, m.How})
		r.CSVAsides = append(r.CSVAsides, LeftOut(p, m))
	}
	r.Sources = InOrder(r.Sources)
	r.Credits = CreditLines(ref, r.Sources)
	doc.Sources, doc.Credits = r.Sources, r.Credits
	r.Rows, r.JSON = rows, doc

	r.Heading = append([]string{f.Garment.Title + ", " + st.Spec(f.Spec)}, st.bodyHeading(c, f.Body)...)
	r.Tables = []Table{st.finishedTable(f, &r.Notes, why)}
	if len(doc.Missing) > 0 {
		r.Tables = append(r.Tables, missingTable(doc.Missing))
	}
	for _, advice := range f.Advice() {
		r.Remarks = append(r.Remarks, st.Fact(advice))
	}
	r.Remarks = append(r.Remarks, st.Facts(f.Beside())...)
	if st.addsUpRoughly(f) {
		r.Remarks = append(r.Remarks, "Each figure is rounded separately; csv and json have them in full.")
	}
	return r
}

// finishedTable shows the lines of a garment as sums.
func (st Style) finishedTable(f *sizing.Finished, footnotes *Notes, why bool) Table {
	unit := st.Units()[0]
	g := Table{Columns: []Column{{Head: LetterHead}, {Head: "part", Wrap: true}, {Head: "body", Right: true, Opens: true}, {Head: "got"}, {Head: "× share", Right: true},
		{Head: "+ ease", Right: true, Opens: true}, {Head: "+ adjustment", Right: true, Opens: true}}}
	for _, u := range st.Units() {
		g.Columns = append(g.Columns, Column{Head: "= finished, " + u, Right: true, Opens: true})
	}
	g.Columns = append(g.Columns, Column{Head: "notes"})
	for i, l := range f.Lines {
		share := ""
		if l.Share.Cm != 0 {
			share = sizing.FormatExact(l.Share.Cm) + " %"
		}
		line := Row{Cells: []string{Letter(i), l.Part.Name, amount(l.Body, unit), string(l.Body.Provenance), share,
			signed(sizing.TotalCm(l.Ease), unit), signed(sizing.TotalCm(l.Adjust), unit)}}
		for _, u := range st.Units() {
			line.Cells = append(line.Cells, st.finished(l, u))
		}
		line.Cells = append(line.Cells, "")
		switch {
		case st.Place == Page:
			line.ID, line.Why = "part-"+l.Part.Part, st.lineReasons(l)
		case why:
			line.Under = st.lineReasons(l)
		default:
			line.Cells[len(line.Cells)-1] = footnotes.marks(st.footnotes(l.Body))
		}
		g.Rows = append(g.Rows, line)
	}
	return g
}

// finished is a finished measurement in the unit.
func (st Style) finished(l sizing.Line, unit string) string {
	if unit == "in" {
		return sizing.FormatQuarters(l.FinishedIn)
	}
	return LengthIn(l.Finished, unit)
}

// lineReasons say where each term of a line comes from, and which ease fits.
func (st Style) lineReasons(l sizing.Line) []string {
	return append(st.terms(l).Lines(), rangeWords(l, st.Unit)...)
}

// rangeWords says which ease still belongs to the fit.
func rangeWords(l sizing.Line, unit string) []string {
	switch {
	case len(l.Ease) == 0 || l.EaseLow == l.EaseHigh:
		return nil
	case math.IsInf(l.EaseHigh, 1):
		return []string{"ease of this fit: " + quantity(l.EaseLow, unit) + " or more"}
	}
	return []string{"ease of this fit: " + quantity(l.EaseLow, unit) + " to " + quantity(l.EaseHigh, unit)}
}

// NotToMeasure notes a part that a drawing shows without its measure.
func NotToMeasure(p data.Part) string {
	return p.Name + " is not drawn to measure: the body measurement is not known"
}

func missingTable(missing []missingPart) Table {
	g := Table{
		Caption: "Left out, because the body measurement is not known:",
		Columns: []Column{{Head: "part"}, {Head: "measure"}, {Head: "how to take it", Wrap: true}},
	}
	for _, m := range missing {
		g.Rows = append(g.Rows, Row{Cells: []string{m.Name, m.Title, m.Take}})
	}
	return g
}

// addsUpRoughly reports that the figures shown for some part do not add up to
// the rounded sum.
func (st Style) addsUpRoughly(f *sizing.Finished) bool {
	step, per := 0.5, 1.0
	if st.Unit == "in" {
		step, per = 0.25, sizing.CmPerInch
	}
	round := func(cm float64) float64 { return math.Round(cm/per/step) * step }
	for _, l := range f.Lines {
		if l.Share.Cm == 0 && round(l.Body.Value)+round(sizing.TotalCm(l.Ease))+round(sizing.TotalCm(l.Adjust)) != round(l.Finished) {
			return true
		}
	}
	return false
}
