package work

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/data"
	"growtuck/validate"
)

// joinWorkbook joins the sheets of a workbook that hold rows of tables.
func (m *Merge) joinWorkbook(path string, from map[string]map[string]proposed) error {
	sheets, passed, err := tablesIn(path)
	if err != nil {
		return err
	}
	m.Passed = append(m.Passed, passed...)
	for _, s := range data.Schemas() {
		if t := sheets[s.File]; t != nil {
			m.sheets = append(m.sheets, t)
			if err := m.join(path, t.CSV, t, from); err != nil {
				return err
			}
		}
	}
	return nil
}

// tablesIn are the sheets of a workbook that hold rows of tables.
func tablesIn(path string) (map[string]*workbook.Table, []string, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, nil, err
	}
	defer f.Close()
	w, err := workbook.Open(f, path)
	if err != nil {
		return nil, nil, Unusable{Flatten(err)}
	}
	defer w.Close()
	sheets, passed, err := w.Tables()
	if err != nil {
		err = Unusable{Flatten(err)}
	}
	return sheets, passed, err
}

// join puts the rows of a file in the place of those with their keys, or at the end.
// sheet is that of the workbook that they are from, nil for a file of their own.
func (m *Merge) join(path string, raw []byte, sheet *workbook.Table, from map[string]map[string]proposed) error {
	name := validate.TableOf(raw)
	if name == "" || m.files[name] == nil || name == "changes.csv" {
		return Unusable{Faults{fmt.Errorf("%s has the columns of no table that rows are proposed for", path)}}
	}
	loose, err := validate.Canonical(name, raw, new(data.Tables))
	if err != nil {
		return inFolder(filepath.Dir(path), err)
	}
	schema := data.SchemaOf(name)
	rows, lines := recordsOf(loose)
	have, _ := recordsOf(m.files[name])
	at := make(map[string]int, len(have))
	for i, row := range have[1:] {
		at[keyOf(schema, row)] = i + 1
	}
	i := slices.IndexFunc(m.Tables, func(t MergedTable) bool { return t.Name == name })
	if i < 0 {
		m.Tables = append(m.Tables, MergedTable{Name: name})
		i = len(m.Tables) - 1
		from[name] = make(map[string]proposed)
	}
	places := linesIn(raw, rows)
	for n, row := range rows[1:] {
		k := keyOf(schema, row)
		line := lines[n+1]
		if p, ok := places[strings.Join(row, "\x00")]; ok {
			line = p
		}
		if old, ok := from[name][k]; ok {
			here := proposed{path, line, sheet}
			return Unusable{Faults{fmt.Errorf("%s: %s is proposed in %s too", here, strings.ReplaceAll(k, "\x00", ", "), old)}}
		}
		from[name][k] = proposed{path, line, sheet}
		j, known := at[k]
		switch {
		case known && slices.Equal(have[j], row):
			continue
		case known:
			have[j] = row
			m.Tables[i].Corrected++
		default:
			have = append(have, row)
			m.Tables[i].Added++
		}
		if name == "body.csv" {
			m.changed[k] = true
		}
	}
	m.files[name] = written(have)
	return nil
}

// recordsOf are the records of a table in canonical form, one a line.
func recordsOf(raw []byte) (rows [][]string, lines []int) {
	r := csv.NewReader(bytes.NewReader(raw))
	r.FieldsPerRecord = -1
	rows, _ = r.ReadAll() // it was written by encoding/csv
	for i := range rows {
		lines = append(lines, i+1)
	}
	return rows, lines
}

// linesIn are the lines on which records stand in a file as it was given.
func linesIn(raw []byte, rows [][]string) map[string]int {
	at := make(map[string]int, len(rows))
	r := csv.NewReader(bytes.NewReader(raw))
	r.FieldsPerRecord = -1
	for {
		row, err := r.Read()
		if err != nil {
			return at
		}
		line, _ := r.FieldPos(0)
		at[strings.Join(row, "\x00")] = line
	}
}

func written(rows [][]string) []byte {
	var b bytes.Buffer
	_ = csv.NewWriter(&b).WriteAll(rows) // a buffer takes everything
	return b.Bytes()
}

// keyOf is the key of a row.
func keyOf(s *data.Schema, row []string) string {
	var parts []string
	for _, k := range s.Key {
		parts = append(parts, row[slices.Index(s.Names(), k)])
	}
	return strings.Join(parts, "\x00")
}
