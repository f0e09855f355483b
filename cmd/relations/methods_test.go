package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

func TestChartMethods(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	measuring := func(height, chest float64) child {
		c := unmeasured(height)
		c.values[variableIndex("chest")] = chest
		return c
	}
	var r results
	at := func(c child) map[string][]any {
		methods, err := r.chartMethods(ref, c)
		require.NoError(t, err)
		places := make(map[string][]any)
		for _, m := range methods {
			places[m.name] = m.body.Summary.Args[:2] // size and chart
		}
		return places
	}
	tall := at(measuring(118, 57.9)) // of the height of size 6 (115.1) or 8 (127.7), the chest of size 4 (58.5)
	require.Equal(t, []any{"6", "child"}, tall[byHeight])
	require.Equal(t, []any{"4", "child"}, tall[byChest])
	require.Equal(t, []any{"118cm", "measured"}, tall[measured])
	require.Equal(t, [2]int{0, 0}, r.beyond)

	require.Equal(t, []any{"2", "child"}, at(measuring(92, 48))[byChest])
	require.Equal(t, [2]int{1, 0}, r.beyond)
	require.Equal(t, []any{"16", "child"}, at(measuring(175, 95))[byChest])
	require.Equal(t, [2]int{1, 1}, r.beyond)
	require.NotContains(t, at(measuring(110, math.NaN())), byChest)

	_, err = r.chartMethods(ref, measuring(60, 50))
	require.ErrorContains(t, err, "height 60 is outside")
}

// A method is not judged by what it was told.
func TestMethodEstimate(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	own := map[string]float64{"height": 110, "chest": 56}
	body, err := ref.Estimate(sizing.Child{Sex: "m", Own: own})
	require.NoError(t, err)
	m := method{"height, chest", body, own}
	_, ok := m.estimate("chest")
	require.False(t, ok)
	hip, ok := m.estimate("hip")
	require.True(t, ok)
	require.Equal(t, sizing.Estimated, hip.Provenance)
}

func TestNearestTakesSmallerOfTwo(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	run, ok := chart.Run(sizing.Years, sizing.Boy)
	require.True(t, ok)
	require.Equal(t, 2.0, nearest(run, "chest", (53+58.5)/2).Position)
	require.Equal(t, 4.0, nearest(run, "chest", (53+58.5)/2+0.01).Position)
}
