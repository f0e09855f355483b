package data

import (
	"bytes"
	"encoding/csv"
	"io/fs"
	"os"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// The files are in the form that diffs well: UTF-8 without a byte order mark,
// LF, quotes only where needed, no space that cannot be seen.
func TestFormOfTheFiles(t *testing.T) {
	for _, doc := range Schemas() {
		t.Run(doc.File, func(t *testing.T) {
			raw, err := fs.ReadFile(Embedded(), doc.File)
			require.NoError(t, err)
			require.True(t, utf8.Valid(raw))
			require.NotContains(t, string(raw), "\r")
			require.False(t, bytes.HasPrefix(raw, []byte("\ufeff")))
			require.True(t, bytes.HasSuffix(raw, []byte("\n")))
			for i, line := range strings.Split(strings.TrimSuffix(string(raw), "\n"), "\n") {
				require.Equal(t, strings.TrimSpace(line), line, "line %d", i+1)
				require.NotContains(t, line, "\t", "line %d", i+1)
			}
			records, err := csv.NewReader(bytes.NewReader(raw)).ReadAll()
			require.NoError(t, err)
			var again bytes.Buffer
			w := csv.NewWriter(&again)
			require.NoError(t, w.WriteAll(records))
			require.Equal(t, again.String(), string(raw))
		})
	}
}

// The rows of the tables that are looked up by key are in the order of the
// tables they refer to. The others are in an order that means something.
func TestOrderOfRows(t *testing.T) {
	tables, err := Load(Embedded())
	require.NoError(t, err)

	require.True(t, slices.IsSortedFunc(tables.Sources, func(a, b Source) int { return strings.Compare(a.ID, b.ID) }), "sources by id")

	charts, sizes, measurements := map[string]int{}, map[string]int{}, map[string]int{}
	for i, c := range tables.Charts {
		charts[c.ID] = i
	}
	for i, s := range tables.Sizes {
		sizes[pair(s.Chart, s.Size)] = i
	}
	for i, m := range tables.Measurements {
		measurements[m.ID] = i
	}
	sexes := Words[Body]("sex")
	statistics := Words[Body]("statistic")
	units := Words[Body]("unit")
	place := func(b Body) []int {
		return []int{charts[b.Chart], sizes[pair(b.Chart, b.Size)], slices.Index(sexes, b.Sex), measurements[b.Measurement],
			slices.Index(statistics, b.Statistic), slices.Index(units, b.Unit)}
	}
	for i := 1; i < len(tables.Body); i++ {
		require.Negative(t, slices.Compare(place(tables.Body[i-1]), place(tables.Body[i])), "body.csv:%d", tables.Body[i].Line)
	}
	for i := 1; i < len(tables.Sizes); i++ {
		a, b := tables.Sizes[i-1], tables.Sizes[i]
		require.LessOrEqual(t, charts[a.Chart], charts[b.Chart], "sizes.csv:%d", b.Line)
		if a.Chart == b.Chart && a.Scale == b.Scale && a.Position != nil {
			require.Less(t, *a.Position, *b.Position, "sizes.csv:%d", b.Line)
		}
	}
}

func pair(a, b string) string { return a + ", " + b }

// The README names every table.
func TestReadmeNamesEveryTable(t *testing.T) {
	text, err := os.ReadFile("README.md")
	require.NoError(t, err)
	for _, s := range Schemas() {
		require.Contains(t, string(text), "- `"+s.File+"`: ")
	}
}
