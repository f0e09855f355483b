package workbook

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"

	"growtuck/cmd/growtuck/internal/tell"
)

// A Part is a sheet as a separate file.
type Part struct {
	Name string // of the sheet, lower case without blanks
	CSV  []byte
}

// CSV gives each sheet that is a table as CSV: the header and the rows, with
// the values that formulas have.
func (b *Book) CSV() ([]Part, error) {
	var parts []Part
	for _, s := range b.sheets {
		if s.head == 0 {
			continue
		}
		var out bytes.Buffer
		w := csv.NewWriter(&out)
		columns := len(s.rows[s.head-1])
		for _, row := range s.rows[s.head-1:] {
			cells := make([]string, columns)
			empty := true
			for i := range min(columns, len(row)) {
				cells[i] = row[i].csvText()
				empty = empty && cells[i] == ""
			}
			if empty || s.lacks(row) {
				continue
			}
			if err := w.Write(cells); err != nil {
				return nil, err
			}
		}
		w.Flush()
		if err := w.Error(); err != nil {
			return nil, err
		}
		parts = append(parts, Part{strings.ReplaceAll(strings.ToLower(s.name), " ", "-"), out.Bytes()})
	}
	return parts, nil
}

// lacks reports a row of a form that has no value.
func (s *sheet) lacks(row []cell) bool {
	return s.value > 0 && len(row) >= s.value && row[s.value-1].text() == ""
}

// text is the cell as a reader sees it.
func (c cell) text() string {
	switch v := c.value.(type) {
	case string:
		return v
	case int:
		return strconv.Itoa(v)
	case float64:
		return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(v, 'f', 2, 64), "0"), ".")
	}
	return ""
}

// csvText is the cell in a CSV, where no text is a formula.
func (c cell) csvText() string {
	text := c.text()
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		return text
	}
	return tell.Inert(text)
}
