package sizing

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// firstSize is what a run of the program does that looks up one size: it reads the
// embedded tables, and makes the columns of one run.
func firstSize(t require.TestingT) {
	ref, err := readEmbedded()
	require.NoError(t, err)
	place, err := ref.charts[defaultChart].Place("3", Both)
	require.NoError(t, err)
	require.NotEmpty(t, ref.BodyAt(place, Monotone).Readings)
}

// Half of what a look-up takes is memory that is touched for the first time.
func TestFirstSizeTakesLittleMemory(t *testing.T) {
	require.Less(t, testing.AllocsPerRun(3, func() { firstSize(t) }), 6000.0)
}

func BenchmarkFirstSize(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		firstSize(b)
	}
}
