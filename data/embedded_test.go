package data

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestEmbeddedTablesAreSound(t *testing.T) {
	tables, err := Load(Embedded())
	require.NoError(t, err)
	require.NoError(t, tables.Check(rowRules))
}

// The rows that are parsed when they are asked for are those of the table.
func TestBodyRowsAreTheTable(t *testing.T) {
	tables, err := Load(Embedded())
	require.NoError(t, err)
	for _, groups := range [][]BodyRows{EmbeddedBodyRows(), tables.BodyRows()} {
		var all []Body
		for i := range groups {
			g := &groups[i]
			require.Equal(t, g.Line, len(all)+2)
			for b := range ParsedRows(func(yield func(*BodyRows) bool) { yield(g) }) {
				require.True(t, g.holds(b.Chart, b.Size, b.Sex, b.Measurement), b.Line)
				all = append(all, *b)
			}
		}
		require.Equal(t, tables.Body, all)
	}
}

func BenchmarkLoad(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Load(Embedded()); err != nil {
			b.Fatal(err)
		}
	}
}
