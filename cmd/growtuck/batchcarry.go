package main

import "bytes"

// isCarried reports that a column is written again: everything that is no
// measurement and not worked out by this program.
func (c *listColumn) isCarried() bool {
	return c.role == carried || c.role == sexFact || c.role == ageFact
}

// carriedHead is the beginning of a header: the columns that are written again,
// each with a separator after it.
func (l *childList) carriedHead() []byte {
	var out []byte
	for i := range l.columns {
		if c := &l.columns[i]; c.isCarried() {
			out = append(append(out, c.raw...), l.sep)
		}
	}
	return out
}

// carry adds the cells that are written again, each with a separator after it.
func (r *childReader) carry(out []byte) []byte {
	for i := range r.list.columns {
		if r.list.columns[i].isCarried() {
			out = append(appendCell(out, r.cells[i].raw), r.list.sep)
		}
	}
	return out
}

// appendCell adds a cell as it stands. One that holds a quote and was not
// quoted is now, so that every reader of CSV reads it.
func appendCell(out, raw []byte) []byte {
	if len(raw) == 0 || raw[0] == '"' || bytes.IndexByte(raw, '"') < 0 {
		return append(out, raw...)
	}
	out = append(out, '"')
	out = append(out, bytes.ReplaceAll(raw, []byte(`"`), []byte(`""`))...)
	return append(out, '"')
}

// carryJSON adds the fields that are written again, each with a comma after it.
func (r *childReader) carryJSON(out []byte) []byte {
	if r.list.json {
		for _, name := range r.carried {
			out = append(appendText(out, name), ':')
			out = append(append(out, r.fields[name]...), ',')
		}
		return out
	}
	for i := range r.list.columns {
		if c := &r.list.columns[i]; c.isCarried() {
			out = append(appendText(out, c.name), ':')
			out = append(appendText(out, string(r.cells[i].text)), ',')
		}
	}
	return out
}
