package stitch

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestYarnToGo(t *testing.T) {
	p := Progress{RowsDone: 40, RowsLeft: 60, Rows: 100, StitchesDone: 40 * 120, StitchesLeft: 60 * 120}
	b := Ball{Grams: 50, Metres: 100}
	y, err := p.YarnToGo(200, 400, 0.1, b)
	require.NoError(t, err)
	require.InDelta(t, 330, y.NeedMetres, 1e-9, "200 m for 40 rows are 300 for 60, and a tenth")
	require.True(t, y.Enough)
	require.InDelta(t, 0.7, y.SpareBalls, 1e-9)
	y, err = p.YarnToGo(200, 300, 0.1, b)
	require.NoError(t, err)
	require.False(t, y.Enough)
	require.InDelta(t, -0.3, y.SpareBalls, 1e-9)

	_, err = p.YarnToGo(math.NaN(), 300, 0.1, b)
	require.Error(t, err)
	_, err = p.YarnToGo(200, math.Inf(1), 0.1, b)
	require.Error(t, err)
	_, err = Progress{}.YarnToGo(200, 300, 0.1, b)
	require.ErrorContains(t, err, "work done is nothing")
}
