package workbook_test

import (
	"bytes"
	"encoding/csv"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/sizing"
)

// The plan's own counts pass the check sheet, whatever was asked for: a sheet
// that calls the program's own numbers too small would be believed by nobody.
func TestOwnPlanPassesItsCheckSheet(t *testing.T) {
	ref := reference(t)
	passed := 0
	for _, g := range garments {
		options, err := ref.GarmentOptions(g)
		require.NoError(t, err)
		for _, fit := range sizing.Fits {
			for _, nappy := range []bool{false, true} {
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
	require.Greater(t, passed, 500)
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
