package tell

import (
	"fmt"

	"growtuck/data"
)

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
		g.Rows = append(g.Rows, NewRow(t.Name, fmt.Sprint(t.Rows), t.SHA256))
	}
	g.Rows = append(g.Rows, NewRow("all", fmt.Sprint(rows), e.Checksum))
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
