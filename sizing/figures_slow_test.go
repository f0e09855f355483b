package sizing

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// A mixture is the mean and the variance of a sample that is weighed, and within it the
// variances of its parts: gonum's. Where half of it or more is not known it is not either.
func TestMixtureIsOfAWeighedSample(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 1))
	for range 100 {
		var x mixture
		var means, lows, highs, weights []float64
		n := 1 + rng.IntN(5)
		for range n {
			m, l, h, w := rng.NormFloat64(), rng.Float64(), rng.Float64(), (0.6+0.4*rng.Float64())/float64(n)
			x.add(w, m, l*l, h*h)
			x.add(0.9, math.NaN(), 1, 1)
			means, lows, highs, weights = append(means, m), append(lows, l*l), append(highs, h*h), append(weights, w)
		}
		mean, low, high, ok := x.result()
		require.True(t, ok)
		between := stat.PopVariance(means, weights)
		require.InDelta(t, stat.Mean(means, weights), mean, 1e-9)
		require.InDelta(t, math.Sqrt(stat.Mean(lows, weights)+between), low, 1e-7)
		require.InDelta(t, math.Sqrt(stat.Mean(highs, weights)+between), high, 1e-7)
	}
	for weight, want := range map[float64]bool{0.5: true, 0.4999: false} {
		var x mixture
		x.add(weight, 1, 0, 0)
		mean, low, high, ok := x.result()
		require.Equal(t, want, ok)
		if ok {
			require.Equal(t, []float64{1, 0, 0}, []float64{mean, low, high})
		}
	}
	// What floating point leaves below nothing is nothing.
	x := mixture{1, 1, 1 - 1e-12, -1e-12, -1e-12, false}
	_, low, high, _ := x.result()
	require.Equal(t, []float64{0, 0}, []float64{low, high})
	var f figure
	f.set(100, &mixture{1, 0.1, 0.01, 0.04, 0.09, false})
	// Of a normal sample a tenth lies below −1.2816 spreads, and a tenth above 1.2816.
	require.InDeltaSlice(t, []float64{100 * math.Exp(0.1), 100 * math.Exp(0.1-0.25631), 100 * math.Exp(0.1+0.38447)}, []float64{f.Value, f.Low, f.High}, 1e-3)
	require.True(t, f.known)
}

// drawEstimated is an estimator that has worked out a made-up child: what was taken goes
// together, more or less.
func drawEstimated(t *testing.T, e *estimator, rng *rand.Rand, withHeight bool) (ok bool) {
	t.Helper()
	e.forget()
	sex, age := sexes[rng.IntN(3)], 0.0
	b, err := e.ref.bases[sex]()
	require.NoError(t, err)
	var a heightPoint
	a.moveTo(b, 93+70*rng.Float64())
	if withHeight {
		e.own[e.height] = a.height
	} else if rng.IntN(2) == 0 {
		age = 2.5 + 12*rng.Float64()
	}
	for range rng.IntN(4) {
		m := b.evidence[rng.IntN(len(b.evidence))]
		e.own[m] = a.median(m) * math.Exp(0.04*rng.NormFloat64())
	}
	return e.estimate(sex, age) == nil && len(e.dropped) == 0
}

// Without a height, each height counts by how likely it makes what was taken, and by how
// far it is from the median at the age; the middle of them is their mean.
func TestLikelyHeights(t *testing.T) {
	e := everyMeasurement(t)
	ref := e.ref
	rng := rand.New(rand.NewPCG(13, 1))
	seen, aged := 0, 0
	for range 60 {
		if !drawEstimated(t, e, rng, false) {
			continue
		}
		seen++
		sex := e.group.sex
		for _, age := range []float64{0, 3.5, 9} {
			expected, err := e.heightAtAge(age)
			require.NoError(t, err)
			c, levels := e.given, e.given.levels(e.group.grid())
			best := e.weigh(c, levels, expected)
			costs := make([]float64, len(levels))
			sum, least, at := 0.0, math.Inf(1), 0
			for i := range levels {
				costs[i] = c.childCost(&levels[i], e.logs, e.z)
				if age > 0 {
					run, _ := e.group.chart.Run(Years, sex)
					z := math.Log(levels[i].at.height/run.Value("height", age)) / ref.Practice("height_spread_at_age").Share()
					costs[i] += z * z / 2
					aged++
				}
				if costs[i] < least {
					least, at = costs[i], i
				}
			}
			require.Equal(t, at, best)
			for _, c := range costs {
				sum += math.Exp(-(c - least))
			}
			for i, c := range costs {
				require.InDelta(t, math.Exp(-(c-least))/sum, e.costs[i], 1e-12)
			}
		}
		middle, kept := 0.0, 0.0
		for i := range e.guesses {
			g := &e.guesses[i]
			middle, kept = middle+g.weight*g.at.height, kept+g.weight
			require.Greater(t, g.weight, 1e-5)
			_, apart := math.Modf(g.at.height - e.group.low + 1e-6)
			require.InDelta(t, 0, apart, 1e-5, "heights are a centimetre apart")
		}
		require.InDelta(t, 1, kept, 1e-3)
		require.InDelta(t, middle, e.middle.height, 1e-9)
	}
	require.Greater(t, seen, 20)
	require.Greater(t, aged, 1000)
	grid := e.group.grid()
	require.InDelta(t, e.group.low, grid[0].height, 1e-9)
	require.Less(t, e.group.high-grid[len(grid)-1].height, 1.0)
	require.LessOrEqual(t, grid[len(grid)-1].height, e.group.high)
}

// A measurement that was not taken is, over the likely heights, the median there times what
// is expected; what only the trade's chart has is moved by what it stands for and has a
// part of its own; what is a sum of others adds up what is expected of them, and is as
// sure as they are together.
func TestFiguresAreOfTheLikelyHeights(t *testing.T) {
	e := everyMeasurement(t)
	rng := rand.New(rand.NewPCG(14, 1))
	counts := make(map[string]int)
	for k := range 80 {
		if !drawEstimated(t, e, rng, k%2 == 0) {
			continue
		}
		for m := range e.group.methods {
			d := &e.group.methods[m]
			if e.took(m) || d.approach != byMedian && d.approach != bySum {
				continue
			}
			byCurve := d.Curve != nil && d.surveyed && e.middle.height >= d.low-d.reach && e.middle.height <= d.high
			if run := e.middle.run; d.approach == byMedian && !byCurve && d.carried > 0 && (run == nil || math.IsNaN(run.Value(d.measurement.ID, e.middle.position))) {
				byCurve = e.middle.height <= d.high
			}
			var logs, lows, highs, weights []float64
			for i := range e.guesses {
				g := &e.guesses[i]
				if d.approach == bySum {
					terms := make([]float64, len(d.terms)) // 0 where it is sure
					cov := mat.NewDense(len(terms), len(terms), nil)
					high := mat.NewDense(len(terms), len(terms), nil)
					sum := 0.0
					for j, term := range d.terms {
						v := e.group.methods[term.m].At(g.at.height)
						switch {
						case e.took(term.m) && e.group.methods[term.m].tape == 0 && !e.doubted(term.m):
							v = e.own[term.m]
						case term.m == e.height:
							v = g.at.height
						case term.v >= 0:
							v *= math.Exp(g.mean[term.v])
							terms[j] = term.factor * v
						}
						sum += term.factor * v
					}
					for a := range terms {
						for b := range terms {
							if terms[a] != 0 && terms[b] != 0 {
								low, up := e.given.covariance(g, d.terms[a].v, d.terms[b].v)
								cov.Set(a, b, low)
								high.Set(a, b, up)
							}
						}
					}
					x := mat.NewVecDense(len(terms), terms)
					logs = append(logs, math.Log(sum))
					lows = append(lows, mat.Inner(x, cov, x)/sum/sum+d.assumed*d.assumed)
					highs = append(highs, mat.Inner(x, high, x)/sum/sum+d.assumed*d.assumed)
					weights = append(weights, g.weight)
					continue
				}
				median := d.At(g.at.height)
				if !byCurve {
					median = math.NaN()
					if place, err := e.group.chart.AtHeight(g.at.height, e.group.sex); err == nil {
						median = place.Run.Value(d.measurement.ID, place.Position)
					}
				}
				if math.IsNaN(median) {
					continue
				}
				low, up := g.variance(d.v)
				own := (1 - d.closeness*d.closeness) * g.at.sd(d.v) * g.at.sd(d.v)
				logs = append(logs, math.Log(median)+d.closeness*g.mean[d.v])
				lows, highs = append(lows, d.closeness*d.closeness*low+own), append(highs, d.closeness*d.closeness*up+own)
				weights = append(weights, g.weight)
			}
			var f figure
			if d.approach == bySum {
				e.fromSum(&f, m)
			} else {
				e.fromMedian(&f, m)
			}
			if !f.known {
				counts["unknown"]++
				continue
			}
			mean, between := stat.Mean(logs, weights), stat.PopVariance(logs, weights)
			name := d.measurement.ID
			require.InDelta(t, math.Exp(mean), f.Value, 1e-7, name)
			require.InDelta(t, 1.2815515655*math.Sqrt(stat.Mean(lows, weights)+between), math.Log(f.Value/f.Low), 1e-7, name)
			require.InDelta(t, 1.2815515655*math.Sqrt(stat.Mean(highs, weights)+between), math.Log(f.High/f.Value), 1e-7, name)
			require.Equal(t, []any{EightInTen, Estimated}, []any{f.Spread, f.Provenance})
			counts[map[bool]string{true: "sum", false: "median"}[d.approach == bySum]]++
			if d.closeness != 1 {
				counts["stand-in"]++
			}
		}
	}
	require.Greater(t, min(counts["sum"], counts["median"], counts["stand-in"]), 100, "%v", counts)
}

// A sitting height, or a trunk, that was taken says where the crotch is: by the formulas
// that the tables have, the inside leg is 97 % of what it leaves of the height, and the
// trunk what the leg leaves of the throat's height and 5.1 % more.
func TestWhatSaysWhereTheCrotchIs(t *testing.T) {
	e := everyMeasurement(t)
	ref := e.ref
	n := func(id string) int { return ref.order[id] }
	for _, sex := range sexes {
		for _, height := range []float64{97, 120, 151} {
			for _, longer := range []float64{-2, 0, 1.5} {
				e.forget()
				e.own[e.height] = height
				require.NoError(t, e.estimate(sex, 0))
				median := func(id string) float64 { return e.group.methods[n(id)].At(height) }
				leg, throat := median("inside_leg")+longer, median("suprasternale_height")
				departs := func(id string) float64 {
					log, ok := e.evidenceOf(n(id))
					require.True(t, ok)
					return log - math.Log(median(id))
				}
				want := math.Log(leg / median("inside_leg"))
				e.own[n("sitting_height")] = height - leg/0.97
				require.InDelta(t, want, departs("sitting_height"), 1e-9)
				e.own[n("trunk")] = throat + 0.051*height - leg
				require.InDelta(t, want, departs("trunk"), 1e-9)
				e.own[n("suprasternale_height")] = throat + 1
				e.own[n("trunk")]++
				require.InDelta(t, want, departs("trunk"), 1e-9, "with the throat's height taken too")
				e.own[n("trunk")] = height * 1.2 // no room for a leg
				_, ok := e.evidenceOf(n("trunk"))
				require.False(t, ok)
				e.own[e.height] = math.NaN()
				_, ok = e.evidenceOf(n("sitting_height"))
				require.False(t, ok, "without a height it says nothing")
			}
		}
		// How sure each is: the tape's own spread for the leg; for the sums the spread of
		// the other heights in them, at the middle height, as a share of the leg.
		b, err := ref.bases[sex]()
		require.NoError(t, err)
		middle := (b.low + b.high) / 2
		require.Equal(t, 0.05, b.methods[n("inside_leg")].tape)
		require.Zero(t, b.methods[n("sitting_height")].tape, "the height is known")
		throat := b.rel.find("suprasternale_height")
		require.InDelta(t, b.methods[n("suprasternale_height")].At(middle)*b.rel.spread[throat].at(middle)/b.methods[n("inside_leg")].At(middle),
			b.methods[n("trunk")].tape, 1e-9)
	}
}
