package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strings"

	"growtuck/sizing"
)

// listFlags say how a list of children is read.
type listFlags struct {
	columns   string
	header    bool
	figuresIn string
	own       []string // columns that the command writes, and so does not carry over
}

// figureUnits are what --figures-in takes.
var figureUnits = []string{"cm", "mm", "in"}

func (f *listFlags) check() error {
	switch {
	case !slices.Contains(figureUnits, f.figuresIn):
		return usagef("--figures-in %q: known are %s", f.figuresIn, strings.Join(figureUnits, ", "))
	case !f.header && f.columns == "":
		return usagef("--header=false says that the list has no header; name its columns with --columns id,sex,height,chest")
	}
	return nil
}

// A childList is an open list: how its lines are to be read.
type childList struct {
	name    string // for faults
	flags   listFlags
	lines   *lineReader
	json    bool // JSON lines; no header and no columns
	head    []byte
	sep     byte
	columns []listColumn
	first   []listColumn // of the first of JSON lines, for doubts
	known   []string     // ids of the measurements, in the order of the columns
	file    os.FileInfo  // nil where it is not known
	close   func() error
}

// openList opens a list, "" and - being standard input, and reads its header.
func (a *app) openList(ref *sizing.Reference, path string, f listFlags) (*childList, error) {
	if err := f.check(); err != nil {
		return nil, err
	}
	l := &childList{name: "standard input", flags: f, close: func() error { return nil }}
	in := a.stdin
	if path != "" && path != "-" {
		file, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		l.name, l.close, in = path, file.Close, file
	}
	if file, ok := in.(*os.File); ok {
		if info, err := file.Stat(); err == nil && info.Mode().IsRegular() {
			l.file = info
		}
	}
	l.lines = newLineReader(in)
	if err := a.readHeader(l, ref, f); err != nil {
		l.close()
		if _, wrong := err.(*usageError); wrong {
			return nil, err
		}
		return nil, fmt.Errorf("%s: %w", l.name, err)
	}
	return l, nil
}

// readHeader finds out what the list is. An empty one is none, but where lines
// of JSON are asked for: these have no header to miss.
func (a *app) readHeader(l *childList, ref *sizing.Reference, f listFlags) error {
	start, err := l.lines.peek()
	if err != nil {
		return err
	}
	start = bytes.TrimLeft(start, " \t\r\n")
	if len(start) > 0 && start[0] == '{' || len(start) == 0 && f.header && a.format == "json" {
		if f.columns != "" {
			return usagef("--columns and --header are for CSV; a line of JSON names its own columns")
		}
		l.json = true
		l.first = firstFields(ref, start, f)
		for _, m := range ref.Measurements() {
			l.known = append(l.known, m.ID)
			c, err := newListColumn(ref, m.ID, m.ID, f)
			if err != nil {
				return err
			}
			c.own = len(l.known) - 1
			l.columns = append(l.columns, c)
		}
		return nil
	}
	head := []byte(f.columns)
	if f.header {
		if l.head, err = l.headLine(); err != nil {
			return err
		}
		if f.columns == "" {
			head = trimEnd(l.head)
		}
	}
	return l.readColumns(ref, head)
}

// headLine reads the header, and passes over what may stand above it: empty
// lines, and comments, which begin with #.
func (l *childList) headLine() ([]byte, error) {
	for {
		line, err := l.lines.next()
		if err == io.EOF {
			return nil, fmt.Errorf("is empty; want a header as id,sex,age,height,chest and a line for each child")
		}
		if err != nil {
			return nil, err
		}
		if isBlank(trimEnd(line)) || isComment(line) {
			continue
		}
		if bytes.IndexByte(trimEnd(line), '\r') >= 0 {
			return nil, fmt.Errorf("has lines that end with CR alone; save it with ends of lines as LF or CR LF")
		}
		return bytes.Clone(line), nil
	}
}

// isComment reports that a line above the header is a remark. A cell # heads the
// numbers of a list.
func isComment(line []byte) bool {
	return line[0] == '#' && (len(line) == 1 || bytes.IndexByte([]byte(",;\t"), line[1]) < 0)
}

// firstFields are the fields of the first of lines of JSON. Where that line is
// not sound or not there yet there are none.
func firstFields(ref *sizing.Reference, start []byte, f listFlags) []listColumn {
	line, _, _ := bytes.Cut(start, []byte("\n"))
	var fields map[string]json.RawMessage
	if json.Unmarshal(line, &fields) != nil {
		return nil
	}
	var out []listColumn
	for _, name := range slices.Sorted(maps.Keys(fields)) {
		if c, err := newListColumn(ref, name, name, f); err == nil {
			out = append(out, c)
		}
	}
	return out
}

func (l *childList) readColumns(ref *sizing.Reference, head []byte) error {
	l.sep = separator(head)
	cells, _, wrong := splitLine(head, l.sep, nil, nil)
	if wrong != nil {
		return fmt.Errorf("header: %s", wrong.msg)
	}
	for _, cell := range cells {
		c, err := newListColumn(ref, string(cell.raw), string(cell.text), l.flags)
		if err != nil {
			return err
		}
		if i := slices.IndexFunc(l.columns, func(o listColumn) bool {
			switch c.role {
			case measured:
				return o.id == c.id
			case sexFact, ageFact:
				return o.role == c.role
			}
			return c.role == ownSize && o.role == ownSize && o.name == c.name
		}); i >= 0 {
			return fmt.Errorf("columns %s and %s are the same thing", l.columns[i].raw, c.raw)
		}
		if c.role == measured {
			c.own = len(l.known)
			l.known = append(l.known, c.id)
		}
		l.columns = append(l.columns, c)
	}
	if len(l.known) == 0 {
		if len(cells) > 1 && string(cells[0].text) == "measurement" {
			return fmt.Errorf("is the table of one child, which growtuck blend takes; a list has a column for each measurement and a line for each child")
		}
		if bytes.HasPrefix(head, []byte("[")) {
			return fmt.Errorf("begins with [; of a list in JSON give each child a line of its own, without brackets around them all or commas between")
		}
		return fmt.Errorf("header: no column is a measurement; want one as height or chest_cm (growtuck measurements lists them), with cells parted by commas, semicolons or tabs")
	}
	return nil
}

// doubts names carried columns that are nearly measurements.
func (l *childList) doubts(ref *sizing.Reference) []string {
	var out []string
	for _, c := range slices.Concat(l.columns, l.first) {
		if c.role != carried || slices.Contains([]string{"id", "name"}, c.name) || slices.Contains(sizeColumns, c.name) {
			continue
		}
		short, _ := cutUnit(c.name)
		if _, err := ref.Measurement(strings.TrimSuffix(strings.TrimSuffix(short, "_low"), "_high")); err == nil {
			continue // a range that batch wrote
		}
		_, err := ref.Measurement(short)
		if u, ok := err.(*sizing.UnknownError); ok && u.Nearest != "" {
			out = append(out, fmt.Sprintf("column %s is no measurement and is left as it is; did you mean %s?", c.raw, u.Nearest))
		}
	}
	return out
}

// oneName refuses columns that would be fields of the same name in JSON.
func (l *childList) oneName() error {
	for i, c := range l.columns {
		if c.isCarried() && slices.ContainsFunc(l.columns[:i], func(o listColumn) bool { return o.isCarried() && o.name == c.name }) {
			return usagef("two columns would be the field %q of a line of JSON; give them names of their own with --columns", c.name)
		}
	}
	return nil
}
