package main

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/tell"
)

// planOf runs growtuck order and reads its JSON.
func planOf(t *testing.T, list string, args ...string) tell.OrderDocument {
	t.Helper()
	code, stdout, stderr := try(t, list, append([]string{"order", "--format", "json"}, args...)...)
	require.Zero(t, code, stderr)
	var doc tell.OrderDocument
	require.NoError(t, json.Unmarshal([]byte(stdout), &doc))
	return doc
}

// The lines of --each add up to the plan.
func TestOrderAddsUp(t *testing.T) {
	list := someChildren(300, false)
	// Figures are written to a hundredth: no rounding carries one past this.
	const tolerance = 2.505
	for _, args := range [][]string{{"--best", "3"}, {"--sizes", "4,6,8"}, {"--best", "5", "--halves", "--by", "chest,height"}, {"--cuts", "4", "--by", "hip"}} {
		args = append(args, "--tolerance", "2.505")
		doc := planOf(t, list, args...)
		code, stdout, stderr := try(t, list, append([]string{"order", "--each"}, args...)...)
		require.Zero(t, code, stderr)
		rows, err := csv.NewReader(strings.NewReader(stdout)).ReadAll()
		require.NoError(t, err)
		require.Len(t, rows, 301)
		at := slices.Index(rows[0], "size")
		counts := make(map[string]int)
		misfit, fitted := 0.0, 0
		small := make([]int, len(doc.By))
		for _, row := range rows[1:] {
			counts[row[at]]++
			within := true
			for i, cell := range row[at+1:] {
				off, err := strconv.ParseFloat(cell, 64)
				require.NoError(t, err)
				if off < 0 {
					misfit += -off * 4
				} else {
					misfit += off
				}
				if off < -tolerance {
					small[i]++
				}
				within = within && math.Abs(off) <= tolerance
			}
			if within {
				fitted++
			}
		}
		require.InDelta(t, float64(doc.Misfit), misfit/300, 0.03, "figures are to a hundredth")
		require.Equal(t, doc.Fitted, fitted)
		for i, fit := range doc.Fits {
			require.Equal(t, fit.TooSmall.Children, small[i])
		}
		total := 0
		for _, s := range doc.Sizes {
			require.Equal(t, counts[s.Size], s.Children, s.Size)
			total += s.Children
		}
		require.Equal(t, 300, total)
	}
}

// More sizes never leave more misfit, and choosing leaves no more than naming.
func TestOrderBestIsNoWorse(t *testing.T) {
	list := someChildren(200, false)
	before := math.Inf(1)
	for _, k := range []string{"1", "2", "3", "4", "5"} {
		doc := planOf(t, list, "--best", k)
		require.LessOrEqual(t, float64(doc.Misfit), before)
		before = float64(doc.Misfit)
	}
	named := planOf(t, list, "--sizes", "4,8,12")
	best := planOf(t, list, "--best", "3")
	require.LessOrEqual(t, float64(best.Misfit), float64(named.Misfit))
	halves := planOf(t, list, "--best", "3", "--halves")
	require.LessOrEqual(t, float64(halves.Misfit), float64(best.Misfit))
}

// The dearer too small is, the fewer children it is too small for.
func TestOrderSmallWeight(t *testing.T) {
	list := someChildren(400, false)
	few := planOf(t, list, "--by", "chest", "--cuts", "3", "--small-weight", "9")
	even := planOf(t, list, "--by", "chest", "--cuts", "3", "--small-weight", "1")
	require.Less(t, few.Fits[0].TooSmall.Children, even.Fits[0].TooSmall.Children)
	require.Greater(t, few.Fits[0].TooBig.Children, even.Fits[0].TooBig.Children)
}

func TestOrderTablesFitTheTerminal(t *testing.T) {
	list := someChildren(300, false)
	for _, args := range []string{"", "--best 3", "--unit in", "--cuts 4 --by back_waist_length", "--by chest,waist,hip,arm_length,inside_leg,back_waist_length"} {
		code, stdout, stderr := try(t, list, append([]string{"order"}, strings.Fields(args)...)...)
		require.Zero(t, code, stderr)
		for line := range strings.Lines(stdout) {
			require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(line, "\n")), 100, "%s: %s", args, line)
		}
	}
}

func TestOrderRefuses(t *testing.T) {
	const list = "name,chest\nAda,53\n"
	tests := []struct{ args, want string }{
		{"--by chst", `did you mean "chest"?`},
		{"--by chest,chest", "chest is named twice"},
		{"--chart chld", `did you mean "child"?`},
		{"--sizes 20", "size 20 is outside chart child"},
		{"--chart craft-foot", "chart craft-foot has no size with all of"},
		{"--cuts 0", `cuts "0": want a number from 1 to 100`},
		{"--cuts 1000 --by chest", `cuts "1000": want a number from 1 to 100`},
		{"--small-weight 0", `small-weight "0": want a number from 0.01 to 1000`},
		{"--tolerance NaN", `tolerance "NaN": want a number from 0 to 100`},
		{"nowhere.csv", "nowhere.csv: no such file"},
		{"a.csv b.csv", "2 lists given; order takes one"},
	}
	for _, tt := range tests {
		code, stdout, stderr := try(t, list, append([]string{"order"}, strings.Fields(tt.args)...)...)
		require.Equal(t, 2, code, tt.args)
		require.Empty(t, stdout, tt.args)
		require.Contains(t, stderr, tt.want)
	}
}
