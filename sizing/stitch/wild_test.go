package stitch

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"growtuck/testdata/bounded"
)

// wild draws any length a careless caller may hand in.
func wild(t *rapid.T, name string) float64 {
	return rapid.OneOf(
		rapid.Float64Range(1, 120),
		rapid.SampledFrom([]float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e-300, math.MaxFloat64, 0.01, 999, 1000, 1001}),
	).Draw(t, name)
}

func wildCount(t *rapid.T, name string) int {
	return rapid.OneOf(rapid.IntRange(0, 200), rapid.SampledFrom([]int{-1, math.MinInt, math.MaxInt, maxCount, maxCount + 1})).Draw(t, name)
}

func wildMultiple(t *rapid.T, name string) Multiple {
	return Multiple{
		rapid.OneOf(rapid.IntRange(0, 8), rapid.SampledFrom([]int{-1, 999, math.MaxInt, math.MinInt})).Draw(t, name),
		rapid.OneOf(rapid.IntRange(-3, 8), rapid.SampledFrom([]int{999, math.MaxInt, math.MinInt})).Draw(t, name+" edge"),
	}
}

func wildGauge(t *rapid.T) Gauge {
	return rapid.OneOf(rapid.Just(Gauge{16, 18}), rapid.Just(Gauge{120, 200}), rapid.Just(Gauge{1, 1}),
		rapid.Custom(func(t *rapid.T) Gauge { return Gauge{wild(t, "st"), wild(t, "rows")} })).Draw(t, "gauge")
}

// Whatever comes in, a plan or an InputError comes out, and a plan holds no NaN.
func TestWildInput(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, m := wildGauge(t), wildMultiple(t, "multiple")
		check := func(err error, sizes ...float64) {
			if err != nil {
				var in *InputError
				require.True(t, errors.As(err, &in), "%v", err)
				return
			}
			for _, x := range sizes {
				require.False(t, math.IsNaN(x) || math.IsInf(x, 0))
			}
		}
		y := YokeTarget{Gauge: g, NeckCm: wild(t, "neck"), BodyCm: wild(t, "body"), SleeveCm: wild(t, "sleeve"), DepthCm: wild(t, "depth"),
			UnderarmCm: wild(t, "arm"), BodyLeastCm: wild(t, "least"), Neck: m, Body: wildMultiple(t, "body"), Sleeve: wildMultiple(t, "sleeve"),
			FrontOpening: rapid.Bool().Draw(t, "opening"), RightSideOnly: rapid.Bool().Draw(t, "rs")}
		r, err := PlanRaglan(customary(y))
		check(err, r.Cost.Total())
		y.PerRound = wildCount(t, "per")
		p, err := PlanCircularYoke(customary(y))
		check(err, p.Cost.Total(), p.Lie.Deviation)
		d, err := PlanDropShoulder(DropShoulderTarget{Gauge: g, BodyCm: y.BodyCm, BodyLeastCm: y.BodyLeastCm, NeckWidthCm: y.NeckCm, ArmholeDepthCm: y.DepthCm, Body: m})
		check(err, d.BodyFit.SizeCm)
		h, err := PlanHood(customaryHood(HoodTarget{Gauge: g, Neck: wildCount(t, "neck"), RoundCm: wild(t, "round"), RoundLeastCm: wild(t, "least"), CrownCm: wild(t, "crown"), HeightCm: wild(t, "height"), Shape: HoodShape(rapid.IntRange(-1, 3).Draw(t, "shape"))}))
		check(err, h.Width.SizeCm, h.Height.SizeCm)
		l, err := PlanLegs(LegTarget{Gauge: g, Hip: wildCount(t, "hip"), ThighCm: wild(t, "thigh"), BridgeCm: wild(t, "bridge")})
		check(err, l.cost())
		_, err = Taper{From: wildCount(t, "a"), To: wildCount(t, "b"), Rows: wildCount(t, "c"), PlainBefore: wildCount(t, "d"), Sides: rapid.IntRange(-1, 3).Draw(t, "s")}.Schedule()
		check(err)
		_, err = ShapeAcross(wildCount(t, "stitches"), wildCount(t, "change"), true)
		check(err)
		_, err = SpaceButtonholes(wildCount(t, "n"), wildCount(t, "ends"), wildCount(t, "holes"), wildCount(t, "size"))
		check(err)
		_, err = PlanPickUp(wildCount(t, "rows"), g, wildGauge(t), m)
		check(err)
		_, err = PlanRib(wildCount(t, "fabric"), wild(t, "share"), m, g, true)
		check(err)
		n, err := EstimateYarn(YarnSwatch{wild(t, "w"), wild(t, "h"), wild(t, "g"), wild(t, "m")}, Ball{wild(t, "bg"), wild(t, "bm")}, wild(t, "area"), wild(t, "margin"))
		check(err, n.Metres, n.LastShare)
		z, err := FitZipper(g, wild(t, "opening"), []float64{wild(t, "z1"), wild(t, "z2")}, zipperExactCm, zipperHandCm)
		check(err, z.DifferCm)
		c, err := PlanCrown(g, wildCount(t, "crown"), wildCount(t, "every"), []int{6, wildCount(t, "rate")}, wild(t, "within"))
		check(err, c.Lie.Deviation)
	})
}

func FuzzParseMultiple(f *testing.F) {
	for _, s := range []string{"4n", "6n+2", "6n-1", "even", "odd", "plain", "", "n+", "4n+99999999999999999999", "\xffn"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		defer bounded.By(t, 1<<20)()
		m, err := ParseMultiple(s)
		if err != nil {
			return
		}
		back, err := ParseMultiple(m.String())
		require.NoError(t, err)
		require.Equal(t, m, back)
		require.True(t, m.Has(m.least()))
	})
}
