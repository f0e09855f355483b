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
		for _, g := range groups {
			if g.Line() != 0 {
				require.Equal(t, g.Line(), len(all)+2)
			}
			for b := range g.All() {
				require.Equal(t, [...]string{g.Chart, g.Size, g.Sex}, [...]string{b.Chart, b.Size, b.Sex})
				row := *b
				row.Line = len(all) + 2 // which those of the text do not know
				all = append(all, row)
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

// The rows of one sex are those that all rows have of it.
func TestRowsOfOneSex(t *testing.T) {
	all, err := Load(Embedded())
	require.NoError(t, err)
	var relations []Relation
	var ratios []Ratio
	for _, sex := range Words[Relation]("sex") {
		of, err := LoadOf(sex, "relations.csv", "ratios.csv")
		require.NoError(t, err)
		require.NotEmpty(t, of.Relations, sex)
		for _, r := range of.Relations {
			require.Equal(t, sex, r.Sex)
		}
		relations, ratios = append(relations, of.Relations...), append(ratios, of.Ratios...)
	}
	require.ElementsMatch(t, all.Relations, relations)
	require.ElementsMatch(t, all.Ratios, ratios)
}
