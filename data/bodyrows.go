package data

import (
	_ "embed"
	"fmt"
	"iter"
	"slices"
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

// Rows are the rows, parsed.
func (b BodyRows) Rows() iter.Seq[Body] {
	if b.text == "" {
		return slices.Values(b.rows)
	}
	return func(yield func(Body) bool) {
		head, _, _ := strings.Cut(embeddedBody, "\n")
		rec := &record{plain: b.Line, fields: make([]string, strings.Count(head, ",")+1)}
		for line := range strings.Lines(b.text) {
			if !splitPlain(strings.TrimSuffix(line, "\n"), rec.fields) {
				panic(fmt.Sprintf("data: body.csv:%d is not plain", rec.plain)) // tests read all of it
			}
			rec.next = 0
			if !yield(rec.body()) {
				return
			}
			rec.plain++
		}
	}
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

func (b BodyRows) holds(chart, size, sex, measurement string) bool {
	return b.Chart == chart && b.Size == size && b.Sex == sex && b.Measurement == measurement
}

// EmbeddedBodyRows are those of the built-in body.csv.
func EmbeddedBodyRows() []BodyRows {
	_, text, _ := strings.Cut(embeddedBody, "\n")
	all := make([]BodyRows, 0, len(text)/256)
	key := "\n" // of the rows before, with the comma behind it
	for line, at := 2, 0; at < len(text); line++ {
		rest := text[at:]
		end := strings.IndexByte(rest, '\n') + 1
		if end == 0 {
			end = len(rest)
		}
		if !strings.HasPrefix(rest, key) {
			var cells [4]string
			after := rest
			for i := range cells {
				cells[i], after, _ = strings.Cut(after, ",")
			}
			key = rest[:len(rest)-len(after)]
			all = append(all, BodyRows{Chart: cells[0], Size: cells[1], Sex: cells[2], Measurement: cells[3], Line: line, text: rest[:0]})
		}
		last := &all[len(all)-1]
		at += end
		last.text = text[at-end-len(last.text) : at]
	}
	return all
}
