package workbook_test

import (
	"bytes"
	"io"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/testdata/paired"
)

// The workbook of a plan, laid out and written, beside the same cells by calls of
// excelize alone.
func BenchmarkWrite(b *testing.B) {
	c := usual("one-piece-hooded", "cm").content(b)
	write := func() {
		book, err := workbook.New(c)
		require.NoError(b, err)
		require.NoError(b, book.WriteXLSX(io.Discard))
	}
	b.Run("alone", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			write()
		}
	})
	b.Run("excelize", func(b *testing.B) { paired.Bench(b, paired.Timed(write), paired.Timed(bareExcelize(b))) })
}

// bareExcelize writes the cells of that workbook: values and formulas, one look, no
// chart, picture, names, lists or conditions.
func bareExcelize(b *testing.B) func() {
	type cell struct {
		at      string
		value   any
		formula string
	}
	type sheet struct {
		name  string
		cells [][]cell
	}
	f, err := excelize.OpenReader(bytes.NewReader(usual("one-piece-hooded", "cm").xlsx(b)), excelize.Options{RawCellValue: true})
	require.NoError(b, err)
	var sheets []sheet
	for _, name := range f.GetSheetList() {
		rows, err := f.GetRows(name)
		require.NoError(b, err)
		s := sheet{name: name}
		for y, row := range rows {
			var line []cell
			for x, v := range row {
				at, err := excelize.CoordinatesToCellName(x+1, y+1)
				require.NoError(b, err)
				formula, err := f.GetCellFormula(name, at)
				require.NoError(b, err)
				line = append(line, cell{at, v, formula})
			}
			s.cells = append(s.cells, line)
		}
		sheets = append(sheets, s)
	}
	return func() {
		f := excelize.NewFile()
		look, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Size: 10}})
		require.NoError(b, err)
		for _, s := range sheets {
			_, err := f.NewSheet(s.name)
			require.NoError(b, err)
			for _, line := range s.cells {
				for _, c := range line {
					if c.formula != "" {
						require.NoError(b, f.SetCellFormula(s.name, c.at, c.formula))
					} else {
						require.NoError(b, f.SetCellValue(s.name, c.at, c.value))
					}
				}
				if len(line) > 0 {
					require.NoError(b, f.SetCellStyle(s.name, line[0].at, line[len(line)-1].at, look))
				}
			}
		}
		require.NoError(b, f.Write(io.Discard))
		require.NoError(b, f.Close())
	}
}

// A class list of 10,000 children.
func BenchmarkList(b *testing.B) {
	r := usual("one-piece-hooded", "cm")
	c := r.content(b)
	var ids, names []string
	for _, l := range c.Finished.Lines {
		ids, names = append(ids, l.Part.Part), append(names, l.Part.Name)
	}
	b.ReportAllocs()
	for b.Loop() {
		list, err := workbook.NewList("List", "growtuck", "cm", ids, names)
		require.NoError(b, err)
		for range 10_000 {
			require.NoError(b, list.Add("Juno", c.Finished))
		}
		require.NoError(b, list.Write(io.Discard))
		list.Discard()
	}
}

// Reading what was filled in.
func BenchmarkOpen(b *testing.B) {
	raw := usual("one-piece-hooded", "cm").xlsx(b)
	b.ReportAllocs()
	for b.Loop() {
		w, err := workbook.Open(bytes.NewReader(raw), "plan.xlsx")
		require.NoError(b, err)
		_, err = w.Draft()
		require.NoError(b, err)
		require.NoError(b, w.Close())
	}
}
