package validate

import (
	"bufio"
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

	scratch []tableWord
	r       *csv.Reader
}

func (row *tableRow) column(i int) int {
	_, column := row.r.FieldPos(i)
	return column
}

// scanTable reads a table once from end to end, reports what is wrong with its
// form and its cells, and gives every row that has all its fields to each. It
// keeps no row. It returns false if the header is not the table's, and an
// error if the file cannot be read.
func scanTable(form *tableForm, file string, in io.Reader, rep *rowReport, each func(*tableRow)) (bool, error) {
	watch := &lineWatch{in: io.LimitReader(in, data.MaxBytes+1)}
	buffered := bufio.NewReaderSize(watch, 1<<16)
	mark := []byte("\ufeff")
	if start, _ := buffered.Peek(len(mark)); bytes.Equal(start, mark) {
		_, _ = buffered.Discard(len(mark)) // they have just been peeked at
		rep.add(Finding{Rule: "R02", Severity: Warn, File: file, Line: 1, Column: 1,
			Found: sizing.Text("a byte order mark before the header"), Expected: sizing.Text("none"), Fix: sizing.Text(rewriteFix)})
	}
	r := csv.NewReader(buffered)
	r.FieldsPerRecord = -1
	r.ReuseRecord = true
	head, err := r.Read()
	if err != nil && !errors.As(err, new(*csv.ParseError)) && err != io.EOF {
		return false, &data.Error{File: file, Msg: "cannot be read: " + err.Error()}
	}
	if !slices.Equal(head, form.names()) {
		rep.add(headerFinding(form, file, head))
		return false, nil
	}
	if line, _ := r.FieldPos(0); line != 1 {
		rep.add(Finding{Rule: "R02", Severity: Warn, File: file, Line: 1, Found: sizing.Text("blank lines before the header"), Expected: sizing.Text("none"), Fix: sizing.Text(rewriteFix)})
	}
	row := &tableRow{words: make([]*tableWord, len(form.columns)), scratch: make([]tableWord, len(form.columns)), r: r}
	loose, looseAt := 0, 0 // rows whose bytes are not in canonical form
	for {
		start := r.InputOffset()
		fields, err := r.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			var p *csv.ParseError
			if !errors.As(err, &p) {
				return false, &data.Error{File: file, Msg: "cannot be read: " + err.Error()}
			}
			rep.add(Finding{Rule: "R03", Severity: Stop, File: file, Line: p.Line, Column: p.Column, Found: sizing.Text(parseFault(p.Err)),
				Expected: sizing.Text(`cells with a comma or a quote in quotes, and quotes inside them doubled: "9 3/4"" wide"`)})
			continue
		}
		row.line, _ = r.FieldPos(0)
		if len(fields) != len(form.columns) {
			rep.add(Finding{Rule: "R03", Severity: Stop, File: file, Line: row.line, Found: sizing.Text(fmt.Sprintf("%d fields", len(fields))),
				Expected: sizing.Text(fmt.Sprintf("%d: %s", len(form.columns), strings.Join(form.names(), ", "))), Fix: sizing.Text("put cells with a comma in quotes")})
			continue
		}
		row.sound = true
		width := len(fields)
		for i, text := range fields {
			w := form.word(i, text, &row.scratch[i])
			row.words[i] = w
			width += w.width
			if len(w.faults) > 0 {
				row.sound = false
				row.report(rep, form, file, i)
			}
		}
		if int(r.InputOffset()-start) != width {
			if loose == 0 {
				looseAt = row.line
			}
			loose++
		}
		each(row)
	}
	if watch.total > data.MaxBytes {
		return false, &data.Error{File: file, Msg: fmt.Sprintf("is too big: at most %d bytes are read", data.MaxBytes)}
	}
	switch {
	case watch.returnAt > 0:
		rep.add(Finding{Rule: "R02", Severity: Warn, File: file, Line: watch.returnAt,
			Found: sizing.Text(fmt.Sprintf("%d carriage returns, the first on this line", watch.returns)), Expected: sizing.Text("lines that end in LF alone"), Fix: sizing.Text(rewriteFix)})
	case loose > 0:
		rep.add(Finding{Rule: "R02", Severity: Warn, File: file, Line: looseAt,
			Found: sizing.Text(fmt.Sprintf("%d rows not in canonical form, this the first", loose)), Expected: sizing.Text("quotes only where needed, no blank lines, a line end after the last row"), Fix: sizing.Text(rewriteFix)})
	}
	return true, nil
}

const rewriteFix = "growtuck rows --write rewrites the file"

// report adds the faults of a cell.
func (row *tableRow) report(rep *rowReport, form *tableForm, file string, i int) {
	for _, f := range row.words[i].faults {
		rep.add(Finding{Rule: f.rule, Severity: Stop, File: file, Line: row.line, Column: row.column(i),
			Subject: form.columns[i].name, Found: sizing.Text(f.found), Expected: sizing.Text(f.expected), Fix: sizing.Text(f.fix)})
	}
}

func parseFault(err error) string {
	switch {
	case errors.Is(err, csv.ErrQuote):
		return "a quote that is not closed, or text after a closing quote"
	case errors.Is(err, csv.ErrBareQuote):
		return "a quote inside a cell that is not in quotes"
	}
	return err.Error()
}

// headerFinding says in what a header differs from the table's.
func headerFinding(form *tableForm, file string, head []string) Finding {
	want := form.names()
	f := Finding{Rule: "R01", Severity: Stop, File: file, Line: 1, Expected: sizing.Text(strings.Join(want, ","))}
	text := strings.Join(head, ",")
	if len(head) == 0 {
		f.Found = sizing.Text("no header")
		return f
	}
	for _, comma := range []string{";", "\t", "|"} {
		if slices.Equal(strings.Split(text, comma), want) {
			f.Found = sizing.Text(fmt.Sprintf("fields separated by %q", comma))
			f.Expected, f.Fix = sizing.Text("commas"), sizing.Text("save the file as comma-separated values")
			return f
		}
	}
	var missing, strange []string
	for _, name := range want {
		if !slices.Contains(head, name) {
			missing = append(missing, name)
		}
	}
	for _, name := range head {
		if !slices.Contains(want, name) {
			strange = append(strange, shortened(name))
		}
	}
	var what []string
	if len(missing) > 0 {
		what = append(what, "no column "+strings.Join(missing, ", "))
	}
	if len(strange) > 0 {
		what = append(what, fmt.Sprintf("columns that %s does not have: %q", form.name, strange[:min(len(strange), 5)]))
	}
	if len(what) == 0 {
		what = append(what, "columns twice or in another order")
	}
	f.Found = sizing.Text(strings.Join(what, "; "))
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
