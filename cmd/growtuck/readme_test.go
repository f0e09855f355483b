package main

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What the README shows is what the program prints: each block that begins with
// "$ growtuck", in a terminal of 96 columns, of the sample children.
func TestReadmeShowsRealOutput(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	t.Setenv("COLUMNS", "96")
	shown := 0
	for _, block := range strings.Split(string(text), "```\n")[1:] {
		line, want, _ := strings.Cut(block, "\n")
		command, ok := strings.CutPrefix(line, "$ growtuck ")
		if !ok {
			continue
		}
		shown++
		var args []string
		for _, a := range strings.Fields(command) {
			if strings.HasSuffix(a, ".csv") {
				a = "../../testdata/children/" + a
			}
			args = append(args, a)
		}
		var stdout, stderr bytes.Buffer
		require.Zero(t, run(args, strings.NewReader(""), &stdout, &stderr), stderr.String())
		require.Equal(t, want, stdout.String(), command)
	}
	require.GreaterOrEqual(t, shown, 2)
}

// The README's picture is what the program draws.
func TestReadmeShowsRealDrawing(t *testing.T) {
	want, err := os.ReadFile("../../testdata/drawings/cardigan.svg")
	require.NoError(t, err)
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	require.Contains(t, string(text), "(testdata/drawings/cardigan.svg)")
	var stdout, stderr bytes.Buffer
	args := strings.Fields("draw - cardigan ../../testdata/children/ines.csv --layer indoor --growth 1")
	require.Zero(t, run(args, strings.NewReader(""), &stdout, &stderr), stderr.String())
	if *update {
		want = stdout.Bytes()
		require.NoError(t, os.WriteFile("../../testdata/drawings/cardigan.svg", want, 0o644))
	}
	require.Equal(t, string(want), stdout.String())
}
