package page

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/tell"
)

func percent(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.TrimSuffix(s, "%"), 64)
	require.NoError(t, err)
	require.GreaterOrEqual(t, v, 0.0)
	require.LessOrEqual(t, v, 100.0)
	return v
}

// testProfile computes a state.
func testProfile(t *testing.T, query string) *profileView {
	t.Helper()
	s := testSite(t)
	r := s.compute(s.readState(query))
	require.NotNil(t, r.finished)
	return s.profileOf(tell.Style{Unit: "cm", Place: tell.Page}, r)
}

// A tall, slim child: the dots of widths lie left of those of lengths, and
// every bar holds its middle.
func TestProfile(t *testing.T) {
	v := testProfile(t, "sex=f&age=9y3m&height=141&chest=61&arm_length=47.5&garment=cardigan")
	rows := map[string]profileRow{}
	for _, g := range v.Groups {
		for _, r := range g.Rows {
			rows[r.Name] = r
			if r.OnScale && !r.Own {
				from, at := percent(t, r.From), percent(t, r.At)
				require.LessOrEqual(t, from, at, r.Name)
				require.LessOrEqual(t, at, from+percent(t, r.Width)+0.2, r.Name)
			}
		}
	}
	require.Equal(t, "4.9", rows["chest girth"].Size)
	require.True(t, rows["chest girth"].Own)
	require.Equal(t, "10.9", rows["arm length, shoulder to wrist"].Size)
	require.Less(t, percent(t, rows["chest girth"].At), percent(t, rows["height"].At))
	require.Less(t, percent(t, rows["height"].At), percent(t, rows["arm length, shoulder to wrist"].At))
	require.False(t, rows["hip girth"].Own)
	require.Contains(t, v.Range, "about eight of ten US children with the same measurements")
	before := -1.0
	for _, tick := range v.Ticks {
		require.Greater(t, percent(t, tick.At), before)
		before = percent(t, tick.At)
	}
	require.GreaterOrEqual(t, len(v.Ticks), 3)
}

// Where the chart does not go that low, the size says so.
func TestProfileBelowTheChart(t *testing.T) {
	v := testProfile(t, "sex=m&height=62&garment=pullover")
	below := 0
	for _, g := range v.Groups {
		for _, r := range g.Rows {
			if strings.Contains(r.Size, "under 3m") {
				below++
			}
		}
	}
	require.NotZero(t, below)
}

// Sizes of months are on the same scale as those of years.
func TestProfileOfABaby(t *testing.T) {
	v := testProfile(t, "size=12m&garment=hat")
	require.NotEmpty(t, v.Ticks)
	for _, g := range v.Groups {
		for _, r := range g.Rows {
			require.Contains(t, r.Size, "12m", r.Name)
		}
	}
}
