package stitch

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
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

			// Spread has the same gaps, sorted.
			steps, err := Spread(n, rows)
			require.NoError(t, err)
			var spread []int
			total := 0
			for _, s := range steps {
				total += s.Rows()
				for range s.Times {
					spread = append(spread, s.Every)
				}
			}
			require.Equal(t, rows, total)
			slices.Sort(cycle)
			require.Equal(t, cycle, spread)
		}
	}
	_, err := Spread(9, 8)
	require.ErrorContains(t, err, "number of shapings is 9 in 8 rows")
	_, err = Spread(-1, 8)
	require.Error(t, err)
	_, err = Spread(1, -8)
	require.Error(t, err)
	steps, err := Spread(0, 8)
	require.NoError(t, err)
	require.Empty(t, steps)
	require.Nil(t, EvenRows(3, 2))
	require.Nil(t, EvenRows(0, 2))
}

func TestWording(t *testing.T) {
	for _, tt := range []struct {
		taper Taper
		want  string
	}{
		{Taper{From: 60, To: 38, Rows: 62, LongGapsFirst: true, RightSideOnly: true},
			"decrease 1 stitch at each side on right-side rows every 6th row 9 times (first on row 5), then every 4th row 2 times, then work 1 row plain"},
		{Taper{From: 60, To: 58, Rows: 10}, "decrease 1 stitch at each side every 10th row once"},
		{Taper{From: 20, To: 32, Rows: 6, InRounds: true}, "increase 1 stitch at each side every round 6 times"},
		{Taper{From: 20, To: 44, Rows: 6, AtOnce: 2, PlainAfter: 0}, "increase 2 stitches at each side every row 6 times"},
		{Taper{From: 20, To: 15, Rows: 12, Sides: 1, PlainBefore: 2}, "decrease 1 stitch at one side every 2nd row 5 times (first on row 4)"},
		{Taper{From: 20, To: 20, Rows: 12}, "work 12 rows plain"},
		{Taper{From: 20, To: 24, Rows: 30, PlainAfter: 5, InRounds: true}, "increase 1 stitch at each side every 12th round once, then every 13th round once, then work 5 rounds plain"},
	} {
		s, err := tt.taper.Schedule()
		require.NoError(t, err)
		require.Equal(t, tt.want, s.Wording())
	}
	// The issue's own sentence.
	s := Schedule{From: 60, Change: -2, Sides: 2, Rows: 62, FirstRow: 6, Steps: []Step{{6, 9}, {4, 2}}}
	require.Equal(t, "decrease 1 stitch at each side every 6th row 9 times, then every 4th row 2 times", s.Wording())
	require.Equal(t, 38, s.To())

	for n, want := range map[int]string{1: "1st", 2: "2nd", 3: "3rd", 4: "4th", 11: "11th", 12: "12th", 13: "13th", 21: "21st", 112: "112th", 103: "103rd"} {
		require.Equal(t, want, Ordinal(n))
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

var stepWords = regexp.MustCompile(`every (?:(\d+)(?:st|nd|rd|th) )?(?:row|round) (?:(\d+) times|once)(?: \(first on (?:row|round) (\d+)\))?`)
var plainWords = regexp.MustCompile(`work (\d+) (?:row|round)s? plain`)

// follow does what the words say and returns the shaping rows and all rows.
func follow(words string) (rows []int, total int) {
	at := 0
	for _, m := range stepWords.FindAllStringSubmatch(words, -1) {
		every, n := 1, 1
		if m[1] != "" {
			every, _ = strconv.Atoi(m[1])
		}
		if m[2] != "" {
			n, _ = strconv.Atoi(m[2])
		}
		if m[3] != "" {
			first, _ := strconv.Atoi(m[3])
			at = first - every
		}
		for range n {
			at += every
			rows = append(rows, at)
		}
	}
	total = at
	if m := plainWords.FindStringSubmatch(words); m != nil {
		n, _ := strconv.Atoi(m[1])
		total += n
	}
	return rows, total
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
		rows := s.RowNumbers()
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
		words := s.Wording()
		said, total := follow(words)
		require.Equal(t, fmt.Sprint(rows), fmt.Sprint(append([]int{}, said...)), words)
		if tp.From != tp.To {
			require.Equal(t, tp.Rows, total, words)
			require.Equal(t, tp.To < tp.From, strings.HasPrefix(words, "decrease"))
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
		for _, row := range r.RowNumbers() {
			require.True(t, row >= 1 && row <= r.Rows)
			require.True(t, !tp.RightSideOnly || (done+row)%2 == 1, "still on the right side")
		}
	})
}

func TestPlanTaper(t *testing.T) {
	g := Gauge{20, 28}
	p, err := PlanTaper(TaperTarget{Gauge: g, FromStitches: 49, ToCm: 15, ToLeastCm: 15.2, LengthCm: 28, PlainBeforeCm: 2, RightSideOnly: true})
	require.NoError(t, err)
	require.Equal(t, 49, p.From.Count)
	require.Equal(t, 31, p.To.Count, "odd like the start, and 15.5 cm, since 14.5 is under the floor")
	require.Equal(t, 78, p.Length.Count)
	require.Greater(t, p.Schedule.FirstRow, 6)

	_, err = PlanTaper(TaperTarget{Gauge: g, FromStitches: 49, ToCm: 15, LengthCm: 28, ToMultiple: Multiple{4, 0}})
	require.ErrorContains(t, err, "multiple at the end of the taper is 4n: want one with the parity of the 49 stitches")
	_, err = PlanTaper(TaperTarget{Gauge: g, FromStitches: 90, ToCm: 15, LengthCm: 5})
	require.ErrorContains(t, err, "shapings in")
}
