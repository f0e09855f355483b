package stitch

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestDropShoulder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGauge(t)
		tt := DropShoulderTarget{Gauge: g, BodyCm: rapid.Float64Range(50, 110).Draw(t, "body"), NeckWidthCm: rapid.Float64Range(9, 16).Draw(t, "neck"),
			ArmholeDepthCm: rapid.Float64Range(12, 25).Draw(t, "armhole"), FrontOpening: rapid.Bool().Draw(t, "opening"), Sleeve: Even,
			OddRowsAtShoulder: rapid.Bool().Draw(t, "odd rows")}
		tt.BodyLeastCm, tt.ArmholeLeastCm = tt.BodyCm-1, tt.ArmholeDepthCm-0.5
		p, err := PlanDropShoulder(tt)
		require.NoError(t, err)
		fronts := p.Front
		if tt.FrontOpening {
			fronts *= 2
		}
		require.Equal(t, p.Body, fronts+p.Back)
		require.LessOrEqual(t, abs(fronts-p.Back), 2)
		require.Equal(t, p.Back, p.Neck+2*p.Shoulder)
		require.Zero(t, p.SleeveTop%2)
		require.Equal(t, tt.OddRowsAtShoulder, p.ArmholeRows%2 == 1)
		require.GreaterOrEqual(t, p.BodyFit.SizeCm, tt.BodyLeastCm-1e-6)
		require.GreaterOrEqual(t, p.ArmholeFit.SizeCm, tt.ArmholeLeastCm-1e-6)
		require.InDelta(t, 2*p.ArmholeFit.SizeCm, p.SleeveFit.SizeCm, g.StitchWidthCm()+1e-9)
	})
	good := DropShoulderTarget{Gauge: Gauge{20, 28}, BodyCm: 70, NeckWidthCm: 13, ArmholeDepthCm: 17}
	for want, change := range map[string]func(*DropShoulderTarget){
		"neck width is 36 cm: want less than the back, 35 cm": func(d *DropShoulderTarget) { d.NeckWidthCm = 36 },
		"width is NaN cm":    func(d *DropShoulderTarget) { d.BodyCm = math.NaN() },
		"height is 0 cm":     func(d *DropShoulderTarget) { d.ArmholeDepthCm = 0 },
		"stitch gauge is 0":  func(d *DropShoulderTarget) { d.Gauge = Gauge{} },
		"body is 1 stitches": func(d *DropShoulderTarget) { d.BodyCm = 0.3 },
	} {
		d := good
		change(&d)
		_, err := PlanDropShoulder(d)
		require.ErrorContains(t, err, want)
	}
	cm, err := DropSleeveCm(50, 36)
	require.NoError(t, err)
	require.InDelta(t, 32, cm, 1e-9)
	_, err = DropSleeveCm(15, 36)
	require.ErrorContains(t, err, "less than twice the centre back to wrist, 30 cm")
}

func TestRib(t *testing.T) {
	p, err := PlanRib(120, ribShare, Multiple{4, 2}, Gauge{24, 30}, true)
	require.NoError(t, err)
	require.Equal(t, 108, p.Rib, "in rounds the edge stitches go: 4n")
	require.Equal(t, -12, p.Join.Change)
	require.InDelta(t, 45, p.WidthCm, 1e-9)
	p, err = PlanRib(120, ribShare, Multiple{4, 2}, Gauge{24, 30}, false)
	require.NoError(t, err)
	require.Equal(t, 110, p.Rib)
	p, err = PlanRib(9, 1, Multiple{4, 0}, Gauge{24, 30}, true)
	require.NoError(t, err)
	require.Equal(t, 8, p.Rib, "never over the fabric")
	_, err = PlanRib(3, 1, Multiple{4, 0}, Gauge{24, 30}, true)
	require.ErrorContains(t, err, "4 or more")
	_, err = PlanRib(120, math.NaN(), Even, Gauge{24, 30}, true)
	require.ErrorContains(t, err, "share of ribbing is NaN")
}

// bruteLegs tries every bridge.
func bruteLegs(t LegTarget) float64 {
	best := math.Inf(1)
	w := t.Gauge.StitchWidthCm()
	for leg := t.Hip/2 + 1; leg <= t.Hip/2+t.Hip; leg++ {
		bridge := leg - t.Hip/2
		if float64(leg)*w < t.ThighLeastCm || float64(bridge)*w < t.BridgeLeastCm {
			continue
		}
		best = min(best, squared(t.WeightThigh, float64(leg)*w-t.ThighCm)+squared(t.WeightBridge, float64(bridge)*w-t.BridgeCm))
	}
	return best
}

func TestLegs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := LegTarget{Gauge: drawGauge(t), Hip: 2 * rapid.IntRange(20, 100).Draw(t, "hip"), ThighCm: rapid.Float64Range(20, 60).Draw(t, "thigh"),
			BridgeCm: rapid.Float64Range(2, 9).Draw(t, "bridge"), WeightThigh: 2, WeightBridge: 1}
		l.ThighLeastCm, l.BridgeLeastCm = l.ThighCm*0.93, l.BridgeCm*0.8
		want := bruteLegs(l)
		p, err := PlanLegs(l)
		if math.IsInf(want, 1) {
			require.Error(t, err)
			return
		}
		require.NoError(t, err)
		require.InDelta(t, want, p.cost(), 1e-6)
		require.NoError(t, p.Check())
		require.Equal(t, 2*p.Leg, p.Hip+2*p.Bridge)
		require.GreaterOrEqual(t, p.ThighFit.SizeCm, l.ThighLeastCm-1e-6)
	})
	p, err := PlanLegs(LegTarget{Gauge: Gauge{16, 18}, Hip: 120, ThighCm: 45, BridgeCm: Gauge{16, 18}.WidthCm(120) * bridgeShare})
	require.NoError(t, err)
	require.InDelta(t, 0.1, p.BridgeShare(), 0.005, "a tenth of the hip")

	_, err = SplitLegs(101, 8)
	require.ErrorContains(t, err, "hip stitches is 101: want an even count")
	require.ErrorContains(t, LegSplit{100, 8, 50}.Check(), "leg is 50: want half of hip 100 + bridge 8 = 58")
	_, err = PlanLegs(LegTarget{Gauge: Gauge{16, 18}, Hip: 100, ThighCm: math.NaN(), BridgeCm: 5})
	require.Error(t, err)
	_, err = PlanLegs(LegTarget{Gauge: Gauge{16, 18}, Hip: 40, ThighCm: 30, ThighLeastCm: 300, BridgeCm: 5})
	require.ErrorContains(t, err, "thigh at least 300 cm, on 40 hip stitches")
}

func TestShortRowSets(t *testing.T) {
	sets, f, err := ShortRowSets(Gauge{20, 30}, 4)
	require.NoError(t, err)
	require.Equal(t, 6, sets)
	require.InDelta(t, 4, f.SizeCm, 1e-9)
	_, _, err = ShortRowSets(Gauge{20, 30}, math.NaN())
	require.Error(t, err)
}

func TestZipper(t *testing.T) {
	g := Gauge{16, 18}
	for _, tt := range []struct {
		opening float64
		in      float64
		differ  float64
		advice  ZipperAdvice
	}{
		{14 * inchCm, 14, 0, SetIn},
		{36, 14, 0.44, SetIn},
		{38, 14, 2.44, CloseByHand},
		{40.4, 14, 4.84, TakeOutOrAddRows},
		{30, 9, 7.14, TakeOutOrAddRows},
		{70, 24, 9.04, TakeOutRows},
	} {
		z, err := FitZipper(g, tt.opening, stockedZippersIn, zipperExactCm, zipperHandCm)
		require.NoError(t, err)
		require.InDelta(t, tt.in, z.LengthIn, 1e-9)
		require.InDelta(t, tt.differ, z.DifferCm, 1e-9)
		require.Equal(t, tt.advice, z.Advice)
	}
	_, err := FitZipper(g, 10, stockedZippersIn, zipperExactCm, zipperHandCm)
	require.ErrorContains(t, err, "opening is 10 cm: want at least the shortest zipper, 12.7 cm: use buttons, or shorten a zipper at its top")
	_, err = FitZipper(g, 10, []float64{}, zipperExactCm, zipperHandCm)
	require.ErrorContains(t, err, "want a stock of zippers")
	_, err = FitZipper(g, 30, []float64{9, math.NaN()}, zipperExactCm, zipperHandCm)
	require.Error(t, err)
	_, err = FitZipper(g, math.Inf(1), stockedZippersIn, zipperExactCm, zipperHandCm)
	require.Error(t, err)

	rapid.Check(t, func(t *rapid.T) {
		opening := rapid.Float64Range(12.7, 90).Draw(t, "opening")
		z, err := FitZipper(g, opening, stockedZippersIn, zipperExactCm, zipperHandCm)
		require.NoError(t, err)
		require.LessOrEqual(t, z.LengthCm, opening+tapeCm+1e-6, "never longer than its tape hides")
		for _, in := range stockedZippersIn {
			require.False(t, in > z.LengthIn && in*inchCm <= opening, "%v in is nearer", in)
		}
	})
	require.InDelta(t, 110, FrontOpening{LengthCm: 38}.PassCm(34), 1e-9)
	require.InDelta(t, 12, Opening{EdgeCm: 10, Stretch: 1.5, OverCm: 18}.NeededCm(), 1e-9)
}

func TestHood(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := HoodTarget{Gauge: drawGauge(t), RoundCm: rapid.Float64Range(33, 50).Draw(t, "round"), HeightCm: rapid.Float64Range(26, 38).Draw(t, "height"),
			CrownCm: rapid.Float64Range(8, 12).Draw(t, "crown"), Shape: HoodShape(rapid.IntRange(0, 2).Draw(t, "shape")), RightSideOnly: rapid.Bool().Draw(t, "right side only")}
		h.Neck = max(4, nearestInt(h.Gauge.Stitches(rapid.Float64Range(24, 40).Draw(t, "neck"))))
		p, err := PlanHood(customaryHood(h))
		if h.Gauge.Rows(h.HeightCm) < 26 && errors.As(err, new(*InputError)) {
			return // too few rows to widen it and turn the panel
		}
		require.NoError(t, err)
		require.Zero(t, p.Stitches%2)
		require.GreaterOrEqual(t, p.Stitches, p.Neck)
		count, row, over := p.Neck, 1, p.Neck-2*p.EdgePlain
		for _, r := range p.Increases {
			require.Greater(t, r.Row, row, "the first row picks up")
			require.False(t, h.RightSideOnly && r.Row%2 == 0)
			row = r.Row
			require.Equal(t, count, r.Stitches)
			require.Positive(t, r.Change)
			require.LessOrEqual(t, r.Change, max(1, over/4), "at most 1 in 4 of the stitches at the back")
			require.GreaterOrEqual(t, r.Trail, p.EdgePlain)
			require.GreaterOrEqual(t, r.Gaps[0]-r.Trail, p.EdgePlain+1)
			count, over = r.After(), over+r.Change
		}
		require.Equal(t, p.Stitches, count)
		switch h.Shape {
		case StraightHood:
			require.Equal(t, p.Stitches, 2*p.SeamStitches)
			require.Equal(t, p.Rows, row+p.PlainRows)
		case ShapedHood:
			require.Equal(t, p.Rows, row+p.PlainRows+p.Crown.Rows)
			if row+int(h.Gauge.Rows(h.CrownCm))+1 < p.Rows {
				require.InDelta(t, h.CrownCm, h.Gauge.HeightCm(p.Crown.Rows), 1.5*h.Gauge.RowHeightCm()+1e-9, "a length, whatever the stitch")
			}
			require.InDelta(t, float64(p.Stitches)/4, float64(p.Stitches-p.Crown.To()), 8, "a quarter of the hood goes")
			require.Equal(t, p.Crown.To(), 2*p.SeamStitches)
			require.Less(t, 2*p.SeamStitches, p.Stitches)
			require.False(t, h.RightSideOnly && p.Crown.Rows > 1 && (p.Rows-p.Crown.Rows)%2 == 1, "the crown begins on the right side")
		case PanelHood:
			require.Equal(t, p.Stitches, p.Panel+2*p.Side)
			require.InDelta(t, float64(p.Stitches)/4, float64(p.Panel), 1.01)
			require.Less(t, row+p.PlainRows, p.Rows)
		}
	})
	good := HoodTarget{Gauge: Gauge{16, 18}, Neck: 48, RoundCm: 42.8, HeightCm: 30.5, Shape: ShapedHood}
	p, err := PlanHood(customaryHood(good))
	require.NoError(t, err)
	require.Equal(t, 68, p.Stitches)
	require.Equal(t, []int{2, 4, 6}, []int{p.Increases[0].Row, p.Increases[1].Row, p.Increases[2].Row})
	require.Equal(t, 18, p.Crown.Rows, "10 cm")
	for want, change := range map[string]func(*HoodTarget){
		"hood, face edge to face edge is NaN cm":                                     func(h *HoodTarget) { h.RoundCm = math.NaN() },
		"height of the hood is 2 rows: want more than the 6 rows in which it widens": func(h *HoodTarget) { h.HeightCm = 1 },
		"shape of the hood is HoodShape(9)":                                          func(h *HoodTarget) { h.Shape = 9 },
		"hood's neck stitches is 0":                                                  func(h *HoodTarget) { h.Neck = 0 },
		"more than half the panel, 5.625 cm":                                         func(h *HoodTarget) { h.HeightCm, h.Shape = 7, PanelHood },
		"height of the crown is +Inf cm":                                             func(h *HoodTarget) { h.CrownCm = math.Inf(1) },
	} {
		h := good
		change(&h)
		_, err := PlanHood(customaryHood(h))
		require.ErrorContains(t, err, want)
	}
	require.Equal(t, []string{"straight", "shaped crown", "centre panel"}, []string{StraightHood.String(), ShapedHood.String(), PanelHood.String()})
}

func TestBands(t *testing.T) {
	fabric := Gauge{20, 30}
	for _, tt := range []struct {
		band     float64
		stitches int
		groups   []int
	}{
		{20, 60, []int{3}},
		{22.5, 68, []int{4}},
		{30, 90, nil},
		{40, 120, nil},
	} {
		p, err := PlanPickUp(90, fabric, Gauge{tt.band, 30}, Plain)
		require.NoError(t, err)
		require.Equal(t, tt.stitches, p.Stitches)
		require.Equal(t, tt.groups, p.Groups)
		require.InDelta(t, fabric.HeightCm(90), p.LengthCm, Gauge{tt.band, 30}.StitchWidthCm(), "the band is as long as the edge")
	}
	_, err := PlanPickUp(0, fabric, fabric, Plain)
	require.Error(t, err)
	_, err = PlanPickUp(10, fabric, Gauge{}, Plain)
	require.Error(t, err)

	_, err = SpaceButtonholes(20, 3, 7, 3)
	require.ErrorContains(t, err, "band is 20 stitches: want at least 33 for 7 buttonholes of 3")
	_, err = SpaceButtonholes(20, 3, 1, 3)
	require.ErrorContains(t, err, "buttonholes is 1")
	rapid.Check(t, func(t *rapid.T) {
		n, ends := rapid.IntRange(30, 200).Draw(t, "stitches"), rapid.IntRange(0, 5).Draw(t, "ends")
		holes, size := rapid.IntRange(2, 9).Draw(t, "holes"), rapid.IntRange(1, 4).Draw(t, "size")
		b, err := SpaceButtonholes(n, ends, holes, size)
		if err != nil {
			require.Less(t, n, 2*ends+holes*size+holes-1)
			return
		}
		sum := 2*b.Ends + holes*b.Size
		for _, gap := range b.Gaps {
			sum += gap
		}
		require.Equal(t, n, sum)
		require.Equal(t, []int{ends, size, holes - 1}, []int{b.Ends, b.Size, len(b.Gaps)})
		low, high := slices.Min(b.Gaps), slices.Max(b.Gaps)
		require.LessOrEqual(t, high-low, 1)
		require.Positive(t, low)
	})
}

// A hood with a panel: the panel has its share of the stitches, lies over the crown from
// the middle of one side to that of the other, half its width below the full height, and
// is worked as long as the side is wide that it is joined to.
func TestHoodWithAPanel(t *testing.T) {
	for _, g := range []Gauge{{14, 7}, {16, 18}, {22, 30}, {30, 42}} {
		for _, share := range []float64{0.2, 0.28, 0.4} {
			target := HoodTarget{Gauge: g, Neck: int(g.Stitches(34)) / 2 * 2, RoundCm: 44, HeightCm: 28, CrownCm: 6, Shape: PanelHood,
				BackShare: 0.5, GrowthMost: 0.25, IncreaseCm: 5, CrownShare: share}
			p, err := PlanHood(target)
			require.NoError(t, err)
			require.Equal(t, p.Stitches, 2*p.Side+p.Panel)
			require.Zero(t, p.Panel%2)
			require.InDelta(t, share*float64(p.Stitches), p.Panel, 1+1e-9)
			last := 1 // the row that picks up
			if n := len(p.Increases); n > 0 {
				last = p.Increases[n-1].Row
			}
			require.InDelta(t, p.Height.SizeCm, g.HeightCm(last+p.PlainRows)+g.WidthCm(p.Panel)/2, g.RowHeightCm()/2+1e-9)
			require.InDelta(t, g.WidthCm(p.Side), g.HeightCm(p.PanelRows), g.RowHeightCm()/2+1e-9)
			require.Zero(t, p.SeamStitches)
		}
	}
}
