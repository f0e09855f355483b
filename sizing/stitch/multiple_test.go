package stitch

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseMultiple(t *testing.T) {
	for _, tt := range []struct {
		in    string
		want  Multiple
		print string
	}{
		{"4n", Multiple{4, 0}, "4n"},
		{"6n+2", Multiple{6, 2}, "6n+2"},
		{" 12 N + 14 ", Multiple{12, 14}, "12n+14"},
		{"6n-1", Multiple{6, -1}, "6n-1"},
		{"even", Even, "even"},
		{"2n", Even, "even"},
		{"Odd", Odd, "odd"},
		{"2n+1", Odd, "odd"},
		{"plain", Plain, "plain"},
		{"n", Plain, "plain"},
		{"", Plain, "plain"},
		{"n+2", Multiple{1, 2}, "n+2"},
	} {
		m, err := ParseMultiple(tt.in)
		require.NoError(t, err, tt.in)
		require.Equal(t, tt.want, m, tt.in)
		require.Equal(t, tt.print, m.String())
	}
	for _, bad := range []string{"0n", "-4n", "4", "n4", "4n+", "4n2", "4n*2", "4n-4", "9999n", "4n+9999", "four", "4n+2n", "4.5n", "4n++2", "99999999999999999999n"} {
		_, err := ParseMultiple(bad)
		require.Error(t, err, bad)
	}
	require.Equal(t, "plain", Multiple{}.String(), "the zero value is plain")

}

func TestCount(t *testing.T) {
	for _, tt := range []struct {
		m       Multiple
		x       float64
		nearest int
		up      int
		down    int // -1: none
	}{
		{Plain, 105.6, 106, 106, 105},
		{Plain, 105.5, 106, 106, 105},
		{Multiple{4, 0}, 105.6, 104, 108, 104},
		{Multiple{4, 0}, 106, 108, 108, 104},
		{Multiple{4, 0}, 104, 104, 104, 104},
		{Multiple{6, 2}, 104, 104, 104, 104},
		{Multiple{12, 14}, 10, 14, 14, -1},
		{Multiple{4, 0}, 1, 4, 4, -1},
		{Multiple{6, -1}, 8, 11, 11, 5},
		{Multiple{}, 0.2, 1, 1, -1},
		{Multiple{4, 0}, 0.1 * 3 * 400, 120, 120, 120}, // 120.00000000000001
		{Plain, 120 * (1 - 1e-13), 120, 120, 120},
	} {
		got, err := tt.m.Count(tt.x, Nearest)
		require.NoError(t, err)
		require.Equal(t, tt.nearest, got, "%v nearest %v", tt.m, tt.x)
		got, err = tt.m.Count(tt.x, Up)
		require.NoError(t, err)
		require.Equal(t, tt.up, got, "%v up %v", tt.m, tt.x)
		got, err = tt.m.Count(tt.x, Down)
		if tt.down < 0 {
			require.Error(t, err)
			continue
		}
		require.NoError(t, err)
		require.Equal(t, tt.down, got, "%v down %v", tt.m, tt.x)
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 1e9} {
		_, err := Plain.Count(bad, Nearest)
		require.Error(t, err)
		_, _, err = Plain.Neighbours(bad)
		require.Error(t, err)
		_, err = Plain.AtLeast(10, bad)
		require.Error(t, err)
	}
	_, err := Plain.Count(3, Rounding(9))
	require.Error(t, err)
	_, err = Multiple{4, -4}.Count(3, Up)
	require.Error(t, err)
	require.Equal(t, Multiple{6, 0}, Multiple{6, 2}.InTheRound())

	below, above, err := Multiple{7, 0}.Neighbours(180)
	require.NoError(t, err)
	require.Equal(t, []int{175, 182}, []int{below, above})
	below, above, err = Multiple{7, 0}.Neighbours(182)
	require.NoError(t, err)
	require.Equal(t, []int{182, 182}, []int{below, above})
	below, above, err = Multiple{7, 0}.Neighbours(3)
	require.NoError(t, err)
	require.Equal(t, []int{0, 7}, []int{below, above})
}

// counts is every count of the multiple up to a limit, found by its definition.
func (m Multiple) counts(limit int) []int {
	var all []int
	for k := 0; ; k++ {
		n := k*max(m.Repeat, 1) + m.Edge
		if n > limit {
			return all
		}
		if n >= 1 {
			all = append(all, n)
		}
	}
}

func TestCountIsNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMultiple(t)
		x := rapid.Float64Range(0, 300).Draw(t, "x")
		all := m.counts(400)
		require.Equal(t, all[0], m.least())
		best := all[0]
		for _, n := range all {
			require.True(t, m.Has(n))
			if math.Abs(float64(n)-x) < math.Abs(float64(best)-x) {
				best = n
			}
		}
		got, err := m.Count(x, Nearest)
		require.NoError(t, err)
		require.True(t, m.Has(got))
		require.InDelta(t, math.Abs(float64(best)-x), math.Abs(float64(got)-x), 1e-6)
		up, err := m.Count(x, Up)
		require.NoError(t, err)
		require.GreaterOrEqual(t, float64(up), x-1e-6)
		require.LessOrEqual(t, got, up)

		back, err := ParseMultiple(m.String())
		require.NoError(t, err)
		require.Equal(t, m, back)
	})
}

func TestWithParity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMultiple(t)
		odd := rapid.Bool().Draw(t, "odd")
		var want []int
		for _, n := range m.counts(200) {
			if (n%2 == 1) == odd {
				want = append(want, n)
			}
		}
		got, ok := m.WithParity(odd)
		require.Equal(t, len(want) > 0, ok)
		if ok {
			require.Equal(t, want, got.counts(200))
			require.Equal(t, want[0], got.least())
		}
	})
}
