package validate

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"io"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/data/table"
)

// A rowReader reads the rows of a table in the order of its form's columns, however
// it is saved.
type rowReader struct {
	*csv.Reader
	text    *table.Text
	sep     byte
	form    *tableForm
	columns []int // of the file, in the order of the form, -1 where it has none; nil where they are those
	given   int   // columns of the file
	cells   []string
	retyped bool // the titles are not written as ours
}

// openRows opens the text of a table. The bytes go through watch.
func openRows(text *table.Text, form *tableForm, watch func(io.Reader) io.Reader) *rowReader {
	in := bufio.NewReaderSize(watch(text), 1<<16)
	t := &rowReader{text: text, form: form}
	head, _ := in.Peek(1 << 12) // of a short file it has less
	head, _, _ = bytes.Cut(head, []byte("\n"))
	t.sep = table.Separator(string(head))
	t.Reader = csv.NewReader(in)
	t.Comma = rune(t.sep)
	t.FieldsPerRecord = -1
	t.ReuseRecord = true
	return t
}

// header reads the titles, and reports whether they are the form's.
func (t *rowReader) header() (head []string, ours bool, err error) {
	if head, err = t.Read(); err != nil {
		return head, false, err
	}
	names := t.form.names()
	t.given = len(head)
	if slices.Equal(head, names) {
		return head, true, nil
	}
	if t.columns = t.form.columnsIn(head); t.columns == nil {
		return head, false, nil
	}
	t.retyped, t.cells = !slices.Equal(head, names[:len(head)]), make([]string, len(names))
	return head, true, nil
}

// columnsIn finds the form's columns in a header, nil where it is not the form's. It
// may be without those that older editions do not have.
func (f *tableForm) columnsIn(head []string) []int {
	columns := table.Columns(head, f.names())
	missing := 0
	for i, at := range columns {
		if at < 0 {
			missing++
			if f.columns[i].required || i < len(columns)-data.AddedColumns(f.name) {
				return nil
			}
		}
	}
	if len(head) != len(columns)-missing {
		return nil
	}
	return columns
}

// arrange puts the cells of a row in the order of the form, with points in numbers.
func (t *rowReader) arrange(fields []string) []string {
	if len(fields) != t.given {
		return fields
	}
	if t.columns != nil {
		for i, from := range t.columns {
			if t.cells[i] = ""; from >= 0 {
				t.cells[i] = fields[from]
			}
		}
		fields = t.cells
	}
	if t.sep == ';' {
		for i, c := range t.form.columns {
			if c.numeric {
				fields[i] = strings.Replace(fields[i], ",", ".", 1)
			}
		}
	}
	return fields
}

// column is where the cell of a column of the form begins.
func (t *rowReader) column(i int) int {
	if t.columns != nil {
		i = t.columns[i]
	}
	if i < 0 { // where it would be
		i = t.given - 1
	}
	_, column := t.FieldPos(i)
	return column
}
