package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// A workbook that was filled in is planned as the same flags would be.
func TestPlanFollowsWhatWasFilledIn(t *testing.T) {
	t.Chdir(t.TempDir())
	child := "measurement,value,unit\nsex,f,\nage,4y6m,\nheight,111,cm\nchest,55,cm\n"
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
			"in_ease_chest": 12.7 / inCm, "in_extra_sleeve_length": 2.54 / inCm, "child_waist": "20 1/4", "child_arm_length": 40,
		} {
			sheet, cell := "", ""
			for _, n := range f.GetDefinedName() {
				if n.Name == name {
					sheet, cell, _ = strings.Cut(strings.ReplaceAll(n.RefersTo, "$", ""), "!")
				}
			}
			require.NotEmpty(t, cell, name)
			sheet = strings.Trim(sheet, "'")
			require.NoError(t, f.SetCellValue(sheet, cell, v))
			if name == "child_waist" {
				require.NoError(t, f.SetCellValue(sheet, strings.Replace(cell, "B", "C", 1), "in"))
			}
		}
		require.NoError(t, f.Save())
		require.NoError(t, f.Close())
		code, got, stderr := try(t, "", "plan", "plan.xlsx")
		require.Zero(t, code, stderr)

		// The chest's ease, loose over indoor clothes, is 15 cm; 12.7 are wanted.
		code, want, stderr := try(t, "", "plan", "pullover", "child.csv", "--set", "waist=20 1/4 in", "--set", "arm_length=40", "--fit", "loose", "--layer", "indoor", "--growth", "2",
			"--option", "tunic", "--craft", "knit", "--gauge", "22x30.5/4in", "--rib", "24x32/4in", "--stretch", "neck=1.5", "--stretch", "cuff=1.4", "--yarn", "50g 125m", "--swatch", "10x10cm 4g",
			"--extra", "chest=-2.3", "--extra", "sleeve_length=2.54")
		require.Zero(t, code, stderr)
		require.Equal(t, want, got, unit)
	}
}

// Every garment is planned from its workbook as it was from the flags.
func TestWorkbooksPlanTheSame(t *testing.T) {
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
	require.Len(t, garments, 11)
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
