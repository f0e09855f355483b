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

// testStanding computes a state.
func testStanding(t *testing.T, query string) *standing {
	t.Helper()
	s := testSite(t)
	r := s.compute(s.readState(query))
	require.NotNil(t, r.finished)
	return s.standing(shower{unit: "cm"}, r)
}

// A tall, slim child: the dots of widths lie left of those of lengths, and
// every bar holds its middle.
func TestStanding(t *testing.T) {
	v := testStanding(t, "sex=m&age=4y6m&height=110.5&chest=53&arm_length=37&garment=one-piece-hooded")
	rows := map[string]standRow{}
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
	require.Equal(t, "2", rows["chest girth"].Size)
	require.True(t, rows["chest girth"].Own)
	require.Equal(t, "5.5", rows["arm length, shoulder to wrist"].Size)
	require.Less(t, percent(t, rows["chest girth"].At), percent(t, rows["height"].At))
	require.Less(t, percent(t, rows["height"].At), percent(t, rows["arm length, shoulder to wrist"].At))
	require.False(t, rows["hip girth"].Own)
	require.Equal(t, "eight of ten such children", v.Range)
	require.Contains(t, rows["ankle girth"].Size, "under 2", "the chart does not go that low, and is not drawn on")
	before := -1.0
	for _, tick := range v.Ticks {
		require.Greater(t, percent(t, tick.At), before)
		before = percent(t, tick.At)
	}
	require.GreaterOrEqual(t, len(v.Ticks), 3)
}

// Sizes of months stand on the same scale as those of years.
func TestStandingOfABaby(t *testing.T) {
	v := testStanding(t, "size=12m&garment=hat")
	require.NotEmpty(t, v.Ticks)
	for _, g := range v.Groups {
		for _, r := range g.Rows {
			require.Contains(t, r.Size, "12m", r.Name)
		}
	}
}

func TestShared(t *testing.T) {
	var s shared
	s.reading("3", "16.0", tell.Reason{How: "between", From: "child, between 2 and 4", Formula: "a - b [x]", Notes: []string{"a note"}})
	s.reading("4", "17.5", tell.Reason{How: "derived", From: "child 4", Formula: "a - b [x]", Notes: []string{"a note"}})
	s.reading("5", "18.5", tell.Reason{How: "measured on the child"})
	s.reading("6", "19.0", tell.Reason{How: "published", From: "child 6 [x]"})
	s.once("4", "range 1–2")
	require.Equal(t, []string{
		"3: 16.0, between, child, between 2 and 4", "3, 4: a - b [x]", "3, 4: a note",
		"4: 17.5, derived, child 4", "5: 18.5, measured on the child", "6: 19.0, published: child 6 [x]", "4: range 1–2",
	}, s.lines())
}

func TestShowerUnits(t *testing.T) {
	for cm, want := range map[float64][2]string{53: {"53.0", "20 3/4"}, 24.6: {"24.5", "9 3/4"}, 0.6: {"0.5", "1/4"}} {
		require.Equal(t, want, [2]string{shower{unit: "cm"}.length(cm), shower{unit: "in"}.length(cm)})
	}
}
