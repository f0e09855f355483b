package list

import (
	"bytes"
	"cmp"
	"encoding/json"
	"maps"
	"math"
	"slices"
	"strings"
)

// readJSON reads a line of JSON: an object whose fields are named as columns
// are. A figure is a number, or text as in a cell.
func (r *childReader) readJSON(line []byte) *LineError {
	r.clear()
	clear(r.fields)
	if err := json.Unmarshal(line, &r.fields); err != nil || r.fields == nil {
		return &LineError{Reason: `is not a JSON object; write {"id":"7","height":110.5,"chest":53} on its own line`}
	}
	if fieldCount(line) != len(r.fields) {
		return &LineError{Reason: "names a field twice; give each once"}
	}
	r.copied = r.copied[:0]
	sex, age := false, false // given
	for _, name := range slices.SortedFunc(maps.Keys(r.fields), identityFirst) {
		c, err := r.column(name)
		if err != nil {
			return &LineError{Reason: err.Error()}
		}
		if c.isCopied() {
			r.copied = append(r.copied, name)
		}
		if c.role == copiedColumn || c.role == computedColumn {
			continue
		}
		text, ok := plainText(r.fields[name])
		if !ok {
			return &LineError{Reason: c.name + ": want a number or text"}
		}
		if c.role == measuredColumn && !math.IsNaN(r.measured[c.index]) {
			return &LineError{Reason: c.id + " is given twice"}
		}
		if len(text) > 0 && (c.role == sexColumn && sex || c.role == ageColumn && age) {
			return &LineError{Reason: c.name + " is given twice"}
		}
		sex, age = sex || c.role == sexColumn && len(text) > 0, age || c.role == ageColumn && len(text) > 0
		if reason := r.set(c, text); reason != "" {
			return &LineError{Reason: c.name + ": " + reason}
		}
	}
	return nil
}

// fieldCount counts the fields of an object that is valid JSON: the colons outside
// of strings and of inner objects.
func fieldCount(object []byte) int {
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

// identityFirst puts who a child is before other fields.
func identityFirst(a, b string) int {
	identity := []string{"age", "sex", "name", "id"}
	return cmp.Or(slices.Index(identity, b)-slices.Index(identity, a), strings.Compare(a, b))
}

// maxFieldNames bounds the names of fields that are kept: a list has few.
const maxFieldNames = 1000

// column returns what a field holds.
func (r *childReader) column(name string) (*column, error) {
	if c, ok := r.named[name]; ok {
		return c, nil
	}
	c, err := newColumn(r.ref, name, name, r.list.options)
	if err != nil {
		return nil, err
	}
	if c.role == measuredColumn {
		c.index = slices.Index(r.list.measured, c.id)
	}
	if len(r.named) < maxFieldNames {
		r.named[name] = &c
	}
	return &c, nil
}

// plainText is a number as it is written, the content of a string, and nothing for
// null.
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
