package stitch

import (
	"math"
	"strconv"
)

// flatIncreases is the number of increases a round, unrounded, that keeps a
// circle flat: each round makes the circumference 2π row heights longer.
func flatIncreases(g Gauge) float64 { return 2 * math.Pi * g.RowByStitch() }

// A Lie is how a circle of rounds lies.
type Lie int

const (
	Flat    Lie = iota
	Cups        // too few increases: a bowl or a cone
	Ruffles     // too many: a frill
)

// String is "flat", "cups" or "ruffles".
func (l Lie) String() string {
	switch l {
	case Flat:
		return "flat"
	case Cups:
		return "cups"
	case Ruffles:
		return "ruffles"
	}
	return "Lie(" + strconv.Itoa(int(l)) + ")"
}

// A Circle says what a number of increases a round will do.
type Circle struct {
	PerRound  float64 // increases a round, on average
	Flat      float64 // what would lie flat
	Deviation float64 // PerRound ÷ Flat − 1: negative cups, positive ruffles
}

// CheckCircle compares increases a round with what lies flat at the gauge.
func CheckCircle(g Gauge, perRound float64) (Circle, error) {
	if err := firstError(g.Validate(), checkRange("increases a round", perRound, 0, maxCount, "")); err != nil {
		return Circle{}, err
	}
	flat := flatIncreases(g)
	return Circle{perRound, flat, perRound/flat - 1}, nil
}

// Lie is Flat where increases miss the flat count by no more than a share.
func (c Circle) Lie(tolerance float64) Lie {
	switch {
	case c.Deviation < -tolerance:
		return Cups
	case c.Deviation > tolerance:
		return Ruffles
	}
	return Flat
}

// FallShare is how far the edge drops below the middle, as a share of the
// worked depth: 0 when flat or ruffled, 1 for a tube. A yoke needs some to fall
// over the shoulder. Fewer increases than flat make a cone whose circumference
// is that share of the flat one.
func (c Circle) FallShare() float64 {
	r := c.PerRound / c.Flat
	if !(r < 1) {
		return 0
	}
	return math.Sqrt(1 - r*r)
}

// A Crown is the flat circle at the top of a hat, from its middle out. Worked the
// other way its increases are decreases.
type Crown struct {
	Middle int    // stitches that it begins with
	Widen  Repeat // as many more again, in every round of increases
	Rest   int    // stitches that do not divide, gained evenly in a last round
	Rounds int
	Lie    Circle
}

// PlanCrown counts a crown that ends on so many stitches. It gains one of the
// customary rates, the nearest to flat, in every every-th round. Where none of them
// is within a share under flat, or half as much over it, since a crown may be a dome but not a
// frill, it gains the nearest even number.
func PlanCrown(g Gauge, stitches, every int, rates []int, within float64) (Crown, error) {
	if err := firstError(g.Validate(), checkCount("stitches of the crown", stitches, 2), checkCount("rounds from increase to increase", every, 1),
		checkRange("share of flat", within, 0, 1, "")); err != nil {
		return Crown{}, err
	}
	flat := flatIncreases(g) * float64(every)
	off := func(rate int) float64 {
		if by := float64(rate)/flat - 1; by > 0 {
			return 2 * by
		}
		return 1 - float64(rate)/flat
	}
	best := 0
	for _, rate := range rates {
		if err := checkCount("customary increases", rate, 1); err != nil {
			return Crown{}, err
		}
		if off(rate) <= within && (best == 0 || off(rate) < off(best)) {
			best = rate
		}
	}
	if best == 0 {
		best = max(2, 2*nearestInt(flat/2))
	}
	best = min(best, stitches)
	c := Crown{Middle: best, Rest: stitches % best}
	c.Widen = Repeat{Row: 1 + every, Every: every, Times: stitches/best - 1, From: best, Change: best, InRounds: true}
	c.Rounds = 1 + every*c.Widen.Times
	if c.Rest > 0 {
		c.Rounds += every
	}
	var err error
	c.Lie, err = CheckCircle(g, float64(best)/float64(every))
	return c, err
}

// Narrow is the crown from its edge in: a round in which what does not divide is
// lost, if there is any, and the decreases after it.
func (c Crown) Narrow() Repeat {
	w := c.Widen
	r := Repeat{Row: 1, Every: w.Every, Times: w.Times, From: w.To(), Change: -c.Middle, InRounds: true}
	if c.Rest > 0 {
		r.Row += w.Every
	}
	r.Between = max(0, r.From/c.Middle-2)
	r.Lead = r.Between
	return r
}

// nearestInt rounds half up, forgiving what divisions leave behind.
func nearestInt(x float64) int { return int(math.Floor(x + 0.5 + countTolerance)) }
