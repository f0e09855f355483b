package table

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"growtuck/data"
)

// A Table is a table that is read row by row. Lines that begin with # are remarks.
type Table struct {
	Text
	CarriageReturns bool // some lines end in CR LF
	Separator       byte
	Titles          []string
	Name            string // of the file, for messages

	text    string
	at      int // what has been read of it
	line    int // lines read
	columns []int
	least   int // cells of a row
}

// A Cell is what a cell says, without blanks around it, and where it begins.
type Cell struct {
	Text   string
	Column int
}

// A Row is the cells of a row, and the line it begins on.
type Row struct {
	Line  int
	Cells []Cell
}

// Texts are what the cells say.
func (r Row) Texts() []string {
	var texts []string
	for _, c := range r.Cells {
		texts = append(texts, c.Text)
	}
	return texts
}

// A NotUTF8Error is a text that is not in UTF-8, at its first such line.
type NotUTF8Error struct{ At *data.Error }

func (e *NotUTF8Error) Error() string { return e.At.Error() }

// Unwrap returns the place and the message.
func (e *NotUTF8Error) Unwrap() error { return e.At }

// Open reads a table of at most so many bytes. name is the file's, for messages.
// Its errors are each a [*data.Error].
func Open(in io.Reader, name string, most int) (*Table, error) {
	t := &Table{Text: *NewText(in), Name: name}
	raw, err := io.ReadAll(io.LimitReader(t.Reader, int64(most)+1))
	switch {
	case err != nil:
		return nil, t.Fault(0, 0, "cannot be read: "+err.Error())
	case len(raw) > most:
		return nil, t.Fault(0, 0, fmt.Sprintf("is more than %d bytes", most))
	}
	t.text = string(raw)
	t.CarriageReturns = strings.Contains(t.text, "\r\n")
	return t, t.check()
}

// check refuses what is no text.
func (t *Table) check() error {
	if strings.HasPrefix(t.text, "PK\x03\x04") {
		return t.Fault(1, 1, "is a workbook or an archive; save the sheet as CSV")
	}
	if i := strings.IndexByte(t.text, 0); i >= 0 {
		return t.Fault(1+strings.Count(t.text[:i], "\n"), 0, "has a byte of value 0, so it is not text")
	}
	if utf8.ValidString(t.text) {
		return nil
	}
	number := 1
	for line := range strings.Lines(t.text) {
		if says := NotUTF8([]byte(line)); says != "" {
			return &NotUTF8Error{&data.Error{File: t.Name, Line: number, Msg: says}}
		}
		number++
	}
	return nil
}

// NotUTF8 says that a line is not in UTF-8, and how it reads in Latin-1; "" where it
// is.
func NotUTF8(line []byte) string {
	if utf8.Valid(line) {
		return ""
	}
	reads, _ := latin1().Bytes(bytes.TrimRight(line, "\r\n")) // it reads every byte
	return fmt.Sprintf("is not in UTF-8; in Latin-1 it reads %.80q; save it in UTF-8", reads)
}

// Fault is what is wrong at a place of the table.
func (t *Table) Fault(line, column int, msg string) error {
	return &data.Error{File: t.Name, Line: line, Column: column, Msg: msg}
}

// Header reads the header: some of the titles, the first of them required. Others may
// stand beside them. From then on [Table.Next] gives the cells in the order of the
// titles, and empty ones for those that the table does not have.
func (t *Table) Header(titles []string, required int) error {
	row, err := t.Top()
	want := strings.Join(titles, ",")
	if err == io.EOF {
		return t.Fault(0, 0, "is empty; want a header "+want+" and rows under it")
	}
	if err != nil {
		return err
	}
	t.columns = Columns(t.Titles, titles)
	if slices.Contains(t.columns[:required], -1) {
		return t.Fault(row.Line, 1, fmt.Sprintf("header is %.80q; want %.80q, separated by commas, semicolons or tabs", strings.Join(t.Titles, string(t.Separator)), want))
	}
	t.least = 1 + slices.Max(t.columns[:required])
	return nil
}

// Top reads the titles of a table whose columns are found by the caller; io.EOF where
// it is empty. [Table.Next] then gives the cells as they stand.
func (t *Table) Top() (Row, error) {
	t.Separator = t.separator()
	row, err := t.row()
	t.Titles = row.Texts()
	return row, err
}

// TitlesOf are the titles of a table, of which this is the beginning; nil where there
// are none.
func TitlesOf(head []byte) []string {
	t := &Table{Text: *NewText(bytes.NewReader(head))}
	raw, err := io.ReadAll(t.Reader)
	if err != nil {
		return nil
	}
	t.text = string(raw)
	t.Separator = t.separator()
	row, err := t.row()
	if err != nil {
		return nil
	}
	return row.Texts()
}

// Columns finds the columns of titles in a header, in any case and order; -1 for those
// that it does not have, or has twice.
func Columns(header, titles []string) []int {
	columns := make([]int, len(titles))
	for k, title := range titles {
		columns[k] = -1
		for i, h := range header {
			if !strings.EqualFold(strings.Join(strings.Fields(h), " "), title) {
				continue
			}
			if columns[k] >= 0 {
				columns[k] = -1
				break
			}
			columns[k] = i
		}
	}
	return columns
}

// separator finds what separates the cells, from the first line that is no remark.
// A line before that says so, sep=; as some spreadsheets write it, is passed.
func (t *Table) separator() byte {
	t.skip()
	line, rest, _ := strings.Cut(t.text[t.at:], "\n")
	line = strings.TrimRight(line, "\r")
	if len(line) == len("sep=;") && strings.EqualFold(line[:4], "sep=") {
		t.at = len(t.text) - len(rest)
		t.line++
		return line[4]
	}
	return Separator(line)
}

// Separator finds what separates the cells of a header: a tab, else a semicolon, else
// a comma.
func Separator(header string) byte {
	sep, within := byte(','), false
	for i := range len(header) {
		switch c := header[i]; {
		case c == '"':
			within = !within
		case within:
		case c == '\t':
			return '\t'
		case c == ';':
			sep = ';'
		}
	}
	return sep
}

// Next reads the next row: io.EOF at the end. After another error the next
// row can be read.
func (t *Table) Next() (Row, error) {
	row, err := t.row()
	if err != nil {
		return row, err
	}
	for _, c := range row.Cells[min(len(t.Titles), len(row.Cells)):] {
		if c.Text != "" {
			return row, t.Fault(row.Line, c.Column, t.tooMany(row, c))
		}
	}
	if t.columns == nil {
		return row, nil
	}
	if len(row.Cells) < t.least {
		return row, t.Fault(row.Line, 1, fmt.Sprintf("has %d of at least %d cells: %.80q; want %s", len(row.Cells), t.least, strings.Join(row.Texts(), string(t.Separator)), strings.Join(t.Titles, string(t.Separator))))
	}
	cells := make([]Cell, len(t.columns))
	for k, i := range t.columns {
		cells[k].Column = row.Cells[len(row.Cells)-1].Column
		if i >= 0 && i < len(row.Cells) {
			cells[k] = row.Cells[i]
		}
	}
	return Row{row.Line, cells}, nil
}

// tooMany says what to do about a cell that has no column.
func (t *Table) tooMany(row Row, c Cell) string {
	msg := fmt.Sprintf("%.80q has no column: the header has %d", c.Text, len(t.Titles))
	if t.Separator != ',' {
		return msg
	}
	for i := 1; i < len(row.Cells); i++ {
		whole, part := row.Cells[i-1].Text, row.Cells[i].Text
		if whole != "" && strings.Trim(whole, "-0123456789") == "" && part != "" && part[0] >= '0' && part[0] <= '9' {
			return msg + fmt.Sprintf("; a number with a comma is quoted: \"%.20s,%.20s\"", whole, part)
		}
	}
	return msg + "; quote what has a comma in it, and put remarks on lines that begin with #"
}

// skip passes empty lines and remarks.
func (t *Table) skip() {
	for t.at < len(t.text) {
		line, rest, _ := strings.Cut(t.text[t.at:], "\n")
		if !strings.HasPrefix(line, "#") && strings.Trim(line, "\r") != "" {
			return
		}
		t.line++
		t.at = len(t.text) - len(rest)
	}
}

// row reads a row.
func (t *Table) row() (Row, error) {
	if t.skip(); t.at >= len(t.text) {
		return Row{}, io.EOF
	}
	start := t.at
	row := Row{Line: t.line + 1, Cells: make([]Cell, 0, len(t.Titles)+1)}
	end := strings.IndexByte(t.text[start:], '\n') // of the first line
	if end = start + end + 1; end == start {
		end = len(t.text)
	}
	for from := start; ; { // where the line began that the cell is on
		for t.at < len(t.text) && t.text[t.at] == ' ' && t.Separator != ' ' {
			t.at++
		}
		column := t.at - from + 1
		text, ok := t.cell()
		if !ok {
			line := t.line + 1
			t.at, t.line = end, row.Line
			return row, t.Fault(line, column, `has a " that is not closed, or something after the closing one`)
		}
		row.Cells = append(row.Cells, Cell{strings.TrimSpace(text), column})
		if n := strings.Count(t.text[from:t.at], "\n"); n > 0 { // within quotes
			t.line += n
			from += strings.LastIndexByte(t.text[from:t.at], '\n') + 1
		}
		switch {
		case t.at >= len(t.text):
			t.line++
			return row, nil
		case t.text[t.at] == '\n':
			t.at++
			t.line++
			return row, nil
		}
		t.at++
	}
}

// cell reads a cell up to its separator or the end of the line.
func (t *Table) cell() (string, bool) {
	rest := t.text[t.at:]
	if !strings.HasPrefix(rest, `"`) {
		end := strings.IndexAny(rest, string(rune(t.Separator))+"\n")
		if end < 0 {
			end = len(rest)
		}
		t.at += end
		return rest[:end], true
	}
	var text strings.Builder
	for i := 1; i < len(rest); i++ {
		if rest[i] != '"' {
			text.WriteByte(rest[i])
			continue
		}
		if strings.HasPrefix(rest[i:], `""`) {
			text.WriteByte('"')
			i++
			continue
		}
		for i++; i < len(rest) && (rest[i] == ' ' || rest[i] == '\r'); i++ {
		}
		t.at += i
		return text.String(), i == len(rest) || rest[i] == t.Separator || rest[i] == '\n'
	}
	return "", false
}
