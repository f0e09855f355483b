package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// repository is the top of the repository, from here.
const repository = "../.."

// example runs a command line of a document at the top of the repository, in a
// terminal of 96 columns, and returns what is printed and the exit status.
func example(line string) (printed, said string, status int) {
	var stdout, stderr bytes.Buffer
	status = run(strings.Fields(line), strings.NewReader(""), &stdout, &stderr)
	return stdout.String(), stderr.String(), status
}

// What the README shows is what the program prints: each block that begins with
// "$ growtuck". A command that finds faults says how many at the end.
func TestReadmeShowsRealOutput(t *testing.T) {
	t.Chdir(repository)
	t.Setenv("COLUMNS", "96")
	text, err := os.ReadFile("README.md")
	require.NoError(t, err)
	blocks := strings.Split(string(text), "```\n")
	shown := map[string]bool{}
	for i, block := range blocks {
		line, want, _ := strings.Cut(block, "\n")
		command, ok := strings.CutPrefix(line, "$ growtuck ")
		if !ok {
			continue
		}
		got, said, status := example(command)
		require.LessOrEqual(t, status, 1, said)
		got += said
		shown[strings.Fields(command)[0]] = true
		if *update {
			blocks[i] = line + "\n" + got
			continue
		}
		require.Equal(t, want, got, command)
	}
	for _, c := range []string{"size", "garment", "rows"} { // a designer's, a maker's, a contributor's
		require.True(t, shown[c], "no example of growtuck %s", c)
	}
	if *update {
		require.NoError(t, os.WriteFile("README.md", []byte(strings.Join(blocks, "```\n")), 0o644))
	}
}

// The command that the README begins with does the main job, and the documents are
// short, say whose credit they owe and lead nowhere that is not there.
func TestReadmeHolds(t *testing.T) {
	t.Chdir(repository)
	b, err := os.ReadFile("README.md")
	require.NoError(t, err)
	text := string(b)
	_, first, ok := strings.Cut(text, "    go run ./cmd/growtuck ")
	require.True(t, ok)
	first, _, _ = strings.Cut(first, "\n")
	printed, said, status := example(first)
	require.Zero(t, status, said)
	require.Contains(t, printed, "= finished, cm")
	require.Contains(t, text, "Craft Yarn Council's www.YarnStandards.com")
	links := regexp.MustCompile(`\]\(([^)#]+)[^)]*\)`)
	for _, name := range []string{"README.md", "DEVELOPERS.md", "CONTRIBUTING.md", "data/README.md"} {
		b, err := os.ReadFile(name)
		require.NoError(t, err)
		if most := map[string]int{"README.md": 120, "DEVELOPERS.md": 250}[name]; most > 0 {
			require.LessOrEqual(t, strings.Count(string(b), "\n"), most, name)
		}
		for _, m := range links.FindAllStringSubmatch(string(b), -1) {
			if !strings.Contains(m[1], "://") {
				_, err := os.Stat(filepath.Join(filepath.Dir(name), m[1]))
				require.NoError(t, err, name)
			}
		}
	}
}

// The README's picture is what the program draws.
func TestReadmeShowsRealDrawing(t *testing.T) {
	t.Chdir(repository)
	const path = "testdata/drawings/cardigan.svg"
	text, err := os.ReadFile("README.md")
	require.NoError(t, err)
	require.Contains(t, string(text), "("+path+")")
	got, said, status := example("draw - cardigan testdata/children/ines.csv --widths 6 --lengths 10 --layer indoor --growth 1")
	require.Zero(t, status, said)
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(want), got)
}
