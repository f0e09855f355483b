package main

import (
	"fmt"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

type sizeRow struct {
	Chart string `json:"chart"`
	Sex   string `json:"sex"`
	Size  string `json:"size"`
	Scale string `json:"scale"`
	bodyRecord
}

type sizeDocument struct {
	Chart   string       `json:"chart"`
	Method  string       `json:"method"`
	Sizes   []sizeRecord `json:"sizes"`
	Sources []string     `json:"sources"`
	Credits []string     `json:"credits"`
}

type sizeRecord struct {
	Size         string          `json:"size"`
	Scale        string          `json:"scale"`
	Sex          string          `json:"sex"`
	Position     figure          `json:"position"`
	HeightCm     *figure         `json:"height_cm"`
	Measurements []bodyRecord    `json:"measurements"`
	Missing      []missingRecord `json:"missing"`
}

func (a *app) sizeReport(ref *sizing.Reference, sizes []sizeBody, f chartFlags, only onlyFlags, why bool) (report, error) {
	shown, err := only.shown(ref)
	if err != nil {
		return report{}, err
	}
	r := report{}
	rows := []sizeRow{}
	doc := sizeDocument{Chart: f.chart, Method: f.methodName()}
	for _, s := range sizes {
		run := s.place.Run
		rec := sizeRecord{
			Size: s.place.Label(), Scale: string(run.Scale), Sex: string(run.Sex), Position: figure(s.place.Position),
			Measurements: bodyRecords(s.body), Missing: s.missing,
		}
		rec.HeightCm = known(s.place.Height())
		for _, m := range rec.Measurements {
			rows = append(rows, sizeRow{f.chart, rec.Sex, rec.Size, rec.Scale, m})
		}
		for _, m := range s.missing {
			r.remarks = append(r.remarks, m.Reason)
		}
		doc.Sizes = append(doc.Sizes, rec)
		r.sources = append(r.sources, s.body.Sources()...)
	}
	r.sources = inOrder(r.sources)
	r.credits = creditLines(ref, r.sources)
	doc.Sources, doc.Credits = r.sources, r.credits
	r.rows, r.document = rows, doc
	if len(sizes) == 1 {
		a.oneSize(&r, sizes[0], shown, why)
	} else {
		a.severalSizes(&r, ref, sizes, shown)
	}
	return r, nil
}

// oneSize shows a size with how each number was got.
func (a *app) oneSize(r *report, s sizeBody, shown func(data.Measurement) bool, why bool) {
	chart := s.place.Run.Chart
	r.heading = []string{"Body measurements, " + s.body.Summary + sexWords(s.place.Run.Sex)}
	g := grid{columns: []column{{head: "measurement"}}}
	for _, u := range a.inTable() {
		g.columns = append(g.columns, column{head: u, right: true})
	}
	g.columns = append(g.columns, column{head: "range, " + a.inTable()[0]}, column{head: "how"}, column{head: "notes"}, column{head: "sources", wrap: true})
	hidden := 0
	var visible []sizing.Reading
	for _, m := range s.body.Readings {
		if !shown(m.Measurement) {
			hidden++
			continue
		}
		visible = append(visible, m)
		cells := append(a.amounts(m), howAtSize(m, chart.ID), "", strings.Join(inOrder(m.Sources), ", "))
		line := row{cells: cells}
		if why {
			line.under = reasons(m)
		} else {
			cells[len(cells)-2] = r.notes.marks(sizeNotes(m))
		}
		g.rows = append(g.rows, line)
	}
	r.grids = []grid{g}
	r.sources = nil // each line has its own
	r.remarks = append(r.remarks, spreadWords(visible)...)
	r.remarks = append(r.remarks, hiddenWords(hidden)...)
}

// amounts are the cells that every body measurement begins with: its name,
// value, and range in the first of the units.
func (a *app) amounts(m sizing.Reading) []string {
	cells := []string{title(m, a.inTable())}
	for _, u := range a.inTable() {
		cells = append(cells, amount(m, u))
	}
	return append(cells, spread(m, a.inTable()[0]))
}

// severalSizes shows sizes side by side.
func (a *app) severalSizes(r *report, ref *sizing.Reference, sizes []sizeBody, shown func(data.Measurement) bool) {
	chart := sizes[0].place.Run.Chart
	r.heading = []string{fmt.Sprintf("Body measurements by size, chart %s (%s)%s",
		chart.ID, chart.Title, sexWords(sizes[0].place.Run.Sex))}
	g := grid{columns: []column{{head: "measurement"}}}
	for _, s := range sizes {
		for _, u := range a.inTable() {
			g.columns = append(g.columns, column{head: s.head() + unitHead(a.unit, u), right: true})
		}
	}
	g.columns = append(g.columns, column{head: "notes"})
	hidden := 0
	for _, m := range ref.Measurements() {
		cells := []string{title(sizing.Reading{Measurement: m}, a.inTable())}
		var notes []string
		found := false
		for _, s := range sizes {
			reading, ok := s.body.Get(m.ID)
			found = found || ok
			for _, u := range a.inTable() {
				text := ""
				if ok {
					text = amount(reading, u)
				}
				cells = append(cells, text)
			}
			notes = append(notes, sizeNotes(reading)...)
		}
		switch {
		case !found:
		case !shown(m):
			hidden++
		default:
			g.rows = append(g.rows, row{cells: append(cells, r.notes.marks(notes))})
		}
	}
	r.grids = []grid{g}
	switch a.unit {
	case "cm":
		r.heading[0] += ", in cm"
	case "in":
		r.heading[0] += ", in inches"
	}
	r.remarks = append(r.remarks, hiddenWords(hidden)...)
}

// head names the size in a table: as the chart does, and as the maker did
// where that is not the same.
func (s sizeBody) head() string {
	label := s.place.Label()
	if strings.EqualFold(strings.TrimSpace(s.asked), label) {
		return label
	}
	return strings.TrimSpace(s.asked) + " (" + label + ")"
}

// unitHead adds the unit to the head of a column where there are two.
func unitHead(asked, unit string) string {
	if asked == "both" {
		return " " + unit
	}
	return ""
}

func sexWords(s sizing.Sex) string {
	switch s {
	case sizing.Boy:
		return ", boys"
	case sizing.Girl:
		return ", girls"
	}
	return ", boys and girls"
}

var spreads = [][2]string{
	{"p10–p90", "p10–p90: eight of ten such children have a figure in this range."},
	{"p25–p75", "p25–p75: the middle half of the children measured."},
	{"p5–p95", "p5–p95: nine of ten of the children measured."},
	{"low–high", "low–high: the range that the chart gives."},
}

// spreadWords explains the ranges that are shown.
func spreadWords(readings []sizing.Reading) []string {
	var lines []string
	for _, s := range spreads {
		for _, r := range readings {
			if r.Spread == s[0] {
				lines = append(lines, s[1])
				break
			}
		}
	}
	return lines
}

func hiddenWords(n int) []string {
	switch n {
	case 0:
		return nil
	case 1:
		return []string{"1 measurement that garments seldom need is left out; --all shows it."}
	}
	return []string{fmt.Sprintf("%d measurements that garments seldom need are left out; --all shows them.", n)}
}
