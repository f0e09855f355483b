package main

import (
	"fmt"
	"math"
	"strconv"

	"growtuck/sizing"
)

// A finishedRow is a finished measurement of a garment as CSV shows it, all
// lengths in unit: body × share + ease + adjustment = finished.
type finishedRow struct {
	Garment     string   `json:"garment"`
	Part        string   `json:"part"`
	Name        string   `json:"name"`
	Dimension   string   `json:"dimension"`
	Measurement string   `json:"measurement"`
	Body        figure   `json:"body"`
	Low         *figure  `json:"body_low"`
	High        *figure  `json:"body_high"`
	Spread      string   `json:"body_spread"`
	Provenance  string   `json:"body_got"`
	Share       figure   `json:"share_percent"`
	Ease        figure   `json:"ease"`
	EaseLow     *figure  `json:"ease_low"`
	EaseHigh    *figure  `json:"ease_high"`
	Adjustment  figure   `json:"adjustment"`
	Finished    figure   `json:"finished"`
	Unit        string   `json:"unit"`
	FinishedIn  figure   `json:"finished_in"`
	Why         []string `json:"why"`
	Sources     []string `json:"sources"`
}

type amountRecord struct {
	Amount figure `json:"amount"`
	Unit   string `json:"unit"`
	Why    string `json:"why"`
	Source string `json:"source"`
	Basis  string `json:"basis"`
}

type finishedRecord struct {
	finishedRow
	BodyFrom    string         `json:"body_from"`
	EaseParts   []amountRecord `json:"ease_parts"`
	Adjustments []amountRecord `json:"adjustments"`
}

type missingPart struct {
	Part        string `json:"part"`
	Name        string `json:"name"`
	Measurement string `json:"measurement"`
	Title       string `json:"measurement_name"`
	Take        string `json:"how_to_measure"`
}

type garmentDocument struct {
	Garment   string           `json:"garment"`
	Title     string           `json:"title"`
	Spec      string           `json:"making"`
	Child     childRecord      `json:"child"`
	Body      string           `json:"body"`
	Parts     []finishedRecord `json:"parts"`
	Missing   []missingPart    `json:"missing"`
	Questions []string         `json:"questions"`
	Sources   []string         `json:"sources"`
	Credits   []string         `json:"credits"`
}

func newFinishedRecord(garment string, l sizing.Line) finishedRecord {
	share := 100.0
	if l.Share.Cm != 0 {
		share = l.Share.Cm
	}
	eased := len(l.Ease) > 0
	rec := finishedRecord{
		finishedRow: finishedRow{
			Garment: garment, Part: l.Part.Part, Name: l.Part.Name, Dimension: l.Part.Dimension,
			Measurement: l.Part.Measurement, Body: figure(l.Body.Value),
			Low: known(l.Body.Low, l.Body.Spread != ""), High: known(l.Body.High, l.Body.Spread != ""),
			Spread: l.Body.Spread, Provenance: string(l.Body.Provenance), Share: figure(share),
			Ease: figure(sizing.TotalCm(l.Ease)), EaseLow: known(l.EaseLow, eased), EaseHigh: known(l.EaseHigh, eased),
			Adjustment: figure(sizing.TotalCm(l.Adjust)), Finished: figure(l.Finished), Unit: "cm",
			FinishedIn: figure(l.FinishedIn),
			Why:        whyLines(l, "cm"), Sources: inOrder(l.Sources()),
		},
		BodyFrom:  l.Body.From,
		EaseParts: amountRecords(l.Ease), Adjustments: amountRecords(l.Adjust),
	}
	return rec
}

func amountRecords(amounts []sizing.Amount) []amountRecord {
	records := []amountRecord{}
	for _, a := range amounts {
		records = append(records, amountRecord{figure(a.Cm), "cm", a.Why, a.Source, a.Basis})
	}
	return records
}

// whyLines say where each term of a line comes from, with lengths in cm, in or
// both.
func whyLines(l sizing.Line, unit string) []string {
	why := reasons(l.Body)
	lines := []string{l.Body.Measurement.Name + " " + quantity(l.Body.Value, unit) + ", " + why[0]}
	lines = append(lines, why[1:]...)
	if l.Share.Cm != 0 {
		lines = append(lines, "× "+figure(l.Share.Cm).String()+" %, "+because(l.Share))
	}
	for _, amounts := range [][]sizing.Amount{l.Ease, l.Adjust} {
		for _, a := range amounts {
			sign := "+ "
			if a.Cm < 0 {
				sign = "− "
			}
			lines = append(lines, sign+quantity(math.Abs(a.Cm), unit)+", "+because(a))
		}
	}
	return lines
}

func because(a sizing.Amount) string {
	if a.Source == "" {
		return a.Why
	}
	return a.Why + " [" + a.Source + "]"
}

func (a *app) garmentReport(ref *sizing.Reference, c sizing.Child, f *sizing.Finished, why bool) report {
	r := report{asides: append([]string{}, f.Body.Questions...)}
	rows := []finishedRow{}
	doc := garmentDocument{
		Garment: f.Garment.ID, Title: f.Garment.Title, Spec: f.Spec.Describe(), Child: newChildRecord(c),
		Body: f.Body.Summary, Questions: append([]string{}, f.Body.Questions...), Missing: []missingPart{},
	}
	for _, l := range f.Lines {
		rec := newFinishedRecord(f.Garment.ID, l)
		doc.Parts = append(doc.Parts, rec)
		rows = append(rows, rec.finishedRow)
		r.sources = append(r.sources, rec.Sources...)
	}
	for _, p := range f.Missing {
		m, err := ref.Measurement(p.Measurement)
		if err != nil {
			continue // the tables are checked: every part has its measurement
		}
		doc.Missing = append(doc.Missing, missingPart{p.Part, p.Name, m.ID, m.Name, m.How})
		if a.format == "csv" {
			r.asides = append(r.asides, fmt.Sprintf("%s is left out, the %s is not known; measure it %s", p.Name, m.Name, m.How))
		}
	}
	r.sources = inOrder(r.sources)
	r.credits = creditLines(ref, r.sources)
	doc.Sources, doc.Credits = r.sources, r.credits
	r.rows, r.document = rows, doc

	r.heading = append([]string{f.Garment.Title + ", " + f.Spec.Describe()}, bodyHeading(c, f.Body, sizing.List(f.Body.Evidence))...)
	r.grids = []grid{a.finishedGrid(f, &r.notes, why)}
	if len(doc.Missing) > 0 {
		r.grids = append(r.grids, missingGrid(doc.Missing))
	}
	if a.addsUpRoughly(f) {
		r.remarks = append(r.remarks, "Each figure is rounded for itself; csv and json have them in full.")
	}
	return r
}

// finishedGrid shows the lines of a garment as sums.
func (a *app) finishedGrid(f *sizing.Finished, footnotes *notes, why bool) grid {
	unit := a.inTable()[0]
	g := grid{columns: []column{{head: "part", wrap: true}, {head: "body", right: true}, {head: "got"}, {head: "× share", right: true},
		{head: "+ ease", right: true}, {head: "+ adjustment", right: true}}}
	for _, u := range a.inTable() {
		g.columns = append(g.columns, column{head: "= finished, " + u, right: true})
	}
	g.columns = append(g.columns, column{head: "notes"})
	for _, l := range f.Lines {
		share := ""
		if l.Share.Cm != 0 {
			share = strconv.FormatFloat(l.Share.Cm, 'f', -1, 64) + " %"
		}
		line := row{cells: []string{l.Part.Name, amount(l.Body, unit), string(l.Body.Provenance), share,
			signed(sizing.TotalCm(l.Ease), unit), signed(sizing.TotalCm(l.Adjust), unit)}}
		for _, u := range a.inTable() {
			finished := lengthIn(l.Finished, u)
			if u == "in" {
				finished = sizing.FormatQuarters(l.FinishedIn)
			}
			line.cells = append(line.cells, finished)
		}
		line.cells = append(line.cells, "")
		if why {
			line.under = append(whyLines(l, a.unit), rangeWords(l, a.unit)...)
		} else {
			line.cells[len(line.cells)-1] = footnotes.marks(sizeNotes(l.Body))
		}
		g.rows = append(g.rows, line)
	}
	return g
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

func missingGrid(missing []missingPart) grid {
	g := grid{
		caption: "Left out, because the body measurement is not known:",
		columns: []column{{head: "part"}, {head: "measure"}, {head: "how to take it", wrap: true}},
	}
	for _, m := range missing {
		g.rows = append(g.rows, row{cells: []string{m.Name, m.Title, m.Take}})
	}
	return g
}

// addsUpRoughly reports that the figures shown for some part do not add up to
// the rounded sum.
func (a *app) addsUpRoughly(f *sizing.Finished) bool {
	step, per := 0.5, 1.0
	if a.unit == "in" {
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
