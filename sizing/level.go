package sizing

import "slices"

// A levelled stretch is one of heights over which the medians of a survey fall,
// where too few children were measured: what grows is read as level there.
type levelled struct{ from, to float64 }

// level returns the curve with no point below the one before, and where it was
// made level: what falls is replaced by its mean, and so on until nothing falls
// (the pool-adjacent-violators method: Ayer, Brunk, Ewing, Reid and Silverman,
// Annals of Mathematical Statistics 26, 1955).
func (c *Curve) level() (*Curve, []levelled) {
	if c.rising || slices.IsSorted(c.y) {
		return c, nil
	}
	type pool struct {
		mean float64
		n    int
	}
	var pools []pool
	for _, y := range c.y {
		p := pool{y, 1}
		for k := len(pools); k > 0 && pools[k-1].mean > p.mean; k = len(pools) {
			before := pools[k-1]
			n := before.n + p.n
			p = pool{(before.mean*float64(before.n) + p.mean*float64(p.n)) / float64(n), n}
			pools = pools[:k-1]
		}
		pools = append(pools, p)
	}
	y := make([]float64, 0, len(c.y))
	var where []levelled
	for _, p := range pools {
		if p.n > 1 {
			where = append(where, levelled{c.x[len(y)], c.x[len(y)+p.n-1]})
		}
		y = append(y, slices.Repeat([]float64{p.mean}, p.n)...)
	}
	made, err := NewCurve(c.x, y)
	if err != nil {
		return c, nil // cannot be: the points are finite and in order
	}
	return made, where
}

// levelledAt returns the stretch that a height lies in.
func levelledAt(where []levelled, height float64) (levelled, bool) {
	i := slices.IndexFunc(where, func(l levelled) bool { return height >= l.from && height <= l.to })
	if i < 0 {
		return levelled{}, false
	}
	return where[i], true
}

// note says that a median was made level.
func (l levelled) note() Fact { return NewFact("levelled", Length(l.from), Length(l.to)) }
