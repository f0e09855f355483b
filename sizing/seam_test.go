package sizing_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/samples"
)

// Where the trade's babies' sizes meet its children's, a chest steps by 2.5 cm in the
// standard itself (Craft Yarn Council, 50.5 cm at 24 months, 53 cm at size 2): readings
// between sizes near it say so, others do not, and neither does what goes on without a step.
func TestSeamOfBabiesAndChildren(t *testing.T) {
	chart, err := samples.Reference(t).Chart(sizing.DefaultChart)
	require.NoError(t, err)
	says := func(size, measurement string) bool {
		place, err := chart.Place(size, sizing.Both)
		require.NoError(t, err)
		r, err := samples.Reference(t).Read(place, measurement, sizing.Monotone)
		require.NoError(t, err)
		return slices.ContainsFunc(r.Notes, func(f sizing.Fact) bool { return f.ID == "seam" })
	}
	for size, want := range map[string]bool{"24m": false, "2": false, "23.5m": true, "85cm": true, "86cm": true, "2.1": true, "18m": false, "3": false, "110cm": false} {
		require.Equal(t, want, says(size, "chest"), size)
	}
	require.False(t, says("86cm", "height"))
	require.False(t, says("86cm", "head"))
}
