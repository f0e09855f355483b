package main

import (
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
		if block && !strings.HasPrefix(line, "$ ") && !strings.HasPrefix(line, "go ") && !strings.HasPrefix(line, "tail ") && line != "…" {
			require.True(t, slices.Contains(shown, line), line)
			n++
		}
	}
	require.Greater(t, n, 20)
}
