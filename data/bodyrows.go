package data

import (
	_ "embed"
	"fmt"
	"iter"
	"strconv"
	"strings"
)

//go:embed body.csv
var embeddedBody string

// BodyRows are rows of body.csv that stand together: of one size and sex. Those of the
// built-in table are parsed when they are asked for, since most questions are about a
// small part of it; they do not know their lines.
type BodyRows struct {
	Chart, Size, Sex string
	rows             []Body
	text             string // of the rows, where they are not parsed
}

// Line is that of the first row, 0 in the built-in table.
func (b *BodyRows) Line() int {
	if len(b.rows) == 0 {
		return 0
	}
	return b.rows[0].Line
}

// BodyRows are the rows of body.csv by size and sex, in their order.
func (t *Tables) BodyRows() []BodyRows {
	var all []BodyRows
	for i, b := range t.Body {
		if k := len(all) - 1; k < 0 || all[k].Chart != b.Chart || all[k].Size != b.Size || all[k].Sex != b.Sex {
			all = append(all, BodyRows{Chart: b.Chart, Size: b.Size, Sex: b.Sex, rows: t.Body[i:i]})
		}
		last := &all[len(all)-1]
		last.rows = last.rows[:len(last.rows)+1]
	}
	return all
}

// EmbeddedBodyRows are those of the built-in body.csv.
func EmbeddedBodyRows() []BodyRows {
	_, text, _ := strings.Cut(embeddedBody, "\n")
	all := make([]BodyRows, 0, 256)
	for text != "" {
		var b BodyRows
		after := text
		for _, cell := range []*string{&b.Chart, &b.Size, &b.Sex} {
			*cell, after, _ = strings.Cut(after, ",")
		}
		key := text[:len(text)-len(after)]
		end := 0
		for strings.HasPrefix(text[end:], key) {
			line := strings.IndexByte(text[end:], '\n') + 1
			if end += line; line == 0 {
				end = len(text)
			}
		}
		b.text, text = text[:end], text[end:]
		all = append(all, b)
	}
	return all
}

// All are the rows, each in the place of the one before.
func (b *BodyRows) All() iter.Seq[*Body] { return b.Of("") }

// Of are the rows of a measurement, or all where it is "".
func (b *BodyRows) Of(measurement string) iter.Seq[*Body] {
	return func(yield func(*Body) bool) {
		for i := range b.rows {
			if (measurement == "" || b.rows[i].Measurement == measurement) && !yield(&b.rows[i]) {
				return
			}
		}
		row := Body{Chart: b.Chart, Size: b.Size, Sex: b.Sex}
		var cells [6]string
		key, before := len(b.Chart)+len(b.Size)+len(b.Sex)+3, ""
		for text := b.text; text != ""; {
			var line, value string
			line, text, _ = strings.Cut(text, "\n")
			rest := line[key:]
			row.Measurement, rest, _ = strings.Cut(rest, ",")
			if measurement != "" && row.Measurement != measurement {
				if before != "" {
					return // they stand together
				}
				continue
			}
			row.Statistic, rest, _ = strings.Cut(rest, ",")
			value, rest, _ = strings.Cut(rest, ",")
			row.Unit, rest, _ = strings.Cut(rest, ",")
			var err error
			if row.Value, err = strconv.ParseFloat(value, 64); err != nil || rest != before && !splitPlain(rest, cells[:]) {
				panic(fmt.Sprintf("data: body.csv has a row that is not plain: %s", line)) // tests read all of it
			}
			if rest != before { // most rows have these cells like the row before
				row.Source, row.Where, row.Basis, row.Review, row.Note, row.N = cells[0], cells[1], cells[2], cells[3], cells[4], nil
				if n, err := strconv.ParseFloat(cells[5], 64); err == nil {
					row.N = &n
				}
				before = rest
			}
			if !yield(&row) {
				return
			}
		}
	}
}
