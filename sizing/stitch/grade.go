package stitch

import (
	"cmp"
	"fmt"
	"math"
)

// SameCounts lists the sizes (by index) that come out with the count of the
// size before them though another was asked for: the repeat is too wide for
// the step between the sizes.
func SameCounts(run []Finished) []int {
	var at []int
	for i := 1; i < len(run); i++ {
		if run[i].Count == run[i-1].Count && run[i].WantCm != run[i-1].WantCm {
			at = append(at, i)
		}
	}
	return at
}

// GradeYokes plans a circular yoke for every size with one number of increases
// a round, so that the repeats of the yoke are the same in all, at the least
// cost over the run.
func GradeYokes(sizes []YokeTarget) ([]YokePlan, error) {
	if len(sizes) == 0 {
		return nil, nil
	}
	low, high := 0, maxCount
	for i, t := range sizes {
		t, err := t.complete()
		if err != nil {
			return nil, fmt.Errorf("size %d of %d: %w", i+1, len(sizes), err)
		}
		low, high = max(low, t.minPerRound), min(high, t.maxPerRound)
	}
	var best []YokePlan
	bestCost := math.Inf(1)
	var firstErr error
	for per := low; per <= high; per++ {
		var run []YokePlan
		cost := 0.0
		for i, t := range sizes {
			t.PerRound = per
			p, err := PlanCircularYoke(t)
			if err != nil {
				firstErr = cmp.Or(firstErr, fmt.Errorf("size %d of %d: %w", i+1, len(sizes), err))
				break
			}
			cost += p.Cost.Total()
			if !better(cost, bestCost) {
				break
			}
			run = append(run, p)
		}
		if len(run) == len(sizes) {
			best, bestCost = run, cost
		}
	}
	if best == nil {
		return nil, cmp.Or(firstErr, error(&InputError{"increases a round", fmt.Sprintf("%d to %d", low, high), "a number all sizes allow"}))
	}
	return best, nil
}
