package main

import (
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// No line of any table is wider than the terminal.
func TestTablesFitTheTerminal(t *testing.T) {
	child := filepath.Join("..", "..", "testdata", "children", "ines.csv")
	for _, args := range []string{
		"size 3", "size 3 --all --why", "size 18m --unit both", "size 3 4 5 6 --all", "size toddler --chart craft-head",
		"blend " + child, "blend " + child + " --all --unit both", "blend " + child + " --widths 6 --lengths 10 --why",
		"profile " + child, "garment", "garment cardigan " + child + " --why --unit both --layer indoor --growth 1",
		"garment one-piece-hooded " + child + " --widths 6 --lengths 10", "garment hat --size 4", "charts", "measurements", "sources",
	} {
		code, stdout, stderr := try(t, "", strings.Fields(args)...)
		require.Zero(t, code, stderr)
		for line := range strings.Lines(stdout) {
			require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(line, "\n")), 100, "%s: %s", args, line)
			require.Equal(t, line, strings.TrimRight(line, " \n")+"\n", "space at the end of a line")
		}
	}
}

// What is printed for people fits the width that COLUMNS says, but for words longer than
// it, addresses and the rows of shapes.
func TestWidthOfATerminal(t *testing.T) {
	child := filepath.Join("..", "..", "testdata", "children", "ines.csv")
	for _, columns := range []int{40, 60, 80} {
		t.Setenv("COLUMNS", strconv.Itoa(columns))
		_, help, _ := try(t, "", "plan", "--help") // whose flags are as wide as a narrow terminal
		_, flags, _ := strings.Cut(help, "\nFlags:\n")
		require.NotEmpty(t, flags)
		for line := range strings.Lines(flags) {
			require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(line, " \n")), columns, line)
		}
		for _, args := range []string{"size 3 5.5", "blend " + child, "profile " + child, "garment cardigan " + child, "measurements", "garment"} {
			code, stdout, stderr := try(t, "", strings.Fields(args)...)
			require.Zero(t, code, stderr)
			for line := range strings.Lines(stdout) {
				line = strings.TrimRight(line, "\n")
				if strings.ContainsAny(strings.TrimSpace(line), " ") && !strings.Contains(line, "://") {
					require.LessOrEqual(t, utf8.RuneCountInString(line), columns, "%s: %s", args, line)
				}
			}
		}
	}
}
