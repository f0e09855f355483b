package main

import (
	"bytes"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What CONTRIBUTING shows of one addition is what the program prints when the rows
// of that addition are taken out of the tables and proposed again, with the slip.
func TestContributingShowsRealOutput(t *testing.T) {
	text, err := os.ReadFile(repository + "/CONTRIBUTING.md")
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	_, said, status := example("tables t")
	require.Zero(t, status, said)
	body, err := os.ReadFile("t/body.csv")
	require.NoError(t, err)
	var kept, proposed []string
	for line := range strings.Lines(string(body)) {
		added := strings.Contains(line, "measured-infants,") && strings.Contains(line, ",knee_height,")
		if added || kept == nil { // the header is of both
			proposed = append(proposed, line)
		}
		if !added {
			kept = append(kept, line)
		}
	}
	require.Len(t, proposed, 1+21)
	write := func(name string, lines []string) {
		require.NoError(t, os.WriteFile(name, []byte(strings.Join(lines, "")), 0o644))
	}
	write("t/body.csv", kept)
	var shown []string
	ask := func(line string) {
		printed, said, status := example(line)
		require.LessOrEqual(t, status, 1, said)
		shown = append(shown, strings.Split(printed+said, "\n")...)
	}
	right := proposed[14]
	proposed[14] = strings.Replace(right, ",20.5,", ",25.0,", 1)
	require.NotEqual(t, right, proposed[14])
	write("proposed.csv", proposed)
	shown = append(shown, strings.Split(strings.Join(proposed, ""), "\n")...)
	ask("rows proposed.csv --tables t")
	proposed[14] = right
	write("proposed.csv", proposed)
	ask("rows proposed.csv --tables t")
	ask("rows proposed.csv --tables t --review")
	ask("size 13m --chart measured-infants --only knee_height")

	n := 0
	for line := range strings.Lines(string(text)) {
		line, block := strings.CutPrefix(strings.TrimRight(line, "\n"), "    ")
		if strings.HasPrefix(line, "## A garment, or a chart") {
			break // TestContributingMerges has the rest
		}
		if block && !strings.HasPrefix(line, "$ ") && !strings.HasPrefix(line, "growtuck ") && !strings.HasPrefix(line, "go ") && !strings.HasPrefix(line, "tail ") && line != "…" {
			require.True(t, slices.Contains(shown, line), line)
			n++
		}
	}
	require.Greater(t, n, 20)
}

// The commands of the guide add a garment and a chart to a copy of the tables that has
// not got them, and give the tables as they are.
func TestContributingMerges(t *testing.T) {
	text, err := os.ReadFile(repository + "/CONTRIBUTING.md")
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	_, said, status := example("tables data")
	require.Zero(t, status, said)
	ours := make(map[string]string)
	for _, table := range slices.Concat(garmentTables, chartTables) {
		raw, err := os.ReadFile("data/" + table + ".csv")
		require.NoError(t, err)
		ours[table] = string(raw)
	}
	takeOut(t, "leg-warmers", "leg-warmers", garmentTables)
	takeOut(t, "nhanes", "nhanes-2015", chartTables)
	_, guide, _ := strings.Cut(string(text), "## A garment, or a chart of its own")
	guide, _, _ = strings.Cut(guide, "## The pull request")
	var printed string
	commands, lines := 0, 0
	for line := range strings.Lines(guide) {
		line, block := strings.CutPrefix(strings.TrimRight(line, "\n"), "    ")
		command, asks := strings.CutPrefix(line, "$ growtuck ")
		switch {
		case !block || line == "…":
		case asks:
			words, why, _ := strings.Cut(command, ` --why "`)
			var stdout, stderr bytes.Buffer
			args := strings.Fields(words)
			if why != "" {
				args = append(args, "--why", strings.TrimSuffix(why, `"`))
			}
			status := run(args, strings.NewReader(""), &stdout, &stderr)
			printed = stdout.String()
			require.Zero(t, status, "%s: %s%s", command, printed, stderr.String())
			commands++
		default:
			require.Contains(t, strings.Split(printed, "\n"), line)
			lines++
		}
	}
	require.Equal(t, 6, commands)
	require.Greater(t, lines, 9)
	for table, want := range ours {
		raw, err := os.ReadFile("data/" + table + ".csv")
		require.NoError(t, err)
		require.ElementsMatch(t, strings.Split(want, "\n"), strings.Split(string(raw), "\n"), table) // garments stand in the order of their adding
	}
}

// The tables that have rows of a garment, and of a chart.
var (
	garmentTables = []string{"garments", "parts", "ease", "lengths"}
	chartTables   = []string{"charts", "sizes", "body"}
)

// takeOut moves the rows of a garment or a chart out of the tables in data into files of
// a folder, as somebody would propose them.
func takeOut(t *testing.T, folder, id string, tables []string) {
	t.Helper()
	require.NoError(t, os.Mkdir(folder, 0o755))
	for _, table := range tables {
		raw, err := os.ReadFile("data/" + table + ".csv")
		require.NoError(t, err)
		var kept, taken strings.Builder
		for i, line := range strings.SplitAfter(string(raw), "\n") {
			mine := strings.HasPrefix(line, id+",") || table == "ease" && strings.Contains(line, ","+id+",")
			if i == 0 || !mine {
				kept.WriteString(line)
			}
			if i == 0 || mine {
				taken.WriteString(line)
			}
		}
		require.NoError(t, os.WriteFile("data/"+table+".csv", []byte(kept.String()), 0o644))
		require.NoError(t, os.WriteFile(folder+"/"+table+".csv", []byte(taken.String()), 0o644))
	}
}
