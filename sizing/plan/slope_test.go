package plan

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// The nearest number that is accepted is the one that trying all of them finds; half way
// goes up.
func TestNearestIsFoundByTrying(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 4000 {
		want := float64(r.IntN(400)-40) / 4
		least := r.IntN(60) - 5
		most := least + r.IntN(40) - 3
		every, rest := 1+r.IntN(5), r.IntN(5)
		ok := func(n int) bool { return (n%every+every)%every == rest%every }
		best, found := 0, false
		for n := least; n <= most; n++ {
			if ok(n) && (!found || math.Abs(float64(n)-want) <= math.Abs(float64(best)-want)) {
				best, found = n, true
			}
		}
		got, is := nearest(want, least, most, ok)
		require.Equal(t, []any{best, found}, []any{got, is}, "%g from %d to %d by %d", want, least, most, every)
	}
	require.Equal(t, []int{3, 3, 4, -2}, []int{atLeast(3), atLeast(3 + 1e-12), atLeast(3.001), atLeast(-2.9)})
	require.True(t, pairs(7).Has(9) && !pairs(7).Has(8) && pairs(4).Has(10) && !pairs(4).Has(5))
}

// Sides are shaped to the count nearest to what was asked for that can be reached by one
// stitch at each side in a row, in the rows that are free; by more at a time only for a
// count that is nearer by more than a stitch. Rows that join are not shaped while there is
// another way.
func TestTaperReachesTheNearest(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	worked := 0
	for range 3000 {
		s := slope{from: 10 + r.IntN(60), rows: 1 + r.IntN(50), joins: r.IntN(2), inRounds: r.IntN(2) == 0}
		s.rightSideOnly = !s.inRounds && r.IntN(2) == 0
		s.target = float64(s.from) + float64(r.IntN(160)-80)/3
		s.least, s.most = max(2, s.from-r.IntN(30)), s.from+r.IntN(30)
		s.plain = r.IntN(10)
		sc, err := s.taper()
		if err != nil {
			continue
		}
		worked++
		require.Equal(t, s.rows, sc.Rows)
		require.True(t, sc.To() >= s.least && sc.To() <= s.most, "%+v: %d", s, sc.To())
		require.Zero(t, (sc.To()-s.from)%2)
		at := max(sc.Change, -sc.Change) / 2
		require.LessOrEqual(t, at, 4)
		free := s.rows - s.joins
		if s.rightSideOnly {
			free = (s.rows - s.joins) / 2
		}
		if s.joins > 0 && s.rows > fewRows && free > 0 {
			require.NotEqual(t, 1, sc.FirstRow, "%+v: the row that joins is shaped", s)
		}
		// Of all counts that can be reached, none is nearer by more than a stitch.
		for n := s.least; n <= s.most; n++ {
			if (n-s.from)%2 == 0 && max(n-s.from, s.from-n)/2 <= free {
				require.LessOrEqual(t, s.off(sc.To()), s.off(n)+1+1e-9, "%+v: %d, and %d can be reached", s, sc.To(), n)
				if at == 1 {
					require.LessOrEqual(t, s.off(sc.To()), s.off(n)+1e-9, "%+v", s)
				}
			}
		}
	}
	require.Greater(t, worked, 2000)
	_, err := slope{from: 10, target: 20, least: 13, most: 13, rows: 9}.taper()
	require.ErrorContains(t, err, "no count from 13 to 13 can be reached from 10 by whole stitches at each side")
}
