// Package list reads a list of children, a line each, and sizes all of them. A
// [Batch] writes a line for each child, an [Order] says how many of each size to
// make. A list may be of any length: it is read in blocks, which are sized on all
// cores and come out in the order of the list.
package list

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strings"
	"unicode/utf8"

	"growtuck/data/table"
	"growtuck/sizing"
)

// Options say how a list is read.
type Options struct {
	Columns  string   // names of the columns, separated as the list is, instead of its header's
	Header   bool     // the list begins with a header
	Unit     string   // of lengths that name none; weights are then in kg, or in lb with in
	JSON     bool     // an empty list is one of JSON lines, which has no header to miss
	Computed []string // columns that are recalculated, so not copied
}

// A Format is how lines are written.
type Format string

// The formats of lines.
const (
	AsRead Format = ""
	CSV    Format = "csv"
	JSON   Format = "json"
)

// A List is an open list: how its lines are to be read.
type List struct {
	name      string // for errors
	options   Options
	lines     *lineReader
	json      bool // JSON lines; no header and no columns
	header    []byte
	separator separator
	columns   []column
	first     []column    // of the first of JSON lines, to find doubtful names
	measured  []string    // ids of the measurements, in the order of the columns
	file      os.FileInfo // nil where it is not a file
}

// Open reads the header of a list. The name is for errors.
func Open(ref *sizing.Reference, name string, in io.Reader, o Options) (*List, error) {
	l := &List{name: name, options: o, lines: newLineReader(in)}
	if file, ok := in.(*os.File); ok {
		if info, err := file.Stat(); err == nil && info.Mode().IsRegular() {
			l.file = info
		}
	}
	if err := l.readHeader(ref); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return l, nil
}

// Size is the length of the list in bytes, 0 where it is not known.
func (l *List) Size() int64 {
	if l.file == nil {
		return 0
	}
	return l.file.Size()
}

// readHeader finds out what kind of list it is.
func (l *List) readHeader(ref *sizing.Reference) error {
	start, err := l.lines.peek()
	if err != nil {
		return err
	}
	start = bytes.TrimLeft(start, " \t\r\n")
	if len(start) > 0 && start[0] == '{' || len(start) == 0 && l.options.Header && l.options.JSON {
		return l.readFields(ref, start)
	}
	header := []byte(l.options.Columns)
	if l.options.Header {
		if l.header, err = l.headerLine(); err != nil {
			return err
		}
		if l.options.Columns == "" {
			header = trimEnd(l.header)
		}
	}
	return l.readColumns(ref, header)
}

// readFields makes ready for lines of JSON: every measurement may be a field.
func (l *List) readFields(ref *sizing.Reference, start []byte) error {
	if l.options.Columns != "" {
		return errors.New("is a list of JSON lines, which name their own columns; columns and header are for CSV")
	}
	l.json = true
	l.first = firstFields(ref, start, l.options)
	for _, m := range ref.Measurements() {
		c, err := newColumn(ref, m.ID, m.ID, l.options)
		if err != nil {
			return err
		}
		c.index = len(l.measured)
		l.measured = append(l.measured, m.ID)
		l.columns = append(l.columns, c)
	}
	return nil
}

// headerLine reads the header, and skips what may come before it: empty lines,
// and comments, which begin with #.
func (l *List) headerLine() ([]byte, error) {
	for {
		line, err := l.lines.next()
		if err == io.EOF {
			return nil, errors.New("is empty; it needs a header, such as id,sex,age,height,chest, and a line for each child")
		}
		if err != nil {
			return nil, err
		}
		if isBlank(trimEnd(line)) || isComment(line) || isSeparator(trimEnd(line)) {
			continue
		}
		if bytes.IndexByte(trimEnd(line), '\r') >= 0 {
			return nil, errors.New("has lines that end with CR alone; save it with LF or CR LF as line endings")
		}
		if !utf8.Valid(line) {
			return nil, errors.New(notUTF8)
		}
		return bytes.Clone(line), nil
	}
}

// isSeparator reports whether a line above the header says what separates cells, as
// some spreadsheets write it: sep=;
func isSeparator(line []byte) bool {
	return len(line) == len("sep=;") && bytes.EqualFold(line[:4], []byte("sep="))
}

// isComment reports whether a line above the header is a comment. A cell # heads
// the numbers of a list.
func isComment(line []byte) bool {
	return line[0] == '#' && (len(line) == 1 || bytes.IndexByte([]byte(",;\t"), line[1]) < 0)
}

// firstFields are the fields of the first of lines of JSON. There are none where
// that line is not valid or not there yet.
func firstFields(ref *sizing.Reference, start []byte, o Options) []column {
	line, _, _ := bytes.Cut(start, []byte("\n"))
	var fields map[string]json.RawMessage
	if json.Unmarshal(line, &fields) != nil {
		return nil
	}
	var out []column
	for _, name := range slices.Sorted(maps.Keys(fields)) {
		if c, err := newColumn(ref, name, name, o); err == nil {
			out = append(out, c)
		}
	}
	return out
}

func (l *List) readColumns(ref *sizing.Reference, header []byte) error {
	l.separator = separator(table.Separator(string(header)))
	cells, _, wrong := splitLine(header, l.separator, nil, nil)
	if wrong != nil {
		return fmt.Errorf("header: %s", wrong.Reason)
	}
	for _, cell := range cells {
		c, err := newColumn(ref, string(cell.raw), string(cell.text), l.options)
		if err != nil {
			return err
		}
		if i := slices.IndexFunc(l.columns, c.same); i >= 0 {
			return fmt.Errorf("columns %s and %s are the same thing", l.columns[i].raw, c.raw)
		}
		if c.role == measuredColumn {
			c.index = len(l.measured)
			l.measured = append(l.measured, c.id)
		}
		l.columns = append(l.columns, c)
	}
	switch {
	case len(l.measured) > 0:
		return nil
	case len(cells) > 1 && string(cells[0].text) == "measurement":
		return errors.New("is the table of one child, which growtuck blend takes; a list has a column for each measurement and a line for each child")
	case bytes.HasPrefix(header, []byte("[")):
		return errors.New("begins with [; write each child as a JSON object on its own line, without brackets around the list or commas between lines")
	}
	return errors.New("header: no column is a measurement; name one, such as height or chest_cm (growtuck measurements lists them), and separate cells with commas, semicolons or tabs")
}

// doubts are facts about copied columns that are nearly measurements.
func (l *List) doubts(ref *sizing.Reference) []sizing.Fact {
	var out []sizing.Fact
	for _, c := range slices.Concat(l.columns, l.first) {
		if c.role != copiedColumn || slices.Contains([]string{"id", "name"}, c.name) || slices.Contains(sizeColumns, c.name) {
			continue
		}
		short, _ := cutUnit(c.name)
		if _, err := ref.Measurement(strings.TrimSuffix(strings.TrimSuffix(short, "_low"), "_high")); err == nil {
			continue // a range that a batch wrote
		}
		_, err := ref.Measurement(short)
		if u, ok := err.(*sizing.UnknownError); ok && u.Nearest != "" {
			out = append(out, sizing.NewFact("list.doubtful-column", c.raw, u.Nearest))
		}
	}
	return out
}

// writesJSON reports whether the list's children are written as lines of JSON.
func (l *List) writesJSON(f Format) (bool, error) {
	switch {
	case l.json && f == CSV:
		return false, errors.New("a list of JSON lines is written as JSON lines, not as CSV")
	case !l.json && f == JSON:
		return true, l.oneName()
	}
	return l.json, nil
}

// oneName refuses columns that would be fields of the same name in JSON.
func (l *List) oneName() error {
	for i, c := range l.columns {
		if c.isCopied() && slices.ContainsFunc(l.columns[:i], func(o column) bool { return o.isCopied() && o.name == c.name }) {
			return fmt.Errorf("two columns would be the field %.80q of a line of JSON; give each its own name", c.name)
		}
	}
	return nil
}
