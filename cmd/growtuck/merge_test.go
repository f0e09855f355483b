package main

import (
	"encoding/csv"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"growtuck/testdata/proof"
)

// ran runs a command line that has to succeed.
func ran(t *testing.T, line string, more ...string) string {
	t.Helper()
	code, stdout, stderr := try(t, "", append(strings.Fields(line), more...)...)
	require.Zero(t, code, "%s: %s%s", line, stdout, stderr)
	return stdout
}

// added merges the tables of a folder, by the command of the guide.
func added(t *testing.T, folder string, tables []string) string {
	t.Helper()
	line := "rows"
	for _, table := range tables {
		line += " " + folder + "/" + table + ".csv"
	}
	return ran(t, line+" --merge --tables data --dry-run=false", "--why", "makers ask for it")
}

// The garments that came as rows alone are added by the command of the guide, one
// after the other, and can then be worked out, planned, drawn and checked.
func TestGarmentsAreAddedByTheGuide(t *testing.T) {
	text, err := os.ReadFile(repository + "/CONTRIBUTING.md")
	require.NoError(t, err)
	require.Contains(t, string(text), "$ growtuck rows leg-warmers/garments.csv leg-warmers/parts.csv leg-warmers/ease.csv leg-warmers/lengths.csv --merge --tables data --dry-run=false --why ")
	t.Chdir(t.TempDir())
	ran(t, "tables data")
	want, err := os.ReadFile("data/parts.csv")
	require.NoError(t, err)
	garments := []string{"bathrobe", "romper", "poncho", "leg-warmers", "balaclava"}
	for _, g := range garments {
		takeOut(t, g, g, garmentTables)
	}
	code, _, stderr := try(t, "", "garment", "poncho", "--size", "6", "--tables", "data")
	require.Equal(t, 2, code)
	require.Contains(t, stderr, "poncho")
	for _, g := range garments {
		require.Contains(t, added(t, g, garmentTables), "garment "+g+": 14 plans")
		draft := ran(t, "plan "+g+" --size 6 --craft knit --gauge 20x28/10cm --tables data --draft")
		require.NoError(t, os.WriteFile(g+".csv", []byte(draft), 0o644))
		ran(t, "draw "+g+".svg "+g+" --size 6 --tables data")
		if proof.Whole() { // each of our own is exported by other tests
			ran(t, "export "+g+".xlsx "+g+" --size 6 --craft crochet --gauge 16x18/10cm --tables data")
		}
		ran(t, "check "+g+".csv --fail-on stop --tables data")
	}
	got, err := os.ReadFile("data/parts.csv")
	require.NoError(t, err)
	require.ElementsMatch(t, strings.Split(string(want), "\n"), strings.Split(string(got), "\n")) // garments stand in the order of their adding
	ran(t, "rows --tables data --fail-on warn")
	require.Contains(t, ran(t, "rows --release --tables data"), "changes.csv")
}

// Rows come as one workbook too, a sheet for each table; what is wrong is named by its
// cell, and the columns are drawn.
func TestMergeTakesAWorkbook(t *testing.T) {
	t.Chdir(t.TempDir())
	ran(t, "tables data")
	want, err := os.ReadFile("data/body.csv")
	require.NoError(t, err)
	takeOut(t, "nhanes", "nhanes-2015", chartTables)
	book := func(name string, change func(f *excelize.File)) {
		f := excelize.NewFile()
		defer f.Close()
		require.NoError(t, f.SetCellValue("Sheet1", "A1", "read by two people"))
		for _, table := range chartTables {
			raw, err := os.Open("nhanes/" + table + ".csv")
			require.NoError(t, err)
			rows, err := csv.NewReader(raw).ReadAll()
			require.NoError(t, err)
			require.NoError(t, raw.Close())
			_, err = f.NewSheet(table)
			require.NoError(t, err)
			for i, row := range rows {
				for j, cell := range row {
					var v any = cell
					if n, err := strconv.ParseFloat(cell, 64); err == nil {
						v = n
					}
					at, err := excelize.CoordinatesToCellName(j+1, i+3) // below two empty rows
					require.NoError(t, err)
					require.NoError(t, f.SetCellValue(table, at, v))
				}
			}
		}
		if change != nil {
			change(f)
		}
		require.NoError(t, f.SaveAs(name))
	}
	book("wrong.xlsx", func(f *excelize.File) {
		require.NoError(t, f.SetCellValue("body", "F4", 917))
		for i := 4; i < 140; i++ {
			require.NoError(t, f.SetCellValue("body", "H"+strconv.Itoa(i), "nobody"))
		}
	})
	code, out, _ := try(t, "", "rows", "wrong.xlsx", "--merge", "--tables", "data")
	require.Equal(t, 1, code)
	require.Contains(t, out, "wrong.xlsx:body!F4: stop R05")
	require.Equal(t, 1, strings.Count(out, "nobody"), "said once")
	require.Contains(t, out, "the same in 135 more rows, lines 5–139")

	code, _, stderr := try(t, "", "rows", "wrong.xlsx", "--tables", "data")
	require.Equal(t, 2, code)
	require.Contains(t, stderr, "rows of other tables than body.csv")

	book("right.xlsx", nil)
	out = ran(t, "rows right.xlsx --merge --tables data --picture columns.svg")
	require.Contains(t, out, "sheet Sheet1: skipped")
	require.Contains(t, out, "body.csv: 136 added")
	picture, err := os.ReadFile("columns.svg")
	require.NoError(t, err)
	require.Equal(t, 8, strings.Count(string(picture), "chart nhanes-2015, "), "a picture for each measurement of boys and girls")
	require.Contains(t, string(picture), "children measured")
	code, _, stderr = try(t, "", "rows", "right.xlsx", "--merge", "--tables", "data", "--picture", "columns.svg")
	require.Equal(t, 2, code)
	require.Contains(t, stderr, "--force")
	ran(t, "rows right.xlsx --merge --tables data --picture columns.png")
	ran(t, "rows right.xlsx --merge --tables data --dry-run=false --why trial")
	got, err := os.ReadFile("data/body.csv")
	require.NoError(t, err)
	require.Equal(t, string(want), string(got))

	f, err := excelize.OpenFile("right.xlsx")
	require.NoError(t, err)
	require.NoError(t, f.DeleteSheet("charts"))
	require.NoError(t, f.DeleteSheet("sizes"))
	require.NoError(t, f.SetCellValue("body", "F10", 99))
	require.NoError(t, f.SaveAs("body.xlsx"))
	require.NoError(t, f.Close())
	code, out, _ = try(t, "", "rows", "body.xlsx", "--tables", "data")
	require.Equal(t, 1, code)
	require.Contains(t, out, "body.xlsx:body!A10: warn R29")
	require.NotContains(t, out, "R02")
}

// Two contributions on two branches, each a garment and a chart, merge without a
// conflict into tables in which nothing is found.
func TestTwoContributionsMerge(t *testing.T) {
	if _, err := exec.LookPath("git"); err != nil {
		t.Skip("no git here")
	}
	attributes, err := os.ReadFile(repository + "/data/.gitattributes")
	require.NoError(t, err)
	folder := t.TempDir()
	t.Chdir(folder)
	git := func(args ...string) {
		t.Helper()
		c := exec.Command("git", append([]string{"-c", "user.name=a", "-c", "user.email=a@example.org", "-c", "init.defaultBranch=main"}, args...)...)
		c.Env = append(os.Environ(), "GIT_CONFIG_GLOBAL=/dev/null", "GIT_CONFIG_SYSTEM=/dev/null")
		out, err := c.CombinedOutput()
		require.NoError(t, err, "git %v: %s", args, out)
	}
	ran(t, "tables data")
	require.NoError(t, os.WriteFile("data/.gitattributes", attributes, 0o644))
	takeOut(t, "poncho", "poncho", garmentTables)
	takeOut(t, "romper", "romper", garmentTables)
	takeOut(t, "nhanes", "nhanes-2015", chartTables)
	require.NoError(t, os.Mkdir("again", 0o755))
	for _, table := range chartTables { // another chart with the same figures
		raw, err := os.ReadFile(filepath.Join("nhanes", table+".csv"))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join("again", table+".csv"), []byte(strings.ReplaceAll(string(raw), "nhanes-2015", "again-2015")), 0o644))
	}
	git("init", "-q")
	git("add", "data")
	git("commit", "-qm", "tables")
	git("checkout", "-qb", "one")
	added(t, "poncho", garmentTables)
	added(t, "nhanes", chartTables)
	git("add", "data")
	git("commit", "-qm", "poncho")
	git("checkout", "-qb", "two", "main")
	added(t, "romper", garmentTables)
	added(t, "again", chartTables)
	git("add", "data")
	git("commit", "-qm", "romper")
	git("merge", "-q", "--no-edit", "one")
	ran(t, "rows --tables data --fail-on warn")
	ran(t, "plan poncho --size 6 --craft knit --gauge 20x28/10cm --tables data")
	ran(t, "size 4 --chart again-2015 --sex f --tables data")
	require.Contains(t, ran(t, "rows --release --tables data"), "changes.csv")
	ran(t, "rows --tables data --fail-on warn")
}
