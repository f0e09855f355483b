package data

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// MaxBytes is the largest table that Load reads.
const MaxBytes = 64 << 20

// Error is a fault in a table, at a place. Column counts bytes from 1; it is
// 0 when the fault is in the row as a whole, and Line when it is in the file.
type Error struct {
	File         string
	Line, Column int
	Msg          string
}

func (e *Error) Error() string {
	switch {
	case e.Line == 0:
		return e.File + ": " + e.Msg
	case e.Column == 0:
		return fmt.Sprintf("%s:%d: %s", e.File, e.Line, e.Msg)
	}
	return fmt.Sprintf("%s:%d:%d: %s", e.File, e.Line, e.Column, e.Msg)
}

// A record is one row being read: its fields, and the faults found so far.
type record struct {
	file    string
	r       *csv.Reader // nil while the text is plain; faults are then only counted
	plain   int         // the line, where the text is plain
	columns []string
	fields  []string
	next    int
	room    []float64 // for optional numbers
	faults  int
	errs    []error
}

func (r *record) line() int {
	if r.r == nil {
		return r.plain
	}
	l, _ := r.r.FieldPos(0)
	return l
}

func (r *record) fail(field int, format string, args ...any) {
	r.faults++
	if r.r == nil {
		return
	}
	line, col := r.r.FieldPos(field)
	r.errs = append(r.errs, &Error{r.file, line, col, r.columns[field] + ": " + fmt.Sprintf(format, args...)})
}

// text takes the next field. Space around it is a fault, since it would make
// a key that looks like another.
func (r *record) text() string {
	i := r.next
	r.next++
	s := r.fields[i]
	if s != "" && (!visible(s[0]) || !visible(s[len(s)-1])) && s != strings.TrimSpace(s) {
		r.fail(i, "%.80q has space around it", s)
	}
	return s
}

// visible reports whether a byte is a visible character of ASCII.
func visible(b byte) bool { return b > ' ' && b < 0x7f }

func (r *record) number() float64 {
	i := r.next
	v, ok := r.parse()
	if !ok && r.fields[i] == "" {
		r.fail(i, "is empty; want a number")
	}
	return v
}

func (r *record) optional() *float64 {
	v, ok := r.parse()
	if !ok {
		return nil
	}
	if len(r.room) == 0 {
		r.room = make([]float64, 64)
	}
	number := &r.room[0]
	*number, r.room = v, r.room[1:]
	return number
}

// parse takes the next field as a number; ok is false where it is empty or not a
// number.
func (r *record) parse() (v float64, ok bool) {
	i := r.next
	s := r.text()
	if s == "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		r.fail(i, "%.80q is not a number; want digits with a point, such as 24.5", s)
		return 0, false
	}
	return v, true
}

// A loader says which files are read, and keeps their text.
type loader struct {
	fsys  fs.FS
	files []string // all, where empty
	begin string   // of the rows that are read
	texts map[string]string
	room  []byte // to copy through
}

// columnNames lists the columns of a row type.
func columnNames[T any]() []string {
	row := reflect.TypeFor[T]()
	names := make([]string, 0, row.NumField())
	for i := range row.NumField() {
		if name := row.Field(i).Tag.Get("csv"); name != "" {
			names = append(names, name)
		}
	}
	return names
}

// readTable reads a CSV file of exactly the columns of T into rows.
func readTable[T any](l loader, file string, rows *[]T, row func(*record) T) error {
	if len(l.files) > 0 && !slices.Contains(l.files, file) {
		return nil
	}
	columns := columnNames[T]()
	f, err := OpenTable(l.fsys, file)
	if err != nil {
		return &Error{File: file, Msg: "cannot be opened: " + err.Error()}
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.Size() > MaxBytes {
		return &Error{File: file, Msg: fmt.Sprintf("is %d bytes; at most %d are read", info.Size(), MaxBytes)}
	}
	var b strings.Builder
	if info, err := f.Stat(); err == nil {
		b.Grow(int(info.Size()))
	}
	if _, err := io.CopyBuffer(&b, io.LimitReader(f, MaxBytes), l.room); err != nil {
		return &Error{File: file, Msg: "cannot be read: " + err.Error()}
	}
	text := b.String()
	l.texts[file] = text
	*rows = slices.Grow(*rows, strings.Count(text, "\n"+l.begin))
	if readPlain(text, l.begin, rows, columns, row) {
		return nil
	}
	*rows = (*rows)[:0]
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord = -1
	r.ReuseRecord = true
	rec := &record{file: file, r: r, columns: columns}
	head, err := r.Read()
	head = slices.Clone(head) // the reader uses it again
	if err != nil {
		return &Error{File: file, Line: 1, Msg: "no header: " + strings.Join(columns, ",") + " wanted"}
	}
	if strings.HasPrefix(head[0], "\ufeff") {
		return &Error{File: file, Line: 1, Column: 1, Msg: "begins with a byte order mark; save it as UTF-8 without one"}
	}
	added := addedColumns[file]
	missing := max(len(columns)-len(head), 0)
	if missing > len(added) || !slices.Equal(head, columns[:len(columns)-missing]) {
		return &Error{File: file, Line: 1, Msg: fmt.Sprintf("header is %.80q; want %.80q", strings.Join(head, ","), strings.Join(columns, ","))}
	}
	for {
		rec.fields, err = r.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			var p *csv.ParseError
			if errors.As(err, &p) {
				rec.errs = append(rec.errs, &Error{file, p.Line, p.Column, p.Err.Error()})
			} else {
				rec.errs = append(rec.errs, &Error{File: file, Msg: err.Error()})
			}
			break
		}
		if want := len(head); len(rec.fields) != want {
			rec.errs = append(rec.errs, &Error{file, rec.line(), 0, fmt.Sprintf("%d fields; want %d", len(rec.fields), want)})
			continue
		}
		rec.fields = append(rec.fields, added[len(added)-missing:]...)
		rec.next = 0
		*rows = append(*rows, row(rec))
	}
	return errors.Join(rec.errs...)
}

// addedColumns are the tables that have more columns than in older editions, and what
// these, the last ones, are taken to hold there.
var addedColumns = map[string][]string{
	"sources.csv": {"yes", ""}, // credit_asked, locator
	"lengths.csv": {""},        // instead
	"body.csv":    {""},        // n
}

// AddedColumns is how many of a table's last columns its rows may be without.
func AddedColumns(file string) int { return len(addedColumns[file]) }

// readPlain reads a table without a fault whose cells are plain: not over
// several lines, and without quotes but around the whole. Of all others it
// reports false; encoding/csv then reads them and finds the place of a fault.
func readPlain[T any](text, begin string, rows *[]T, columns []string, row func(*record) T) bool {
	head, text, _ := strings.Cut(text, "\n")
	if head != strings.Join(columns, ",") || strings.IndexByte(text, '\r') >= 0 {
		return false
	}
	rec := &record{columns: columns, fields: make([]string, len(columns)), plain: 1}
	for text != "" {
		var line string
		line, text, _ = strings.Cut(text, "\n")
		if rec.plain++; !strings.HasPrefix(line, begin) {
			continue
		}
		if !splitPlain(line, rec.fields) {
			return false
		}
		rec.next = 0
		*rows = append(*rows, row(rec))
	}
	return rec.faults == 0
}

// splitPlain splits a line into as many cells as there is room for.
func splitPlain(line string, cells []string) bool {
	quotes := strings.Count(line, `"`)
	for i := range cells {
		var end int
		if strings.HasPrefix(line, `"`) {
			line = line[1:]
			if end = strings.IndexByte(line, '"'); end < 0 {
				return false
			}
			cells[i], line = line[:end], line[end+1:]
			quotes -= 2
			end = 0
		} else {
			if end = strings.IndexByte(line, ','); end < 0 {
				end = len(line)
			}
			cells[i] = line[:end]
		}
		line = line[end:]
		switch last := i == len(cells)-1; {
		case last:
			return line == "" && quotes == 0
		case line == "" || line[0] != ',':
			return false
		}
		line = line[1:]
	}
	return false
}

func (r *record) source() Source {
	return Source{r.line(), r.text(), r.text(), r.text(), r.text(), r.optional(), r.text(), r.text(), r.text(), r.text()}
}

func (r *record) pitfall() Pitfall {
	return Pitfall{r.line(), r.text(), r.text(), r.text(), r.text()}
}

func (r *record) measurement() Measurement {
	return Measurement{r.line(), r.text(), r.text(), r.text(), r.text(), r.text(), r.text(), r.text(), r.text(), r.text()}
}

func (r *record) chart() Chart {
	return Chart{r.line(), r.text(), r.text(), r.text(), r.text()}
}

func (r *record) size() Size {
	return Size{r.line(), r.text(), r.text(), r.text(), r.optional(), r.optional(), r.optional(), r.text()}
}

func (r *record) body() Body {
	return Body{r.line(), r.text(), r.text(), r.text(), r.text(), r.text(), r.number(),
		r.text(), r.text(), r.text(), r.text(), r.text(), r.text(), r.optional()}
}

func (r *record) derivation() Derivation {
	return Derivation{r.line(), r.text(), r.text(), r.text(), r.text(), r.optional(), r.text(), r.text(), r.text()}
}

func (r *record) relation() Relation {
	return Relation{r.line(), r.text(), r.text(), r.text(), r.text(), r.optional(), r.optional(),
		r.number(), r.number(), r.text(), r.text()}
}

func (r *record) ratio() Ratio {
	return Ratio{r.line(), r.text(), r.text(), r.number(), r.number(), r.number(), r.number(), r.number(),
		r.number(), r.text(), r.text()}
}

func (r *record) garment() Garment {
	return Garment{r.line(), r.text(), r.text(), r.text(), r.text(), r.text()}
}

func (r *record) part() Part {
	return Part{r.line(), r.text(), r.text(), r.text(), r.text(), r.text()}
}

func (r *record) ease() Ease {
	return Ease{r.line(), r.text(), r.text(), r.text(), r.text(), r.text(), r.number(), r.optional(), r.number(),
		r.text(), r.text(), r.text(), r.text()}
}

func (r *record) length() Length {
	return Length{r.line(), r.text(), r.text(), r.text(), r.text(), r.number(), r.text(), r.text(), r.text(), r.text(), r.text()}
}

func (r *record) abbreviation() Abbreviation {
	return Abbreviation{r.line(), r.text(), r.text(), r.text(), r.text(), r.text(), r.text(), r.text()}
}

func (r *record) yarn() Yarn {
	return Yarn{r.line(), r.text(), r.text(), r.optional(), r.optional(), r.optional(), r.optional(),
		r.optional(), r.optional(), r.optional(), r.optional(), r.text(), r.text(), r.text(), r.text(), r.text()}
}

func (r *record) heightForAge() HeightForAge {
	return HeightForAge{r.line(), r.text(), r.number(), r.text(), r.number(), r.number(), r.number(), r.text(), r.text(), r.text(), r.text()}
}

func (r *record) growth() Growth {
	return Growth{r.line(), r.number(), r.number(), r.number(), r.number(), r.number(), r.text(), r.text(), r.text()}
}

func (r *record) practice() Practice {
	return Practice{r.line(), r.text(), r.number(), r.text(), r.text(), r.text(), r.text(), r.text()}
}

func (r *record) addedPart() AddedPart {
	return AddedPart{r.line(), r.text(), r.text(), r.text(), r.number(), r.number(), r.text(), r.text(), r.text(), r.text(), r.text(), r.text(), r.text()}
}

func (r *record) exception() Exception {
	return Exception{r.line(), r.text(), r.text(), r.text(), r.text()}
}
