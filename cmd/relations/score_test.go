package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

func TestScore(t *testing.T) {
	var s score
	require.True(t, math.IsNaN(s.cm()))
	require.True(t, math.IsNaN(s.coverage()))
	s.add(scoreOf(63, sizing.Reading{Value: 60, Low: 57, High: 63, Spread: sizing.EightInTen})) // the bound is inside
	s.add(scoreOf(56, sizing.Reading{Value: 60, Low: 57, High: 63, Spread: sizing.EightInTen}))
	require.Equal(t, 50.0, s.coverage())
	s.add(scoreOf(60, sizing.Reading{Value: 60, Low: 50, High: 70, Spread: sizing.MiddleHalf})) // no likely range
	s.add(scoreOf(60, sizing.Reading{Value: 60}))
	require.Equal(t, 50.0, s.coverage())
	require.InDelta(t, math.Sqrt((9+16)/4.0), s.cm(), 1e-12)
	up, down := math.Log(63.0/60), math.Log(56.0/60)
	require.InDelta(t, 100*math.Sqrt((up*up+down*down)/4), s.percent(), 1e-12)
}

func TestSigned(t *testing.T) {
	for v, want := range map[float64]string{1.26: "1.3", -1.26: "−1.3", -0.04: "0.0", 0: "0.0"} {
		require.Equal(t, want, signed(v))
	}
	require.Equal(t, "–", signed(math.NaN()))
}
