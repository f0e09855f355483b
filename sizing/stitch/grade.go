package stitch

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Brackets writes the values of a run of sizes in a pattern's form, the first
// size before the bracket: "2 (4, 6, 8, 10)".
func Brackets(values []string) string {
	if len(values) < 2 {
		return strings.Join(values, "")
	}
	return values[0] + " (" + strings.Join(values[1:], ", ") + ")"
}

// CountBrackets writes counts in bracket form.
func CountBrackets(counts []int) string {
	s := make([]string, len(counts))
	for i, n := range counts {
		s[i] = strconv.Itoa(n)
	}
	return Brackets(s)
}

// LengthBrackets writes lengths in bracket form, with a fixed number of
// decimals so that the sizes line up. The unit is left to the text.
func LengthBrackets(lengths []float64, decimals int) string {
	s := make([]string, len(lengths))
	for i, x := range lengths {
		s[i] = strconv.FormatFloat(x, 'f', min(max(decimals, 0), 6), 64)
	}
	return Brackets(s)
}

// ParseBrackets reads the values of a bracket form, in order of size. A single
// value stands for every size.
func ParseBrackets(s string) ([]string, error) {
	bad := &InputError{"run of sizes", strconv.Quote(s), `a form like "2 (4, 6, 8, 10)"`}
	first, rest, found := strings.Cut(strings.TrimSpace(s), "(")
	values := []string{strings.TrimSpace(first)}
	if found {
		inner, ok := strings.CutSuffix(rest, ")")
		if !ok {
			return nil, bad
		}
		for _, v := range strings.Split(inner, ",") {
			values = append(values, strings.TrimSpace(v))
		}
	}
	for _, v := range values {
		if v == "" || strings.ContainsAny(v, "(),") {
			return nil, bad
		}
	}
	return values, nil
}

// A Parity is what the counts of all sizes share, so that every size starts
// the next part on the same side of the work.
type Parity int

const (
	AnyParity  Parity = iota
	SameParity        // whichever of even and odd costs less
	EvenParity
	OddParity
)

// GradeWidths counts the widths of a run of sizes in stitches of one multiple.
// leastCm holds a floor for each size, or is nil.
func GradeWidths(g Gauge, widthsCm, leastCm []float64, m Multiple, p Parity) ([]Finished, error) {
	return grade(g.FitWidthAtLeast, widthsCm, leastCm, m, p)
}

// GradeHeights counts the heights of a run of sizes in rows of one multiple.
func GradeHeights(g Gauge, heightsCm, leastCm []float64, m Multiple, p Parity) ([]Finished, error) {
	return grade(g.FitHeightAtLeast, heightsCm, leastCm, m, p)
}

func grade(fit func(cm, leastCm float64, m Multiple) (Finished, error), sizesCm, leastCm []float64, m Multiple, p Parity) ([]Finished, error) {
	if leastCm != nil && len(leastCm) != len(sizesCm) {
		return nil, &InputError{"floors of a run of sizes", strconv.Itoa(len(leastCm)), fmt.Sprintf("none, or one for each of the %d sizes", len(sizesCm))}
	}
	if err := m.Validate(); err != nil {
		return nil, err
	}
	var ways []Multiple
	switch p {
	case AnyParity:
		ways = []Multiple{m}
	case SameParity, EvenParity, OddParity:
		for _, odd := range []bool{false, true} {
			if (odd && p == EvenParity) || (!odd && p == OddParity) {
				continue
			}
			if w, ok := m.WithParity(odd); ok {
				ways = append(ways, w)
			}
		}
		if len(ways) == 0 {
			return nil, &InputError{"multiple " + m.String(), "of the other parity", "one with counts of the parity asked for"}
		}
	default:
		return nil, &InputError{"parity", strconv.Itoa(int(p)), "AnyParity, SameParity, EvenParity or OddParity"}
	}
	var best []Finished
	bestCost := math.Inf(1)
	for _, way := range ways {
		run := make([]Finished, len(sizesCm))
		cost := 0.0
		for i, cm := range sizesCm {
			least := 0.0
			if leastCm != nil {
				least = leastCm[i]
			}
			f, err := fit(cm, least, way)
			if err != nil {
				return nil, fmt.Errorf("size %d of %d: %w", i+1, len(sizesCm), err)
			}
			run[i] = f
			cost += f.ErrorCm() * f.ErrorCm()
		}
		if better(cost, bestCost) {
			best, bestCost = run, cost
		}
	}
	return best, nil
}

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

// Counts takes the counts out of a run, for CountBrackets.
func Counts(run []Finished) []int {
	n := make([]int, len(run))
	for i, f := range run {
		n[i] = f.Count
	}
	return n
}

// GradeYokes plans a circular yoke for every size with one number of increases
// a round, so that the repeats of the yoke are the same in all, at the least
// cost over the run.
func GradeYokes(sizes []YokeTarget) ([]YokePlan, error) {
	if len(sizes) == 0 {
		return nil, nil
	}
	low, high := 0, MaxCount
	for i, t := range sizes {
		t, err := t.complete()
		if err != nil {
			return nil, fmt.Errorf("size %d of %d: %w", i+1, len(sizes), err)
		}
		low, high = max(low, t.MinPerRound), min(high, t.MaxPerRound)
	}
	var best []YokePlan
	bestCost := math.Inf(1)
	var firstErr error
	for per := max(low, 1); per <= high; per++ {
		run := make([]YokePlan, 0, len(sizes))
		cost := 0.0
		for i, t := range sizes {
			t.PerRound = per
			p, err := PlanCircularYoke(t)
			if err != nil {
				if firstErr == nil {
					firstErr = fmt.Errorf("size %d of %d: %w", i+1, len(sizes), err)
				}
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
		if firstErr == nil {
			firstErr = &InputError{"increases a round", fmt.Sprintf("%d to %d", low, high), "a number all sizes allow"}
		}
		return nil, firstErr
	}
	return best, nil
}
