package workbook

import (
	"math"
	"strconv"
	"strings"

	"growtuck/sizing"
)

// A cell is a value, a formula with its value, or nothing.
type cell struct {
	value   any    // nil, string, int or float64
	formula string // without its =
	style   style
}

func text(s string) cell                  { return cell{value: s} }
func styled(s string, st style) cell      { return cell{value: s, style: st} }
func number(v float64, st style) cell     { return cell{value: v, style: st} }
func count(n int) cell                    { return cell{value: n, style: stInt} }
func blank(st style) cell                 { return cell{style: st} }
func calc(f string, v any, st style) cell { return cell{value: v, formula: f, style: st} }

// A sheet is a sheet of a workbook.
type sheet struct {
	name      string
	widths    []float64 // of columns, in characters
	rows      [][]cell
	head      int // row of the table's header, repeated on each page; 0: none
	freeze    int // columns that stay in sight beside the header
	filter    bool
	portrait  bool // printed upright
	pages     int  // that it is printed on at most; 0: as many as it takes
	unprinted bool // it is for the screen: its print area is empty
	value     int  // column without which a row says nothing; 0: none

	merges  []span
	breaks  []int // rows that begin a page
	lists   []list
	conds   []condition
	names   []name
	picture func() []byte // PNG; nil for none
	place   string        // cell of the picture
	chart   *chart
}

// A span is a range of cells of a row.
type span struct{ row, from, to int }

// A list is a range of cells that take one of some words, or, without words, a
// number between bounds.
type list struct {
	cells     string
	words     []string
	low, high float64
	hint      string
}

// A condition gives cells a look where a formula is true.
type condition struct {
	cells, formula string
	look           style
}

// A name is a defined name for a cell.
type name struct{ name, cell string }

// add puts a row at the end and returns its number.
func (s *sheet) add(cells ...cell) int {
	s.rows = append(s.rows, cells)
	return len(s.rows)
}

// next is the number of the row that add will put.
func (s *sheet) next() int { return len(s.rows) + 1 }

// heading puts the title of a sheet and what it is for.
func (s *sheet) heading(title, about string) {
	s.add(styled(title, stTitle))
	s.paragraph(about, stNote)
	s.add()
}

// paragraph puts text across the sheet.
func (s *sheet) paragraph(text string, st style) {
	row := s.add(styled(text, st))
	s.merges = append(s.merges, span{row, 1, len(s.widths)})
}

// formula puts a formula with its text across the sheet.
func (s *sheet) formula(c cell) {
	row := s.add(c)
	s.merges = append(s.merges, span{row, 1, len(s.widths)})
}

// header puts the header of the sheet's table.
func (s *sheet) header(titles ...string) int {
	cells := make([]cell, len(titles))
	for i, t := range titles {
		cells[i] = styled(t, stHead)
	}
	return s.add(cells...)
}

// at names a cell of the sheet for formulas on the sheet.
func at(col, row int) string { return column(col) + strconv.Itoa(row) }

// fixed names a cell absolutely.
func fixed(col, row int) string { return "$" + column(col) + "$" + strconv.Itoa(row) }

// area names a range of cells.
func area(col1, row1, col2, row2 int) string { return at(col1, row1) + ":" + at(col2, row2) }

// on names a cell of another sheet.
func on(sheet, cell string) string {
	if strings.ContainsAny(sheet, " '!-") {
		sheet = "'" + strings.ReplaceAll(sheet, "'", "''") + "'"
	}
	return sheet + "!" + cell
}

// column is the letter of a column, 1 for A.
func column(n int) string {
	s := ""
	for ; n > 0; n = (n - 1) / 26 {
		s = string(rune('A'+(n-1)%26)) + s
	}
	return s
}

// quoted is a text in a formula.
func quoted(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }

// literal is a number in a formula.
func literal(v float64) string { return sizing.FormatExact(firm(v)) }

// firm is a number to nine decimals: those behind them differ from one kind of machine to
// another, and the same book has the same bytes on all.
func firm(v float64) float64 { return math.Round(v*1e9) / 1e9 }
