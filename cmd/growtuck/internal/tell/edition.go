package tell

import (
	"fmt"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

// A Version is the versions of the program, of the tables and of Go.
type Version struct {
	Program  string `json:"program" doc:"version of the program"`
	Revision string `json:"revision" doc:"revision that the program was built from; may be empty"`
	Tables   string `json:"tables" doc:"version of the tables"`
	Go       string `json:"go" doc:"version of Go that the program was built with"`
}

// Document reports the versions.
func (v Version) Document() Document {
	g := Table{Columns: []Column{{}, {}}}
	for _, line := range [][2]string{{"growtuck", v.Program}, {"revision", v.Revision}, {"tables", v.Tables}, {"go", v.Go}} {
		if line[1] != "" {
			g.Rows = append(g.Rows, newRow(line[0], line[1]))
		}
	}
	return Document{Tables: []Table{g}, Rows: []Version{v}, JSON: v}
}

type sumRecord struct {
	Table  string `json:"table"`
	Rows   int    `json:"rows"`
	SHA256 string `json:"sha256"`
}

// An EditionDocument is an edition of the tables, as JSON.
type EditionDocument struct {
	Edition  string      `json:"edition"`
	Date     string      `json:"date"`
	Changed  bool        `json:"changed"`
	Checksum string      `json:"sha256"`
	Tables   []sumRecord `json:"tables"`
}

// Edition reports each table with its checksum, and that over all.
func Edition(e *data.Edition) Document {
	d := EditionDocument{e.Version, e.Date, e.Changed, e.Checksum, nil}
	g := Table{Columns: []Column{{Head: "table"}, {Head: "rows", Right: true}, {Head: "SHA-256"}}}
	rows := 0
	for _, t := range e.Tables {
		rows += t.Rows
		d.Tables = append(d.Tables, sumRecord{t.Name, t.Rows, t.SHA256})
		g.Rows = append(g.Rows, newRow(t.Name, fmt.Sprint(t.Rows), t.SHA256))
	}
	g.Rows = append(g.Rows, newRow("all", fmt.Sprint(rows), e.Checksum))
	named := "The tables belong to no edition: they have no changes.csv."
	if e.Version != "" {
		named = "Edition " + e.Version + " of " + e.Date + "."
		if e.Changed {
			named = "Changed since edition " + e.Version + " of " + e.Date + ", which has another checksum."
		}
	}
	records := append(d.Tables, sumRecord{"all", rows, e.Checksum})
	return Document{Tables: []Table{g}, Remarks: []string{named}, Rows: records, JSON: d}
}

// A MoveRecord is a reading that differs, as CSV and JSON show it.
type MoveRecord struct {
	What        string  `json:"what"`
	Of          string  `json:"of"`
	Sex         string  `json:"sex"`
	At          string  `json:"at"`
	Measurement string  `json:"measurement"`
	Before      *Figure `json:"before"`
	After       *Figure `json:"after"`
	Moved       *Figure `json:"moved"`
	Unit        string  `json:"unit"`
}

// A CompareDocument is what differs between two editions of the tables, as JSON.
type CompareDocument struct {
	Before   string       `json:"before"`
	After    string       `json:"after"`
	Differ   []string     `json:"tables_that_differ"`
	Readings int          `json:"readings"`
	Gone     int          `json:"gone"`
	Added    int          `json:"added"`
	Moved    int          `json:"moved"`
	Largest  Figure       `json:"largest_move"`
	Step     string       `json:"step"`
	Moves    []MoveRecord `json:"moves"`
}

// Compare reports which readings differ between two editions of the tables.
func Compare(before, after *data.Edition, c *sizing.Comparison) Document {
	d := CompareDocument{Before: before.String(), After: after.String(), Differ: after.Differing(before), Readings: c.Readings,
		Gone: c.Gone, Added: c.Added, Moved: c.Moved, Largest: Figure(c.Largest),
		Step: data.StepFor(c.Gone, c.Added+c.Figures, float64(Figure(c.Largest))).String(), Moves: []MoveRecord{}}
	g := Table{Columns: []Column{{Head: "what"}, {Head: "of"}, {Head: "sex"}, {Head: "at"}, {Head: "measurement"},
		{Head: "before", Right: true}, {Head: "after", Right: true}, {Head: "moved", Right: true}, {Head: "unit"}}}
	text := func(f *Figure) string {
		if f == nil {
			return "–"
		}
		return f.String()
	}
	for _, m := range c.Moves {
		rec := MoveRecord{m.What, m.Of, m.Sex, m.At, m.Measurement, Known(m.Before, m.Was), Known(m.After, m.Is), Known(m.After-m.Before, m.Was && m.Is), m.Unit}
		d.Moves = append(d.Moves, rec)
		g.Rows = append(g.Rows, newRow(m.What, m.Of, m.Sex, m.At, m.Measurement, text(rec.Before), text(rec.After), text(rec.Moved), m.Unit))
	}
	verdict := "The tables are the same, byte for byte."
	if len(d.Differ) > 0 {
		verdict = fmt.Sprintf("Different: %s. Of %d readings %d changed, by at most %s cm or kg; %d were added and %d removed. That makes at least a %s edition.",
			strings.Join(d.Differ, ", "), d.Readings, d.Moved, d.Largest, d.Added, d.Gone, d.Step)
	}
	return Document{Heading: []string{"before: " + d.Before, "after: " + d.After}, Tables: []Table{g}, Remarks: []string{verdict}, Rows: d.Moves, JSON: d}
}
