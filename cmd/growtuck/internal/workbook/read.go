//go:build !nobooks

package workbook

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/xuri/excelize/v2"

	"growtuck/data"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// A Table is a table of a workbook as CSV. A line of the CSV is the row of the
// sheet with the same number, so that places in one are places in the other.
type Table struct {
	CSV     []byte
	file    string
	sheet   string
	columns []int // of the sheet, for the columns of the CSV
}

// Child is the table of a child: the header measurement, value, unit.
func (f *File) Child() (*Table, error) {
	return f.table("a child's table", ChildHeader, func(c []string) bool { return c[1] != "" })
}

// Draft is the table of a draft: the header field, part, value, unit, note.
// Rows without effect are left out: those without a value, and extra, growth and
// nappy where there is none.
func (f *File) Draft() (*Table, error) {
	return f.table("a draft", plan.DraftColumns, func(c []string) bool {
		switch {
		case c[2] == "", c[0] == "nappy" && c[2] == "no":
			return false
		case c[0] == "extra" || c[0] == "growth":
			v, err := strconv.ParseFloat(c[2], 64)
			return err != nil || v != 0
		}
		return true
	})
}

// HasDraft reports whether the workbook has the table of a draft.
func (f *File) HasDraft() bool {
	for _, s := range f.sheets {
		if row, _ := header(f.cells[s], plan.DraftColumns); row > 0 {
			return true
		}
	}
	return false
}

// table finds the table with the header, on whichever sheet it is.
func (f *File) table(what string, want []string, keep func(cells []string) bool) (t *Table, err error) {
	defer guard(f.name, &err)
	var sheet string
	var head int
	var columns []int
	for _, s := range f.sheets {
		row, cols := header(f.cells[s], want)
		if row == 0 {
			continue
		}
		if sheet != "" {
			return nil, &Error{File: f.name, Sheet: s, Cell: at(cols[0], row), Msg: fmt.Sprintf("is %s, and so is %s; leave one", what, on(sheet, at(columns[0], head)))}
		}
		sheet, head, columns = s, row, cols
	}
	if sheet == "" {
		return nil, &Error{File: f.name, Msg: fmt.Sprintf("has no table with the header %s; want %s", strings.Join(want, ", "), what)}
	}
	t = &Table{file: f.name, sheet: sheet, columns: columns}
	return t, f.fill(t, head, want, keep)
}

// header finds the row that has all titles, and their columns, counted from 1.
func header(rows [][]string, want []string) (row int, columns []int) {
	const searched = 60
	for i, cells := range rows[:min(len(rows), searched)] {
		columns = columns[:0]
		for _, title := range want {
			k := slices.IndexFunc(cells, func(c string) bool { return strings.EqualFold(strings.TrimSpace(c), title) })
			if k < 0 {
				break
			}
			columns = append(columns, k+1)
		}
		if len(columns) == len(want) {
			return i + 1, columns
		}
	}
	return 0, nil
}

// fill turns the rows under the header into CSV.
func (f *File) fill(t *Table, head int, want []string, keep func([]string) bool) error {
	var errs faults
	fault := func(col, row int, format string, args ...any) {
		errs.add(&Error{File: f.name, Sheet: t.sheet, Cell: at(col, row), Msg: fmt.Sprintf(format, args...)})
	}
	rows := f.cells[t.sheet]
	about, err := f.scan(t.sheet)
	if err != nil {
		return &Error{File: f.name, Sheet: t.sheet, Cell: "A1", Msg: "cannot be read: " + plain(err)}
	}
	if about.last > maxRows {
		fault(1, about.last, "is beyond the %d rows that are read", maxRows)
	}
	for _, m := range about.merged {
		if m.row2 > head && m.row1 <= len(rows) && slices.ContainsFunc(t.columns, func(c int) bool { return m.col1 <= c && c <= m.col2 }) {
			fault(m.col1, m.row1, "is merged with the cells up to %s; unmerge them, so that each row has its own", at(m.col2, m.row2))
		}
	}
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	blank := func() {
		w.Flush()
		out.WriteByte('\n')
	}
	for row := 1; row < head; row++ {
		blank()
	}
	if err := w.Write(want); err != nil {
		return err
	}
	for row := head + 1; row <= len(rows); row++ {
		cells := make([]string, len(want))
		for i, col := range t.columns {
			if col <= len(rows[row-1]) {
				cells[i] = stored(rows[row-1][col-1])
			}
			if wrong := about.wrongWith(at(col, row), cells[i], want[i] == "note"); wrong != "" {
				fault(col, row, "%s", wrong)
			}
		}
		if !slices.ContainsFunc(cells, func(c string) bool { return c != "" }) || !keep(cells) {
			blank()
			continue
		}
		if err := w.Write(cells); err != nil {
			return err
		}
	}
	w.Flush()
	if len(errs) > 0 {
		return errs.join()
	}
	t.CSV = out.Bytes()
	return w.Error()
}

// wrongWith says why the value of a cell cannot be used; "" where it can. Notes may
// be dates.
func (f facts) wrongWith(cell, value string, note bool) string {
	switch {
	case strings.HasPrefix(value, "#") && slices.Contains(errorValues, value):
		return "has the error " + value + "; fix its formula, or write the value"
	case f.dates[cell] && !note:
		return dateMessage
	case f.truths[cell] && !note:
		return truthMessage
	case value == "" && f.uncomputed[cell]:
		return "has a formula without its value; open the file in a spreadsheet program, save it, and try again"
	}
	return ""
}

var errorValues = []string{"#N/A", "#VALUE!", "#REF!", "#DIV/0!", "#NUM!", "#NAME?", "#NULL!"}

// inDigits is a number as workbooks store it.
var inDigits = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?([eE][-+]?[0-9]{1,2})?$`) })

// stored is a cell as text: numbers without an exponent, text on one line.
func stored(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if strings.ContainsAny(s, "eE.") && inDigits().MatchString(s) {
		if v, err := strconv.ParseFloat(s, 64); err == nil {
			return sizing.FormatExact(v)
		}
	}
	return s
}

// cell is the cell of a line and column of the CSV.
func (t *Table) cell(line, column int) string {
	if line < 1 {
		return ""
	}
	field := 0
	lines := bytes.Split(t.CSV, []byte("\n"))
	if line <= len(lines) && column > 0 {
		r := csv.NewReader(bytes.NewReader(lines[line-1]))
		r.FieldsPerRecord = -1
		if cells, err := r.Read(); err == nil {
			for i := range cells {
				if _, col := r.FieldPos(i); i < len(t.columns) && col <= column {
					field = i
				}
			}
		}
	}
	return at(t.columns[field], line)
}

// Faults gives faults of the CSV the places that they have in the workbook.
func (t *Table) Faults(err error) error {
	if err == nil {
		return nil
	}
	all := []error{err}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		all = joined.Unwrap()
	}
	var out []error
	for _, e := range all {
		var fault *data.Error
		if errors.As(e, &fault) && fault.File == t.file {
			placed := &Error{File: t.file, Msg: fault.Msg}
			if fault.Line > 0 {
				placed.Sheet, placed.Cell = t.sheet, t.cell(fault.Line, fault.Column)
			}
			e = placed
		}
		out = append(out, e)
	}
	return errors.Join(out...)
}

// Where gives a place in the CSV, such as child.xlsx:3:7, as it is called in the
// workbook.
func (t *Table) Where(place string) string {
	rest, ok := strings.CutPrefix(place, t.file+":")
	row, column, parted := strings.Cut(rest, ":")
	line, err := strconv.Atoi(row)
	col, err2 := strconv.Atoi(column)
	if !ok || !parted || err != nil || err2 != nil {
		return place
	}
	return t.file + ": " + on(t.sheet, t.cell(line, col))
}

// Findings gives findings about the CSV the places that they have in the
// workbook.
func (t *Table) Findings(findings []validate.Finding) []validate.Finding {
	for i, f := range findings {
		if f.File != t.file {
			continue
		}
		findings[i].Fix.Args = slices.Clone(f.Fix.Args)
		for k, a := range f.Fix.Args {
			switch a := a.(type) {
			case validate.RowEdit:
				a.Cell = t.cellOf(a, a.Line)
				findings[i].Fix.Args[k] = a
			case int:
				if f.Fix.ID == "fix.with-slip" {
					findings[i].Fix = sizing.NewFact("fix.with-slip-in", on(t.sheet, t.cell(a, 0)))
				}
			}
		}
		if f.Line > 0 {
			findings[i].File = t.file + ":" + on(t.sheet, t.cell(f.Line, f.Column))
			findings[i].Line, findings[i].Column = 0, 0
		}
	}
	return findings
}

// cellOf is the cell that an edit changes: of the first that differs, or the row's first.
func (t *Table) cellOf(e validate.RowEdit, row int) string {
	from := []string{e.From.Field, e.From.Part, e.From.Value, e.From.Unit, e.From.Note}
	for i, to := range []string{e.To.Field, e.To.Part, e.To.Value, e.To.Unit, e.To.Note} {
		if from[i] != to && e.From != (validate.Row{}) && e.To != (validate.Row{}) {
			return on(t.sheet, at(t.columns[i], row))
		}
	}
	return on(t.sheet, at(t.columns[0], row))
}

// Settings reads the cells of the first sheet by their defined names, without
// the prefix. Empty cells are left out.
func (f *File) Settings() (settings map[string]string, err error) {
	defer guard(f.name, &err)
	settings = make(map[string]string)
	scanned := make(map[string]facts)
	var errs faults
	for _, n := range f.file.GetDefinedName() {
		id, ok := strings.CutPrefix(n.Name, settingName(""))
		if !ok {
			continue
		}
		sheet, cell, ok := cutReference(n.RefersTo)
		if !ok {
			errs.add(&Error{File: f.name, Msg: fmt.Sprintf("the name %s refers to %s, which is not a cell", n.Name, n.RefersTo)})
			continue
		}
		if _, known := scanned[sheet]; !known && f.cells[sheet] != nil {
			if scanned[sheet], err = f.scan(sheet); err != nil {
				return nil, &Error{File: f.name, Sheet: sheet, Cell: "A1", Msg: "cannot be read: " + plain(err)}
			}
		}
		about := scanned[sheet]
		v := f.value(sheet, cell)
		switch {
		case slices.Contains(errorValues, v):
			errs.add(&Error{File: f.name, Sheet: sheet, Cell: cell, Msg: "has the error " + v + "; write the value"})
		case about.dates[cell]:
			errs.add(&Error{File: f.name, Sheet: sheet, Cell: cell, Msg: dateMessage})
		case about.truths[cell]:
			errs.add(&Error{File: f.name, Sheet: sheet, Cell: cell, Msg: truthMessage})
		default:
			settings[id] = v
		}
	}
	if len(errs) == 0 && len(settings) == 0 {
		return nil, &Error{File: f.name, Msg: "is not the workbook of a plan; growtuck export writes one"}
	}
	return settings, errs.join()
}

// Places say where the settings of a workbook are.
type Places struct {
	file  string
	cells map[string][2]string // name → sheet and cell
}

// SettingPlaces says where the settings are.
func (f *File) SettingPlaces() Places {
	p := Places{f.name, make(map[string][2]string)}
	for _, n := range f.file.GetDefinedName() {
		if sheet, cell, ok := cutReference(n.RefersTo); ok {
			p.cells[n.Name] = [2]string{sheet, cell}
		}
	}
	return p
}

// Error is a fault in the cell of a setting.
func (p Places) Error(setting, msg string) error {
	if at, ok := p.cells[settingName(setting)]; ok {
		return &Error{File: p.file, Sheet: at[0], Cell: at[1], Msg: msg}
	}
	return &Error{File: p.file, Msg: "has no cell named " + settingName(setting) + ": " + msg}
}

// value is the stored value of a cell.
func (f *File) value(sheet, cell string) string {
	col, row, err := excelize.CellNameToCoordinates(cell)
	rows := f.cells[sheet]
	if err != nil || row > len(rows) || col > len(rows[row-1]) {
		return ""
	}
	return stored(rows[row-1][col-1])
}

// cutReference splits Start!$B$7.
func cutReference(s string) (sheet, cell string, ok bool) {
	i := strings.LastIndex(s, "!")
	if i < 0 {
		return "", "", false
	}
	sheet = strings.TrimPrefix(s[:i], "=")
	if n := len(sheet); n > 1 && sheet[0] == '\'' && sheet[n-1] == '\'' {
		sheet = strings.ReplaceAll(sheet[1:n-1], "''", "'")
	}
	cell = strings.ReplaceAll(s[i+1:], "$", "")
	_, _, err := excelize.CellNameToCoordinates(cell)
	return sheet, cell, err == nil
}
