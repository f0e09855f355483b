package main

import (
	"bytes"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

// A cell is one cell of a line: as it stands, and what it says.
type cell struct {
	raw, text []byte
	at        int // its first byte in the line, from 1
}

// splitLine splits a line at the separator. Quoted cells may hold separators,
// and quotes written twice; they end on their line. scratch holds the text of
// such cells and is returned, grown, for the next line.
func splitLine(line []byte, sep byte, cells []cell, scratch []byte) ([]cell, []byte, *fault) {
	cells, scratch = cells[:0], scratch[:0]
	for at := 0; ; {
		rest := line[at:]
		if len(rest) > 0 && rest[0] == '"' {
			end, text, grown, f := quoted(rest, at, scratch)
			scratch = grown
			if f != nil {
				return cells, scratch, f
			}
			if end < len(rest) && rest[end] != sep {
				return cells, scratch, &fault{at + end + 1, "a cell goes on after its closing quote; part cells by " + sepName(sep) + " and write a quote inside a quoted cell twice"}
			}
			cells = append(cells, cell{rest[:end], text, at + 1})
			if end == len(rest) {
				return cells, scratch, nil
			}
			at += end + 1
			continue
		}
		end := bytes.IndexByte(rest, sep)
		if end < 0 {
			return append(cells, cell{rest, rest, at + 1}), scratch, nil
		}
		cells = append(cells, cell{rest[:end], rest[:end], at + 1})
		at += end + 1
	}
}

// quoted reads a quoted cell at the beginning of rest: where it ends and what
// it says.
func quoted(rest []byte, at int, scratch []byte) (end int, text, grown []byte, f *fault) {
	from := len(scratch)
	twice := false
	for i := 1; ; {
		j := bytes.IndexByte(rest[i:], '"')
		if j < 0 {
			return 0, nil, scratch, &fault{at + 1, "a quote is not closed on its line; a child is one line"}
		}
		i += j
		if i+1 < len(rest) && rest[i+1] == '"' {
			twice = true
			i += 2
			continue
		}
		if !twice {
			return i + 1, rest[1:i], scratch, nil
		}
		for k := 1; k < i; k++ {
			scratch = append(scratch, rest[k])
			if rest[k] == '"' {
				k++
			}
		}
		return i + 1, scratch[from:], scratch, nil
	}
}

func sepName(sep byte) string {
	switch sep {
	case '\t':
		return "tabs"
	case ';':
		return "semicolons"
	}
	return "commas"
}

// separator finds what parts the cells of a header: a tab, else a semicolon,
// else a comma.
func separator(header []byte) byte {
	sep, within := byte(','), false
	for _, c := range header {
		switch {
		case c == '"':
			within = !within
		case within:
		case c == '\t':
			return c
		case c == ';':
			sep = c
		}
	}
	return sep
}

// A role is what a column holds.
type role uint8

const (
	carried  role = iota // written out again as it stands
	ownSize              // something that the command writes itself: left out
	sexFact              // m, f or both
	ageFact              // years, or months
	measured             // a measurement
)

// A listColumn is a column of a list.
type listColumn struct {
	raw  string // the header's cell as it stands
	name string // plain
	role role
	unit string // of figures that name none
	id   string // of a measurement
	own  int    // its index among those measured
}

// plainName puts a header's cell into the form of ids: "Chest girth (cm)" is
// chest_girth_cm.
func plainName(s string) string {
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return strings.ContainsRune(" _-.,()[]/", r) })
	return strings.Join(words, "_")
}

var columnUnits = []string{"cm", "mm", "in", "inches", "kg", "lb", "years", "months"}

// cutUnit takes a unit off the end of a plain name: height_cm, height_in_cm.
func cutUnit(name string) (string, string) {
	for _, u := range columnUnits {
		if short, ok := strings.CutSuffix(name, "_"+u); ok {
			if u == "inches" {
				u = "in"
			}
			return strings.TrimSuffix(short, "_in"), u
		}
	}
	return name, ""
}

// newListColumn reads the name of a column.
func newListColumn(ref *sizing.Reference, raw, text string, f listFlags) (listColumn, error) {
	c := listColumn{raw: raw, name: plainName(text)}
	short, unit := cutUnit(c.name)
	switch short {
	case "sex":
		c.role = sexFact
		return c, nil
	case "age":
		c.role, c.unit = ageFact, unit
		return c, nil
	}
	if slices.Contains(f.own, c.name) && !slices.ContainsFunc(ref.Measurements(), func(m data.Measurement) bool { return m.ID == short }) {
		c.role = ownSize
		return c, nil
	}
	for _, m := range ref.Measurements() {
		if short != m.ID && short != plainName(m.Name) {
			continue
		}
		c.role, c.id = measured, m.ID
		switch weight := m.Unit == "kg"; {
		case unit == "" && weight:
			c.unit = map[string]string{"cm": "kg", "mm": "kg", "in": "lb"}[f.figuresIn]
		case unit == "":
			c.unit = f.figuresIn
		case weight != (unit == "kg" || unit == "lb"), unit == "years", unit == "months":
			return c, &columnError{text, "a " + m.Kind + " is not in " + unit}
		default:
			c.unit = unit
		}
		return c, nil
	}
	return c, nil
}

type columnError struct{ name, msg string }

func (e *columnError) Error() string { return "column " + e.name + ": " + e.msg }
