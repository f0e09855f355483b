package order

import (
	"context"
	"fmt"
	"math/big"
)

// Method is how the best sizes were found.
type Method string

const (
	// InOrder is dynamic programming along the sizes. It is exact where every
	// child's cost falls towards one size of the offer and rises after it, so
	// that the sizes chosen below and above that one are all that matter to the
	// child; and where it costs no more than if that were so of every child.
	InOrder Method = "in-order"
	// Enumeration tries every set of sizes. It is exact.
	Enumeration Method = "enumeration"
	// Exchange is the vertex substitution of Teitz and Bart ("Heuristic
	// methods for estimating the generalized vertex median of a weighted
	// graph", Operations Research 16, 1968; from memory): exchange one size
	// for another while that helps. Another set may be better, but none
	// better than the bound.
	Exchange Method = "exchange"
)

// A Choice is a set of sizes of an offer.
type Choice struct {
	Sizes  []int // indices of the offer, rising
	Cost   float64
	Method Method
	// Bound is the least that any such set could cost: Cost itself, but for
	// Exchange.
	Bound float64
}

// maxTrials bounds the sets times children that Best tries out.
const maxTrials = 1e9

// Best chooses at most k sizes of the offer, those that cost the list least. It
// leaves out what no child would take. The offer should be in the order of its
// sizes. It holds the cost of each size for each child: 8 bytes each. Where many sets
// are tried, the context ends it.
func Best(ctx context.Context, l *List, offer [][]float64, k int, m Misfit) (*Choice, error) {
	return best(ctx, l, offer, k, m, maxTrials)
}

func best(ctx context.Context, l *List, offer [][]float64, k int, m Misfit, trials float64) (*Choice, error) {
	if err := m.Check(); err != nil {
		return nil, err
	}
	if err := l.checkOffer(offer); err != nil {
		return nil, err
	}
	if k < 1 || k > len(offer) {
		return nil, fmt.Errorf("%d sizes cannot be chosen from %d", k, len(offer))
	}
	t := newCosts(l, offer, m)
	c := Choice{Method: InOrder}
	level := t // as in order as can be
	if !t.inOrder() {
		level = t.level()
	}
	c.Sizes = level.along(k)
	c.Bound = level.cost(c.Sizes)
	if t.cost(c.Sizes) > c.Bound*(1+rounding) {
		if choose(len(offer), k)*float64(t.children) <= trials {
			c.Method, c.Sizes = Enumeration, t.enumerate(ctx, k)
		} else {
			c.Method, c.Sizes = Exchange, t.exchange(ctx, c.Sizes, k)
		}
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	c.Sizes = t.taken(c.Sizes)
	c.Cost = t.cost(c.Sizes)
	if c.Method != Exchange {
		c.Bound = c.Cost
	}
	c.Bound = min(c.Bound, c.Cost)
	return &c, nil
}

// rounding is how much sums of the same costs may differ, as a share.
const rounding = 1e-12

// choose is the number of sets of k of n.
func choose(n, k int) float64 {
	f, _ := new(big.Float).SetInt(new(big.Int).Binomial(int64(n), int64(k))).Float64()
	return f
}
