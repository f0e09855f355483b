package stitch

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// eachYoke draws small yokes, the same ones each time.
func eachYoke(f func(y YokeTarget, perRound int)) {
	drawn := rapid.Custom(func(t *rapid.T) YokeTarget { return drawYoke(t, 1) })
	for seed := range 500 {
		f(drawn.Example(seed), 2+seed%7)
	}
}

func TestYokeIsOptimal(t *testing.T) {
	found := 0
	eachYoke(func(y YokeTarget, perRound int) {
		for _, y.PerRound = range []int{0, perRound} {
			full, err := customary(y).complete()
			require.NoError(t, err)
			want := bruteYoke(full)
			p, err := PlanCircularYoke(customary(y))
			if math.IsInf(want, 1) {
				require.Error(t, err)
				continue
			}
			require.NoError(t, err)
			found++
			require.InDelta(t, want, p.Cost.Total(), 1e-6)
			checkYoke(t, full, p)
		}
	})
	require.Greater(t, found, 500)
}

func TestRaglanIsOptimal(t *testing.T) {
	found := 0
	eachYoke(func(y YokeTarget, _ int) {
		full, err := customary(y).complete()
		require.NoError(t, err)
		want := bruteRaglan(full)
		p, err := PlanRaglan(customary(y))
		if math.IsInf(want, 1) {
			require.Error(t, err)
			return
		}
		require.NoError(t, err)
		found++
		require.InDelta(t, want, p.Cost.Total(), 1e-6)
		checkRaglan(t, full, p)
	})
	require.Greater(t, found, 250)
}

// checkShared holds for every yoke, whatever its shape: its parts add up, none is under its
// floor, each says what it measures and what was asked for, and costs what it misses.
func checkShared(t require.TestingT, y YokeTarget, s Split, neck, rows int, fits [5]Finished, cost YokeCost) {
	require.NoError(t, s.Check())
	require.True(t, y.Neck.Has(neck) && y.Body.Has(s.Body) && y.Sleeve.Has(s.Sleeve) && y.Depth.Has(rows))
	require.Equal(t, s.Yoke, s.fronts()+s.Back+2*s.SleevePart)
	require.Equal(t, s.Yoke, yokeTotal(s.Body, s.Sleeve, s.Underarm))
	require.Equal(t, y.FrontOpening, s.FrontOpening)
	w := y.Weights
	for i, part := range []struct {
		n                     int
		wantCm, leastCm, size float64
		weight, cost          float64
	}{
		{neck, y.NeckCm, y.NeckLeastCm, y.Gauge.WidthCm(neck), w.Neck, cost.Neck},
		{s.Body, y.BodyCm, y.BodyLeastCm, y.Gauge.WidthCm(s.Body), w.Body, cost.Body},
		{s.Sleeve, y.SleeveCm, y.SleeveLeastCm, y.Gauge.WidthCm(s.Sleeve), w.Sleeve, cost.Sleeve},
		{rows, y.DepthCm, y.DepthLeastCm, y.Gauge.HeightCm(rows), w.Depth, cost.Depth},
		{s.Underarm, y.UnderarmCm, 0, y.Gauge.WidthCm(s.Underarm), w.Underarm, cost.Underarm},
	} {
		require.Equal(t, Finished{part.n, part.size, part.wantCm}, fits[i])
		require.GreaterOrEqual(t, part.size, part.leastCm-1e-6)
		require.InDelta(t, squared(part.weight, part.size-part.wantCm), part.cost, 1e-9)
	}
	edges := 0
	if y.FrontOpening {
		edges = y.EdgeStitches
	}
	require.InDelta(t, squared(w.Balance, y.Gauge.WidthCm(s.Back)-y.Gauge.WidthCm(s.fronts()+edges)), cost.Balance, 1e-9)
}

func checkYoke(t require.TestingT, y YokeTarget, p YokePlan) {
	checkShared(t, y, p.Split, p.Neck, p.Rows, [5]Finished{p.NeckFit, p.BodyFit, p.SleeveFit, p.DepthFit, p.UnderarmFit}, p.Cost)
	require.LessOrEqual(t, len(p.Phases), 2)
	require.Zero(t, p.Cost.NeckSplit)
	count, row, between, at := p.Neck, 0, 0, 0
	for _, phase := range p.Phases {
		for i := range phase.Times {
			r := p.Rounds[at]
			require.Equal(t, YokeRound{phase.RowOf(i), phase.Change, phase.After(i)}, r)
			require.Greater(t, r.Row, row)
			require.LessOrEqual(t, r.Row, p.Rows)
			require.True(t, !y.RightSideOnly || r.Row%2 == 1)
			require.Equal(t, p.PerRound, r.Increase)
			require.Equal(t, count+r.Increase, r.Stitches)
			row = r.Row
			between = checkSpacing(t, phase.Across(i), count, r.Stitches, y.Turned, between)
			count, at = r.Stitches, at+1
		}
	}
	require.Len(t, p.Rounds, at)
	require.Equal(t, p.Yoke, count)
	require.InDelta(t, float64(p.Yoke-p.Neck)/float64(p.Rows), p.Lie.PerRound, 1e-9)
	flat := polygon(y.Gauge.RowHeightCm()) / y.Gauge.StitchWidthCm()
	require.InEpsilon(t, flat, p.Lie.Flat, 1e-6)
	require.InDelta(t, p.Lie.PerRound/flat-1, p.Lie.Deviation, 1e-6)
}

// checkSpacing holds for every row of a yoke: one spacing, a stitch more than the
// time before, and in turned rows plain edges, alike to a stitch.
func checkSpacing(t require.TestingT, a Across, from, to int, turned bool, before int) (between int) {
	used, made, at := work(a)
	require.Equal(t, from, used)
	require.Equal(t, to, made)
	between = before + 1
	if len(at) > 1 && before == 0 {
		between = at[1] - at[0] - 1
	}
	require.Positive(t, between)
	for i := 1; i < len(at); i++ {
		require.Equal(t, between, at[i]-at[i-1]-1)
	}
	lead, trail := at[0]-1, from-at[len(at)-1]
	if turned {
		require.True(t, lead >= 1 && trail >= 1 && lead-trail >= 0 && lead-trail <= 1, "edges %d and %d", lead, trail)
	} else if len(at) > 1 {
		require.Equal(t, between, lead)
		require.Less(t, trail, len(at), "what is left over is less than a stitch for each increase")
	}
	return between
}

func checkRaglan(t require.TestingT, y YokeTarget, p RaglanPlan) {
	checkShared(t, y, p.Split, p.Neck, p.Rows, [5]Finished{p.NeckFit, p.BodyFit, p.SleeveFit, p.DepthFit, p.UnderarmFit}, p.Cost)
	checkLaidRaglan(t, y.Gauge, p.Phases, raglanBegun{p.NeckFront, p.NeckBack, p.NeckSleeve, p.FrontOpening}, 0, p.Rows, p.BodyIncreases, p.SleeveIncreases, y.RightSideOnly)
	require.InDelta(t, squared(y.Weights.NeckSplit, y.Gauge.WidthCm(p.NeckSleeve)-y.Gauge.WidthCm(p.Neck)*y.SleeveNeckShare), p.Cost.NeckSplit, 1e-9)
	front, back, sleeve, row := p.NeckFront, p.NeckBack, p.NeckSleeve, 0
	sum := func() int {
		if p.FrontOpening {
			return 2*front + back + 2*sleeve
		}
		return front + back + 2*sleeve
	}
	require.Equal(t, p.Neck, sum())
	require.True(t, front >= 1 && back >= 1 && sleeve >= 1)
	wrongSide := max(p.BodyIncreases, p.SleeveIncreases) > rowsToIncrease(p.Rows, y.RightSideOnly)
	for _, r := range p.Phases {
		require.Positive(t, r.Body+r.Sleeves)
		require.LessOrEqual(t, max(r.Body, r.Sleeves), 2)
		require.True(t, r.Body < 2 || p.BodyIncreases > p.Rows, "two on a side only where the rows are too few")
		require.True(t, r.Sleeves < 2 || p.SleeveIncreases > p.Rows)
		require.Equal(t, max(r.Body, r.Sleeves) == 2, r.Apart > 0, "and then apart")
		for i := range r.Times {
			require.Greater(t, r.RowOf(i), row)
			row = r.RowOf(i)
			require.LessOrEqual(t, row, p.Rows)
			require.True(t, !y.RightSideOnly || wrongSide || row%2 == 1)
			back += 2 * r.Body
			front += 2 * r.Body
			if p.FrontOpening {
				front -= r.Body
			}
			sleeve += 2 * r.Sleeves
			require.Equal(t, sum(), r.After(i))
		}
		require.Equal(t, row, r.Last())
	}
	require.Equal(t, []int{p.Front, p.Back, p.SleevePart}, []int{front, back, sleeve})
}

func TestYokeAtRealSizes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := drawYoke(t, 3)
		y.Gauge = drawGauge(t)
		full, err := customary(y).complete()
		require.NoError(t, err)
		if p, err := PlanCircularYoke(customary(y)); err == nil {
			checkYoke(t, full, p)
		}
		if p, err := PlanRaglan(customary(y)); err == nil {
			checkRaglan(t, full, p)
		}
	})
}

func TestYokeCostIsExplained(t *testing.T) {
	// The sleeve must be a multiple of 12 and at least 20 cm: it pays, and says so.
	g := Gauge{20, 20}
	y := YokeTarget{Gauge: g, NeckCm: 30, BodyCm: 64, SleeveCm: 20, DepthCm: 14, UnderarmCm: 5, Sleeve: Multiple{12, 0}, SleeveLeastCm: 20, FrontOpening: true}
	p, err := PlanCircularYoke(customary(y))
	require.NoError(t, err)
	require.Equal(t, 48, p.Sleeve)
	require.InDelta(t, defaultWeights.Sleeve*4*4, p.Cost.Sleeve, 1e-9, "24 cm for 20, squared, twice")
	require.InDelta(t, 4, p.SleeveFit.errorCm(), 1e-9)
	require.Greater(t, p.Cost.Total(), p.Cost.Sleeve-1e-9)

	// Weighted the other way, depth gives before the sleeve does.
	y = YokeTarget{Gauge: g, NeckCm: 30, BodyCm: 64, SleeveCm: 26, DepthCm: 6, UnderarmCm: 3}
	y.Weights = Weights{Neck: 10, Body: 10, Sleeve: 10, Depth: 0.01, Underarm: 10}
	deep, err := PlanCircularYoke(customary(y))
	require.NoError(t, err)
	y.Weights.Depth, y.Weights.Sleeve = 1000, 0.1
	shallow, err := PlanCircularYoke(customary(y))
	require.NoError(t, err)
	require.Greater(t, deep.Rows, shallow.Rows)
	require.Greater(t, math.Abs(shallow.SleeveFit.errorCm()), math.Abs(deep.SleeveFit.errorCm()))
}

func TestYokeRefused(t *testing.T) {
	good := YokeTarget{Gauge: Gauge{15, 8}, NeckCm: 32, BodyCm: 67, SleeveCm: 21, DepthCm: 17}
	_, err := PlanCircularYoke(customary(good))
	require.NoError(t, err)
	for _, tt := range []struct {
		name   string
		change func(*YokeTarget)
		want   string
	}{
		{"NaN neck", func(y *YokeTarget) { y.NeckCm = math.NaN() }, "neck is NaN cm"},
		{"no body", func(y *YokeTarget) { y.BodyCm = 0 }, "body is 0 cm"},
		{"infinite sleeve", func(y *YokeTarget) { y.SleeveCm = math.Inf(1) }, "sleeve is +Inf cm"},
		{"negative depth", func(y *YokeTarget) { y.DepthCm = -3 }, "yoke depth is -3 cm"},
		{"NaN floor", func(y *YokeTarget) { y.BodyLeastCm = math.NaN() }, "least body is NaN cm"},
		{"no gauge", func(y *YokeTarget) { y.Gauge = Gauge{} }, "stitch gauge is 0"},
		{"bad multiple", func(y *YokeTarget) { y.Neck = Multiple{4, -9} }, "edge of a multiple is -9"},
		{"NaN weight", func(y *YokeTarget) { y.Weights.Body = math.NaN() }, "weight is NaN"},
		{"negative weight", func(y *YokeTarget) { y.Weights.Body = -1 }, "weight is -1"},
		{"negative increases", func(y *YokeTarget) { y.PerRound = -1 }, "increases a round is -1"},
		{"parities that never meet", func(y *YokeTarget) { y.Neck, y.Body, y.PerRound = Odd, Even, 6 }, "6 increases a round: want multiples and increases that meet within 30 %"},
		{"neck wider than the yoke", func(y *YokeTarget) { y.NeckCm = 400 }, "loosen one"},
		{"metres for centimetres", func(y *YokeTarget) { y.BodyCm = 6700 }, "body is 6700 cm"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			y := good
			tt.change(&y)
			_, err := PlanCircularYoke(customary(y))
			require.ErrorContains(t, err, tt.want)
		})
	}
	bad := good
	bad.PerRound = 8
	_, err = PlanRaglan(customary(bad))
	require.ErrorContains(t, err, "four lines gain 8")
	bad = good
	bad.DepthCm = math.NaN()
	_, err = PlanRaglan(customary(bad))
	require.Error(t, err)
	bad = good
	bad.NeckCm = 400
	_, err = PlanRaglan(customary(bad))
	require.ErrorContains(t, err, "raglan is neck plain, body plain")
}

func TestRaglanUneven(t *testing.T) {
	// A tall slim child's jacket: wide sleeves over winter clothes on a narrow body.
	g := Gauge{16, 18}
	p, err := PlanRaglan(customary(YokeTarget{Gauge: g, NeckCm: 34, BodyCm: 72, SleeveCm: 34, DepthCm: 17, UnderarmCm: 5, FrontOpening: true}))
	require.NoError(t, err)
	require.NotEqual(t, p.BodyIncreases, p.SleeveIncreases)
	rows := 0
	for _, phase := range p.Phases {
		rows += phase.Times
	}
	require.Equal(t, max(p.BodyIncreases, p.SleeveIncreases), rows)
	require.Less(t, p.Cost.Total(), 1.0)
}

func TestSplitCheck(t *testing.T) {
	good := Split{FrontOpening: true, Yoke: 132, Front: 21, Back: 42, SleevePart: 24, Underarm: 8, Body: 100, Sleeve: 32}
	require.NoError(t, good.Check())
	require.Equal(t, 42, Split{Front: 42}.fronts())
	for want, change := range map[string]func(*Split){
		"yoke is 130: want fronts 42 + back 42 + sleeves 2 × 24 = 132": func(s *Split) { s.Yoke = 130 },
		"body is 92: want fronts 42 + back 42 + underarms 2 × 8 = 100": func(s *Split) { s.Body = 92 },
		"sleeve is 24: want sleeve part 24 + underarm 8 = 32":          func(s *Split) { s.Sleeve = 24 },
		"underarm is -1: want 0 to 20000":                              func(s *Split) { s.Underarm = -1 },
	} {
		s := good
		change(&s)
		require.ErrorContains(t, s.Check(), want)
	}
	require.InDelta(t, 17, ArmholeDepthCm(14.5, 5), 1e-9)
}
