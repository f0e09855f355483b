package plan

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func day(t *testing.T, s string) time.Time {
	t.Helper()
	d, err := ParseDay(s)
	require.NoError(t, err)
	return d
}

// Hours follow from the pace, days from the hours a day, and both are set against the
// day it should be ready.
func TestPace(t *testing.T) {
	require.Nil(t, Pace{}.For(1000))
	p := Pace{Per10Min: 100, HoursADay: 2, From: day(t, "2026-12-01"), By: day(t, "2026-12-10")}
	got := p.For(6000)
	require.Equal(t, &Time{Stitches: 6000, Hours: 10, Days: 5, Ready: day(t, "2026-12-05"), DaysLeft: 10, ADay: 1}, got)
	require.False(t, got.Late(p))
	require.False(t, p.For(12000).Late(p), "ready on the very day")
	late := p.For(12001)
	require.True(t, late.Late(p))
	require.Equal(t, day(t, "2026-12-11"), late.Ready)

	unknown := Pace{Per10Min: 100, From: day(t, "2026-12-01"), By: day(t, "2026-12-01")}
	require.InDelta(t, 10, unknown.For(6000).ADay, 1e-9)
	require.False(t, unknown.For(6000).Late(unknown))
	require.True(t, unknown.For(15000).Late(unknown), "25 hours in a day")
	require.Zero(t, Pace{Per10Min: 100}.For(6000).DaysLeft)
	require.Zero(t, p.For(0).Hours)
	require.Equal(t, []int{1, 1, 2}, []int{p.For(0).Days, p.For(1200).Days, p.For(1201).Days}, "a day that is begun")
	require.False(t, unknown.For(14400).Late(unknown), "24 hours in a day can be worked")

	// Without the first day or the last nothing can be late.
	for _, half := range []Pace{{Per10Min: 100, HoursADay: 2, From: p.From}, {Per10Min: 100, HoursADay: 2, By: p.By}, {Per10Min: 1, By: p.By}} {
		require.NoError(t, half.Check())
		got := half.For(60000)
		require.Zero(t, got.DaysLeft)
		require.Zero(t, got.ADay)
		require.False(t, got.Late(half))
	}
	year := Pace{Per10Min: 100, From: day(t, "2026-03-01"), By: day(t, "2027-02-28")}
	require.Equal(t, 365, year.For(1).DaysLeft)
	require.NoError(t, Pace{Per10Min: 100, From: p.From, By: p.From}.Check())
}

func TestPacesThatAreNone(t *testing.T) {
	for _, p := range []Pace{{Per10Min: -1}, {Per10Min: 5000}, {HoursADay: 25}, {HoursADay: -1}, {From: day(t, "2026-12-02"), By: day(t, "2026-12-01")}} {
		require.Error(t, p.Check(), "%v", p)
	}
	for _, text := range []string{"", "24.12.2026", "2026-13-01", "soon"} {
		_, err := ParseDay(text)
		require.ErrorContains(t, err, "such as 2026-12-24", text)
	}
}

// The stitches of a plan are those of all rows of all copies; a short row has fewer
// than are on the work.
func TestStitchesOfAPlan(t *testing.T) {
	p := cardigan(t, stocking)
	n := 0
	for _, s := range p.Sections {
		if s.ID == "back-neck" {
			n += s.worked(s.Rows())
			require.Less(t, s.worked(s.Rows()), s.From*s.Rows())
			continue
		}
		for r := range s.Rows() {
			n += s.StitchesAfter(r+1) * s.Copies
		}
	}
	require.Equal(t, n, p.Stitches())
}

// A pace of 1 to 2000 stitches and up to a whole day are taken, beyond is refused.
func TestPaceHasBounds(t *testing.T) {
	for x, ok := range map[float64]bool{1: true, 2000: true, 0.99: false, 2000.1: false, -1: false} {
		require.Equal(t, ok, Pace{Per10Min: x}.Check() == nil, "%g stitches", x)
	}
	for x, ok := range map[float64]bool{0.1: true, 24: true, 24.1: false, -0.1: false} {
		require.Equal(t, ok, Pace{Per10Min: 100, HoursADay: x}.Check() == nil, "%g hours", x)
	}
}
