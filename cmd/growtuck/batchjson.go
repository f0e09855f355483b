package main

import (
	"bytes"
	"cmp"
	"encoding/json"
	"maps"
	"math"
	"slices"
	"strings"
	"unicode/utf8"
)

// readJSON reads a line of JSON: an object whose fields are named as columns
// are. A figure is a number, or text as it would stand in a cell.
func (r *childReader) readJSON(line []byte) *fault {
	r.clear()
	clear(r.fields)
	if err := json.Unmarshal(line, &r.fields); err != nil || r.fields == nil {
		return &fault{msg: `is no JSON object; write {"id":"7","height":110.5,"chest":53} on a line of its own`}
	}
	if pairs(line) != len(r.fields) {
		return &fault{msg: "names a field twice; give each once"}
	}
	r.carried = r.carried[:0]
	sex, age := false, false // given
	for _, name := range slices.SortedFunc(maps.Keys(r.fields), whoFirst) {
		c, err := r.column(name)
		if err != nil {
			return &fault{msg: err.Error()}
		}
		if c.isCarried() {
			r.carried = append(r.carried, name)
		}
		if c.role == carried || c.role == ownSize {
			continue
		}
		text, ok := plainText(r.fields[name])
		if !ok {
			return &fault{msg: c.name + ": want a number or text"}
		}
		if c.role == measured && !math.IsNaN(r.own[c.own]) {
			return &fault{msg: c.id + " is given twice"}
		}
		if len(text) > 0 && (c.role == sexFact && sex || c.role == ageFact && age) {
			return &fault{msg: c.name + " is given twice"}
		}
		sex, age = sex || c.role == sexFact && len(text) > 0, age || c.role == ageFact && len(text) > 0
		if msg := r.set(c, text); msg != "" {
			return &fault{msg: c.name + ": " + msg}
		}
	}
	return nil
}

// pairs counts the fields of an object that is sound JSON: the colons that are
// outside of strings and of what lies deeper.
func pairs(object []byte) int {
	n, depth, within := 0, 0, false
	for i := 0; i < len(object); i++ {
		switch c := object[i]; {
		case within && c == '\\':
			i++
		case c == '"':
			within = !within
		case within:
		case c == '{' || c == '[':
			depth++
		case c == '}' || c == ']':
			depth--
		case c == ':' && depth == 1:
			n++
		}
	}
	return n
}

// whoFirst puts who a child is before what else is carried over.
func whoFirst(a, b string) int {
	who := []string{"age", "sex", "name", "id"}
	return cmp.Or(slices.Index(who, b)-slices.Index(who, a), strings.Compare(a, b))
}

// maxFieldNames bounds the names of fields that are kept: a list has few.
const maxFieldNames = 1000

// column returns what a field holds.
func (r *childReader) column(name string) (*listColumn, error) {
	if c, ok := r.named[name]; ok {
		return c, nil
	}
	c, err := newListColumn(r.ref, name, name, r.list.flags)
	if err != nil {
		return nil, err
	}
	if c.role == measured {
		c.own = slices.Index(r.list.known, c.id)
	}
	if len(r.named) < maxFieldNames {
		r.named[name] = &c
	}
	return &c, nil
}

// plainText is a number as it stands, what a text says, and nothing for null.
func plainText(raw json.RawMessage) ([]byte, bool) {
	switch {
	case bytes.Equal(raw, []byte("null")):
		return nil, true
	case raw[0] == '"':
		var s string
		err := json.Unmarshal(raw, &s)
		return []byte(s), err == nil
	case raw[0] == '-' || raw[0] >= '0' && raw[0] <= '9':
		return raw, true
	}
	return nil, false
}

// writeJSON adds a child as a line of JSON.
func (s *childSizer) writeJSON(out []byte, r *childReader, doubts bool) []byte {
	out = append(out, '{')
	out = r.carryJSON(out)
	column := 0
	name := func() {
		if column > 0 {
			out = append(out, ',')
		}
		out = append(out, '"')
		out = append(out, s.headers[column]...)
		out = append(out, '"', ':')
		column++
	}
	text := func(s string) {
		name()
		if s == "" {
			out = append(out, "null"...)
		} else {
			out = appendText(out, s)
		}
	}
	for _, at := range []int{s.byHeight, s.byChest} {
		size, place := s.standing(at, r.sex)
		text(size)
		text(place)
	}
	if doubts {
		text(s.doubted(r))
	} else {
		text("")
	}
	for i := range s.figures {
		name()
		if v := s.figure(&s.figures[i]); math.IsNaN(v) {
			out = append(out, "null"...)
		} else {
			out = appendFigure(out, v)
		}
	}
	return append(out, '}', '\n')
}

// appendText writes text as JSON; bytes that are no UTF-8 are replaced.
func appendText(out []byte, s string) []byte {
	for i := range len(s) {
		if c := s[i]; c < ' ' || c >= utf8.RuneSelf || c == '"' || c == '\\' {
			return appendOddText(out, s)
		}
	}
	return append(append(append(out, '"'), s...), '"')
}

func appendOddText(out []byte, s string) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		return append(out, "null"...) // a string has no such error
	}
	return append(out, bytes.TrimSuffix(b.Bytes(), []byte("\n"))...)
}
