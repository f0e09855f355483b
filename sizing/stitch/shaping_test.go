package stitch

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// euclid is the even distribution of hits over slots by Bjorklund's method:
// the remainder groups are dealt out to the others until one kind is left. It
// shares no arithmetic with EvenRows.
func euclid(hits, slots int) []bool {
	a, b := [][]bool{}, [][]bool{}
	for range hits {
		a = append(a, []bool{true})
	}
	for range slots - hits {
		b = append(b, []bool{false})
	}
	for len(b) > 1 {
		n := min(len(a), len(b))
		var next [][]bool
		for i := range n {
			next = append(next, append(slices.Clone(a[i]), b[i]...))
		}
		if len(a) > n {
			b = a[n:]
		} else {
			b = b[n:]
		}
		a = next
	}
	return slices.Concat(slices.Concat(a...), slices.Concat(b...))
}

func gapsOf(rows []int) []int {
	gaps := slices.Clone(rows)
	for i := len(gaps) - 1; i > 0; i-- {
		gaps[i] -= gaps[i-1]
	}
	return gaps
}

// sameNecklace reports that b is a rotation of a.
func sameNecklace(a, b []int) bool {
	for i := range a {
		if slices.Equal(slices.Concat(a[i:], a[:i]), b) {
			return true
		}
	}
	return false
}

func TestSpreadIsEuclid(t *testing.T) {
	for rows := 1; rows <= 40; rows++ {
		for n := 1; n <= rows; n++ {
			at := EvenRows(n, rows)
			require.Equal(t, rows, at[n-1])
			var hits []int
			pattern := euclid(n, rows)
			for i, hit := range pattern {
				if hit {
					hits = append(hits, i)
				}
			}
			cycle := make([]int, n)
			for i := range hits {
				cycle[i] = (hits[(i+1)%n] - hits[i] + rows - 1) % rows
				cycle[i]++
			}
			require.True(t, sameNecklace(gapsOf(at), cycle), "%d in %d: %v against %v", n, rows, gapsOf(at), cycle)

			// spread has the same gaps, sorted.
			steps := spread(n, rows)
			var spread []int
			total := 0
			for _, s := range steps {
				total += s.rows()
				for range s.Times {
					spread = append(spread, s.Every)
				}
			}
			require.Equal(t, rows, total)
			slices.Sort(cycle)
			require.Equal(t, cycle, spread)
		}
	}
	require.Nil(t, EvenRows(3, 2))
	require.Nil(t, EvenRows(0, 2))
}

func TestTaperSteps(t *testing.T) {
	for _, tt := range []struct {
		taper     Taper
		first     int
		steps     []Step
		thenPlain int
	}{
		{Taper{From: 60, To: 38, Rows: 62, LongGapsFirst: true, RightSideOnly: true}, 5, []Step{{6, 9}, {4, 2}}, 1},
		{Taper{From: 60, To: 58, Rows: 10}, 10, []Step{{10, 1}}, 0},
		{Taper{From: 20, To: 32, Rows: 6, InRounds: true}, 1, []Step{{1, 6}}, 0},
		{Taper{From: 20, To: 44, Rows: 6, AtOnce: 2}, 1, []Step{{1, 6}}, 0},
		{Taper{From: 20, To: 15, Rows: 12, Sides: 1, PlainBefore: 2}, 4, []Step{{2, 5}}, 0},
		{Taper{From: 20, To: 20, Rows: 12}, 0, nil, 12},
		{Taper{From: 20, To: 24, Rows: 30, PlainAfter: 5, InRounds: true}, 12, []Step{{12, 1}, {13, 1}}, 5},
	} {
		s, err := tt.taper.Schedule()
		require.NoError(t, err)
		require.Equal(t, tt.first, s.FirstRow)
		require.Equal(t, tt.steps, s.Steps)
		require.Equal(t, tt.thenPlain, s.PlainAfter())
	}
}

func TestTaperRefused(t *testing.T) {
	for _, tt := range []struct {
		taper Taper
		want  string
	}{
		{Taper{From: 60, To: 41, Rows: 60}, "a change that divides by 2: end on 42 or 40"},
		{Taper{From: 60, To: 20, Rows: 10}, "taper is 20 shapings in 10 rows: want at least 20 rows, or 2 stitches at each side at once"},
		{Taper{From: 60, To: 40, Rows: 10, RightSideOnly: true}, "10 shapings in 5 right-side rows"},
		{Taper{From: 60, To: 40, Rows: 10, PlainAfter: 11}, "at most its 10 rows"},
		{Taper{From: 0, To: 40, Rows: 10}, "stitches before the taper is 0"},
		{Taper{From: 60, To: -4, Rows: 10}, "stitches after the taper is -4"},
		{Taper{From: 60, To: 40, Rows: -1}, "rows of the taper is -1"},
		{Taper{From: 60, To: 40, Rows: 20, Sides: 3}, "sides shaped is 3"},
		{Taper{From: 60, To: 40, Rows: 20, AtOnce: -1}, "stitches shaped at once is -1"},
		{Taper{From: 60, To: 40, Rows: 40, RightSideOnly: true, InRounds: true}, "rounds have no wrong side"},
	} {
		_, err := tt.taper.Schedule()
		require.ErrorContains(t, err, tt.want)
	}
}

// shapingRows lists the rows that shape, by working the steps one by one.
func shapingRows(s Schedule) []int {
	var rows []int
	at := s.FirstRow
	for i, st := range s.Steps {
		for j := range st.Times {
			if i > 0 || j > 0 {
				at += st.Every
			}
			rows = append(rows, at)
		}
	}
	return rows
}

func drawTaper(t *rapid.T) Taper {
	tp := Taper{
		From:          rapid.IntRange(1, 120).Draw(t, "from"),
		Rows:          rapid.IntRange(0, 150).Draw(t, "rows"),
		Sides:         rapid.IntRange(1, 2).Draw(t, "sides"),
		AtOnce:        rapid.IntRange(1, 3).Draw(t, "at once"),
		PlainBefore:   rapid.IntRange(0, 9).Draw(t, "before"),
		PlainAfter:    rapid.IntRange(0, 9).Draw(t, "after"),
		RightSideOnly: rapid.Bool().Draw(t, "right side"),
		LongGapsFirst: rapid.Bool().Draw(t, "long first"),
	}
	tp.InRounds = !tp.RightSideOnly && rapid.Bool().Draw(t, "rounds")
	tp.To = tp.From + tp.Sides*tp.AtOnce*rapid.IntRange(-40, 40).Draw(t, "shapings")
	return tp
}

func TestTaperProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tp := drawTaper(t)
		s, err := tp.Schedule()
		free := 0
		for r := tp.PlainBefore + 1; r <= tp.Rows-tp.PlainAfter; r++ {
			if !tp.RightSideOnly || r%2 == 1 {
				free++
			}
		}
		fits := tp.To >= 1 && tp.PlainBefore+tp.PlainAfter <= tp.Rows && abs(tp.To-tp.From)/(tp.Sides*tp.AtOnce) <= free
		require.Equal(t, fits, err == nil, "%v", err)
		if err != nil {
			return
		}
		rows := shapingRows(s)
		require.Len(t, rows, s.Shapings())
		require.Equal(t, tp.To, s.To())
		require.Equal(t, tp.To, s.StitchesAfter(tp.Rows))
		require.Equal(t, tp.From, s.StitchesAfter(0))
		last := tp.From
		shaped := 0
		for r := 1; r <= tp.Rows; r++ {
			if shaped < len(rows) && rows[shaped] == r {
				shaped++
			}
			n := s.StitchesAfter(r)
			require.Equal(t, tp.From+shaped*s.Change, n, "row %d", r)
			require.GreaterOrEqual(t, (n-last)*sign(tp.To-tp.From), 0, "never back")
			last = n
		}
		require.Equal(t, len(rows), shaped, "all shaping within the part")
		for i, r := range rows {
			require.Greater(t, r, tp.PlainBefore)
			require.LessOrEqual(t, r, tp.Rows-tp.PlainAfter)
			require.True(t, !tp.RightSideOnly || r%2 == 1, "row %d is a wrong-side row", r)
			require.True(t, i == 0 || r > rows[i-1])
		}
		if tp.From != tp.To {
			require.Equal(t, rows[len(rows)-1], s.lastRow())
			require.Equal(t, tp.Rows, s.lastRow()+s.PlainAfter())
		}
	})
}

func TestRespace(t *testing.T) {
	// A sleeve of 60 rows is tried on after 30 and made 12 rows longer.
	s, err := Taper{From: 60, To: 40, Rows: 60, PlainAfter: 6}.Schedule()
	require.NoError(t, err)
	r, err := s.Respace(30, 42)
	require.NoError(t, err)
	require.Equal(t, s.StitchesAfter(30), r.From)
	require.Equal(t, 40, r.To())
	require.Equal(t, 42, r.Rows)
	require.Equal(t, 6, r.PlainAfter())
	_, err = s.Respace(61, 10)
	require.ErrorContains(t, err, "rows done is 61: want 0 to 60")
	_, err = s.Respace(10, 2)
	require.Error(t, err)

	rapid.Check(t, func(t *rapid.T) {
		tp := drawTaper(t)
		s, err := tp.Schedule()
		if err != nil {
			return
		}
		done := rapid.IntRange(0, s.Rows).Draw(t, "done")
		r, err := s.Respace(done, s.Rows-done)
		require.NoError(t, err, "the rows that were left always do")
		require.Equal(t, s.Rows-done, r.Rows)
		require.Equal(t, s.To(), r.To())
		for _, row := range shapingRows(r) {
			require.True(t, row >= 1 && row <= r.Rows)
			require.True(t, !tp.RightSideOnly || (done+row)%2 == 1, "still on the right side")
		}
	})
}
