package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// The trade's girths are roomy at the small end. Against the survey's medians
// the review of the numbers has chest 9 to 11 %, waist 10 to 15, arm 14 to 17, by whole bands of height.
func TestApart(t *testing.T) {
	for _, size := range []string{"4", "5", "6"} {
		p := place(t, "child", size, sizing.Both)
		height, ok := p.Height()
		require.True(t, ok)
		by := make(map[string]float64)
		survey, err := reference(t).Chart("measured")
		require.NoError(t, err)
		usual, err := survey.AtHeight(height, sizing.Both)
		require.NoError(t, err)
		for _, a := range reference(t).Apart(p) {
			by[a.Measurement.ID] = a.Percent()
			require.InDelta(t, value(t, p, a.Measurement.ID), a.Size, 1e-9)
			require.InDelta(t, value(t, usual, a.Measurement.ID), a.Usual, 1e-9)
		}
		require.InDelta(t, 10, by["chest"], 2, size)
		require.InDelta(t, 12.5, by["waist"], 4, size)
		require.InDelta(t, 16, by["upper_arm"], 4, size)
		require.NotContains(t, by, "head", "the survey's own")
	}
}

func TestApartHasNothingToCompare(t *testing.T) {
	ref := reference(t)
	require.Empty(t, ref.Apart(sizing.Place{}))
	require.Empty(t, ref.Apart(place(t, "measured", "104", sizing.Both)), "the survey itself")
	require.Empty(t, ref.Apart(place(t, "child", "3m", sizing.Both)), "shorter than any child surveyed")
}
