package order

import (
	"context"
	"math"
	"slices"
)

// dearest is more than anything costs.
const dearest = math.MaxFloat64

// costs is what each size costs each child.
type costs struct {
	children, sizes int
	of              []float64 // size by size
}

func newCosts(l *List, offer [][]float64, m Misfit) *costs {
	t := &costs{l.Len(), len(offer), make([]float64, l.Len()*len(offer))}
	for s, figures := range offer {
		column := t.size(s)
		for i := range column {
			column[i] = m.cost(l.Child(i), figures)
		}
	}
	return t
}

// size returns what a size costs each child.
func (t *costs) size(s int) []float64 { return t.of[s*t.children : (s+1)*t.children] }

// inOrder reports that every child's cost falls to one size and then rises.
func (t *costs) inOrder() bool {
	for i := range t.children {
		rising := false
		for s := 1; s < t.sizes; s++ {
			before, here := t.of[(s-1)*t.children+i], t.of[s*t.children+i]
			switch {
			case here > before:
				rising = true
			case here < before && rising:
				return false
			}
		}
	}
	return true
}

// level returns costs that are nowhere higher and in order: from the cheapest
// size of each child outwards they never fall. What a set costs by them is the
// least that it can cost.
func (t *costs) level() *costs {
	l := &costs{t.children, t.sizes, slices.Clone(t.of)}
	for i := range l.children {
		cheapest := l.cheapest(i)
		for s := 1; s < cheapest; s++ {
			l.size(s)[i] = min(l.size(s)[i], l.size(s - 1)[i])
		}
		for s := l.sizes - 2; s > cheapest; s-- {
			l.size(s)[i] = min(l.size(s)[i], l.size(s + 1)[i])
		}
	}
	return l
}

// cheapest is the size that costs a child least, the first of equals.
func (t *costs) cheapest(i int) int {
	best := 0
	for s := range t.sizes {
		if t.of[s*t.children+i] < t.of[best*t.children+i] {
			best = s
		}
	}
	return best
}

// along chooses at most k sizes by dynamic programming, every child going to
// the cheaper of the chosen sizes beside its cheapest one.
func (t *costs) along(k int) []int {
	between := t.between()
	n := t.sizes
	// least[s] is the cost of the children below s and at it, s being the
	// last size chosen; from[j][s] the size chosen before it as the j-th.
	least := make([]float64, n)
	for s := range n {
		least[s] = between[0][s+1]
	}
	from := make([][]int, k)
	var count, last int
	total := dearest
	close := func(j int) {
		for s := range n {
			if c := least[s] + between[s+1][n+1]; c < total {
				total, count, last = c, j, s
			}
		}
	}
	close(0)
	for j := 1; j < k; j++ {
		from[j] = make([]int, n)
		next := make([]float64, n)
		for s := range n {
			next[s] = dearest
			for p := range s {
				if c := least[p] + between[p+1][s+1]; c < next[s] {
					next[s], from[j][s] = c, p
				}
			}
		}
		least = next
		close(j)
	}
	sizes := []int{last}
	for j := count; j > 0; j-- {
		last = from[j][last]
		sizes = append(sizes, last)
	}
	slices.Reverse(sizes)
	return sizes
}

// between sums, for each two sizes p < s chosen with none between, what the
// children cost whose cheapest size is p or lies between them. Row and column
// 0 mean no size below, the last column none above.
func (t *costs) between() [][]float64 {
	n := t.sizes
	order := make([][]int, n) // children by their cheapest size
	for i := range t.children {
		s := t.cheapest(i)
		order[s] = append(order[s], i)
	}
	out := make([][]float64, n+1)
	for p := range out {
		out[p] = make([]float64, n+2)
		for s := range out[p] {
			for c := max(p-1, 0); c < min(s-1, n); c++ {
				for _, i := range order[c] {
					out[p][s] += t.least(i, p-1, s-1)
				}
			}
		}
	}
	return out
}

// least is the cheaper of two sizes for a child; -1 and sizes mean none.
func (t *costs) least(i, p, s int) float64 {
	cost := dearest
	if p >= 0 {
		cost = t.of[p*t.children+i]
	}
	if s < t.sizes {
		cost = min(cost, t.of[s*t.children+i])
	}
	return cost
}

// cost is what the children cost if each takes the cheapest of the sizes.
func (t *costs) cost(sizes []int) float64 {
	total := 0.0
	for i := range t.children {
		least := dearest
		for _, s := range sizes {
			least = min(least, t.of[s*t.children+i])
		}
		total += least
	}
	return total
}

// taken returns the sizes that some child takes: its cheapest, the first of
// equals.
func (t *costs) taken(sizes []int) []int {
	used := make([]bool, t.sizes)
	for i := range t.children {
		best := sizes[0]
		for _, s := range sizes {
			if t.of[s*t.children+i] < t.of[best*t.children+i] {
				best = s
			}
		}
		used[best] = true
	}
	return slices.DeleteFunc(slices.Clone(sizes), func(s int) bool { return !used[s] })
}

// enumerate tries every set of k sizes.
func (t *costs) enumerate(ctx context.Context, k int) (best []int) {
	cost := dearest
	var sizes []int
	least := make([][]float64, k+1) // of the sizes chosen so far
	for d := range least {
		least[d] = make([]float64, t.children)
	}
	for i := range least[0] {
		least[0][i] = dearest
	}
	var try func(from int)
	try = func(from int) {
		d := len(sizes)
		for s := from; s <= t.sizes-(k-d) && ctx.Err() == nil; s++ {
			column, total := t.size(s), 0.0
			for i, c := range least[d] {
				c = min(c, column[i])
				least[d+1][i] = c
				total += c
			}
			sizes = append(sizes, s)
			if d+1 < k {
				try(s + 1)
			} else if total < cost {
				best, cost = slices.Clone(sizes), total
			}
			sizes = sizes[:d]
		}
	}
	try(0)
	return best
}

// exchange improves a set one size at a time.
func (t *costs) exchange(ctx context.Context, sizes []int, k int) []int {
	chosen := slices.Clone(sizes)
	for s := 0; len(chosen) < k; s++ { // more sizes never cost more
		if !slices.Contains(chosen, s) {
			chosen = append(chosen, s)
		}
	}
	cost := t.cost(chosen)
	for better := true; better; {
		better = false
		for i := range chosen {
			for s := range t.sizes {
				if ctx.Err() != nil || slices.Contains(chosen, s) {
					continue
				}
				old := chosen[i]
				chosen[i] = s
				if c := t.cost(chosen); c < cost {
					cost, better = c, true
				} else {
					chosen[i] = old
				}
			}
		}
	}
	slices.Sort(chosen)
	return chosen
}
