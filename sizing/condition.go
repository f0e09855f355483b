package sizing

import (
	"math"
)

// evidence is one of the child's measurements as the relations see it.
type evidence struct {
	v      int     // index into the relations' measurements
	curve  *Curve  // the survey's median by height of what was measured
	logged float64 // logarithm of the child's figure
}

// A guess is a height the child may have, with its share of the probability.
type guess struct{ height, weight float64 }

// A conditional gives, for one height, the expected log departure of every
// measurement from its median and what spread is left, given the evidence.
type conditional struct {
	rel  *relations
	obs  []evidence
	l    []float64 // factor of the evidence's correlations
	z    []float64 // the evidence, made independent
	w    []float64 // n rows of k: each measurement's correlation with z
	sd   []float64
	now  float64 // the height it is at
	nLow float64 // minus the log likelihood of the evidence, up to a constant
}

func newConditional(rel *relations, obs []evidence) (*conditional, bool) {
	n, k := len(rel.names), len(obs)
	c := &conditional{rel: rel, obs: obs,
		l: make([]float64, k*k), z: make([]float64, k), w: make([]float64, n*k), sd: make([]float64, n)}
	for i := range k {
		for j := range k {
			c.l[i*k+j] = rel.corr[obs[i].v][obs[j].v]
		}
	}
	if !cholesky(c.l, k) {
		return nil, false
	}
	for i := range n {
		row := c.w[i*k : (i+1)*k]
		for j := range k {
			row[j] = rel.corr[i][obs[j].v]
		}
		forward(c.l, k, row)
	}
	return c, true
}

// farOut is how many spreads from the median a measurement is still believed
// to speak for the others. Beyond, it is likelier a slip of the tape than a
// child whose every other measurement is as rare.
const farOut = 3

// at moves the conditional to a height. It does not allocate.
func (c *conditional) at(height float64) {
	if height == c.now {
		return
	}
	k := len(c.obs)
	c.now, c.nLow = height, 0
	for j, o := range c.obs {
		sd := c.rel.sd(o.v, height)
		z := (o.logged - math.Log(o.curve.At(height))) / sd
		c.z[j] = min(max(z, -farOut), farOut)
		c.nLow += math.Log(sd)
	}
	forward(c.l, k, c.z)
	for _, z := range c.z {
		c.nLow += z * z / 2
	}
	for i := range c.sd {
		c.sd[i] = c.rel.sd(i, height)
	}
}

// mean is the expected log departure of measurement i.
func (c *conditional) mean(i int) float64 {
	k := len(c.obs)
	m := 0.0
	for j, z := range c.z {
		m += c.w[i*k+j] * z
	}
	return m * c.sd[i]
}

// covariance is what the log departures of i and j still share.
func (c *conditional) covariance(i, j int) float64 {
	k := len(c.obs)
	r := c.rel.corr[i][j]
	for q := range k {
		r -= c.w[i*k+q] * c.w[j*k+q]
	}
	if i == j {
		r = max(r, 0)
	}
	return r * c.sd[i] * c.sd[j]
}

// guesses returns the heights that the evidence, and an age if known, leave
// likely: a grid over the survey's heights. edge reports that the likeliest is
// at the end of the survey.
func (c *conditional) guesses(low, high float64, prior func(height float64) float64) (heights []guess, edge bool) {
	const step = 0.5 // cm
	least := math.Inf(1)
	best := 0
	for h := low; h <= high; h += step {
		c.at(h)
		cost := c.nLow + prior(h)
		if cost < least {
			least, best = cost, len(heights)
		}
		heights = append(heights, guess{h, cost})
	}
	edge = best == 0 || best == len(heights)-1
	sum := 0.0
	for i := range heights {
		heights[i].weight = math.Exp(least - heights[i].weight)
		sum += heights[i].weight
	}
	kept := heights[:0]
	for _, g := range heights {
		if g.weight /= sum; g.weight > 1e-5 {
			kept = append(kept, g)
		}
	}
	return kept, edge
}
