package workbook_test

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/sizing"
	"growtuck/testdata/proof"
	"growtuck/testdata/samples"
)

// The plan's own counts pass the check sheet, whatever was asked for: a sheet
// that calls the program's own numbers too small would be believed by nobody.
func TestOwnPlanPassesItsCheckSheet(t *testing.T) {
	ref := samples.Reference(t)
	n, passed, every := 0, 0, 5 // by default one of five
	if proof.Whole() {
		every = 1
	}
	for _, g := range garments {
		options, err := ref.GarmentOptions(g)
		require.NoError(t, err)
		for _, fit := range sizing.Fits {
			for _, nappy := range []bool{false, true} {
				if n++; n%every != 0 {
					continue
				}
				r := usual(g, "cm")
				r.making.Fit, r.making.Layer, r.making.Nappy, r.making.Options = fit, "winter", nappy, options[:min(1, len(options))]
				book, err := workbook.New(r.content(t))
				require.NoError(t, err)
				for _, row := range part(t, book, "check") {
					says := row[len(row)-1]
					require.NotEqual(t, "too small for the body", says, "%s %s nappy %v: %v", g, fit, nappy, row)
					if says == "good" {
						passed++
					}
				}
			}
		}
	}
	require.Greater(t, passed, 500/every)
}

// A long name is shortened over columns and in the chart, where it would leave
// no room for the figures.
func TestLongNames(t *testing.T) {
	for name, want := range map[string]string{
		"Juno":                               "Juno",
		"Ada Maria Luise of the green house": "Ada Maria Luise of the…",
		"Øyvind-李小龍-" + strings.Repeat("ß", 40): "Øyvind-李小龍-" + strings.Repeat("ß", 12) + "…",
	} {
		r := usual("pullover", "cm")
		r.child.Name = name
		book, err := workbook.New(r.content(t))
		require.NoError(t, err)
		require.Equal(t, want, part(t, book, "body")[0][1])
		growth := part(t, book, "chart")
		require.Equal(t, want+": chest girth", growth[0][6])
		var sizes []string
		for _, row := range growth {
			sizes = append(sizes, row[0])
		}
		require.Contains(t, sizes, want)
		require.Equal(t, name, part(t, book, "child")[1][1])
	}
}

// part reads the table that a sheet is as CSV.
func part(t *testing.T, book *workbook.Book, name string) [][]string {
	t.Helper()
	parts, err := book.CSV()
	require.NoError(t, err)
	for _, p := range parts {
		if p.Name == name {
			rows, err := csv.NewReader(bytes.NewReader(p.CSV)).ReadAll()
			require.NoError(t, err)
			return rows
		}
	}
	t.Fatalf("no table %s", name)
	return nil
}
