package order

import (
	"context"
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// tableOf makes costs of whole numbers, so that equals are many, for each child in a row.
func tableOf(rows ...[]float64) *costs {
	t := &costs{len(rows), len(rows[0]), make([]float64, len(rows)*len(rows[0]))}
	for i, row := range rows {
		for s, c := range row {
			t.size(s)[i] = c
		}
	}
	return t
}

func drawRows(r *rand.Rand, children, sizes, most int) [][]float64 {
	rows := make([][]float64, children)
	for i := range rows {
		for range sizes {
			rows[i] = append(rows[i], float64(r.IntN(most)))
		}
	}
	return rows
}

// costOf is what a set of sizes costs the children, each taking its cheapest.
func costOf(rows [][]float64, set []int) float64 {
	total := 0.0
	for _, row := range rows {
		least := math.Inf(1)
		for _, s := range set {
			least = min(least, row[s])
		}
		total += least
	}
	return total
}

// setsOf are all sets of 1 to k of n.
func setsOf(n, k int) (all [][]int) {
	for mask := uint(1); mask < 1<<n; mask++ {
		if bits.OnesCount(mask) > k {
			continue
		}
		var set []int
		for s := range n {
			if mask>>s&1 == 1 {
				set = append(set, s)
			}
		}
		all = append(all, set)
	}
	return all
}

// falls reports whether a child's costs fall to a lowest stretch and rise after it: no
// size costs more than both a lower and a higher one.
func falls(row []float64) bool {
	for a := range row {
		for b := a; b < len(row); b++ {
			for c := b; c < len(row); c++ {
				if row[b] > row[a] && row[b] > row[c] {
					return false
				}
			}
		}
	}
	return true
}

// Costs are in order where each child's are; levelled costs are, and as high as they can
// be without being higher anywhere.
func TestCostsInOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 1))
	seen := map[bool]int{}
	for range 3000 {
		rows := drawRows(r, 1+r.IntN(3), 1+r.IntN(6), 4)
		table := tableOf(rows...)
		ordered := true
		for _, row := range rows {
			ordered = ordered && falls(row)
		}
		seen[ordered]++
		require.Equal(t, ordered, table.inOrder(), rows)
		level := table.level()
		require.True(t, level.inOrder())
		for i, row := range rows {
			best := slices.Index(row, slices.Min(row))
			require.Equal(t, best, table.cheapest(i))
			for s := range row { // no size farther out may be cheaper
				outwards := row[:s+1]
				if s >= best {
					outwards = row[s:]
				}
				require.InDelta(t, slices.Min(outwards), level.size(s)[i], 0)
			}
		}
		require.InDelta(t, costOf(rows, []int{0}), table.cost([]int{0}), 0)
	}
	require.True(t, seen[true] > 300 && seen[false] > 300)
}

// Of sets that cost the same the one of fewest sizes is taken, and of these the one whose
// last size is lowest, then its last but one. Enumeration has k sizes, and takes the first.
func TestSetsThatCostTheSame(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 1))
	for range 1500 {
		rows := drawRows(r, 1+r.IntN(5), 1+r.IntN(6), 5)
		table := tableOf(rows...)
		k := 1 + r.IntN(table.sizes)
		level := table.level()
		levelled := make([][]float64, len(rows))
		for i := range rows {
			for s := range table.sizes {
				levelled[i] = append(levelled[i], level.size(s)[i])
			}
		}
		var best, first []int
		for _, set := range setsOf(table.sizes, k) {
			cost := costOf(levelled, set)
			if best == nil || cost < costOf(levelled, best) || cost == costOf(levelled, best) && lastIsLower(set, best) {
				best = set
			}
			if len(set) == k && (first == nil || costOf(rows, set) < costOf(rows, first) || costOf(rows, set) == costOf(rows, first) && slices.Compare(set, first) < 0) {
				first = set
			}
		}
		require.Equal(t, best, level.along(k), levelled)
		require.Equal(t, first, table.enumerate(t.Context(), k), rows)

		// Taken are those that a child takes, the first of equals.
		var taken []int
		best = nil
		for s := range table.sizes {
			if r.IntN(3) > 0 || s == table.sizes-1 && best == nil {
				best = append(best, s)
			}
		}
		for _, s := range best {
			for _, row := range rows {
				cheapest := best[0]
				for _, b := range best {
					if row[b] < row[cheapest] {
						cheapest = b
					}
				}
				if cheapest == s {
					taken = append(taken, s)
					break
				}
			}
		}
		require.Equal(t, taken, table.taken(best))
	}
}

// Exchanged one by one, no exchange is left that helps.
func TestExchangedSetsAreTheBestOfTheirNeighbours(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 1))
	for range 400 {
		rows := drawRows(r, 1+r.IntN(15), 4+r.IntN(7), 30)
		table := tableOf(rows...)
		k := 1 + r.IntN(table.sizes)
		from := []int{r.IntN(table.sizes)}
		set := table.exchange(t.Context(), from, k)
		require.Len(t, set, k)
		require.True(t, slices.IsSorted(set))
		require.Len(t, slices.Compact(slices.Clone(set)), k)
		cost := costOf(rows, set)
		require.LessOrEqual(t, cost, costOf(rows, from))
		for i := range set {
			for s := range table.sizes {
				if !slices.Contains(set, s) {
					other := slices.Clone(set)
					other[i] = s
					require.LessOrEqual(t, cost, costOf(rows, other))
				}
			}
		}
	}
	ended, end := context.WithCancel(t.Context())
	end()
	table := tableOf([]float64{3, 1, 2}, []float64{1, 3, 2})
	require.Equal(t, []int{0, 2}, table.exchange(ended, []int{2}, 2), "as it stood, filled up from the lowest")
	require.Empty(t, table.enumerate(ended, 2))
}

func lastIsLower(a, b []int) bool {
	if len(a) != len(b) {
		return len(a) < len(b)
	}
	for i := len(a) - 1; i >= 0; i-- {
		if a[i] != b[i] {
			return a[i] < b[i]
		}
	}
	return false
}

// All sets are tried where there are no more of them than may be, times the children.
func TestTrialsHaveABound(t *testing.T) {
	require.InDelta(t, 10, choose(5, 2), 0)
	require.InDelta(t, 1, choose(5, 5), 0)
	r := rand.New(rand.NewPCG(13, 1))
	tried := 0
	for range 200 {
		l, offer := random(t, r, 6, 6, 3, 12)
		c, err := best(t.Context(), l, offer, 3, Misfit{2}, 20*6)
		require.NoError(t, err)
		few, err := best(t.Context(), l, offer, 3, Misfit{2}, 20*6-1)
		require.NoError(t, err)
		require.Equal(t, c.Method == Enumeration, few.Method == Exchange)
		require.GreaterOrEqual(t, few.Cost, few.Bound)
		if c.Method == Enumeration {
			tried++
		}
		// What no child would take is left out, also where it costs nothing.
		for _, s := range few.Sizes {
			require.True(t, slices.ContainsFunc(taking(l, offer, few.Sizes, Misfit{2}), func(n int) bool { return n == s }))
		}
	}
	require.Greater(t, tried, 10)
	// Three children, of five sizes: two cost 14, by whichever way, and no third makes it less.
	l := list(t, []float64{53, 54, 51}, []float64{52, 50, 55}, []float64{55, 51, 51})
	offer := [][]float64{{55, 50, 55}, {52, 53, 55}, {50, 50, 50}, {50, 55, 55}, {52, 50, 52}}
	for trials, method := range map[float64]Method{0: Exchange, maxTrials: Enumeration} {
		c, err := best(t.Context(), l, offer, 3, Misfit{1}, trials)
		require.NoError(t, err)
		require.Equal(t, []int{0, 1}, c.Sizes)
		require.InDelta(t, 14, c.Cost, 1e-9)
		require.Equal(t, method, c.Method)
	}
	c, err := Best(t.Context(), list(t, []float64{50}, []float64{51}), [][]float64{{50}, {51}, {70}, {80}}, 4, Misfit{2})
	require.NoError(t, err)
	require.Equal(t, []int{0, 1}, c.Sizes)
	require.Zero(t, c.Bound)
	require.Equal(t, InOrder, c.Method)
}

// taking are the sizes that children take of a set.
func taking(l *List, offer [][]float64, set []int, m Misfit) (taken []int) {
	for i := range l.Len() {
		best, cost := 0, math.Inf(1)
		for _, s := range set {
			sum := 0.0
			for j, need := range l.Child(i) {
				if by := offer[s][j] - need; by < 0 {
					sum -= m.Small * by
				} else {
					sum += by
				}
			}
			if sum < cost {
				best, cost = s, sum
			}
		}
		taken = append(taken, best)
	}
	return taken
}

// Who is too small or too big, by how much on average and at most: counted one by one.
func TestAssignIsCountedOneByOne(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 1))
	for range 300 {
		l, offer := random(t, r, 1+r.IntN(30), 1+r.IntN(6), 1+r.IntN(3), 4)
		m, tolerance := Misfit{Small: 0.5 + 4*r.Float64()}, 5*r.Float64()
		p, err := Assign(l, offer, m, tolerance)
		require.NoError(t, err)
		var all []int
		for s := range offer {
			all = append(all, s)
		}
		cost, fitted := 0.0, 0
		small, big := make([][]float64, len(p.Fits)), make([][]float64, len(p.Fits))
		for i, s := range taking(l, offer, all, m) {
			require.Equal(t, int32(s), p.Sizes[i])
			fits := true
			for j, need := range l.Child(i) {
				by := offer[s][j] - need
				if by > tolerance {
					big[j], fits = append(big[j], by), false
				}
				if -by > tolerance {
					small[j], fits = append(small[j], -by), false
				}
				cost += max(by, -by*m.Small)
			}
			if fits {
				fitted++
			}
		}
		require.InDelta(t, cost, p.Cost, 1e-7)
		require.Equal(t, fitted, p.Fitted)
		for j, f := range p.Fits {
			for _, c := range []struct {
				count Count
				by    []float64
			}{{f.TooSmall, small[j]}, {f.TooBig, big[j]}} {
				require.Equal(t, len(c.by), c.count.Children)
				if len(c.by) > 0 {
					sum := 0.0
					for _, cm := range c.by {
						sum += cm
					}
					require.InDelta(t, sum/float64(len(c.by)), c.count.MeanCm, 1e-9)
					require.InDelta(t, slices.Max(c.by), c.count.MostCm, 1e-9)
				}
			}
		}
	}
	// Of sizes that cost the same, the first.
	p, err := Assign(list(t, []float64{52}), [][]float64{{51}, {54}, {51}}, Misfit{2}, 1)
	require.NoError(t, err)
	require.Equal(t, []int{1, 0, 0}, p.Counts)
}

func TestOrderHasBounds(t *testing.T) {
	for cm, ok := range map[float64]bool{0: true, 100: true, -1e-6: false, 100.0001: false, 0.5: true} {
		require.Equal(t, ok, CheckTolerance(cm) == nil, cm)
	}
	for small, ok := range map[float64]bool{0.001: true, 0.00099: false, 1000: true, 1000.5: false} {
		require.Equal(t, ok, Misfit{small}.Check() == nil, small)
	}
	for groups, ok := range map[int]bool{0: false, 1: true, 100: true, 101: false} {
		_, err := Cut([]float64{50, 60}, groups, Misfit{1})
		require.Equal(t, ok, err == nil, groups)
	}
	for cm, ok := range map[float64]bool{0: false, 1e-3: true, 0.5: true, math.MaxFloat64: true, math.Inf(1): false} {
		require.Equal(t, ok, isLength(cm), cm)
	}
	l := list(t, []float64{50, 60}, []float64{51, 61})
	require.Equal(t, []float64{60, 61}, l.Column(1))
	require.ErrorContains(t, l.Add(50, math.NaN()), "figure 2 is not a length")
	require.ErrorContains(t, l.checkOffer([][]float64{{50, 60}, {50}}), "size 2 has 1 measurements")
	require.ErrorContains(t, l.checkOffer([][]float64{{50, 60}, {50, 0}}), "size 2: a figure")
}

// A group's size is the figure of one of its children that costs it least, the lowest of
// equals; sums are exact also for a group far from the least.
func TestCutsCostWhatTheyCost(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 1))
	for range 400 {
		figures := make([]float64, 1+r.IntN(12))
		for i := range figures {
			figures[i] = float64(50 + r.IntN(12))
		}
		m := Misfit{Small: []float64{0.001, 0.5, 1, 3, 1000}[r.IntN(5)]}
		c := newCuts(figures, m)
		slices.Sort(figures)
		require.Equal(t, figures, c.sorted)
		for a := range figures {
			require.Zero(t, c.cost(a, a))
			for b := a + 1; b <= len(figures); b++ {
				best, least := a, math.Inf(1)
				for q := a; q < b; q++ {
					cost := 0.0
					for _, need := range figures[a:b] {
						cost += m.of(need, figures[q])
					}
					if cost < least-1e-9 {
						best, least = q, cost
					}
				}
				require.InDelta(t, least, c.cost(a, b), 1e-7)
				require.InDelta(t, figures[best], c.sorted[c.middle(a, b)], 0, "%v %v from %d up to %d", figures, m, a, b)
			}
		}
		for i := range figures { // as computers count, sums of these leave something
			figures[i] = 50.1 + float64(r.IntN(4))/10
		}
		groups, err := Cut(figures, 1+r.IntN(9), m)
		require.NoError(t, err)
		for i, g := range groups {
			require.True(t, g.Low <= g.Size && g.Size <= g.High || g.Children > 0 && i > 0)
			require.Positive(t, g.Children)
		}
	}
}

// Of cuts that cost the same, the one that begins its last group lowest.
func TestCutsThatCostTheSame(t *testing.T) {
	groups, err := Cut([]float64{52, 50, 51}, 2, Misfit{1})
	require.NoError(t, err)
	require.Equal(t, []Group{{1, 50, 50, 50, 0}, {2, 51, 52, 51, 1}}, groups)
	groups, err = Cut([]float64{50, 51, 60, 61, 70, 71}, 4, Misfit{1})
	require.NoError(t, err)
	require.Equal(t, []Group{{1, 50, 50, 50, 0}, {1, 51, 51, 51, 0}, {2, 60, 61, 60, 1}, {2, 70, 71, 70, 1}}, groups)
}
