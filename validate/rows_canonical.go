package validate

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/data/table"
)

// Canonical returns a table in canonical form: rows in the order of the tables
// that they name, UTF-8 without a byte order mark, lines that end in LF,
// quotes only where a cell needs them, no blank lines. It changes nothing
// else: the cells stay as they are, and tables whose order is their own to
// choose keep it. name is the table's, such as "body.csv"; t is the tables whose
// order its rows follow. The canonical form of canonical form is itself.
func Canonical(name string, raw []byte, t *data.Tables) ([]byte, error) {
	form := formOf(newTableForms(), name)
	if form == nil {
		return nil, fmt.Errorf("no table is called %.80q", name)
	}
	if len(raw) > data.MaxBytes {
		return nil, &data.Error{File: name, Msg: fmt.Sprintf("is %d bytes; at most %d are read", len(raw), data.MaxBytes)}
	}
	ix, err := newTableIndex(t)
	if err != nil {
		return nil, err
	}
	rows, err := form.readAll(raw)
	if err != nil {
		return nil, err
	}
	for i, row := range rows {
		// encoding/csv would read such a cell back as another one.
		if slices.ContainsFunc(row, func(c string) bool { return strings.ContainsAny(c, "\r\n") }) {
			return nil, &data.Error{File: name, Msg: fmt.Sprintf("row %d: a cell holds a line end; write it on one line", i+1)}
		}
	}
	if rank := ix.rankOf(form); rank != nil {
		type ranked struct {
			rank rowRank
			row  []string
		}
		order := make([]ranked, len(rows))
		for i, row := range rows {
			order[i] = ranked{rank(row), row}
		}
		slices.SortStableFunc(order, func(a, b ranked) int { return compareRanks(a.rank, b.rank) })
		for i := range order {
			rows[i] = order[i].row
		}
	}
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	if err := w.WriteAll(append([][]string{form.names()}, rows...)); err != nil {
		return nil, err // a buffer takes everything; only a fault of ours gets here
	}
	return b.Bytes(), nil
}

// readAll reads the rows of a table.
func (f *tableForm) readAll(raw []byte) ([][]string, error) {
	r := openRows(table.NewText(bytes.NewReader(raw)), f, func(in io.Reader) io.Reader { return in })
	if _, ours, err := r.header(); err != nil || !ours {
		return nil, &data.Error{File: f.name, Line: 1, Msg: "the header is not " + strings.Join(f.names(), ",")}
	}
	var rows [][]string
	for {
		row, err := r.Read()
		switch {
		case err == io.EOF:
			return rows, nil
		case err != nil:
			return nil, &data.Error{File: f.name, Msg: err.Error()}
		case len(row) != r.given:
			line, _ := r.FieldPos(0)
			return nil, &data.Error{File: f.name, Line: line, Msg: fmt.Sprintf("has %d cells; want %d", len(row), r.given)}
		}
		rows = append(rows, slices.Clone(r.arrange(row)))
	}
}

// TableOf names the table whose header a file has, "" if it is none.
func TableOf(raw []byte) string {
	head := table.TitlesOf(raw[:min(len(raw), 1<<12)])
	for _, form := range newTableForms() {
		if form.columnsIn(head) != nil {
			return form.name
		}
	}
	return ""
}
