package stitch

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/testdata/proof"
)

// A repeat of 16 stitches, 8.9 cm, cannot step by 4 cm.
func TestSameCounts(t *testing.T) {
	var run []Finished
	for _, cm := range []float64{58, 62, 66, 69, 72, 72} {
		f, err := Gauge{18, 24}.FitWidthAtLeast(cm, 0, Multiple{16, 0})
		require.NoError(t, err)
		run = append(run, f)
	}
	require.Equal(t, []int{1, 2, 4}, SameCounts(run), "the last two are one size")
}

// childrensYokes are twelve sizes of an invented jacket, by height 86 to 152.
func childrensYokes() []YokeTarget {
	var run []YokeTarget
	for i := range 12 {
		k := float64(i)
		run = append(run, YokeTarget{Gauge: Gauge{16, 17}, NeckCm: 30 + 0.7*k, BodyCm: 62 + 2.4*k, BodyLeastCm: 61 + 2.4*k, SleeveCm: 24 + 0.8*k,
			DepthCm: 14.5 + 0.55*k, Body: Even, Sleeve: Even, Neck: Even, FrontOpening: true})
	}
	return run
}

func TestGradeYokes(t *testing.T) {
	sizes := childrensYokes()
	run, err := GradeYokes(customaryRun(sizes))
	require.NoError(t, err)
	require.Len(t, run, 12)
	for i, p := range run {
		full, err := customary(sizes[i]).complete()
		require.NoError(t, err)
		checkYoke(t, full, p)
		require.Equal(t, run[0].PerRound, p.PerRound, "one yoke repeat in all sizes")
		if i > 0 {
			require.GreaterOrEqual(t, p.Body, run[i-1].Body)
			require.GreaterOrEqual(t, p.Sleeve, run[i-1].Sleeve)
		}
	}
	// No other number of increases does better over the run.
	best := 0.0
	for _, p := range run {
		best += p.Cost.Total()
	}
	for per := 4; per <= 10; per++ {
		sum := 0.0
		for _, y := range sizes {
			y.PerRound = per
			p, err := PlanCircularYoke(customary(y))
			if err != nil {
				sum = math.Inf(1)
				break
			}
			sum += p.Cost.Total()
		}
		require.LessOrEqual(t, best, sum+1e-6, "%d a round", per)
	}

	sizes[3].NeckCm = math.NaN()
	_, err = GradeYokes(customaryRun(sizes))
	require.ErrorContains(t, err, "size 4 of 12: stitch: neck is NaN cm")
	none, err := GradeYokes(nil)
	require.NoError(t, err)
	require.Empty(t, none)
	sizes = childrensYokes()
	sizes[2].NeckCm = 400
	_, err = GradeYokes(customaryRun(sizes))
	require.ErrorContains(t, err, "size 3 of 12")
}

// A sweep over children's sizes, gauges and ways of working: every yoke can be
// planned, and misses its targets by no more than the counts force.
func TestYokeSweep(t *testing.T) {
	plans := 0
	for _, g := range []Gauge{{10, 9}, {14, 14}, {16, 17}, {18, 10}, {20, 27}, {24, 32}, {28, 36}} {
		for i, y := range childrensYokes() {
			if i%4 > 0 && !proof.Whole() {
				continue
			}
			for _, opening := range []bool{true, false} {
				for _, rightSide := range []bool{true, false} {
					for _, m := range []Multiple{Plain, Even, {4, 0}} {
						y.Gauge, y.FrontOpening, y.RightSideOnly = g, opening, rightSide
						y.Body, y.Sleeve, y.Neck = m, m, Even
						full, err := customary(y).complete()
						require.NoError(t, err)
						name := fmt.Sprintf("%v size %d opening %v right side %v %v", g, i, opening, rightSide, m)
						p, err := PlanCircularYoke(customary(y))
						require.NoError(t, err, name)
						checkYoke(t, full, p)
						step := float64(m.repeat()) * g.StitchWidthCm()
						require.LessOrEqual(t, math.Abs(p.BodyFit.errorCm()), step+1, name)
						require.LessOrEqual(t, math.Abs(p.SleeveFit.errorCm()), step+1, name)
						r, err := PlanRaglan(customary(y))
						require.NoError(t, err, name)
						checkRaglan(t, full, r)
						require.LessOrEqual(t, math.Abs(r.BodyFit.errorCm()), step+1, name)
						require.LessOrEqual(t, math.Abs(r.SleeveFit.errorCm()), step+1, name)
						plans += 2
					}
				}
			}
		}
	}
	sizes := 3
	if proof.Whole() {
		sizes = 12
	}
	require.Equal(t, 2*7*sizes*2*2*3, plans)
}
