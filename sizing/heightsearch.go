package sizing

import (
	"fmt"
	"math"
	"slices"
)

// searchHeights finds the heights that the evidence leaves likely. A measurement
// that fits no height together with the others is left out and doubted; if it is
// the only one, the search fails.
func (e *estimator) searchHeights(c *conditional, ageYears float64) error {
	if len(e.evidence) == 0 {
		return ErrNothingKnown
	}
	expected, err := e.heightAtAge(ageYears)
	if err != nil {
		return err
	}
	outside := func() error {
		names := e.names(e.evidence)
		return &FactError{NewFact("evidence-outside-survey", names, Range{Length(e.group.low), Length(e.group.high)}),
			fmt.Errorf("the child's %s would fit a height outside %.4g to %.4g cm, which the survey of measured babies and children covers; check the tape and the unit, give the height or name sizes",
				listed(names), e.group.low, e.group.high)}
	}
	for {
		levels := c.levels(e.group.grid())
		best := e.weigh(c, levels, expected)
		worst, _ := c.odd(&levels[best], 1, e.logs, e.z, e.room)
		edge := best == 0 || best == len(levels)-1
		switch {
		case worst < 0 && edge, worst >= 0 && len(e.evidence) == 1:
			return outside()
		case worst < 0:
			e.guesses = e.guesses[:0]
			middle := 0.0
			for i, w := range e.costs {
				if w > 1e-5 {
					e.guess(c, &levels[i], w)
					middle += levels[i].at.height * w
				}
			}
			e.middle.moveTo(e.group.basis, middle)
			return nil
		}
		e.dropped = append(e.dropped, e.evidence[worst])
		e.evidence, e.logs = slices.Delete(e.evidence, worst, worst+1), slices.Delete(e.logs, worst, worst+1)
		if c = e.condition(); !c.sound {
			return outside()
		}
	}
}

// heightAtAge is the logarithm of the median height at an age, 0 where the age
// is not known.
func (e *estimator) heightAtAge(ageYears float64) (float64, error) {
	if ageYears == 0 {
		return 0, nil
	}
	p, err := e.group.chart.atAge(ageYears, e.group.sex)
	if err != nil {
		return 0, err
	}
	median, ok := p.Height()
	if !ok {
		return 0, fmt.Errorf("no median height at age %g", ageYears)
	}
	return math.Log(median), nil
}

// weigh sets costs to the share of the probability of each level, and returns
// the likeliest. expected is the logarithm of the height at the child's age, or
// 0.
func (e *estimator) weigh(c *conditional, levels []level, expected float64) (best int) {
	e.costs = e.costs[:0]
	least := inf
	for i := range levels {
		cost := c.childCost(&levels[i], e.logs, e.z)
		if expected != 0 {
			z := (levels[i].at.kept.height - expected) / e.group.heightSpread
			cost += z * z / 2
		}
		e.costs = append(e.costs, cost)
		if cost < least {
			least, best = cost, i
		}
	}
	sum := 0.0
	for i, cost := range e.costs {
		e.costs[i] = math.Exp(least - cost)
		sum += e.costs[i]
	}
	for i := range e.costs {
		e.costs[i] /= sum
	}
	return best
}
