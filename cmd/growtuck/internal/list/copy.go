package list

import "bytes"

// copiedHeader is the beginning of a header: the columns that are copied, each
// with a separator after it.
func (l *List) copiedHeader() []byte {
	var out []byte
	for i := range l.columns {
		if c := &l.columns[i]; c.isCopied() {
			out = append(append(out, c.raw...), byte(l.separator))
		}
	}
	return out
}

// copyCells adds the cells that are copied, each with a separator after it.
func (r *childReader) copyCells(out []byte) []byte {
	for i := range r.list.columns {
		if r.list.columns[i].isCopied() {
			out = append(appendCell(out, r.cells[i].raw), byte(r.list.separator))
		}
	}
	return out
}

// appendCell adds a cell unchanged. One that holds a quote and was not quoted is
// now, so that every reader of CSV reads it.
func appendCell(out, raw []byte) []byte {
	if len(raw) == 0 || raw[0] == '"' || bytes.IndexByte(raw, '"') < 0 {
		return append(out, raw...)
	}
	out = append(out, '"')
	out = append(out, bytes.ReplaceAll(raw, []byte(`"`), []byte(`""`))...)
	return append(out, '"')
}

// copyFields adds the fields that are copied, each with a comma after it.
func (r *childReader) copyFields(out []byte) []byte {
	if r.list.json {
		for _, name := range r.copied {
			out = append(appendText(out, name), ':')
			out = append(append(out, r.fields[name]...), ',')
		}
		return out
	}
	for i := range r.list.columns {
		if c := &r.list.columns[i]; c.isCopied() {
			out = append(appendText(out, c.name), ':')
			out = append(appendText(out, string(r.cells[i].text)), ',')
		}
	}
	return out
}
