//go:build !nobooks

package workbook

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"growtuck/data"
)

// Tables are the sheets that hold rows of the tables, by the names of the files: a
// sheet that is called like a table, body or body.csv, or has the header of one. passed
// are the sheets that hold something else.
func (f *File) Tables() (tables map[string]*Table, passed []string, err error) {
	defer guard(f.name, &err)
	tables = make(map[string]*Table)
	var errs []error
	for _, s := range f.sheets {
		if !slices.ContainsFunc(f.cells[s], func(row []string) bool { return strings.Join(row, "") != "" }) {
			continue
		}
		schema, head, columns := tableOn(s, f.cells[s])
		switch {
		case schema == nil:
			passed = append(passed, s)
			continue
		case head == 0:
			errs = append(errs, &Error{File: f.name, Sheet: s, Cell: "A1", Msg: "is no header of " + schema.File + "; want " + strings.Join(schema.Names(), ", ")})
			continue
		case tables[schema.File] != nil:
			errs = append(errs, &Error{File: f.name, Sheet: s, Cell: at(columns[0], head), Msg: fmt.Sprintf("has rows of %s, and so has %s; leave one", schema.File, tables[schema.File].sheet)})
			continue
		}
		t := &Table{file: f.name, sheet: s, columns: columns}
		tables[schema.File] = t
		if err := f.fill(t, head, schema.Names()[:len(columns)], func([]string) bool { return true }); err != nil {
			errs = append(errs, err)
		}
	}
	if len(errs) == 0 && len(tables) == 0 {
		return nil, nil, &Error{File: f.name, Msg: "has no sheet with rows of a table, such as body, with the columns of body.csv"}
	}
	return tables, passed, errors.Join(errs...)
}

// tableOn is the table of which a sheet holds rows: by its name, else by its header.
func tableOn(sheet string, rows [][]string) (*data.Schema, int, []int) {
	if s := data.SchemaOf(strings.TrimSuffix(strings.ToLower(strings.TrimSpace(sheet)), ".csv") + ".csv"); s != nil {
		head, columns := tableHeader(rows, s)
		return s, head, columns
	}
	for _, s := range data.Schemas() {
		if head, columns := tableHeader(rows, &s); head > 0 {
			return &s, head, columns
		}
	}
	return nil, 0, nil
}

// tableHeader finds a table's header, with or without the columns that older editions
// do not have.
func tableHeader(rows [][]string, s *data.Schema) (int, []int) {
	names := s.Names()
	for without := 0; without <= data.AddedColumns(s.File); without++ {
		if head, columns := header(rows, names[:len(names)-without]); head > 0 {
			return head, columns
		}
	}
	return 0, nil
}
