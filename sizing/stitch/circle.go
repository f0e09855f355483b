package stitch

import (
	"fmt"
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

// roundStitches is the count in a round (from 1) of a circle that starts with
// perRound stitches and gains as many each round.
func roundStitches(perRound, round int) (int, error) {
	if err := firstError(checkCount("stitches of the first round", perRound, 1), checkCount("round", round, 1)); err != nil {
		return 0, err
	}
	if perRound > maxCount/round {
		return 0, &InputError{"circle", fmt.Sprintf("%d rounds of %d", round, perRound), fmt.Sprintf("at most %d stitches", maxCount)}
	}
	return perRound * round, nil
}

// A Crown is the flat circle at the top of a hat.
type Crown struct {
	PerRound int // stitches of round 1 and increases of every later round
	Rounds   int
	Stitches int      // in the last round
	Girth    Finished // what the last round measures
	Lie      Circle
}

// PlanCrown counts a crown for a girth, with the whole number of increases
// nearest to flat.
func PlanCrown(g Gauge, girthCm float64) (Crown, error) {
	if err := firstError(g.Validate(), checkLength("girth of the crown", girthCm)); err != nil {
		return Crown{}, err
	}
	per := max(1, nearestInt(flatIncreases(g)))
	c := Crown{PerRound: per, Rounds: max(1, nearestInt(g.Stitches(girthCm)/float64(per)))}
	var err error
	if c.Stitches, err = roundStitches(per, c.Rounds); err != nil {
		return Crown{}, err
	}
	c.Girth = Finished{c.Stitches, g.WidthCm(c.Stitches), girthCm}
	c.Lie, err = CheckCircle(g, float64(per))
	return c, err
}

// nearestInt rounds half up, forgiving what divisions leave behind.
func nearestInt(x float64) int { return int(math.Floor(x + 0.5 + countTolerance)) }
