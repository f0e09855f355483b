package validate

import (
	"errors"
	"fmt"
	"io/fs"
	"reflect"
	"slices"
	"strings"

	"github.com/go-playground/validator/v10"

	"growtuck/data"
	"growtuck/sizing"
)

// A tableSet is the tables of a folder, other than body.csv, with the places
// of their cells.
type tableSet struct {
	*tableIndex
	rep     *rowReport
	forms   []*tableForm
	rows    map[string][]tableLine
	scanned map[string]bool
}

// A tableLine is a row kept with its cells and their columns.
type tableLine struct {
	line    int
	cells   []string
	columns []int
	sound   bool
}

// CheckTables checks all tables at the root of fsys, which may be our own,
// [data.Embedded]. dir is put before the names of tables in findings, as
// "data/". Values that differ from those of the tables before, if not nil, are
// reported. The findings are sorted; an error means that there is no table or
// that one cannot be read at all.
func CheckTables(fsys fs.FS, dir string, before *data.Tables) ([]Finding, error) {
	return checkTables(fsys, dir, before, data.Embedded())
}

// checkTables is CheckTables for a program into which other tables are built.
func checkTables(fsys fs.FS, dir string, before *data.Tables, builtin fs.FS) ([]Finding, error) {
	ts := &tableSet{rep: newRowReport(dir, nil), forms: newTableForms(), rows: make(map[string][]tableLine), scanned: make(map[string]bool)}
	t, err := ts.scan(fsys)
	if err != nil {
		return nil, err
	}
	ts.rep.exceptions = t.Exceptions
	if ts.tableIndex, err = newTableIndex(t); err != nil {
		return nil, err
	}
	for _, form := range ts.forms {
		if ts.scanned[form.name] {
			ts.checkKeys(form)
			ts.checkRefs(form)
		}
	}
	s := newBodySet(ts.tableIndex, bodyTable, ts.rep)
	if err := ts.scanBody(fsys, s); err != nil {
		return nil, err
	}
	if !ts.complete() {
		return ts.rep.finish(), nil // what a missing table would settle is not held against the others
	}
	for _, form := range ts.forms {
		ts.checkOrder(form)
	}
	s.reportOrder()
	s.settle()
	if before != nil {
		s.checkBefore(before)
	}
	s.checkSense()
	ts.checkSources()
	ts.checkHeights()
	ts.checkSizes()
	ts.checkEase()
	ts.checkLengths()
	ts.checkYarns()
	ts.checkExceptions()
	if err := ts.checkPractice(builtin); err != nil {
		return nil, err
	}
	ts.checkMeasurements()
	ts.checkRelations()
	ts.checkRatios()
	ts.checkUsed(s)
	if ts.rep.worst() < Stop {
		ts.checkFormulas(fsys)
	}
	s.reportExceptions(true)
	return ts.rep.finish(), nil
}

// scan reads every table but body.csv.
func (ts *tableSet) scan(fsys fs.FS) (*data.Tables, error) {
	t := new(data.Tables)
	found := 0
	for _, form := range ts.forms {
		if form.name == bodyTable {
			continue
		}
		f, err := data.OpenTable(fsys, form.name)
		if err != nil {
			ts.missing(form.name, err)
			continue
		}
		if _, err := fs.Stat(fsys, form.name); err == nil {
			found++
		}
		rows := t.Rows(data.SchemaOf(form.name))
		ts.scanned[form.name], err = scanTable(form, form.name, f, ts.rep, func(row *tableRow) { ts.keep(form, row, rows) })
		if err = errors.Join(err, f.Close()); err != nil {
			return nil, err
		}
	}
	if found == 0 {
		return nil, fmt.Errorf("no tables here; %s, %s and so on are wanted", ts.forms[0].name, ts.forms[1].name)
	}
	return t, nil
}

// complete reports whether every table was there with its header.
func (ts *tableSet) complete() bool {
	return !slices.ContainsFunc(ts.forms, func(f *tableForm) bool { return !ts.scanned[f.name] })
}

func (ts *tableSet) missing(name string, err error) {
	ts.rep.add(Finding{Rule: "R01", Severity: Stop, File: name, Found: sizing.NewFact("rows.cannot-open", err.Error())})
}

func (ts *tableSet) scanBody(fsys fs.FS, s *bodySet) error {
	f, err := fsys.Open(bodyTable)
	if err != nil {
		ts.missing(bodyTable, err)
		return nil
	}
	each := s.add
	for _, ref := range []string{"sources.csv", "measurements.csv", "charts.csv", "sizes.csv"} {
		if !ts.scanned[ref] {
			each = s.checkSaid
		}
	}
	ts.scanned[bodyTable], err = scanTable(formOf(ts.forms, bodyTable), bodyTable, f, ts.rep, each)
	return errors.Join(err, f.Close())
}

// keep makes a row of the table's type and checks the tags that join columns.
func (ts *tableSet) keep(form *tableForm, row *tableRow, rows reflect.Value) {
	line := tableLine{line: row.line, sound: row.sound}
	v := reflect.New(form.row).Elem()
	v.FieldByName("Line").SetInt(int64(row.line))
	for i, w := range row.words {
		line.cells = append(line.cells, strings.Clone(w.text))
		line.columns = append(line.columns, row.column(i))
		field := v.Field(form.columns[i].field)
		switch {
		case field.Kind() == reflect.String:
			field.SetString(line.cells[i])
		case w.text == "" || len(w.faults) > 0:
		case field.Kind() == reflect.Float64:
			field.SetFloat(w.number)
		default:
			number := w.number
			field.Set(reflect.ValueOf(&number))
		}
	}
	ts.rows[form.name] = append(ts.rows[form.name], line)
	rows.Set(reflect.Append(rows, v))
	if form.joins && row.sound {
		ts.checkJoins(form, &line, v)
	}
}

func (ts *tableSet) checkJoins(form *tableForm, line *tableLine, row reflect.Value) {
	var ve validator.ValidationErrors
	if !errors.As(form.check.Struct(row.Interface()), &ve) {
		return
	}
	for _, e := range ve {
		f := ts.finding("R05", Stop, form, line, e.Field())
		f.Found = form.breach(line.cells[form.index(e.Field())], e.Tag(), e.Param())
		ts.rep.add(f)
	}
}

func (ts *tableSet) finding(rule string, severity Severity, form *tableForm, line *tableLine, column string) Finding {
	f := Finding{Rule: rule, Severity: severity, File: form.name, Line: line.line, Subject: column}
	if i := form.index(column); i >= 0 {
		f.Column = line.columns[i]
	}
	return f
}

// at makes a finding about a row of a table by its line.
func (ts *tableSet) at(rule string, severity Severity, table string, line int, column string) Finding {
	row := ts.line(table, line)
	if row == nil {
		return Finding{Rule: rule, Severity: severity, File: table, Line: line, Subject: column}
	}
	return ts.finding(rule, severity, formOf(ts.forms, table), row, column)
}

// line is a row of a table by its line, nil if there is none.
func (ts *tableSet) line(table string, line int) *tableLine {
	rows := ts.rows[table]
	i, ok := slices.BinarySearchFunc(rows, line, func(r tableLine, line int) int { return r.line - line })
	if !ok {
		return nil
	}
	return &rows[i]
}

func (line *tableLine) key(form *tableForm, columns []string) string {
	var parts []string
	for _, c := range columns {
		parts = append(parts, line.cells[form.index(c)])
	}
	return strings.Join(parts, ", ")
}

func (ts *tableSet) checkKeys(form *tableForm) {
	seen := make(map[string]*tableLine)
	rows := ts.rows[form.name]
	for i := range rows {
		line := &rows[i]
		k := line.key(form, form.key)
		if first, dup := seen[k]; dup {
			f := ts.finding("R06", Stop, form, line, form.key[0])
			f.Found, f.Fix = sizing.NewFact("rows.key-already", k, first.line), sizing.NewFact("rows.remove-one")
			if slices.Equal(first.cells, line.cells) {
				f.Fix = doCell(line.removal(form))
			}
			ts.rep.add(f)
			continue
		}
		seen[k] = line
	}
}

func (ts *tableSet) checkRefs(form *tableForm) {
	for _, ref := range form.refs {
		if !ts.scanned[ref.File] {
			continue
		}
		to := formOf(ts.forms, ref.File)
		known := make(map[string]bool)
		for i := range ts.rows[ref.File] {
			known[ts.rows[ref.File][i].key(to, to.key)] = true
			if ref.Or != "" {
				known[ts.rows[ref.File][i].key(to, []string{ref.Or})] = true
			}
		}
		for i := range ts.rows[form.name] {
			line := &ts.rows[form.name][i]
			k := line.key(form, ref.Columns)
			if k == "" || known[k] {
				continue
			}
			f := ts.finding("R07", Stop, form, line, ref.Columns[len(ref.Columns)-1])
			f.Found, f.Fix = sizing.NewFact("rows.unknown", k, ref.File), correctOrAdd()
			ts.rep.add(f)
		}
	}
}

func (ts *tableSet) checkOrder(form *tableForm) {
	rank := ts.rankOf(form)
	if rank == nil {
		return
	}
	n, before, after := 0, 0, 0
	rows := ts.rows[form.name]
	for i := 1; i < len(rows); i++ {
		if compareRanks(rank(rows[i-1].cells), rank(rows[i].cells)) > 0 {
			if n == 0 {
				before, after = rows[i-1].line, rows[i].line
			}
			n++
		}
	}
	if n > 0 {
		ts.rep.add(orderFinding(form.name, before, after, n))
	}
}

// checkBefore reports values that differ from the tables before, and rows that
// are gone.
func (s *bodySet) checkBefore(before *data.Tables) {
	for _, old := range before.Body {
		size, ok := s.sizes[sizeName{old.Chart, old.Size}]
		m, ok2 := s.measurements[old.Measurement]
		chart, ok3 := s.charts[old.Chart]
		sex, stat, unit := slices.Index(bodySexes, old.Sex), slices.Index(bodyStatistics, old.Statistic), slices.Index(bodyUnits, old.Unit)
		if !ok || !ok2 || !ok3 || sex < 0 || stat < 0 || unit < 0 {
			s.gone(old)
			continue
		}
		k := newBodyKey(chart, size, sex, m, stat, unit)
		b := s.find(k)
		if b == nil {
			s.gone(old)
		} else if b.value != old.Value {
			b.stale = b.note == old.Note
			s.checkChange(&bodyRecord{key: k, value: old.Value}, b)
		}
	}
}

func (s *bodySet) gone(old data.Body) {
	s.rep.add(Finding{Rule: "R29", Severity: Warn, File: s.file,
		Subject: strings.Join([]string{old.Chart, old.Size, old.Sex, old.Measurement, old.Statistic}, " "),
		Found:   sizing.NewFact("rows.gone"), Expected: sizing.NewFact("rows.as-before", amount(old.Value, old.Unit)), Fix: sizing.NewFact("rows.put-back")})
}
