package order

import (
	"fmt"
	"math"
	"slices"
)

// A Group is children next to each other in one measurement, and the size made
// for them.
type Group struct {
	Children  int
	Low, High float64 // the least and the most that they measure, cm
	Size      float64 // the figure that costs the group least, cm
	Cost      float64
}

// Cut divides children by one measurement, in cm, into at most k groups of least
// cost, each with its own size. It is exact: dynamic
// programming over the children in order (Fisher, "On grouping for maximum
// homogeneity", Journal of the American Statistical Association 53, 1958; from
// memory). The last cut of each step is found by bisection, as its place only
// moves up with the children.
func Cut(figures []float64, k int, m Misfit) ([]Group, error) {
	if err := m.Check(); err != nil {
		return nil, err
	}
	if len(figures) == 0 {
		return nil, fmt.Errorf("no children to plan for")
	}
	if k < 1 || k > maxGroups {
		return nil, fmt.Errorf("%d groups; use 1 to %d", k, maxGroups)
	}
	for _, v := range figures {
		if !isLength(v) {
			return nil, fmt.Errorf("a figure is not a length in cm")
		}
	}
	c := newCuts(figures, m)
	n := len(figures)
	least := make([]float64, n+1) // of the first i children, in j groups
	for i := range least {
		least[i] = c.cost(0, i)
	}
	starts := make([][]int32, k) // of the last of j+1 groups of i children
	for j := 1; j < k; j++ {
		starts[j] = make([]int32, n+1)
		next := make([]float64, n+1)
		c.step(least, next, starts[j], 0, n, 0, n)
		least = next
	}
	var offer [][]float64
	for j, end := k-1, n; end > 0; j-- {
		start := 0
		if j > 0 {
			start = int(starts[j][end])
		}
		offer = append(offer, []float64{c.sorted[c.middle(start, end)]})
		end = start
	}
	slices.Reverse(offer)
	return c.groups(offer), nil
}

// groups puts each child into the group that Assign gives it, the first of two that
// cost it the same.
func (c *cuts) groups(offer [][]float64) []Group {
	groups := make([]Group, len(offer))
	for _, need := range c.sorted {
		i, cost := c.m.nearest([]float64{need}, offer)
		g := &groups[i]
		if g.Children == 0 {
			g.Low, g.Size = need, offer[i][0]
		}
		g.High = need
		g.Children++
		g.Cost += cost
	}
	return slices.DeleteFunc(groups, func(g Group) bool { return g.Children == 0 })
}

// maxGroups bounds the groups, and with them the memory.
const maxGroups = 100

type cuts struct {
	m      Misfit
	sorted []float64
	sums   []float64 // of the first i, less the least for exactness
}

func newCuts(figures []float64, m Misfit) *cuts {
	c := &cuts{m, slices.Sorted(slices.Values(figures)), []float64{0}}
	for i, v := range c.sorted {
		c.sums = append(c.sums, c.sums[i]+(v-c.sorted[0]))
	}
	return c
}

// middle is the child whose figure costs the group from a up to b least: Small
// of Small+1 of the group are at or below it.
func (c *cuts) middle(a, b int) int {
	return a + int(math.Ceil(float64(b-a)*c.m.Small/(c.m.Small+1))) - 1
}

// cost is what the group from a up to b costs with the size that suits it best.
func (c *cuts) cost(a, b int) float64 {
	if a >= b {
		return 0
	}
	q := c.middle(a, b)
	size := c.sorted[q] - c.sorted[0]
	below := size*float64(q-a) - (c.sums[q] - c.sums[a])
	above := (c.sums[b] - c.sums[q]) - size*float64(b-q)
	return below + c.m.Small*above
}

// step finds, for each number of children from low to high, where their last
// group starts best, knowing that it is from a to b.
func (c *cuts) step(least, next []float64, starts []int32, low, high, a, b int) {
	if low > high {
		return
	}
	i := (low + high) / 2
	next[i] = dearest
	best := a
	for s := a; s <= min(b, i); s++ {
		if cost := least[s] + c.cost(s, i); cost < next[i] {
			next[i], best = cost, s
		}
	}
	starts[i] = int32(best)
	c.step(least, next, starts, low, i-1, a, best)
	c.step(least, next, starts, i+1, high, best, b)
}
