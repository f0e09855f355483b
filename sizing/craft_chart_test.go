package sizing_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/sizing"
)

// The body chart of the yarn trade's standard, every published cell: Craft
// Yarn Council, Standards & Guidelines for Crochet and Knitting, February
// 2018, booklet pp. 15–16. It is typed here apart from the tables, so that a
// cell changed there by mistake fails.
var (
	craftSizes = strings.Fields("3m 6m 12m 18m 24m 2 4 6 8 10 12 14 16")
	craftCells = []struct{ measurement, unit, values string }{
		{"chest", "in", "16 17 18 19 20 21 23 25 26.5 28 30 31.5 32.5"},
		{"chest", "cm", "40.5 43 45.5 48 50.5 53 58.5 63.5 67 71 76 80 82.5"},
		{"neck_to_wrist", "in", "10.5 11.5 12.5 14 18 18 19.5 20.5 22 24 26 27 28"},
		{"neck_to_wrist", "cm", "26.5 29 31.5 35.5 45.5 45.5 49.5 52 56 61 66 68.5 71"},
		{"back_waist_length", "in", "6 7 7.5 8 8.5 8.5 9.5 10.5 12.5 14 15 15.5 16"},
		{"back_waist_length", "cm", "15.5 17.5 19 20.5 21.5 21.5 24 26.5 31.5 35.5 38 39.5 40.5"},
		{"cross_back", "in", "7.25 7.75 8.25 8.5 8.75 9.25 9.75 10.25 10.75 11.25 12 12.25 13"},
		{"cross_back", "cm", "18.5 19.5 21 21.5 22 23.5 25 26 27 28.5 30.5 31 33"},
		{"arm_to_underarm", "in", "6 6.5 7.5 8 8.5 8.5 10.5 11.5 12.5 13.5 15 16 16.5"},
		{"arm_to_underarm", "cm", "15.5 16.5 19 20.5 21.5 21.5 26.5 29 31.5 34.5 38 40.5 42"},
		{"upper_arm", "in", "5.5 6 6.5 7 7.5 7 7.5 8 8.5 8.75 9 9.25 9.5"},
		{"upper_arm", "cm", "14 15.5 16.5 17.5 19 17.5 19 20.5 21.5 22 23 23.5 24"},
		{"armhole_depth", "in", "3.25 3.5 3.75 4 4.25 4.25 4.75 5 5.5 6 6.5 7 7.5"},
		{"armhole_depth", "cm", "8.5 9 9.5 10 10.5 10.5 12 12.5 14 15.5 16.5 17.5 19"},
		{"waist", "in", "18 19 20 20.5 21 21 21.5 22.5 23.5 24.5 25 26.5 27.5"},
		{"waist", "cm", "45.5 48 50.5 52 53.5 53.5 54.5 57 59.5 62 63.5 67.5 69.5"},
		{"hip", "in", "19 20 20 21 22 22 23.5 25 28 29.5 31.5 33 35.5"},
		{"hip", "cm", "48 50.5 50.5 53.5 56 56 59.5 63.5 71 75 80 83.5 90"},
	}
)

// eachCraftCell calls f for every published cell.
func eachCraftCell(t *testing.T, f func(size, measurement, unit string, value float64)) {
	t.Helper()
	n := 0
	for _, c := range craftCells {
		values := strings.Fields(c.values)
		require.Len(t, values, len(craftSizes), "%s in %s", c.measurement, c.unit)
		for i, s := range values {
			v, err := strconv.ParseFloat(s, 64)
			require.NoError(t, err)
			f(craftSizes[i], c.measurement, c.unit, v)
			n++
		}
	}
	require.Equal(t, 13*9*2, n, "the chart has 13 sizes, 9 measurements and 2 units")
}

func TestTradeChartIsInTheTables(t *testing.T) {
	tables, err := data.Load(data.Embedded())
	require.NoError(t, err)
	type cell struct{ size, measurement, unit string }
	rows := make(map[cell]data.Body)
	for _, b := range tables.Body {
		if b.Chart == "craft" {
			rows[cell{b.Size, b.Measurement, b.Unit}] = b
		}
	}
	eachCraftCell(t, func(size, measurement, unit string, value float64) {
		b, ok := rows[cell{size, measurement, unit}]
		require.True(t, ok, "size %s has no %s in %s", size, measurement, unit)
		require.Equal(t, value, b.Value, "size %s, %s in %s", size, measurement, unit)
		require.Equal(t, "given", b.Statistic)
		require.Equal(t, "both", b.Sex)
		require.Equal(t, "published", b.Basis)
		require.Equal(t, "craft-2018", b.Source)
		delete(rows, cell{size, measurement, unit})
	})
	require.Empty(t, rows, "rows of the chart that the standard does not have")
}

// What is read at a size of the chart is what is printed, in both units; the
// default chart hands on what it takes from the trade chart unchanged.
func TestTradeChartIsReadExactly(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	for _, id := range []string{"craft", "child"} {
		chart, err := ref.Chart(id)
		require.NoError(t, err)
		eachCraftCell(t, func(size, measurement, unit string, value float64) {
			for _, sex := range []sizing.Sex{sizing.Both, sizing.Boy, sizing.Girl} {
				for _, method := range []sizing.Method{sizing.Monotone, sizing.Linear} {
					place, err := chart.Place(size, sex)
					require.NoError(t, err)
					require.Equal(t, size, place.Label())
					r, err := ref.Read(place, measurement, method)
					require.NoError(t, err)
					got := r.Value
					if unit == "in" {
						got = r.Imperial
					}
					require.Equal(t, value, got, "chart %s, size %s, sex %s, %s in %s", id, size, sex, measurement, unit)
					require.Equal(t, sizing.Published, r.Provenance)
					require.Contains(t, r.Sources, "craft-2018")
				}
			}
		})
	}
}
