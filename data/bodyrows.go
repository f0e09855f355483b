package data

import (
	_ "embed"
	"fmt"
	"iter"
	"strings"
)

//go:embed body.csv
var embeddedBody string

// BodyRows are rows of body.csv that stand together: of one size, sex and
// measurement. Those of the built-in table are parsed when they are asked for, since
// most questions are about a small part of it.
type BodyRows struct {
	Chart, Size, Sex, Measurement string
	Line                          int // of the first row
	rows                          []Body
	text                          string // of the rows, where they are not parsed
}

func (b *BodyRows) holds(chart, size, sex, measurement string) bool {
	return b.Chart == chart && b.Size == size && b.Sex == sex && b.Measurement == measurement
}

// BodyRows are the rows of body.csv by size, sex and measurement, in their order.
func (t *Tables) BodyRows() []BodyRows {
	var all []BodyRows
	for i, b := range t.Body {
		if k := len(all) - 1; k < 0 || !all[k].holds(b.Chart, b.Size, b.Sex, b.Measurement) {
			all = append(all, BodyRows{Chart: b.Chart, Size: b.Size, Sex: b.Sex, Measurement: b.Measurement, Line: b.Line, rows: t.Body[i:i]})
		}
		last := &all[len(all)-1]
		last.rows = last.rows[:len(last.rows)+1]
	}
	return all
}

// EmbeddedBodyRows are those of the built-in body.csv.
func EmbeddedBodyRows() []BodyRows {
	_, text, _ := strings.Cut(embeddedBody, "\n")
	all := make([]BodyRows, 0, len(text)/256)
	start, key := 0, "\n" // of the rows before, with the comma behind it
	for line, at := 2, 0; at < len(text); line++ {
		rest := text[at:]
		if !strings.HasPrefix(rest, key) {
			b := BodyRows{Line: line}
			after := rest
			for _, cell := range []*string{&b.Chart, &b.Size, &b.Sex, &b.Measurement} {
				*cell, after, _ = strings.Cut(after, ",")
			}
			start, key = at, rest[:len(rest)-len(after)]
			all = append(all, b)
		}
		end := strings.IndexByte(rest, '\n') + 1
		if end == 0 {
			end = len(rest)
		}
		at += end
		all[len(all)-1].text = text[start:at]
	}
	return all
}

// ParsedRows are the rows that stand in several places, parsed.
func ParsedRows(places iter.Seq[*BodyRows]) iter.Seq[*Body] {
	return func(yield func(*Body) bool) {
		head, _, _ := strings.Cut(embeddedBody, "\n")
		rec := &record{fields: make([]string, strings.Count(head, ",")+1)}
		for p := range places {
			for i := range p.rows {
				if !yield(&p.rows[i]) {
					return
				}
			}
			rec.plain = p.Line
			for text := p.text; text != ""; rec.plain++ {
				var line string
				line, text, _ = strings.Cut(text, "\n")
				if !splitPlain(line, rec.fields) {
					panic(fmt.Sprintf("data: body.csv:%d is not plain", rec.plain)) // tests read all of it
				}
				rec.next = 0
				if b := rec.body(); !yield(&b) {
					return
				}
			}
		}
	}
}
