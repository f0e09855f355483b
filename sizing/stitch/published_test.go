package stitch

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Worked examples of published handbooks and tutorials, each named by author
// or title where it can be told. Slips that were printed are checks that our
// result differs. Inches are as printed.

func inches(x float64) float64 { return x * inchCm }

// perInch is a gauge printed per inch.
func perInch(t *testing.T, stitches, rows float64) Gauge {
	t.Helper()
	g, err := Swatch{Stitches: 4 * stitches, WidthCm: FourInchesCm, Rows: 4 * rows, HeightCm: FourInchesCm}.Gauge()
	require.NoError(t, err)
	return g
}

func TestPublishedCounts(t *testing.T) {
	for _, tt := range []struct {
		source   string
		st, rows float64 // per inch; 0 rows: not printed, taken square
		cm       float64
		multiple string
		rounding Rounding
		exact    float64
		want     int
	}{
		{"common practice, no source (G1: 22 sts to 10 cm, 48 cm)", 22 * 0.254, 0, 48, "plain", Nearest, 105.6, 106},
		{"common practice, no source (G2: 41 in at 21 sts to 4 in)", 5.25, 0, inches(41), "plain", Nearest, 215.25, 215},
		{"common practice, no source (G2: 41.25 in)", 5.25, 0, inches(41.25), "plain", Nearest, 216.5625, 217},
		{"common practice, no source (G2: 41.5 in)", 5.25, 0, inches(41.5), "plain", Nearest, 217.875, 218},
		{"common practice, no source (G2: 42 in, half goes up)", 5.25, 0, inches(42), "plain", Nearest, 220.5, 221},
		{"common practice, no source (G3: repeat 12n + 14, n = 17)", 5.25, 0, inches(41.5), "12n+14", Nearest, 217.875, 218},
		{"common practice, no source (G5: 36 in at 5, repeat of 7, lower)", 5, 0, inches(36), "7n", Down, 180, 175},
		{"common practice, no source (G5: higher)", 5, 0, inches(36), "7n", Up, 180, 182},
		{"common practice, no source (G6: seamed cardigan, back 10 in at 3)", 3, 0, inches(10), "plain", Nearest, 30, 30},
		{"common practice, no source (G6: each front 5 in)", 3, 0, inches(5), "plain", Nearest, 15, 15},
		{"common practice, no source (G8: 8 in at 4.5)", 4.5, 6, inches(8), "plain", Nearest, 36, 36},
		{"K. TenDyke, sleeve (2006/2014): cuff 7 3/4 in at 5, even, taken down", 5, 7, inches(7.75), "even", Down, 38.75, 38},
		{"K. TenDyke, sleeve (2006/2014): underarm 12 in", 5, 7, inches(12), "even", Down, 60, 60},
		{"knitting teacher's sleeve (2016, S3): 9 in at 5.5, half goes up", 5.5, 7, inches(9), "plain", Nearest, 49.5, 50},
		{"knitting teacher's sleeve (2016, S3): 13 in at 5.5", 5.5, 7, inches(13), "plain", Nearest, 71.5, 72},
		{"Interweave, plan your own top-down raglan: neck 22 in, up to even", 4.6, 0, inches(22), "even", Up, 101.2, 102},
		{"Interweave, plan your own top-down raglan: chest 40 in", 4.6, 0, inches(40), "plain", Nearest, 184, 184},
		{"Interweave, plan your own top-down raglan: arm 13 in", 4.6, 0, inches(13), "plain", Nearest, 59.8, 60},
		{"E. Zimmermann's system: K of 50 in at 5", 5, 0, inches(50), "plain", Nearest, 250, 250},
		{"common practice, no source (K1: sock, 9 in less 10 % at 30 sts to 4 in, by 4)", 7.5, 0, inches(8.1), "4n", Nearest, 60.75, 60},
		{"common practice, no source (K2: sock foot of 8 in at 8, by 4)", 8, 0, inches(8), "4n", Nearest, 64, 64},
		{"circular yoke, common practice, no source: neck 8 in at 5.12, even", 5.12, 8, inches(8), "even", Nearest, 40.96, 40},
	} {
		t.Run(tt.source, func(t *testing.T) {
			if tt.rows == 0 {
				tt.rows = tt.st
			}
			g := perInch(t, tt.st, tt.rows)
			require.InDelta(t, tt.exact, g.Stitches(tt.cm), 1e-9)
			m, err := ParseMultiple(tt.multiple)
			require.NoError(t, err)
			f, err := g.FitWidth(tt.cm, m, tt.rounding)
			require.NoError(t, err)
			require.Equal(t, tt.want, f.Count)
			require.InDelta(t, (float64(tt.want)-tt.exact)*g.StitchWidthCm(), f.errorCm(), 1e-9)
		})
	}
}

func TestPublishedOtherGauge(t *testing.T) {
	// Common practice, no source: 128 stitches with 2 seam stitches at 5.5
	// to the inch; own gauge 6.5. The page rounds twice, on the way by 23 in.
	designer, own := perInch(t, 5.5, 7.5), perInch(t, 6.5, 8.5)
	exact := own.Stitches(designer.WidthCm(128 - 2))
	require.InDelta(t, 148.909, exact, 0.001)
	n, err := Odd.Count(exact, Nearest)
	require.NoError(t, err)
	require.Equal(t, 151, n+2)

	// Common practice, no source: 9 to the inch for 8; 12 rows for 15.
	pattern, mine := perInch(t, 8, 15), perInch(t, 9, 12)
	require.InDelta(t, 112.5, mine.Stitches(pattern.WidthCm(100)), 1e-9)
	require.InDelta(t, 7.875, mine.Stitches(pattern.WidthCm(7)), 1e-9)
	require.InDelta(t, 27, mine.Stitches(pattern.WidthCm(24)), 1e-9)
	require.InDelta(t, 8, mine.Rows(pattern.HeightCm(10)), 1e-9)

	// Common practice, no source: 45 in at 6 rows to the inch.
	f, err := perInch(t, 4.5, 6).FitHeight(inches(45), Plain, Nearest)
	require.NoError(t, err)
	require.Equal(t, 270, f.Count)
}

func TestPublishedSpacing(t *testing.T) {
	for _, tt := range []struct {
		source         string
		shapings, rows int
		want           []Step
	}{
		{"Increasing or decreasing stitches evenly within a set number of rows", 36, 140, []Step{{3, 4}, {4, 32}}},
		{"K. TenDyke, sleeve (2006/2014): 11 increase rows in 108", 11, 108, []Step{{9, 2}, {10, 9}}},
		{"knitting teacher's sleeve (2016, S3): 11 pairs in 84 rows", 11, 84, []Step{{7, 4}, {8, 7}}},
		{"the same with 2 in plain: 77 rows", 11, 77, []Step{{7, 11}}},
		{"circular yoke, common practice, no source: 6 increase rounds in 72", 6, 72, []Step{{12, 6}}},
	} {
		t.Run(tt.source, func(t *testing.T) {
			require.Equal(t, tt.want, spread(tt.shapings, tt.rows))
		})
	}

	// The slip: every 3rd row all 36 times fills 108 of 140 rows and leaves
	// 32 straight at the end.
	s, err := Taper{From: 20, To: 56, Rows: 140, Sides: 1}.Schedule()
	require.NoError(t, err)
	require.Zero(t, s.PlainAfter())
	require.NotEqual(t, []Step{{3, 36}}, s.Steps)
	require.Less(t, s.StitchesAfter(108), 56, "the naive spacing is done by row 108")
}

func TestPublishedCircles(t *testing.T) {
	// Common practice, four texts: 6 single, 8 half double, 12 double, whose
	// rounds are about 1, 1.33 and 2 stitch widths high.
	for _, tt := range []struct {
		ratio, flat, custom float64
	}{{1, 6.28, 6}, {1.27, 7.98, 8}, {4.0 / 3, 8.38, 8}, {2, 12.57, 12}} {
		g, err := Per10Cm(20*tt.ratio, 20)
		require.NoError(t, err)
		c, err := CheckCircle(g, tt.custom)
		require.NoError(t, err)
		require.InDelta(t, tt.flat, c.Flat, 0.005)
		require.Equal(t, Flat, c.Lie(flatTolerance), "ratio %v", tt.ratio)
	}

	// Simply Crochet 2020/10: 6, 12, 18, 24, 30, 36; common practice, no source: 8, 16, ... 40
	// and 12, 24, 36. The slip: some pages start a round late and print 54 for
	// round 8 of single crochet.
	for _, tt := range []struct {
		ratio  float64
		counts []int
	}{{1, []int{6, 12, 18, 24, 30, 36, 42, 48}}, {4.0 / 3, []int{8, 16, 24, 32, 40}}, {2, []int{12, 24, 36}}} {
		g, err := Per10Cm(20*tt.ratio, 20)
		require.NoError(t, err)
		c, err := PlanCrown(g, tt.counts[len(tt.counts)-1], 1, []int{6, 8, 12}, flatTolerance)
		require.NoError(t, err)
		got := []int{c.Middle}
		for i := range c.Widen.Times {
			got = append(got, c.Widen.After(i))
		}
		require.Equal(t, tt.counts, got)
		require.Equal(t, len(tt.counts), c.Rounds)
		require.Zero(t, c.Rest)
	}

	// Hat crowns (C1: 39.5 cm; C2: 23 and 13.5 in), common practice: as wide as
	// the girth ÷ π, here to the round, at a gauge at which 6 a round lie flat.
	g, err := Per10Cm(60, 60*2*math.Pi/6)
	require.NoError(t, err)
	for _, tt := range []struct{ girth, diameter float64 }{
		{39.5, 12.57}, {inches(23), inches(7.32)}, {inches(13.5), inches(4.30)},
	} {
		c, err := PlanCrown(g, nearestInt(g.Stitches(tt.girth)), 1, []int{6, 8, 12}, flatTolerance)
		require.NoError(t, err)
		require.Equal(t, 6, c.Middle)
		require.InDelta(t, tt.diameter, 2*g.HeightCm(c.Rounds), 2*g.RowHeightCm()+0.01)
	}
}

// percentYoke plans a yoke by E. Zimmermann's percentages of the body: 33 % for
// the arm, 8 % under it (the custom of this package), a quarter for the depth.
// Where its rhythm counts it may take a stitch from the percentages.
func percentYoke(t *testing.T, g Gauge, bodyCm, neckShare, rhythm float64) YokePlan {
	t.Helper()
	target := YokeTarget{Gauge: g, BodyCm: bodyCm, SleeveCm: 0.33 * bodyCm, NeckCm: neckShare * bodyCm, DepthCm: bodyCm / 4, Weights: defaultWeights}
	target.Weights.Rhythm = rhythm
	y, err := PlanCircularYoke(customary(target))
	require.NoError(t, err)
	return y
}

func TestPublishedPercentages(t *testing.T) {
	// E. Zimmermann's system: 40 in at 5 sts to the inch, K = 200.
	g := perInch(t, 5, 7)
	said := percentYoke(t, g, inches(40), 0.4, 1)
	require.InDelta(t, 200, said.Body, 1)
	require.InDelta(t, 66, said.Sleeve, 1)
	require.InDelta(t, 16, said.Underarm, 1)
	require.InDelta(t, 80, said.Neck, 1)
	require.Len(t, said.Phases, 1)
	y := percentYoke(t, g, inches(40), 0.4, 0)
	require.Equal(t, 200, y.Body)
	require.Equal(t, 66, y.Sleeve)
	require.Equal(t, 16, y.Underarm)
	require.Equal(t, 268, y.Yoke)
	require.Equal(t, 80, y.Neck)
	require.InDelta(t, inches(10), y.DepthFit.SizeCm, 1e-9)
	wrist, err := g.FitWidth(inches(40)*0.2, Plain, Nearest)
	require.NoError(t, err)
	require.Equal(t, 40, wrist.Count)

	// E3, the later decreases: 268 → 201 → 134 → 80 (80.4), which is 30 % of 268.
	// E2, the older ones, printed 179, 120, 80: the middle figure is a slip, two
	// thirds of 178.7 being 119.1 and the neck 79.4.
	for _, tt := range []struct {
		leaves []float64
		want   []int
	}{
		{[]float64{3.0 / 4, 2.0 / 3, 3.0 / 5}, []int{201, 134, 80}},
		{[]float64{2.0 / 3, 2.0 / 3, 2.0 / 3}, []int{179, 119, 79}},
	} {
		n := y.Yoke
		for i, share := range tt.leaves {
			p, err := PlanRib(n, share, Plain, g, true)
			require.NoError(t, err)
			n = p.Join.After()
			require.Equal(t, tt.want[i], n)
		}
	}

	// E4, the same as a raglan: sleeves 50, front and back 84.
	s := Split{Yoke: 268, Front: 84, Back: 84, SleevePart: 50, Underarm: 16, Body: 200, Sleeve: 66}
	require.NoError(t, s.Check())

	// E6, E. Bozak, Wee Aran part 7: infant 20 in, neck 50 % = 50 sts, 10 in, which
	// must go over a head of 17 in: the edge must stretch to 1.7 times.
	y = percentYoke(t, g, inches(20), 0.5, 0)
	require.Equal(t, 100, y.Body)
	require.Equal(t, 50, y.Neck)
	o := Opening{EdgeCm: y.NeckFit.SizeCm, Stretch: 1.5, OverCm: inches(17)}
	require.False(t, o.Passes())
	require.InDelta(t, 1.7, o.NeededStretch(), 1e-9)
	o.Stretch = 1.7
	require.True(t, o.Passes())
}

func TestPublishedYokes(t *testing.T) {
	// Circular yoke, common practice, no source: body 184, sleeves 72, underarm
	// 6. The slip its author tells of: one underarm taken off instead of two.
	require.Equal(t, 304, yokeTotal(184, 72, 6))
	require.NotEqual(t, 184-6+2*(72-6), yokeTotal(184, 72, 6))
	s := Split{Yoke: 310, Front: 86, Back: 86, SleevePart: 66, Underarm: 6, Body: 184, Sleeve: 72}
	require.ErrorContains(t, s.Check(), "yoke is 310: want fronts 86 + back 86 + sleeves 2 × 66 = 304")

	// Half double crochet yoke (Y3, common practice, no source): 60 stitches, 6
	// more every second round from round 3.
	y := Schedule{From: 60, Change: 6, Sides: 1, Rows: 10, FirstRow: 3, Steps: []Step{{2, 4}}}
	var got []int
	for r := 3; r <= 10; r++ {
		got = append(got, y.StitchesAfter(r))
	}
	require.Equal(t, []int{66, 66, 72, 72, 78, 78, 84, 84}, got)

	// K. TenDyke 2015: a sleeve top of 4 in, a sixth of the neck, and raglan
	// shaping of 5.5 in make an armhole of 7.5 in: half the top lies before the
	// shoulder and half behind it.
	g := perInch(t, 5, 7)
	r, err := PlanRaglan(customary(YokeTarget{Gauge: g, NeckCm: inches(24), BodyCm: inches(40), SleeveCm: inches(14), DepthCm: inches(5.5)}))
	require.NoError(t, err)
	require.InDelta(t, inches(4), g.WidthCm(r.NeckSleeve), 1e-9)
	require.InDelta(t, inches(7.5), g.HeightCm(r.Rows)+g.WidthCm(r.NeckSleeve)/2, g.RowHeightCm()/2+1e-9)

	// Interweave, plan your own top-down raglan: 102, 184 and 60 stitches, and
	// every increase row gains 8. With front and back alike, whole rows of 8 lead
	// from 102 to 184 and 60 but for a pair of stitches.
	r, err = PlanRaglan(customary(YokeTarget{Gauge: perInch(t, 4.6, 6), NeckCm: inches(22), BodyCm: inches(40), SleeveCm: inches(13), DepthCm: inches(9), Neck: Even, Body: Even, Sleeve: Even}))
	require.NoError(t, err)
	require.InDelta(t, 102, r.Neck, 2)
	require.Equal(t, []int{184, 60}, []int{r.Body, r.Sleeve})
	both := 0
	for _, phase := range r.Phases {
		if phase.Body == 1 && phase.Sleeves == 1 {
			require.Equal(t, 8, phase.Gain())
			both += phase.Times
		}
	}
	require.Equal(t, min(r.BodyIncreases, r.SleeveIncreases), both)
}

func TestKnownYoke(t *testing.T) {
	// The drafts' yoke: 48 at the neck and 6 more in each of 14 rows make 132,
	// split 21 + 24 + 42 + 24 + 21; underarms of 8; body 100, sleeves 32.
	g, err := Per10Cm(15, 8)
	require.NoError(t, err)
	p, err := PlanCircularYoke(customary(YokeTarget{Gauge: g, NeckCm: g.WidthCm(48), BodyCm: g.WidthCm(100), SleeveCm: g.WidthCm(32),
		DepthCm: g.HeightCm(14), UnderarmCm: g.WidthCm(8), FrontOpening: true}))
	require.NoError(t, err)
	require.Equal(t, 48, p.Neck)
	require.Equal(t, 6, p.PerRound)
	require.Len(t, p.Rounds, 14)
	require.Equal(t, 14, p.Rows)
	require.Equal(t, 132, p.Yoke)
	require.Equal(t, []int{21, 24, 42}, []int{p.Front, p.SleevePart, p.Back})
	require.Equal(t, 8, p.Underarm)
	require.Equal(t, 100, p.Body)
	require.Equal(t, 32, p.Sleeve)
	require.InDelta(t, 0, p.Cost.Total(), 1e-12)
	require.NoError(t, p.Check())
}

func TestPublishedDropShoulder(t *testing.T) {
	// Mary Scott Huff: chest 28 in, armhole 25 %, sleeve top 50 %. The page
	// says "divide by .25", which would be 112 in.
	g := perInch(t, 5, 7)
	p, err := PlanDropShoulder(DropShoulderTarget{Gauge: g, BodyCm: inches(28), NeckWidthCm: inches(5), ArmholeDepthCm: inches(28) * 0.25})
	require.NoError(t, err)
	require.InDelta(t, inches(7), p.ArmholeFit.SizeCm, g.RowHeightCm())
	require.InDelta(t, inches(14), p.SleeveFit.SizeCm, g.StitchWidthCm())
}

func TestPublishedBands(t *testing.T) {
	// Kelbourne Woolens 2015: 20 sts and 26 rows in 4 in: 10 of 13, worked
	// as 3 of 4, 3 of 4, 4 of 5.
	g := perInch(t, 5, 6.5)
	p, err := PlanPickUp(130, g, g, Plain)
	require.NoError(t, err)
	require.Equal(t, 100, p.Stitches)
	require.Equal(t, []int{4, 4, 5}, p.Groups)

	// Buttonholes (H1, H2: common practice, no source).
	b, err := SpaceButtonholes(100, 3, 7, 4)
	require.NoError(t, err)
	require.Equal(t, []int{11, 11, 11, 11, 11, 11}, b.Gaps)
	require.Equal(t, []int{3, 4}, []int{b.Ends, b.Size})
	b, err = SpaceButtonholes(110, 3, 7, 3)
	require.NoError(t, err)
	require.ElementsMatch(t, []int{13, 14, 14, 14, 14, 14}, b.Gaps)
}

func TestPublishedLegs(t *testing.T) {
	// Knitted baby trousers 2011: gusset of 2.5 in, at 5 sts to the inch
	// 12.5, taken as 12; decreased 2 every second round until gone, here as the
	// taper of a leg on half a hip of 104 and the gusset.
	g := perInch(t, 5, 7)
	gusset, err := g.FitWidth(inches(2.5), Even, Down)
	require.NoError(t, err)
	require.Equal(t, 12, gusset.Count)
	split, err := SplitLegs(104, gusset.Count)
	require.NoError(t, err)
	s, err := Taper{From: split.Leg, To: split.Hip / 2, Rows: 12, InRounds: true}.Schedule()
	require.NoError(t, err)
	require.Equal(t, []Step{{2, 6}}, s.Steps)
	require.Equal(t, 2, s.FirstRow)

	// Fine-gauge baby longies 2013: 3 to 6 stitches on 78 to 82, 4 to 7 %.
	for _, tt := range []struct{ hip, bridge int }{{78, 3}, {82, 6}} {
		l, err := PlanLegs(LegTarget{Gauge: g, Hip: tt.hip, ThighCm: g.WidthCm(tt.hip/2 + tt.bridge), BridgeCm: g.WidthCm(tt.bridge)})
		require.NoError(t, err)
		require.Equal(t, tt.bridge, l.Bridge)
		require.InDelta(t, 0.055, l.BridgeShare(), 0.02)
	}

	// Baby shorts 2007: at 5 sts to the inch a crotch of 5 stitches, 1 in,
	// was too small at 14 months; 14 stitches, 2.8 in, fitted. Hip 21 in.
	l, err := PlanLegs(LegTarget{Gauge: g, Hip: 104, ThighCm: inches(12), BridgeCm: inches(2.8), BridgeLeastCm: inches(2.5)})
	require.NoError(t, err)
	require.GreaterOrEqual(t, l.Bridge, 13)
	require.NotEqual(t, 5, l.Bridge)
}

func TestPublishedHood(t *testing.T) {
	// Knitted hood 2015 (O3, O4: common practice, no source): three quarters of
	// the head; 72 stitches have a panel of 18, and the plain height is the whole
	// less half the panel's width.
	g := perInch(t, 4, 6)
	p, err := PlanHood(customaryHood(HoodTarget{Gauge: g, Neck: 60, RoundCm: inches(24) * hoodRound, HeightCm: inches(13), Shape: PanelHood}))
	require.NoError(t, err)
	require.Equal(t, 72, p.Stitches)
	require.Equal(t, 18, p.Panel)
	require.Equal(t, 27, p.Side)
	require.Equal(t, 78, p.Rows)
	plain := 13 - 18.0/4/2 // in
	require.InDelta(t, plain*6, float64(p.widened()+p.PlainRows), 0.51)
}

func TestPublishedYarn(t *testing.T) {
	in2 := inchCm * inchCm
	// KnitWit 60: How Much Yarn (W4, W5): chest 28 in, 16 in long; swatch 6 in
	// square of 11 g: 205 g, with 10 % 226 g.
	area := 672 * in2
	s := YarnSwatch{WidthCm: inches(6), HeightCm: inches(6), Grams: 11}
	n, err := EstimateYarn(s, Ball{Grams: 50, Metres: 105}, area, 0)
	require.NoError(t, err)
	require.InDelta(t, 205, n.Grams, 0.5)
	n, err = EstimateYarn(s, Ball{Grams: 50, Metres: 105}, area, plainMargin)
	require.NoError(t, err)
	require.InDelta(t, 226, n.Grams, 0.5)
	require.Equal(t, 5, n.Balls)
	require.InDelta(t, 0.52, n.LastShare, 0.005, "226 g are 4.52 balls")

	// Published total (2008): 28 sts to 10 cm, chest 69 cm, 4 balls of 235 m. As
	// 43.5 cm long it lies in the band of fingering.
	band, err := BelievableYarn(28*1.016, yarnUses)
	require.NoError(t, err)
	require.Equal(t, "fingering", band.Yarn)
	area = 69 * 43.5 * 1.5 // half as much again for the sleeves
	require.NoError(t, band.Check(940, area))
	require.Error(t, band.Check(94, area))
}
