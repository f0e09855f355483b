package stitch

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The counts that a yoke may have for a size: within 30 % of it, 40 repeats at most, the
// nearest on either side however far, none under its floor; the cheapest first.
func TestCountsThatAreLookedAt(t *testing.T) {
	d := thrown(13)
	for range 1500 {
		m, unit := d.multiple(), d.between(0.1, 2)
		want, least := d.between(1, 150), 0.0
		if d.bool() {
			least = want * d.between(0.7, 1.5)
		}
		weight := d.between(0, 4)
		var counts []int
		for _, n := range allowed(m, want, least, unit) {
			below, above, err := m.Neighbours(want / unit)
			require.NoError(t, err)
			if below == 0 {
				below = above
			}
			if n >= below-40*m.repeat() && n <= above+40*m.repeat() || least > want*1.3 {
				counts = append(counts, n)
			}
		}
		got, err := candidates(m, want, least, unit, weight)
		require.NoError(t, err)
		var listed []int
		for i, c := range got {
			listed = append(listed, c.n)
			require.InDelta(t, weight*math.Pow(float64(c.n)*unit-want, 2), c.cost, 1e-9)
			if i > 0 {
				before := got[i-1]
				require.LessOrEqual(t, before.cost, c.cost)
			}
		}
		slices.Sort(listed)
		if len(counts) > 0 {
			require.Equal(t, counts, listed, "%v, %g cm of %g, at least %g", m, want, unit, least)
		}
	}
	// As dear, the nearer comes first; as near, the greater: what is free takes what is asked.
	free, err := candidates(Plain, 10, 0, 1, 0)
	require.NoError(t, err)
	require.Equal(t, []candidate{{10, 0}, {11, 0}, {9, 0}, {12, 0}, {8, 0}, {13, 0}, {7, 0}}, free)
	costly, err := candidates(Multiple{2, 0}, 11, 0, 1, 1)
	require.NoError(t, err)
	require.Equal(t, []candidate{{12, 1}, {10, 1}, {14, 9}, {8, 9}}, costly)
	_, err = candidates(Plain, 1000, 0, 0.01, 1)
	require.ErrorContains(t, err, "count for 1000 cm is 100040: want 1 to 20000")
	_, err = candidates(Plain, 100, 0, 0.005, 1)
	require.Error(t, err)
	_, err = candidates(Multiple{1, 0}, 199, 0, 0.01, 1)
	require.NoError(t, err)
}

// A yoke's weights where none are given: the body first, then sleeve and neck.
func TestUsualWeights(t *testing.T) {
	y := restedYoke(false)
	free, err := PlanCircularYoke(y)
	require.NoError(t, err)
	y.Weights = Weights{Neck: 2, Body: 4, Sleeve: 2, Depth: 1, Underarm: 1.0 / 2, Balance: 1.0 / 4, NeckSplit: 1.0 / 4, Rhythm: 1}
	said, err := PlanCircularYoke(y)
	require.NoError(t, err)
	require.Equal(t, said, free)
	full, err := restedYoke(false).complete()
	require.NoError(t, err)
	require.Equal(t, y.Weights, full.Weights)
	require.InDelta(t, 36, YokeCost{1, 2, 3, 4, 5, 6, 7, 8}.Total(), 1e-9)
}

// Every measurement and weight of a yoke is looked at, by its name.
func TestYokesAreChecked(t *testing.T) {
	for want, change := range map[string]func(*YokeTarget){
		"neck is 0 cm":                func(y *YokeTarget) { y.NeckCm = 0 },
		"body is 1001 cm":             func(y *YokeTarget) { y.BodyCm = 1001 },
		"sleeve is -1 cm":             func(y *YokeTarget) { y.SleeveCm = -1 },
		"yoke depth is 0 cm":          func(y *YokeTarget) { y.DepthCm = 0 },
		"underarm is 0 cm":            func(y *YokeTarget) { y.UnderarmCm = 0 },
		"least neck is -1 cm":         func(y *YokeTarget) { y.NeckLeastCm = -1 },
		"least body is 1001 cm":       func(y *YokeTarget) { y.BodyLeastCm = 1001 },
		"least sleeve is -1 cm":       func(y *YokeTarget) { y.SleeveLeastCm = -1 },
		"least yoke depth is -1 cm":   func(y *YokeTarget) { y.DepthLeastCm = -1 },
		"repeat of a multiple is -1":  func(y *YokeTarget) { y.Neck.Repeat = -1 },
		"repeat of a multiple is -2":  func(y *YokeTarget) { y.Body.Repeat = -2 },
		"repeat of a multiple is -3":  func(y *YokeTarget) { y.Sleeve.Repeat = -3 },
		"repeat of a multiple is -4":  func(y *YokeTarget) { y.Depth.Repeat = -4 },
		"stitches of the edges is -1": func(y *YokeTarget) { y.EdgeStitches = -1 },
		"weight is -1":                func(y *YokeTarget) { y.Weights.Neck = -1 },
		"weight is -2":                func(y *YokeTarget) { y.Weights.Sleeve = -2 },
		"weight is -3":                func(y *YokeTarget) { y.Weights.Depth = -3 },
		"weight is -4":                func(y *YokeTarget) { y.Weights.Underarm = -4 },
		"weight is -5":                func(y *YokeTarget) { y.Weights.Balance = -5 },
		"weight is -6":                func(y *YokeTarget) { y.Weights.NeckSplit = -6 },
		"weight is -7":                func(y *YokeTarget) { y.Weights.Rhythm = -7 },
	} {
		y := restedYoke(false)
		change(&y)
		_, err := y.complete()
		require.ErrorContains(t, err, want)
	}
	bad := restedYoke(false) // in their order, of which the first is named
	bad.Neck.Repeat, bad.Body.Repeat, bad.Sleeve.Repeat, bad.Depth.Repeat = -1, -2, -3, -4
	for want, m := range []*Multiple{&bad.Neck, &bad.Body, &bad.Sleeve, &bad.Depth} {
		_, err := bad.complete()
		require.ErrorContains(t, err, fmt.Sprintf("repeat of a multiple is %d", -1-want))
		*m = Plain
	}
	// What increases may be: 4 to what lies 1.5 times flat over two rows, 8 at least.
	for _, c := range []struct {
		g           Gauge
		rightSide   bool
		per         int
		least, most int
	}{{Gauge{20, 20}, false, 0, 4, 19}, {Gauge{20, 20}, true, 0, 4, 38}, {Gauge{20, 80}, false, 0, 4, 8}, {Gauge{14, 7}, false, 0, 4, 38}, {Gauge{20, 20}, true, 7, 7, 7}} {
		y := restedYoke(false)
		y.Gauge, y.RightSideOnly, y.PerRound = c.g, c.rightSide, c.per
		full, err := y.complete()
		require.NoError(t, err)
		require.Equal(t, []int{c.least, c.most}, []int{full.minPerRound, full.maxPerRound})
	}
	for _, opening := range []bool{false, true} {
		for _, turned := range []bool{false, true} {
			y := restedYoke(false)
			y.FrontOpening, y.Turned = opening, turned
			full, err := y.complete()
			require.NoError(t, err)
			require.Equal(t, opening || turned, full.Turned)
		}
	}
}

// A run of sizes has one number of increases a round: of all numbers that every size
// allows, the one that costs least over the run, each size planned by trying everything.
func TestGradedYokesAreTheCheapest(t *testing.T) {
	drawn := rapid.Custom(func(t *rapid.T) YokeTarget { return drawYoke(t, 1) })
	planned, none := 0, 0
	for seed := range 60 {
		y := customary(drawn.Example(seed))
		larger := y
		larger.BodyCm, larger.SleeveCm, larger.NeckCm = 1.1*y.BodyCm, 1.1*y.SleeveCm, 1.05*y.NeckCm
		if seed%3 == 0 {
			larger.PerRound = 3 + seed%5
		}
		run := []YokeTarget{y, larger}
		best := math.Inf(1)
		for per := 1; per <= 40; per++ {
			sum := 0.0
			for _, t := range run {
				full, _ := t.complete()
				if per < full.minPerRound || per > full.maxPerRound {
					sum = math.Inf(1)
					continue
				}
				full.PerRound, full.minPerRound, full.maxPerRound = per, per, per
				sum += bruteYoke(full)
			}
			best = min(best, sum)
		}
		plans, err := GradeYokes(run)
		if math.IsInf(best, 1) {
			require.Error(t, err)
			none++
			continue
		}
		require.NoError(t, err)
		planned++
		sum := 0.0
		for i, p := range plans {
			full, err := run[i].complete()
			require.NoError(t, err)
			checkYoke(t, full, p)
			sum += p.Cost.Total()
		}
		require.Len(t, plans, 2)
		require.InDelta(t, best, sum, 1e-6)
	}
	require.True(t, planned > 20 && none > 5, "%d, %d", planned, none)
	five, seven := restedYoke(false), restedYoke(false)
	five.PerRound, seven.PerRound = 5, 7
	_, err := GradeYokes([]YokeTarget{five, seven})
	require.EqualError(t, err, "stitch: increases a round is 7 to 5: want a number all sizes allow")
}

// What does not meet says what was asked for, and what it may increase.
func TestYokesThatDoNotMeetSayWhy(t *testing.T) {
	y := restedYoke(false)
	y.NeckCm, y.NeckLeastCm = 400, 0
	_, err := PlanCircularYoke(y)
	require.EqualError(t, err, "stitch: yoke is neck plain, body plain, sleeve plain with 4 to 14 increases a round: want multiples and increases that meet within 30 % of the targets: loosen one")
	deep := restedYoke(false)
	deep.Gauge, deep.DepthCm = Gauge{60, 200}, 999
	_, err = PlanCircularYoke(deep)
	require.EqualError(t, err, "stitch: count for 999 cm is 20020: want 1 to 20000")
	_, err = PlanRaglan(deep)
	require.Error(t, err)
	y.PerRound, y.Body = 7, Even
	_, err = PlanCircularYoke(y)
	require.ErrorContains(t, err, "body even, sleeve plain with 7 increases a round: want")
}

// Multiples never meet where no neck, body, sleeve and underarm of them are so many whole
// rounds of increases apart.
func TestMultiplesThatNeverMeet(t *testing.T) {
	d := thrown(17)
	seen := map[bool]int{}
	for range 600 {
		small := func() Multiple { return Multiple{d.whole(1, 6), d.whole(0, 5)} }
		y := YokeTarget{Neck: small(), Body: small(), Sleeve: small(), minPerRound: d.whole(1, 9)}
		y.maxPerRound = y.minPerRound
		meets := false
		for k := range 9 { // each count of a multiple comes again in the remainders
			for b := range 12 {
				for s := range 12 {
					for n := range 12 {
						yoke := y.Body.Edge + b*y.Body.Repeat + 2*(y.Sleeve.Edge+s*y.Sleeve.Repeat) - 4*k
						meets = meets || (yoke-y.Neck.Edge-n*y.Neck.Repeat)%y.minPerRound == 0
					}
				}
			}
		}
		require.Equal(t, !meets, y.neverMeets(), "%+v", y)
		seen[meets]++
		y.maxPerRound++
		require.False(t, y.neverMeets(), "one of two numbers may do")
	}
	require.True(t, seen[true] > 100 && seen[false] > 30, seen)
}

// A plan that is as good as the best does not take its place, whatever sums have left; one
// that is better by more does.
func TestBetterByMoreThanNothing(t *testing.T) {
	for _, c := range []struct {
		cost, best float64
		better     bool
	}{{5, 5, false}, {5 - 1e-12, 5, false}, {5 - 1e-7, 5, true}, {5 + 1e-12, 5, false}, {1e6 - 1e-4, 1e6, false}, {1e6 - 1, 1e6, true}, {0.1 - 1e-8, 0.1, true}, {7, math.Inf(1), true}, {0, 0, false}} {
		require.Equal(t, c.better, better(c.cost, c.best), "%+v", c)
	}
	require.True(t, noPlan().worseThan(1e300))
	require.False(t, noPlan().ok)
}
