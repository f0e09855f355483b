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

func BenchmarkLoad(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Load(Embedded()); err != nil {
			b.Fatal(err)
		}
	}
}
