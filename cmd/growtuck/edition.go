package main

import (
	"fmt"
	"io/fs"
	"os"

	"growtuck/data"
)

// edition says which tables are in use: the built-in ones, or those of the
// folder asked for.
func (a *app) edition() (*data.Edition, error) {
	var tables fs.FS = data.Embedded()
	if a.tables != "" {
		tables = os.DirFS(a.tables)
	}
	e, err := data.EditionOf(tables)
	if a.tables != "" {
		return e, inFolder(a.tables, err)
	}
	return e, err
}

type sumRecord struct {
	Table  string `json:"table"`
	Rows   int    `json:"rows"`
	SHA256 string `json:"sha256"`
}

type editionDocument struct {
	Edition  string      `json:"edition"`
	Date     string      `json:"date"`
	Changed  bool        `json:"changed"`
	Checksum string      `json:"sha256"`
	Tables   []sumRecord `json:"tables"`
}

// printEdition prints each table with its checksum, and that over all.
func (a *app) printEdition() error {
	e, err := a.edition()
	if err != nil {
		return err
	}
	d := editionDocument{e.Version, e.Date, e.Changed, e.Checksum, nil}
	g := grid{columns: []column{{head: "table"}, {head: "rows", right: true}, {head: "SHA-256"}}}
	rows := 0
	for _, t := range e.Tables {
		rows += t.Rows
		d.Tables = append(d.Tables, sumRecord{t.Name, t.Rows, t.SHA256})
		g.rows = append(g.rows, tableRow(t.Name, fmt.Sprint(t.Rows), t.SHA256))
	}
	g.rows = append(g.rows, tableRow("all", fmt.Sprint(rows), e.Checksum))
	named := "The tables are of no edition: there is no changes.csv beside them."
	if e.Version != "" {
		named = "Edition " + e.Version + " of " + e.Date + "."
		if e.Changed {
			named = "Changed since edition " + e.Version + " of " + e.Date + ", whose checksum is another."
		}
	}
	records := append(d.Tables, sumRecord{"all", rows, e.Checksum})
	return a.print(report{grids: []grid{g}, remarks: []string{named}, rows: records, document: d})
}
