package stitch

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestBrackets(t *testing.T) {
	require.Equal(t, "2 (4, 6, 8, 10)", CountBrackets([]int{2, 4, 6, 8, 10}))
	require.Equal(t, "48", CountBrackets([]int{48}))
	require.Empty(t, CountBrackets(nil))
	require.Equal(t, "60.0 (64.5, 69.0)", LengthBrackets([]float64{60, 64.5, 69}, 1))
	require.Equal(t, "S (M, L)", Brackets([]string{"S", "M", "L"}))
	for _, bad := range []string{"", "2 (4, 6", "2 4, 6)", "(4, 6)", "2 (4,, 6)", "2 (4) (6)", "2 ()", "2 (4, 6))"} {
		_, err := ParseBrackets(bad)
		require.ErrorContains(t, err, `a form like "2 (4, 6, 8, 10)"`, bad)
	}
	rapid.Check(t, func(t *rapid.T) {
		counts := rapid.SliceOfN(rapid.IntRange(0, 400), 1, 12).Draw(t, "counts")
		values, err := ParseBrackets(CountBrackets(counts))
		require.NoError(t, err)
		require.Equal(t, fmt.Sprint(counts), fmt.Sprint(values))
	})
}

func TestGradeWidths(t *testing.T) {
	g := Gauge{18, 24}
	chests := []float64{58, 62, 66, 69, 72}
	run, err := GradeWidths(g, chests, nil, Plain, SameParity)
	require.NoError(t, err)
	require.Equal(t, "104 (112, 118, 124, 130)", CountBrackets(Counts(run)))
	rows, err := GradeHeights(g, []float64{26, 30, 33}, nil, Plain, OddParity)
	require.NoError(t, err)
	require.Equal(t, "63 (73, 79)", CountBrackets(Counts(rows)))

	// A repeat of 16 stitches, 8.9 cm, cannot step by 4 cm.
	run, err = GradeWidths(g, chests, nil, Multiple{16, 0}, AnyParity)
	require.NoError(t, err)
	require.Equal(t, "112 (112, 112, 128, 128)", CountBrackets(Counts(run)))
	require.Equal(t, []int{1, 2, 4}, SameCounts(run))

	_, err = GradeWidths(g, chests, []float64{1}, Plain, AnyParity)
	require.ErrorContains(t, err, "floors of a run of sizes is 1: want none, or one for each of the 5 sizes")
	_, err = GradeWidths(g, []float64{60, math.NaN()}, nil, Plain, AnyParity)
	require.ErrorContains(t, err, "size 2 of 2: stitch: width is NaN cm")
	_, err = GradeWidths(g, chests, nil, Even, OddParity)
	require.ErrorContains(t, err, "of the other parity")
	_, err = GradeWidths(g, chests, nil, Even, Parity(9))
	require.ErrorContains(t, err, "parity is 9")

	rapid.Check(t, func(t *rapid.T) {
		g, m := drawGauge(t), drawMultiple(t)
		sizes := rapid.SliceOfN(rapid.Float64Range(20, 110), 1, 12).Draw(t, "sizes")
		slices.Sort(sizes)
		least := make([]float64, len(sizes))
		for i, cm := range sizes {
			least[i] = cm * 0.97
		}
		run, err := GradeWidths(g, sizes, least, m, SameParity)
		require.NoError(t, err)
		for i, f := range run {
			require.True(t, m.Has(f.Count))
			require.GreaterOrEqual(t, f.SizeCm, least[i]-1e-6)
			require.Equal(t, run[0].Count%2, f.Count%2, "one parity")
			require.True(t, i == 0 || f.Count >= run[i-1].Count, "a larger size never has fewer stitches")
		}
	})
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
	run, err := GradeYokes(sizes)
	require.NoError(t, err)
	require.Len(t, run, 12)
	for i, p := range run {
		full, err := sizes[i].complete()
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
			p, err := PlanCircularYoke(y)
			if err != nil {
				sum = math.Inf(1)
				break
			}
			sum += p.Cost.Total()
		}
		require.LessOrEqual(t, best, sum+1e-6, "%d a round", per)
	}

	sizes[3].NeckCm = math.NaN()
	_, err = GradeYokes(sizes)
	require.ErrorContains(t, err, "size 4 of 12: stitch: neck is NaN cm")
	none, err := GradeYokes(nil)
	require.NoError(t, err)
	require.Empty(t, none)
	sizes = childrensYokes()
	sizes[2].NeckCm = 400
	_, err = GradeYokes(sizes)
	require.ErrorContains(t, err, "size 3 of 12")
}

// A sweep over children's sizes, gauges and ways of working: every yoke can be
// planned, and misses its targets by no more than the counts force.
func TestYokeSweep(t *testing.T) {
	plans := 0
	for _, g := range []Gauge{{10, 9}, {14, 14}, {16, 17}, {18, 10}, {20, 27}, {24, 32}, {28, 36}} {
		for i, y := range childrensYokes() {
			for _, opening := range []bool{true, false} {
				for _, rightSide := range []bool{true, false} {
					for _, m := range []Multiple{Plain, Even, {4, 0}} {
						y.Gauge, y.FrontOpening, y.RightSideOnly = g, opening, rightSide
						y.Body, y.Sleeve, y.Neck = m, m, Even
						full, err := y.complete()
						require.NoError(t, err)
						name := fmt.Sprintf("%v size %d opening %v right side %v %v", g, i, opening, rightSide, m)
						p, err := PlanCircularYoke(y)
						require.NoError(t, err, name)
						checkYoke(t, full, p)
						step := float64(m.repeat()) * g.StitchWidthCm()
						require.LessOrEqual(t, math.Abs(p.BodyFit.ErrorCm()), step+1, name)
						require.LessOrEqual(t, math.Abs(p.SleeveFit.ErrorCm()), step+1, name)
						y.RaglanAtOnce = 2 // tall stitches need it
						full.RaglanAtOnce = 2
						r, err := PlanRaglan(y)
						require.NoError(t, err, name)
						checkRaglan(t, full, r)
						require.LessOrEqual(t, math.Abs(r.BodyFit.ErrorCm()), step+1, name)
						require.LessOrEqual(t, math.Abs(r.SleeveFit.ErrorCm()), step+1, name)
						plans += 2
					}
				}
			}
		}
	}
	require.Equal(t, 2*7*12*2*2*3, plans)
}
