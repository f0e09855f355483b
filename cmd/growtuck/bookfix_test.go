package main

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// The draft of a workbook is put right in a copy of the workbook: what was typed wrong
// is named by its cell, and what else the workbook says stays.
func TestWorkbookIsPutRight(t *testing.T) {
	t.Chdir(t.TempDir())
	code, _, stderr := try(t, "", "export", "plan.xlsx", "cardigan", "--size", "9", "--craft", "knit", "--gauge", "20x28/10cm", "--stretch", "neck=1.4", "--stretch", "cuff=1.4")
	require.Zero(t, code, stderr)
	for name, spoil := range map[string]func(t *testing.T, f *excelize.File, sheet string, rows [][]string) string{
		"a digit": func(t *testing.T, f *excelize.File, sheet string, rows [][]string) string {
			row := rowWith(rows, "finished", "chest", "stitches")
			n, err := strconv.Atoi(rows[row-1][2])
			require.NoError(t, err)
			cell := "C" + strconv.Itoa(row)
			require.NoError(t, f.SetCellValue(sheet, cell, 10*n))
			return cell
		},
		"a row gone": func(t *testing.T, f *excelize.File, sheet string, rows [][]string) string {
			row := rowWith(rows, "split", "underarm", "stitches")
			for _, column := range "ABCDE" {
				require.NoError(t, f.SetCellValue(sheet, string(column)+strconv.Itoa(row), nil))
			}
			return ""
		},
		"a row too many": func(t *testing.T, f *excelize.File, sheet string, rows [][]string) string {
			row := rowWith(rows, "finished", "chest", "stitches")
			require.NoError(t, f.SetSheetRow(sheet, "A"+strconv.Itoa(len(rows)+1), &[]any{"finished", "chest", rows[row-1][2], "stitches"}))
			return ""
		},
	} {
		t.Run(name, func(t *testing.T) {
			f, err := excelize.OpenFile("plan.xlsx")
			require.NoError(t, err)
			const sheet = "Draft"
			rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
			require.NoError(t, err)
			cell := spoil(t, f, sheet, rows)
			require.NoError(t, f.SaveAs("spoilt.xlsx"))
			require.NoError(t, f.Close())

			code, out, _ := try(t, "", "check", "spoilt.xlsx")
			require.NotZero(t, code, out)
			first, _, _ := strings.Cut(out, "\n")
			require.Contains(t, first, "L01")
			require.NotContains(t, out, "line ")
			require.Contains(t, first, sheet+"!"+cell)
			_, clean, _ := try(t, "", "check", "plan.xlsx")

			_, out, stderr = try(t, "", "check", "spoilt.xlsx", "--fix", "--force")
			require.Contains(t, stderr, "spoilt-corrected.xlsx is written", out)
			require.Contains(t, stderr, "spoilt.xlsx:"+sheet+"!")
			_, after, _ := try(t, "", "check", "spoilt-corrected.xlsx")
			require.Equal(t, strings.Count(clean, "\n"), strings.Count(after, "\n"), after)
			whole, err := excelize.OpenFile("spoilt-corrected.xlsx")
			require.NoError(t, err)
			defer whole.Close()
			require.Greater(t, whole.SheetCount, 5)
		})
	}
}

// rowWith is the row of a sheet that begins so.
func rowWith(rows [][]string, field, part, unit string) int {
	for i, r := range rows {
		if len(r) > 3 && r[0] == field && r[1] == part && r[3] == unit {
			return i + 1
		}
	}
	return 0
}
