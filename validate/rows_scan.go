package validate

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"growtuck/data"
	"growtuck/data/table"
	"growtuck/sizing"
)

// parsePlain reads a number that plainNumber has let through.
func parsePlain(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// A tableRow is a row being looked at. It is used again for the next.
type tableRow struct {
	line  int
	words []*tableWord
	sound bool // no cell has a fault
	form  *tableForm

	scratch []tableWord
	r       *rowReader
}

func (row *tableRow) column(i int) int { return row.r.column(i) }

// scanTable reads a table once from end to end, reports what is wrong with its
// form and its cells, and gives every row that has all its fields to each. It
// keeps no row. It returns false if the header is not the table's, and an
// error if the file cannot be read.
func scanTable(form *tableForm, file string, in io.Reader, rep *rowReport, each func(*tableRow)) (bool, error) {
	s := tableScan{form: form, file: file, rep: rep, in: in}
	if ok, err := s.start(); !ok {
		return false, err
	}
	for {
		more, err := s.next(each)
		if err != nil {
			return false, err
		}
		if !more {
			break
		}
	}
	if s.watch.total > data.MaxBytes {
		return false, &data.Error{File: file, Msg: fmt.Sprintf("is too big: at most %d bytes are read", data.MaxBytes)}
	}
	s.reportBytes()
	return true, nil
}

// A tableScan is a table being read.
type tableScan struct {
	form  *tableForm
	file  string
	rep   *rowReport
	in    io.Reader
	watch lineWatch
	r     *rowReader
	row   *tableRow

	loose, looseAt int // rows whose bytes are not in canonical form, and the first
}

// start reads the header, and reports whether it is the table's.
func (s *tableScan) start() (bool, error) {
	text := table.NewText(io.LimitReader(s.in, data.MaxBytes+1))
	s.r = openRows(text, s.form, func(in io.Reader) io.Reader { s.watch.in = in; return &s.watch })
	head, ours, err := s.r.header()
	if err != nil && !errors.As(err, new(*csv.ParseError)) && err != io.EOF {
		return false, s.unreadable(err)
	}
	if !ours {
		s.rep.add(headerFinding(s.form, s.file, head))
		return false, nil
	}
	none := sizing.NewFact("rows.none")
	switch {
	case text.UTF16:
		s.rewritable(1, 0, sizing.NewFact("rows.utf-16"), sizing.NewFact("rows.utf-8"))
	case text.Mark:
		s.rewritable(1, 1, sizing.NewFact("rows.byte-order-mark"), none)
	}
	if text.Returns {
		s.rewritable(1, 0, sizing.NewFact("rows.returns-alone"), sizing.NewFact("rows.line-feeds"))
	}
	if s.r.sep != ',' {
		s.rewritable(1, 0, sizing.NewFact("rows.separator", string(s.r.sep)), sizing.NewFact("rows.commas"))
	}
	if s.r.retyped {
		s.rewritable(1, 1, sizing.NewFact("rows.titles", strings.Join(head, string(s.r.sep))), sizing.NewFact("rows.header", s.form.names()))
	}
	if line, _ := s.r.FieldPos(0); line != 1 {
		s.rewritable(1, 0, sizing.NewFact("rows.blank-before-header"), sizing.NewFact("rows.none"))
	}
	n := len(s.form.columns)
	s.row = &tableRow{form: s.form, words: make([]*tableWord, n), scratch: make([]tableWord, n), r: s.r}
	return true, nil
}

// next reads a row and gives it to each. It returns false after the last.
func (s *tableScan) next(each func(*tableRow)) (bool, error) {
	start := s.r.InputOffset()
	fields, err := s.r.Read()
	if err == io.EOF {
		if left := s.watch.total - start; left > 0 { // blank lines at the end
			if s.loose == 0 {
				s.looseAt = s.row.line + 1
			}
			s.loose++
		}
		return false, nil
	}
	if err != nil {
		var p *csv.ParseError
		if !errors.As(err, &p) {
			return false, s.unreadable(err)
		}
		s.rep.add(Finding{Rule: "R03", Severity: Stop, File: s.file, Line: p.Line, Column: p.Column,
			Found: parseFault(p.Err), Expected: sizing.NewFact("rows.quoting")})
		return true, nil
	}
	row := s.row
	row.line, _ = s.r.FieldPos(0)
	if len(fields) != s.r.given {
		s.rep.add(Finding{Rule: "R03", Severity: Stop, File: s.file, Line: row.line, Found: sizing.NewFact("rows.fields", len(fields)),
			Expected: sizing.NewFact("rows.fields-wanted", s.r.given, s.form.names()[:s.r.given]), Fix: sizing.NewFact("rows.quote-commas")})
		return true, nil
	}
	fields = s.r.arrange(fields)
	row.sound = true
	width := s.r.given
	var faulty []int
	for i, text := range fields {
		w := s.form.word(i, text, &row.scratch[i])
		row.words[i] = w
		width += w.width
		if len(w.faults) > 0 {
			row.sound = false
			faulty = append(faulty, i)
		}
	}
	for _, i := range faulty {
		row.report(s.rep, s.file, i)
	}
	if int(s.r.InputOffset()-start) != width {
		if s.loose == 0 {
			s.looseAt = row.line
		}
		s.loose++
	}
	each(row)
	return true, nil
}

// reportBytes reports bytes that are not those of canonical form.
func (s *tableScan) reportBytes() {
	switch {
	case s.watch.returnAt > 0:
		s.rewritable(s.watch.returnAt, 0, sizing.NewFact("rows.carriage-returns", s.watch.returns), sizing.NewFact("rows.line-feeds"))
	case s.loose > 0 && s.r.sep == ',' && !s.r.retyped:
		s.rewritable(s.looseAt, 0, sizing.NewFact("rows.not-canonical", s.loose), sizing.NewFact("rows.canonical"))
	}
}

// rewritable reports what is put right by rewriting the file.
func (s *tableScan) rewritable(line, column int, found, expected sizing.Fact) {
	s.rep.add(Finding{Rule: "R02", Severity: Warn, File: s.file, Line: line, Column: column, Found: found, Expected: expected, Fix: rewriteFix()})
}

func (s *tableScan) unreadable(err error) error {
	return &data.Error{File: s.file, Msg: "cannot be read: " + err.Error()}
}

func rewriteFix() sizing.Fact { return sizing.NewFact("rows.rewrite") }

// report adds the faults of a cell.
func (row *tableRow) report(rep *rowReport, file string, i int) {
	for _, f := range row.words[i].faults {
		if f.write != "" {
			f.fix = doCell(row.edit(row.form, file, i, f.write))
		}
		rep.add(Finding{Rule: f.rule, Severity: Stop, File: file, Line: row.line, Column: row.column(i),
			Subject: row.form.columns[i].name, Found: f.found, Expected: f.expected, Fix: f.fix})
	}
}

func parseFault(err error) sizing.Fact {
	switch {
	case errors.Is(err, csv.ErrQuote):
		return sizing.NewFact("rows.quote-open")
	case errors.Is(err, csv.ErrBareQuote):
		return sizing.NewFact("rows.bare-quote")
	}
	return sizing.Text(err.Error())
}

// headerFinding says in what a header differs from the table's.
func headerFinding(form *tableForm, file string, head []string) Finding {
	want := form.names()
	f := Finding{Rule: "R01", Severity: Stop, File: file, Line: 1, Expected: sizing.NewFact("rows.header", want)}
	if len(head) == 0 {
		f.Found = sizing.NewFact("rows.no-header")
		return f
	}
	if slices.Equal(strings.Split(strings.Join(head, ","), "|"), want) {
		f.Found, f.Expected, f.Fix = sizing.NewFact("rows.separator", "|"), sizing.NewFact("rows.commas"), sizing.NewFact("rows.save-as-csv")
		return f
	}
	var missing, strange []string
	for _, name := range want {
		if !slices.Contains(head, name) {
			missing = append(missing, name)
		}
	}
	for _, name := range head {
		if !slices.Contains(want, name) && len(strange) < 5 {
			strange = append(strange, shortened(name))
		}
	}
	switch {
	case len(missing) > 0 && len(strange) > 0:
		f.Found = sizing.NewFact("rows.columns-differ", missing, form.name, strange)
	case len(missing) > 0:
		f.Found = sizing.NewFact("rows.columns-missing", missing)
	case len(strange) > 0:
		f.Found = sizing.NewFact("rows.columns-strange", form.name, strange)
	default:
		f.Found = sizing.NewFact("rows.columns-twice")
	}
	return f
}

func shortened(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

// A lineWatch passes bytes on and counts carriage returns, which encoding/csv
// takes away unseen.
type lineWatch struct {
	in       io.Reader
	lines    int
	returns  int
	returnAt int // line of the first
	total    int64
}

func (w *lineWatch) Read(p []byte) (int, error) {
	n, err := w.in.Read(p)
	b := p[:n]
	w.total += int64(n)
	if i := bytes.IndexByte(b, '\r'); i >= 0 {
		if w.returnAt == 0 {
			w.returnAt = w.lines + bytes.Count(b[:i], []byte("\n")) + 1
		}
		w.returns += bytes.Count(b, []byte("\r"))
	}
	if w.returnAt == 0 {
		w.lines += bytes.Count(b, []byte("\n"))
	}
	return n, err
}
