package sizing

import (
	"math"
)

// A guess is a height the child may have, with its share of the probability,
// and what the evidence says at that height.
type guess struct {
	height, weight float64
	mean, sd       []float64 // of each measurement: expected log departure; spread before the evidence
	w              []float64 // n rows of k: each measurement's correlation with the evidence, made independent
}

// A conditional gives, for one height, the expected log departure of every
// measurement from its median and what spread is left, given the evidence.
type conditional struct {
	rel *relations
	obs []evidence
	l   []float64 // factor of the evidence's correlations
	z   []float64 // the evidence, made independent
}

// newConditional reports false where the evidence contradicts itself: two
// measurements that are wholly the same thing.
func newConditional(rel *relations, obs []evidence) (*conditional, bool) {
	k := len(obs)
	c := &conditional{rel: rel, obs: obs, l: make([]float64, k*k), z: make([]float64, k)}
	for _, m := range rel.corr {
		if !c.factor(m.middle()) {
			return nil, false
		}
	}
	return c, true
}

// factor sets l for a height. Correlations between two bands are a mixture of
// theirs, so what can be factored in each band can be factored between.
func (c *conditional) factor(height float64) bool {
	k := len(c.obs)
	for i, a := range c.obs {
		for j, b := range c.obs {
			c.l[i*k+j] = a.r * b.r * c.rel.correlation(a.v, b.v, height)
		}
		c.l[i*k+i] = 1
	}
	return cholesky(c.l, k)
}

// farOut is how many spreads from the median a measurement is still believed
// to speak for the others. Beyond, it is likelier a slip of the tape than a
// child whose every other measurement is as rare.
const farOut = 3

// cost weighs the evidence at a height: minus its log likelihood, up to a
// constant. It does not allocate.
func (c *conditional) cost(height float64) float64 {
	k := len(c.obs)
	c.factor(height)
	cost := 0.0
	for j, o := range c.obs {
		sd := c.rel.sd(o.v, height)
		c.z[j] = o.departure(height) / sd
		cost += math.Log(sd) + math.Log(c.l[j*k+j])
	}
	forward(c.l, k, c.z)
	for _, z := range c.z {
		cost += z * z / 2
	}
	return cost
}

// at makes the guess of a height.
func (c *conditional) at(height, weight float64) guess {
	n, k := len(c.rel.names), len(c.obs)
	g := guess{height, weight, make([]float64, n), make([]float64, n), make([]float64, n*k)}
	c.factor(height)
	for j, o := range c.obs {
		c.z[j] = min(max(o.departure(height)/c.rel.sd(o.v, height), -farOut), farOut)
	}
	forward(c.l, k, c.z)
	for i := range n {
		row := g.w[i*k : (i+1)*k]
		for j, o := range c.obs {
			row[j] = o.r * c.rel.correlation(i, o.v, height)
		}
		forward(c.l, k, row)
		for j, z := range c.z {
			g.mean[i] += row[j] * z
		}
		g.sd[i] = c.rel.sd(i, height)
		g.mean[i] *= g.sd[i]
	}
	return g
}

// covariance is what the log departures of measurements i and j still share at
// a guess.
func (c *conditional) covariance(g guess, i, j int) float64 {
	k := len(c.obs)
	r := c.rel.correlation(i, j, g.height)
	for q := range k {
		r -= g.w[i*k+q] * g.w[j*k+q]
	}
	if i == j {
		r = max(r, 0)
	}
	return r * g.sd[i] * g.sd[j]
}

// guesses returns the heights that the evidence, and an age if known, leave
// likely, on a grid over the survey's heights, and the likeliest of them. edge
// reports that it is at the end of the survey.
func (c *conditional) guesses(low, high float64, prior func(height float64) float64) (kept []guess, likeliest float64, edge bool) {
	const step = 0.5 // cm
	least := math.Inf(1)
	best := 0
	var costs []float64
	for h := low; h <= high; h += step {
		cost := c.cost(h) + prior(h)
		if cost < least {
			least, best = cost, len(costs)
		}
		costs = append(costs, cost)
	}
	edge = best == 0 || best == len(costs)-1
	sum := 0.0
	for _, cost := range costs {
		sum += math.Exp(least - cost)
	}
	for i, cost := range costs {
		if w := math.Exp(least-cost) / sum; w > 1e-5 {
			kept = append(kept, c.at(low+float64(i)*step, w))
		}
	}
	return kept, low + float64(best)*step, edge
}
