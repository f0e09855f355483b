package order

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

func list(t *testing.T, children ...[]float64) *List {
	t.Helper()
	l, err := NewList(len(children[0]))
	require.NoError(t, err)
	for _, c := range children {
		require.NoError(t, l.Add(c...))
	}
	return l
}

// random makes children of about the same build, and sizes along it.
func random(t *testing.T, r *rand.Rand, children, sizes, measurements int, noise float64) (*List, [][]float64) {
	t.Helper()
	l, err := NewList(measurements)
	require.NoError(t, err)
	for range children {
		at := r.Float64() * 30
		row := make([]float64, measurements)
		for j := range row {
			row[j] = 40 + at*float64(j+1)/2 + r.NormFloat64()*noise
		}
		require.NoError(t, l.Add(row...))
	}
	offer := make([][]float64, sizes)
	for s := range offer {
		at := 30 * float64(s) / float64(sizes)
		for j := range measurements {
			offer[s] = append(offer[s], 40+at*float64(j+1)/2+r.Float64()*noise)
		}
	}
	return l, offer
}

func TestAssignCountsAndMisfit(t *testing.T) {
	// By hand: sizes 50 and 56; a cm too small counts 4.
	l := list(t, []float64{50}, []float64{51}, []float64{52}, []float64{56}, []float64{60})
	p, err := Assign(l, [][]float64{{50}, {56}}, Misfit{Small: 4}, 2.5)
	require.NoError(t, err)
	// 51: 4 against 5, stays; 52: 8 against 4, takes the 56, 4 cm too big.
	require.Equal(t, []int{2, 3}, p.Counts)
	require.Equal(t, []int32{0, 0, 1, 1, 1}, p.Sizes)
	require.InDelta(t, 0+4+4+0+16, p.Cost, 1e-9)
	require.Equal(t, 3, p.Fitted)
	require.Equal(t, Fit{TooSmall: Count{1, 4, 4}, TooBig: Count{1, 4, 4}}, p.Fits[0])
}

func TestAssignRefuses(t *testing.T) {
	l := list(t, []float64{50, 60})
	empty, err := NewList(1)
	require.NoError(t, err)
	tests := []struct {
		name      string
		list      *List
		offer     [][]float64
		small     float64
		tolerance float64
		want      string
	}{
		{"no children", empty, [][]float64{{50}}, 1, 1, "no children"},
		{"no sizes", l, nil, 1, 1, "no sizes"},
		{"uneven", l, [][]float64{{50}}, 1, 1, "size 1 has 1 measurements, the children 2"},
		{"not a number", l, [][]float64{{50, math.NaN()}}, 1, 1, "not a length"},
		{"weight", l, [][]float64{{50, 60}}, math.NaN(), 1, "cannot count"},
		{"weight of nothing", l, [][]float64{{50, 60}}, 0, 1, "cannot count"},
		{"tolerance", l, [][]float64{{50, 60}}, 1, -1, "tolerance"},
		{"tolerance NaN", l, [][]float64{{50, 60}}, 1, math.NaN(), "tolerance"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Assign(tt.list, tt.offer, Misfit{tt.small}, tt.tolerance)
			require.ErrorContains(t, err, tt.want)
		})
	}
	require.Error(t, l.Add(50))
	for _, v := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		require.Error(t, l.Add(50, v))
	}
	require.Equal(t, 1, l.Len())
	_, err = NewList(0)
	require.Error(t, err)
}

// cheapest is the least cost of any set of at most k sizes, tried one by one:
// the check from outside.
func cheapest(l *List, offer [][]float64, k int, m Misfit) float64 {
	least := math.Inf(1)
	for set := 1; set < 1<<len(offer); set++ {
		var chosen [][]float64
		for s := range offer {
			if set>>s&1 == 1 {
				chosen = append(chosen, offer[s])
			}
		}
		if len(chosen) > k {
			continue
		}
		total := 0.0
		for i := range l.Len() {
			_, cost := m.nearest(l.Child(i), chosen)
			total += cost
		}
		least = min(least, total)
	}
	return least
}

func TestBestIsTheBestOfAllSets(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	seen := make(map[Method]int)
	for range 400 {
		l, offer := random(t, r, 1+r.IntN(40), 1+r.IntN(9), 1+r.IntN(3), float64(r.IntN(15)))
		k, m := 1+r.IntN(len(offer)), Misfit{Small: 0.25 + 8*r.Float64()}
		want := cheapest(l, offer, k, m)
		got, err := best(t.Context(), l, offer, k, m, maxTrials)
		require.NoError(t, err)
		seen[got.Method]++
		require.InDelta(t, want, got.Cost, 1e-7)
		require.Equal(t, got.Cost, got.Bound)
		require.LessOrEqual(t, len(got.Sizes), k)

		// Without trials: at most a little worse, never better than the bound.
		rough, err := best(t.Context(), l, offer, k, m, 0)
		require.NoError(t, err)
		seen[rough.Method]++
		require.GreaterOrEqual(t, rough.Cost, want-1e-7)
		require.LessOrEqual(t, rough.Bound, want+1e-7)
		require.LessOrEqual(t, rough.Cost, 1.2*want+1e-7)

		// The plan of the chosen sizes costs what the choice says.
		var chosen [][]float64
		for _, s := range got.Sizes {
			chosen = append(chosen, offer[s])
		}
		p, err := Assign(l, chosen, m, 2)
		require.NoError(t, err)
		require.InDelta(t, got.Cost, p.Cost, 1e-7)
		total := 0
		for _, n := range p.Counts {
			require.Positive(t, n, "a size that nobody takes was chosen")
			total += n
		}
		require.Equal(t, l.Len(), total)
	}
	for _, method := range []Method{InOrder, Enumeration, Exchange} {
		require.Greater(t, seen[method], 20, method)
	}
}

func TestBestRefuses(t *testing.T) {
	l := list(t, []float64{50})
	for _, k := range []int{-1, 0, 3} {
		_, err := Best(t.Context(), l, [][]float64{{50}, {60}}, k, Misfit{1})
		require.ErrorContains(t, err, "cannot be chosen from 2")
	}
	_, err := Best(t.Context(), l, [][]float64{{50}}, 1, Misfit{})
	require.ErrorContains(t, err, "cannot count")
	_, err = Best(t.Context(), l, nil, 1, Misfit{1})
	require.ErrorContains(t, err, "no sizes to choose from")
}

// leastCut is the least cost of at most k groups in order, tried one by one,
// with every child's own figure tried as the size.
func leastCut(sorted []float64, k int, m Misfit) float64 {
	if len(sorted) == 0 {
		return 0
	}
	if k == 0 {
		return math.Inf(1)
	}
	least := math.Inf(1)
	for end := 1; end <= len(sorted); end++ {
		group := math.Inf(1)
		for _, size := range sorted[:end] {
			cost := 0.0
			for _, need := range sorted[:end] {
				cost += m.of(need, size)
			}
			group = min(group, cost)
		}
		least = min(least, group+leastCut(sorted[end:], k-1, m))
	}
	return least
}

func TestCutIsTheBestOfAllCuts(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		figures := make([]float64, 1+r.IntN(12))
		for i := range figures {
			figures[i] = 50 + math.Round(r.Float64()*20*4)/4 // with equals
		}
		k, m := 1+r.IntN(4), Misfit{Small: []float64{0.5, 1, 3, 4, 7.3}[r.IntN(5)]}
		groups, err := Cut(figures, k, m)
		require.NoError(t, err)
		require.LessOrEqual(t, len(groups), k)
		sorted := newCuts(figures, m).sorted
		total, children := 0.0, 0
		for _, g := range groups {
			total += g.Cost
			own := 0.0
			for _, need := range sorted[children : children+g.Children] {
				own += m.of(need, g.Size)
				require.True(t, need >= g.Low && need <= g.High)
			}
			require.InDelta(t, own, g.Cost, 1e-7)
			children += g.Children
		}
		require.Equal(t, len(figures), children)
		require.InDelta(t, leastCut(sorted, k, m), total, 1e-7)
	}
}

// A child between two groups that cost it alike is in the group that Assign puts
// it in, so that a plan and its list of children agree.
func TestCutIsWhatAssignSays(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 500 {
		figures := make([]float64, 1+r.IntN(30))
		for i := range figures {
			figures[i] = 50 + float64(r.IntN(15))
		}
		m := Misfit{Small: []float64{0.5, 1, 3, 4}[r.IntN(4)]}
		groups, err := Cut(figures, 1+r.IntN(5), m)
		require.NoError(t, err)
		var offer [][]float64
		var children []int
		cost := 0.0
		for _, g := range groups {
			offer = append(offer, []float64{g.Size})
			children = append(children, g.Children)
			cost += g.Cost
		}
		l, err := NewList(1)
		require.NoError(t, err)
		require.NoError(t, l.Add(figures...))
		plan, err := Assign(l, offer, m, 1)
		require.NoError(t, err)
		require.Equal(t, plan.Counts, children, figures)
		require.InDelta(t, plan.Cost, cost, 1e-7)
		for i, size := range plan.Sizes {
			require.True(t, figures[i] >= groups[size].Low && figures[i] <= groups[size].High)
		}
	}
}

// 64.4 less 61.9 is 2.5 and a little more, as computers count.
func TestAssignTakesTheToleranceAsWritten(t *testing.T) {
	small, big := 64.4, 61.9
	require.Greater(t, small-big, 2.5)
	plan, err := Assign(list(t, []float64{big}, []float64{big - 0.01}), [][]float64{{small}}, Misfit{1}, 2.5)
	require.NoError(t, err)
	require.Equal(t, 1, plan.Fitted)
	require.Equal(t, 1, plan.Fits[0].TooBig.Children)
	plan, err = Assign(list(t, []float64{small}, []float64{small + 0.01}), [][]float64{{big}}, Misfit{1}, 2.5)
	require.NoError(t, err)
	require.Equal(t, 1, plan.Fitted)
	require.Equal(t, 1, plan.Fits[0].TooSmall.Children)
}

func TestCutRefuses(t *testing.T) {
	_, err := Cut(nil, 2, Misfit{1})
	require.ErrorContains(t, err, "no children")
	_, err = Cut([]float64{50}, 0, Misfit{1})
	require.ErrorContains(t, err, "0 groups")
	_, err = Cut([]float64{50, math.NaN()}, 1, Misfit{1})
	require.ErrorContains(t, err, "not a length")
	_, err = Cut([]float64{50}, 1, Misfit{-1})
	require.ErrorContains(t, err, "cannot count")
}

func BenchmarkBest(b *testing.B) {
	r := rand.New(rand.NewPCG(5, 6))
	l, _ := NewList(4)
	for range 5000 {
		at := r.Float64() * 30
		_ = l.Add(45+at+r.NormFloat64(), 50+at+r.NormFloat64(), 30+at+r.NormFloat64(), 35+at+r.NormFloat64())
	}
	var offer [][]float64
	for s := range 15 {
		at := 2 * float64(s)
		offer = append(offer, []float64{45 + at, 50 + at, 30 + at, 35 + at})
	}
	for b.Loop() {
		if _, err := Best(b.Context(), l, offer, 4, Misfit{4}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCut(b *testing.B) {
	r := rand.New(rand.NewPCG(7, 8))
	figures := make([]float64, 100_000)
	for i := range figures {
		figures[i] = 45 + 40*r.Float64()
	}
	for b.Loop() {
		if _, err := Cut(figures, 6, Misfit{4}); err != nil {
			b.Fatal(err)
		}
	}
}

// Where nobody waits any more, no set is tried.
func TestBestEnds(t *testing.T) {
	l, err := NewList(2)
	require.NoError(t, err)
	for i := range 50 {
		require.NoError(t, l.Add(50+float64(i*7%13), 55+float64(i*5%17)))
	}
	var offer [][]float64
	for i := range 12 {
		offer = append(offer, []float64{50 + float64(i*5%12), 55 + float64(i*7%12)})
	}
	ctx, cancel := context.WithCancel(t.Context())
	_, err = Best(ctx, l, offer, 4, Misfit{4})
	require.NoError(t, err)
	cancel()
	_, err = Best(ctx, l, offer, 4, Misfit{4})
	require.ErrorIs(t, err, context.Canceled)
}
