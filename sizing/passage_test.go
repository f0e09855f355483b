package sizing_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// A hand with its thumb folded in is larger than the palm and smaller than the
// closed fist, whose girth the survey took of boys: its share of their height
// (Snyder et al. 1977, 36 to 99 boys a class).
func TestHandWithThumbIsLessThanAFist(t *testing.T) {
	chart, err := reference(t).Chart("measured")
	require.NoError(t, err)
	p, ok := reference(t).Passage("cuff")
	require.True(t, ok)
	for height, fist := range map[float64]float64{95: 0.1736, 105: 0.1662, 115: 0.1665, 125: 0.1648, 135: 0.1602, 145: 0.1594, 155: 0.1613, 165: 0.1632, 175: 0.1619} {
		at, err := chart.Place(fmt.Sprintf("%gcm", height), sizing.Boy)
		require.NoError(t, err)
		palm, ok := reference(t).BodyAt(at, sizing.Monotone).Get(p.Measurement)
		require.True(t, ok)
		require.Greater(t, p.Cm(palm.Value), palm.Value*1.1, height)
		require.Less(t, p.Cm(palm.Value), fist*height*0.97, height)
	}
}

// What passes an edge: the heel diagonal is published for adults as 1.30 to 1.40
// of the ball; no edge but these has a wider part to pass.
func TestPassages(t *testing.T) {
	heel, ok := reference(t).Passage("ankle")
	require.True(t, ok)
	require.Equal(t, "foot", heel.Measurement)
	require.GreaterOrEqual(t, heel.Cm(17), 17*1.30)
	require.LessOrEqual(t, heel.Cm(17), 17*1.40)
	head, ok := reference(t).Passage("neck")
	require.True(t, ok)
	require.Greater(t, head.Cm(50), 51.0)
	_, ok = reference(t).Passage("hem")
	require.False(t, ok)
}
