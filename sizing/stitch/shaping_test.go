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

// The least and the most of each part of a taper.
func TestTapersHaveBounds(t *testing.T) {
	good := Taper{From: 30, To: 20, Rows: 40}
	for want, change := range map[string]func(*Taper){
		"":                                                                                func(*Taper) {},
		"stitches before the taper is 0: want 1":                                          func(p *Taper) { p.From = 0 },
		"stitches after the taper is 0: want 1":                                           func(p *Taper) { p.To = 0 },
		"rows of the taper is -1: want 0":                                                 func(p *Taper) { p.Rows = -1 },
		"plain rows before the taper is -1":                                               func(p *Taper) { p.PlainBefore = -1 },
		"plain rows after the taper is -1":                                                func(p *Taper) { p.PlainAfter = -1 },
		"sides shaped is 3: want 1 or 2":                                                  func(p *Taper) { p.Sides = 3 },
		"sides shaped is -1: want 1 or 2":                                                 func(p *Taper) { p.Sides = -1 },
		"stitches shaped at once is 21: want 1":                                           func(p *Taper) { p.AtOnce = 21 },
		"stitches shaped at once is -1: want 1":                                           func(p *Taper) { p.AtOnce = -1 },
		"plain rows of the taper is 41: want":                                             func(p *Taper) { p.PlainBefore, p.PlainAfter = 20, 21 },
		"5 shapings in 4 rows: want at least 5 r":                                         func(p *Taper) { p.PlainBefore, p.PlainAfter = 20, 16 },
		"want at least 5 right-side rows, or 2 st":                                        func(p *Taper) { p.Rows, p.RightSideOnly = 8, true },
		"want at least 5 rows, or 5 stitches at":                                          func(p *Taper) { p.Rows = 1 },
		"5 shapings in 0 rows: want at least 5 r":                                         func(p *Taper) { p.Rows = 0 },
		"by 4 at a time: want a change that divides by 4: end on 22 or 18":                func(p *Taper) { p.AtOnce = 2 },
		"by 6 at a time: want a change that divides by 6: end on 24 or 18":                func(p *Taper) { p.AtOnce = 3 },
		"from 30 to 41, by 6 at a time: want a change that divides by 6: end on 36 or 42": func(p *Taper) { p.To, p.AtOnce = 41, 3 },
	} {
		p := good
		change(&p)
		_, err := p.Schedule()
		if want == "" {
			require.NoError(t, err)
			continue
		}
		require.ErrorContains(t, err, want)
	}
	for _, p := range []Taper{{From: 1, To: 3, Rows: 1}, {From: 41, To: 1, Rows: 1, AtOnce: 20}, {From: 21, To: 1, Rows: 1, AtOnce: 20, Sides: 1}, {From: 3, To: 1, Rows: 3, PlainBefore: 1, PlainAfter: 1}, {From: 1, To: 1}} {
		s, err := p.Schedule()
		require.NoError(t, err, "%+v", p)
		require.Equal(t, p.To, s.To())
	}
}

// What is left of a taper is as even as one begun there, its plain rows kept; where it has
// two distances, the long ones are where they were.
func TestRespacedTapersAreEven(t *testing.T) {
	drawn := rapid.Custom(drawTaper)
	worked := 0
	for seed := range 3000 {
		tp := drawn.Example(seed)
		s, err := tp.Schedule()
		if err != nil {
			continue
		}
		done, rows := seed%(s.Rows+1), (seed*7)%90
		plain := min(s.Rows-s.lastRow(), rows, s.Rows-done)
		var may []int // of the rows to come those that may shape
		for r := 1; r <= rows-plain; r++ {
			if !tp.RightSideOnly || (done+r)%2 == 1 {
				may = append(may, r)
			}
		}
		left := 0
		for _, r := range shapingRows(s) {
			if r > done {
				left++
			}
		}
		r, err := s.Respace(done, rows)
		if left > len(may) {
			require.Error(t, err)
			continue
		}
		require.NoError(t, err, "%+v after %d, %d rows", tp, done, rows)
		at := shapingRows(r)
		require.Len(t, at, left)
		require.Equal(t, []int{s.StitchesAfter(done), s.To(), rows, max(s.Sides, 1)}, []int{r.From, r.To(), r.Rows, r.Sides})
		require.Equal(t, []bool{s.InRounds, s.RightSideOnly}, []bool{r.InRounds, r.RightSideOnly})
		if left == 0 {
			require.Zero(t, r.FirstRow)
			continue
		}
		worked++
		var places []int // in the list of rows that may shape, from 1
		for _, row := range at {
			i := slices.Index(may, row)
			require.GreaterOrEqual(t, i, 0, "%+v after %d, %d rows: row %d", tp, done, rows, row)
			places = append(places, i+1)
		}
		gaps := gapsOf(places)
		require.LessOrEqual(t, slices.Max(gaps)-slices.Min(gaps), 1)
		require.Equal(t, len(may), places[left-1])
		longFirst := len(s.Steps) == 2 && s.Steps[0].Every > s.Steps[1].Every
		require.True(t, slices.IsSortedFunc(gaps, func(a, b int) int {
			if longFirst {
				return b - a
			}
			return a - b
		}), "%+v after %d: %v", tp, done, gaps)
	}
	require.Greater(t, worked, 500)
	s, err := Taper{From: 30, To: 20, Rows: 40}.Schedule()
	require.NoError(t, err)
	for done, ok := range map[int]bool{-1: false, 0: true, 40: true, 41: false} {
		_, err := s.Respace(done, 20)
		require.Equal(t, ok, err == nil, "after %d: %v", done, err)
	}
}
