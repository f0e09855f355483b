//go:build !nobooks

package workbook

import (
	"fmt"
	"io"

	"github.com/xuri/excelize/v2"

	"growtuck/sizing"
)

// A List is a workbook with a row for each child: the finished measurements of
// one garment. Rows are written as they come and not kept in memory.
type List struct {
	file *excelize.File
	rows *excelize.StreamWriter
	x    *xlsx
	part []string
	row  int
	unit string
	held []any
}

// NewList begins a list. parts are the columns; unit is cm or in.
func NewList(title, program, unit string, parts []string, names []string) (*List, error) {
	f := excelize.NewFile()
	f.SetZipWriter(newPlainZipWriter)
	l := &List{file: f, x: &xlsx{file: f, looks: make(map[style]int), overlays: make(map[style]int)}, part: parts, unit: unit}
	s := &sheet{name: "List", widths: []float64{26}, head: 3, freeze: 1}
	titles := []cell{styled("child", stHead)}
	for _, n := range names {
		titles = append(titles, styled(n+", "+unit, stHeadRight))
		s.widths = append(s.widths, 13)
	}
	s.rows = [][]cell{{styled(title, stTitle)}, nil, titles}
	err := f.SetSheetName("Sheet1", s.name)
	if err == nil {
		err = f.SetDocProps(&excelize.DocProperties{Title: title, Creator: program, LastModifiedBy: program, Created: made, Modified: made})
	}
	if err == nil {
		err = l.x.names(s)
	}
	if err == nil {
		err = l.x.page(s)
	}
	if err == nil {
		l.rows, err = l.x.begin(s)
	}
	if err != nil {
		f.Close()
		return nil, fmt.Errorf("list: %w", err)
	}
	l.row = len(s.rows)
	return l, nil
}

// Add writes the row of a child.
func (l *List) Add(name string, f *sizing.Finished) error {
	l.held = l.held[:0]
	add := func(c cell) error {
		v, err := l.x.cell(c)
		l.held = append(l.held, v)
		return err
	}
	if err := add(text(name)); err != nil {
		return err
	}
	for _, p := range l.part {
		c := blank(stCm)
		if line, ok := f.Line(p); ok {
			c = number(rounded(line.Finished, "cm"), stCm)
			if l.unit == "in" {
				c = number(rounded(line.FinishedIn, "in"), stQuarters)
			}
		}
		if err := add(c); err != nil {
			return err
		}
	}
	l.row++
	return l.rows.SetRow(at(1, l.row), l.held)
}

// Discard releases the list.
func (l *List) Discard() { l.file.Close() }

// WriteTo writes the workbook. Nothing can be added after it.
func (l *List) Write(w io.Writer) error {
	if err := l.rows.Flush(); err != nil {
		return err
	}
	return l.file.Write(w)
}
