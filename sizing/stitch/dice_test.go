package stitch

import (
	"math"
	"math/rand/v2"
)

// A dice draws cases that nobody picked, the same ones each time.
type dice struct{ *rand.Rand }

func thrown(seed uint64) dice { return dice{rand.New(rand.NewPCG(seed, seed))} }

func (d dice) between(low, high float64) float64 { return low + d.Float64()*(high-low) }

// spread has as many small as large ones.
func (d dice) spread(low, high float64) float64 {
	return math.Exp(d.between(math.Log(low), math.Log(high)))
}

func (d dice) whole(low, high int) int { return low + d.IntN(high-low+1) }

func (d dice) bool() bool { return d.IntN(2) == 1 }

// gauge is one from lace to the bulkiest yarn, in rows from three times as high as wide to a quarter.
func (d dice) gauge() Gauge {
	stitches := d.spread(5, 45)
	return Gauge{stitches, stitches / d.spread(0.25, 3)}
}

// multiple is often plain.
func (d dice) multiple() Multiple {
	if d.bool() {
		return Plain
	}
	rep := d.whole(1, 12)
	return Multiple{rep, d.whole(1-rep, rep+3)}
}

// nearestTo is the whole number from least on that a measure puts nearest to what is
// wanted, the greater of two: tried one by one, up to where it gets worse.
func nearestTo(want float64, least int, measure func(n int) float64) int {
	best := least
	for n := least + 1; math.Abs(measure(n)-want) <= math.Abs(measure(best)-want)+1e-9; n++ {
		best = n
	}
	return best
}
