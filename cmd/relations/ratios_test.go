package main

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestVariableRatios(t *testing.T) {
	chest := variableIndex("chest")
	children := func(counts ...int) []child {
		var all []child
		for b, n := range counts {
			for i := range n {
				c := unmeasured(ratioBands[b].low)
				c.values[chest] = c.height * (0.5 + 0.001*float64(i%11))
				all = append(all, c)
			}
		}
		return all
	}
	for _, tc := range []struct {
		name   string
		counts []int
		want   []band
		n      []int
	}{
		{"all large", []int{60, 60, 60, 60, 60, 60}, ratioBands, []int{60, 60, 60, 60, 60, 60}},
		{"first joins the next", []int{20, 50, 60, 60, 60, 60},
			[]band{{83, 115}, {115, 130}, {130, 145}, {145, 160}, {160, 185}}, []int{70, 60, 60, 60, 60}},
		{"rest joins the one below", []int{60, 60, 60, 60, 60, 59},
			[]band{{83, 100}, {100, 115}, {115, 130}, {130, 145}, {145, 185}}, []int{60, 60, 60, 60, 119}},
		{"too few", []int{10, 10, 10, 10, 10, 9}, nil, nil},
		{"just enough", []int{10, 10, 10, 10, 10, 10}, []band{{83, 185}}, []int{60}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			var bands []band
			var n []int
			for _, r := range variableRatios("m", children(tc.counts...), chest) {
				bands = append(bands, r.band)
				n = append(n, r.count)
				require.InDelta(t, 0.5, r.p1, 0.0011)
				require.InDelta(t, 0.505, r.p50, 0.0011)
				require.InDelta(t, 0.51, r.p99, 0.0011)
			}
			require.Equal(t, tc.want, bands)
			require.Equal(t, tc.n, n)
		})
	}
}

func TestVariableRatiosDropSlips(t *testing.T) {
	chest := variableIndex("chest")
	var children []child
	for i := range 101 {
		c := unmeasured(100)
		c.values[chest] = 50 + 0.1*float64(i%11)
		children = append(children, c)
	}
	children[0].values[chest] = 500
	got := variableRatios("m", children, chest)
	require.Len(t, got, 1)
	require.Equal(t, 100, got[0].count)
	require.LessOrEqual(t, got[0].p99, 0.51+1e-9)
}
