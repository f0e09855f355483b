package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"growtuck/testdata/proof"
)

// A workbook that was filled in is planned as the same flags would be.
func TestPlanFollowsWhatWasFilledIn(t *testing.T) {
	t.Chdir(t.TempDir())
	child := "measurement,value,unit\nsex,f,\nage,9y3m,\nheight,141,cm\nchest,61,cm\n"
	require.NoError(t, os.WriteFile("child.csv", []byte(child), 0o644))
	for _, unit := range []string{"cm", "in"} {
		code, _, stderr := try(t, "", "export", "plan.xlsx", "pullover", "child.csv", "--craft", "knit", "--gauge", "18x24/10cm", "--unit", unit, "--force")
		require.Zero(t, code, stderr)
		f, err := excelize.OpenFile("plan.xlsx")
		require.NoError(t, err)
		inCm := map[string]float64{"cm": 1, "in": 2.54}[unit]
		for name, v := range map[string]any{
			"in_fit": "loose", "in_layer": "indoor", "in_growth": 2, "in_option_tunic": "yes", "in_stitch_gauge": 22, "in_row_gauge": "30,5", "in_gauge_over": "4 in",
			"in_rib_stitch_gauge": 24, "in_rib_row_gauge": 32, "in_stretch": "neck=1.5, cuff=1.4", "in_yarn": "50g 125m", "in_swatch": "10x10cm 4g",
			"in_ease_chest": 12.7 / inCm, "in_extra_sleeve_length": 2.54 / inCm, "child_waist": "20 1/4", "child_arm_length": 47.5,
		} {
			sheet, cell := named(t, f, name)
			require.NoError(t, f.SetCellValue(sheet, cell, v))
			if name == "child_waist" {
				require.NoError(t, f.SetCellValue(sheet, strings.Replace(cell, "B", "C", 1), "in"))
			}
		}
		require.NoError(t, f.Save())
		require.NoError(t, f.Close())
		code, got, stderr := try(t, "", "plan", "plan.xlsx")
		require.Zero(t, code, stderr)

		code, want, stderr := try(t, "", "plan", "pullover", "child.csv", "--set", "waist=20 1/4 in", "--set", "arm_length=47.5", "--fit", "loose", "--layer", "indoor", "--growth", "2",
			"--option", "tunic", "--craft", "knit", "--gauge", "22x30.5/4in", "--rib", "24x32/4in", "--stretch", "neck=1.5", "--stretch", "cuff=1.4", "--yarn", "50g 125m", "--swatch", "10x10cm 4g",
			"--ease", "chest=12.7", "--extra", "sleeve_length=2.54")
		require.Zero(t, code, stderr)
		require.Equal(t, want, got, unit)
	}
}

// Every garment is planned from its workbook as it was from the flags. By
// default package workbook asks the same of what it writes and reads back.
func TestWorkbooksPlanTheSame(t *testing.T) {
	proof.Only(t)
	t.Chdir(t.TempDir())
	child := "measurement,value,unit\nsex,m,\nage,6,years\nheight,46 1/2,in\nchest,57.3,cm\nhead,52,cm\nfoot_length,18.4,cm\n"
	require.NoError(t, os.WriteFile("child.csv", []byte(child), 0o644))
	code, list, stderr := try(t, "", "garment", "--format", "csv")
	require.Zero(t, code, stderr)
	garments := make(map[string]bool)
	for line := range strings.Lines(list) {
		id, _, _ := strings.Cut(line, ",")
		garments[id] = id != "garment"
	}
	require.Greater(t, len(garments), 2)
	for g, is := range garments {
		if !is {
			continue
		}
		for _, flags := range []string{
			"--layer indoor --growth 1 --craft knit --gauge 20.5x28/10cm",
			"--layer winter --fit loose --craft crochet --gauge 16x18/4in --unit in",
		} {
			request := append([]string{g, "child.csv"}, strings.Fields(flags)...)
			code, want, stderr := try(t, "", append([]string{"plan"}, request...)...)
			require.Zero(t, code, stderr)
			code, _, stderr = try(t, "", append([]string{"export", "plan.xlsx", "--force"}, request...)...)
			require.Zero(t, code, stderr)
			unit := "cm"
			if strings.Contains(flags, "--unit in") {
				unit = "in"
			}
			code, got, stderr := try(t, "", "plan", "plan.xlsx", "--unit", unit)
			require.Zero(t, code, stderr)
			require.Equal(t, want, got, "%s %s", g, flags)
		}
	}
}

// named is the cell with a defined name.
func named(t *testing.T, f *excelize.File, name string) (sheet, cell string) {
	t.Helper()
	for _, n := range f.GetDefinedName() {
		if n.Name == name {
			sheet, cell, _ = strings.Cut(strings.ReplaceAll(n.RefersTo, "$", ""), "!")
		}
	}
	require.NotEmpty(t, cell, name)
	return strings.Trim(sheet, "'"), cell
}

// Every fault of a setting says in which cell it is.
func TestFaultsOfSettingsNameTheCell(t *testing.T) {
	t.Chdir(t.TempDir())
	code, _, stderr := try(t, "", "export", "plan.xlsx", "one-piece-hooded", "--size", "4", "--craft", "knit", "--gauge", "18x24/10cm")
	require.Zero(t, code, stderr)
	for _, c := range []struct {
		name  string
		value any
		err   string // "": it is taken
	}{
		{"in_fit", "snug", `"snug": want one of very-close, close`},
		{"in_fit", "", "is empty; want one of very-close, close"},
		{"in_fit", "Loose", ""},
		{"in_nappy", "Yes", ""},
		{"in_nappy", "perhaps", `"perhaps": want one of yes, no`},
		{"in_garment", "kilt", `"kilt": want one of pullover`},
		{"in_growth", "1,5", ""},
		{"in_growth", "one", `"one": want a number`},
		{"in_growth", 9, `growth "9": want a number from 0 to 4`},
		{"in_growth", "NaN", `"NaN": want a number`},
		{"in_stitch_gauge", "abc", `"abc" is not a number`},
		{"in_row_gauge", "", "is empty; want the count"},
		{"in_rib_stitch_gauge", 20, "is empty; want the count"},
		{"in_gauge_over", "5 cm", `"5 cm": want one of 10 cm, 4 in`},
		{"in_multiple", "7q", "want plain, even, odd"},
		{"in_yarn", "thick", "write what a ball weighs and how long it is"},
		{"in_swatch", "small", "swatch"},
		{"in_before_washing", "18", "want stitches x rows"},
		{"in_stretch", "much", `"much": want how many times`},
		{"in_zippers", "30 cm", `"cm" is not a number`},
		{"in_chart", "none", `unknown chart "none"`},
		{"in_hood", "pointed", `"pointed": want one of shaped-crown`},
		{"in_ease_chest", "much", `"much" is not a measurement`},
		{"in_sizes", "date", "is a date"},
	} {
		f, err := excelize.OpenFile("plan.xlsx")
		require.NoError(t, err)
		sheet, cell := named(t, f, c.name)
		if c.value == "date" {
			look, err := f.NewStyle(&excelize.Style{NumFmt: 16})
			require.NoError(t, err)
			require.NoError(t, f.SetCellStyle(sheet, cell, cell, look))
			c.value = 45421
		}
		require.NoError(t, f.SetCellValue(sheet, cell, c.value))
		require.NoError(t, f.SaveAs("filled.xlsx"))
		require.NoError(t, f.Close())
		if c.name == "in_rib_stitch_gauge" {
			c.name = "in_rib_row_gauge" // the other of the two is missing
			sheet, cell = named(t, f, c.name)
		}
		if strings.Contains(sheet, " ") {
			sheet = "'" + sheet + "'"
		}
		code, _, stderr := try(t, "", "plan", "filled.xlsx")
		if c.err == "" {
			require.Zero(t, code, "%s %v: %s", c.name, c.value, stderr)
			continue
		}
		require.NotZero(t, code, "%s %v", c.name, c.value)
		require.Contains(t, stderr, "filled.xlsx: "+sheet+"!"+cell+": ", "%s %v", c.name, c.value)
		require.Contains(t, stderr, c.err)
	}
}

// How it is worked goes through the workbook, and no flag beside it is passed
// over in silence. By default package ask sends every field through a workbook,
// and here go only some.
func TestHowItIsWorkedStaysInTheWorkbook(t *testing.T) {
	t.Chdir(t.TempDir())
	request := []string{"one-piece-hooded", "--size", "4", "--craft", "knit", "--gauge", "18x24/10cm"}
	all := []string{
		"--hood straight", "--hood centre-panel", "--turned", "--closure buttons", "--yoke raglan", "--stretch 1.5", "--zippers 10,14", "--rib-share 0.8", "--rib 20x24/10cm",
		"--before-washing 17x23/10cm", "--multiple 6n+2", "--margin 0.3", "--knits-to 20", "--linear",
	}
	if !proof.Whole() {
		all = []string{"--hood straight", "--turned", "--stretch 1.5"}
	}
	for _, flags := range all {
		more := strings.Fields(flags)
		code, want, stderr := try(t, "", append(append([]string{"plan"}, request...), more...)...)
		require.Zero(t, code, stderr)
		code, _, stderr = try(t, "", append(append([]string{"export", "plan.xlsx", "--force"}, request...), more...)...)
		require.Zero(t, code, stderr)
		code, got, stderr := try(t, "", "plan", "plan.xlsx")
		require.Zero(t, code, stderr)
		require.Equal(t, want, got, flags)
		code, _, stderr = try(t, "", append([]string{"plan", "plan.xlsx"}, more...)...)
		require.Equal(t, 2, code, flags)
		require.Contains(t, stderr, "leave "+more[0]+" out")
	}
}

// A workbook that is not there, or none that can be read, is called so and not
// taken for a garment or a table.
func TestFilesThatAreNoWorkbook(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("empty.xlsx", nil, 0o644))
	require.NoError(t, os.WriteFile("old.xls", []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1\x00\x00"), 0o644))
	for _, c := range []struct{ args, err string }{
		{"plan missing.xlsx", "open missing.xlsx: no such file"},
		{"export new.xlsx missing.xlsx", "open missing.xlsx: no such file"},
		{"plan empty.xlsx", "empty.xlsx: is empty"},
		{"blend old.xls", "old.xls: is a workbook of the old kind, or has a password; save it as .xlsx without one"},
		{"plan old.xls", "old.xls: is a workbook of the old kind"},
		{"check old.xls", "old.xls: is a workbook of the old kind"},
	} {
		code, _, stderr := try(t, "", strings.Fields(c.args)...)
		require.NotZero(t, code, c.args)
		require.Contains(t, stderr, c.err, c.args)
	}
}
