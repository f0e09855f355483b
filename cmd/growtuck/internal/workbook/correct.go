//go:build !nobooks

package workbook

import (
	"bytes"
	"slices"
	"strconv"

	"github.com/xuri/excelize/v2"

	"growtuck/validate"
)

// An editedRow is a row of the sheet, with what an edit of the draft made of it.
type editedRow struct {
	row int // of the sheet
	to  validate.Row
}

// Corrected is the workbook with the edits of slips in the draft t, in the order in
// which they were found; the slips get the places that they have in the workbook. All
// else stays as it is: a row that is taken out is emptied, one that is added goes below
// the others, and what formulas say is computed anew when the workbook is opened.
func (f *File) Corrected(t *Table, slips []validate.Finding) (content []byte, err error) {
	defer guard(f.name, &err)
	lines := make([]int, 1+bytes.Count(t.CSV, []byte("\n"))) // rows of the sheet, by the lines that the draft now has
	for i := range lines {
		lines[i] = i
	}
	var changed []editedRow
	below := len(f.cells[t.sheet])
	for k := range slips {
		slip := &slips[k]
		slip.Fix.Args = slices.Clone(slip.Fix.Args)
		for i := len(slip.Fix.Args) - 1; i >= 0; i-- {
			if e, ok := slip.Fix.Args[i].(validate.RowEdit); ok {
				e.Cell = t.cellOf(e, lines[e.Line])
				slip.Fix.Args[i] = e
			}
		}
		edits := slip.RowEdits()
		slip.File, slip.Line, slip.Column = f.name+":"+edits[0].Cell, 0, 0
		slices.SortStableFunc(edits, func(a, b validate.RowEdit) int { return b.Line - a.Line }) // those below first: lines above stay
		for _, e := range edits {
			if e.From == (validate.Row{}) {
				below++
				lines = slices.Insert(lines, e.Line+1, below)
				changed = append(changed, editedRow{below, e.To})
				continue
			}
			changed = append(changed, editedRow{lines[e.Line], e.To})
			if e.To == (validate.Row{}) {
				lines = slices.Delete(lines, e.Line, e.Line+1)
			}
		}
	}
	for _, r := range changed {
		for i, text := range []string{r.to.Field, r.to.Part, r.to.Value, r.to.Unit, r.to.Note} {
			cell := at(t.columns[i], r.row)
			var value any = text
			if v, err := strconv.ParseFloat(text, 64); err == nil {
				value = v
			}
			if text == "" {
				value = nil
			}
			if err := f.file.SetCellValue(t.sheet, cell, value); err != nil {
				return nil, err
			}
		}
	}
	if err := f.file.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: new(true)}); err != nil {
		return nil, err
	}
	var out bytes.Buffer
	err = f.file.Write(&out)
	return out.Bytes(), err
}
