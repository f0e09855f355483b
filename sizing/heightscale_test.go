package sizing

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
)

// A chart of ranges on a scale of heights, without medians of height, stands where its
// table of sizes says.
func TestRangesOnAScaleOfHeights(t *testing.T) {
	t.Parallel()
	own, err := data.Load(data.Embedded())
	require.NoError(t, err)
	own.Charts = append(own.Charts, data.Chart{ID: "ranges", Title: "ranges", Source: "cpsc-1977"})
	for i, size := range []string{"100", "110", "120"} {
		position := 100 + 10*float64(i)
		own.Sizes = append(own.Sizes, data.Size{Chart: "ranges", Size: size, Scale: "height", Position: &position})
		for statistic, by := range map[string]float64{"low": -2, "high": 2} {
			own.Body = append(own.Body, data.Body{Chart: "ranges", Size: size, Sex: "f", Measurement: "chest", Statistic: statistic,
				Value: 50 + position/10 + by, Unit: "cm", Source: "cpsc-1977", Where: "table 1", Basis: "published", Review: "read twice"})
		}
	}
	ref, err := New(own)
	require.NoError(t, err)
	chart, err := ref.Chart("ranges")
	require.NoError(t, err)
	place, err := chart.Place("115cm", Girl)
	if err != nil {
		place, err = chart.Place("115", Girl)
	}
	require.NoError(t, err)
	r, err := ref.Read(place, "chest", Monotone)
	require.NoError(t, err)
	require.InDelta(t, 61.5, r.Value, 1e-9)
	require.Equal(t, AsPublished, r.Spread)
}
