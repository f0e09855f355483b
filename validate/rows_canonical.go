package validate

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"

	"growtuck/data"
)

// Canonical returns a table in canonical form: rows in the order of the tables
// that they name, UTF-8 without a byte order mark, lines that end in LF,
// quotes only where a cell needs them, no blank lines. It changes nothing
// else: the cells stay as they are, and tables whose order is their own to
// choose keep it. name is the table's, such as "body.csv"; t is the tables whose
// order its rows follow. The canonical form of canonical form is itself.
func Canonical(name string, table []byte, t *data.Tables) ([]byte, error) {
	form := formOf(newTableForms(), name)
	if form == nil {
		return nil, fmt.Errorf("no table is called %q", name)
	}
	if len(table) > data.MaxBytes {
		return nil, &data.Error{File: name, Msg: fmt.Sprintf("is %d bytes; at most %d are read", len(table), data.MaxBytes)}
	}
	ix, err := newTableIndex(t)
	if err != nil {
		return nil, err
	}
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(table, []byte("\ufeff"))))
	r.FieldsPerRecord = -1
	head, err := r.Read()
	if err != nil || !slices.Equal(head, form.names()) {
		return nil, &data.Error{File: name, Line: 1, Msg: "the header is not " + strings.Join(form.names(), ",")}
	}
	r.FieldsPerRecord = len(head)
	rows, err := r.ReadAll()
	if err != nil {
		return nil, &data.Error{File: name, Msg: err.Error()}
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
	if err := w.WriteAll(append([][]string{head}, rows...)); err != nil {
		return nil, err // a buffer takes everything; only a fault of ours gets here
	}
	return b.Bytes(), nil
}

// TableOf names the table whose header a file has, "" if it is none.
func TableOf(table []byte) string {
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(table, []byte("\ufeff"))))
	head, err := r.Read()
	if err != nil {
		return ""
	}
	for _, form := range newTableForms() {
		if slices.Equal(head, form.names()) {
			return form.name
		}
	}
	return ""
}
