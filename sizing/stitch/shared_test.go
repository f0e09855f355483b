package stitch

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// A drop shoulder is counted from its parts: body, back, neck, armhole, sleeve.
func TestDropShoulderIsTheNearest(t *testing.T) {
	d := thrown(10)
	planned := 0
	for range 2000 {
		g := d.gauge()
		target := DropShoulderTarget{Gauge: g, BodyCm: d.between(10, 110), NeckWidthCm: d.between(4, 30), ArmholeDepthCm: d.between(3, 25), Body: d.multiple(), Sleeve: d.multiple(),
			FrontOpening: d.bool(), OddRowsAtShoulder: d.bool(), EdgeStitches: d.whole(0, 6)}
		if d.bool() {
			target.BodyLeastCm, target.ArmholeLeastCm = target.BodyCm*d.between(0.9, 1.1), target.ArmholeDepthCm*d.between(0.9, 1.1)
		}
		best := func(cm, least float64, size func(int) float64, has func(int) bool) int {
			found := 0
			for n := 1; n < 3000 && (found == 0 || size(n) < cm+2*math.Abs(size(found)-cm)+1); n++ {
				if has(n) && size(n) >= least-1e-9 && (found == 0 || math.Abs(size(n)-cm) <= math.Abs(size(found)-cm)+1e-9) {
					found = n
				}
			}
			return found
		}
		body := best(target.BodyCm, target.BodyLeastCm, g.WidthCm, target.Body.Has)
		front, back := 0, body // one by one from the back to the fronts, while the back is still not the smaller
		for f := 1; f < body; f++ {
			fronts, edges := f, 0
			if target.FrontOpening {
				fronts, edges = 2*f, target.EdgeStitches
			}
			if body-fronts < 1 || abs(body-2*fronts-edges) >= abs(back-(body-back)-edges) {
				break
			}
			front, back = f, body-fronts
		}
		neck := best(target.NeckWidthCm, 0, g.WidthCm, func(n int) bool { return (back-n)%2 == 0 })
		rows := best(target.ArmholeDepthCm, target.ArmholeLeastCm, g.HeightCm, func(n int) bool { return (n%2 == 1) == target.OddRowsAtShoulder })
		p, err := PlanDropShoulder(target)
		if front == 0 || neck >= back {
			require.Error(t, err, "%+v", target)
			continue
		}
		require.NoError(t, err, "%+v", target)
		planned++
		require.Equal(t, []int{body, front, back, neck, (back - neck) / 2, rows}, []int{p.Body, p.Front, p.Back, p.Neck, p.Shoulder, p.ArmholeRows}, "%+v", target)
		require.Equal(t, best(2*g.HeightCm(rows), 0, g.WidthCm, target.Sleeve.Has), p.SleeveTop)
		require.Equal(t, target.FrontOpening, p.FrontOpening)
		require.Equal(t, []int{p.Body, p.Neck, p.ArmholeRows, p.SleeveTop}, []int{p.BodyFit.Count, p.NeckFit.Count, p.ArmholeFit.Count, p.SleeveFit.Count})
	}
	require.Greater(t, planned, 1000)
	_, err := PlanDropShoulder(DropShoulderTarget{Gauge: square, BodyCm: 700, NeckWidthCm: 20, ArmholeDepthCm: 500.5})
	require.ErrorContains(t, err, "width is 1002 cm")
	_, err = DropSleeveCm(18, 36)
	require.ErrorContains(t, err, "width of the back is 36 cm: want less than twice the centre back to wrist, 36 cm")
	cm, err := DropSleeveCm(18.5, 36)
	require.NoError(t, err)
	require.InDelta(t, 0.5, cm, 1e-9)
}

// Of all bridges the cheapest, both floors kept, to the stitch.
func TestLegsAreTheCheapest(t *testing.T) {
	d := thrown(11)
	planned, refused := 0, 0
	for range 2000 {
		g := Gauge{float64(d.whole(6, 40)), 28}
		l := LegTarget{Gauge: g, Hip: 2 * d.whole(2, d.whole(3, 100)), ThighCm: d.between(10, 60), BridgeCm: d.between(0.5, 9), WeightThigh: float64(d.whole(0, 3)), WeightBridge: float64(d.whole(0, 3))}
		if d.bool() { // exactly so many stitches
			l.ThighLeastCm, l.BridgeLeastCm = g.WidthCm(l.Hip/2+d.whole(0, 12)), g.WidthCm(d.whole(1, 12))
		}
		thigh, bridge := l.WeightThigh, l.WeightBridge
		if thigh == 0 && bridge == 0 {
			thigh, bridge = 1, 1
		}
		best, cheapest := 0, math.Inf(1)
		for n := 1; n <= l.Hip; n++ {
			cost := squared(thigh, g.WidthCm(l.Hip/2+n)-l.ThighCm) + squared(bridge, g.WidthCm(n)-l.BridgeCm)
			if g.WidthCm(l.Hip/2+n) >= l.ThighLeastCm-1e-7 && g.WidthCm(n) >= l.BridgeLeastCm-1e-7 && cost < cheapest-1e-9 {
				best, cheapest = n, cost
			}
		}
		p, err := PlanLegs(l)
		if best == 0 {
			require.ErrorContains(t, err, "more hip stitches")
			refused++
			continue
		}
		require.NoError(t, err)
		planned++
		require.Equal(t, LegSplit{l.Hip, best, l.Hip/2 + best}, p.LegSplit, "%+v", l)
		require.InDelta(t, cheapest, p.CostThigh+p.CostBridge, 1e-9)
		require.InDelta(t, squared(bridge, p.BridgeFit.SizeCm-l.BridgeCm), p.CostBridge, 1e-9)
		require.Equal(t, Finished{p.Leg, g.WidthCm(p.Leg), l.ThighCm}, p.ThighFit)
		require.Equal(t, Finished{best, g.WidthCm(best), l.BridgeCm}, p.BridgeFit)
		require.NoError(t, p.Check())
		require.InDelta(t, float64(best)/float64(l.Hip), p.BridgeShare(), 1e-9)

		high := d.between(0.2, 8)
		sets, f, err := ShortRowSets(g, high)
		require.NoError(t, err)
		require.Equal(t, nearestTo(high, 0, func(n int) float64 { return g.HeightCm(2 * n) }), sets)
		require.Equal(t, Finished{2 * sets, g.HeightCm(2 * sets), high}, f)
	}
	require.True(t, planned > 1000 && refused > 20)
	for _, c := range []struct {
		hip, bridge int
		want        string
	}{{3, 0, "hip stitches is 3: want 4 to"}, {5, 0, "want an even count"}, {20001, 0, "hip stitches is 20001"}, {40, -1, "bridge is -1: want 0 to"}, {2, 1, "want 4 to"}} {
		_, err := SplitLegs(c.hip, c.bridge)
		require.ErrorContains(t, err, c.want)
	}
	s, err := SplitLegs(4, 0)
	require.NoError(t, err)
	require.Equal(t, LegSplit{4, 0, 2}, s)
	s, err = SplitLegs(104, 12)
	require.NoError(t, err)
	require.Equal(t, LegSplit{104, 12, 64}, s)
	require.EqualError(t, LegSplit{101, 8, 58}.Check(), "stitch: leg is 58: want half of hip 101 + bridge 8 = 58.5")
	for _, bad := range []LegTarget{
		{Gauge: square, Hip: 40, ThighCm: 20, BridgeCm: 3, WeightThigh: -1}, {Gauge: square, Hip: 40, ThighCm: 20, BridgeCm: 3, WeightBridge: 1.1e6},
		{Gauge: square, Hip: 40, ThighCm: 20, BridgeCm: 3, ThighLeastCm: -1}, {Gauge: square, Hip: 40, ThighCm: 20, BridgeCm: 3, BridgeLeastCm: 1001},
		{Gauge: square, Hip: 41, ThighCm: 20, BridgeCm: 3}, {Gauge: square, Hip: 40, ThighCm: 20}, {Hip: 40, ThighCm: 20, BridgeCm: 3},
	} {
		_, err := PlanLegs(bad)
		require.Error(t, err, "%+v", bad)
	}
	_, err = PlanLegs(LegTarget{Gauge: square, Hip: 40, ThighCm: 20, BridgeCm: 3, WeightThigh: 1e6})
	require.NoError(t, err)
}

// Short rows, each a stitch or more past the turn before it, are tried at every step:
// the last turns where it is to, or the row ends, and the first where it is to.
func TestShortRowsAreTheNearest(t *testing.T) {
	for stitches := 6; stitches <= 80; stitches += 9 {
		for pairs := 0; pairs <= 9; pairs++ {
			for last := 2; last <= stitches; last += 5 {
				for first := 1; first <= last; first += 4 {
					r := SpreadShortRows(stitches, pairs, first, last)
					require.Equal(t, stitches, r.Stitches)
					require.Equal(t, stitches, r.First+2*r.Lead, "in the middle")
					require.True(t, r.Pairs >= 1 && r.Pairs <= max(1, pairs))
					require.GreaterOrEqual(t, r.First, 1)
					// Each pair has two rows, the first of them turns once: 2 × pairs − 2 steps.
					steps := 0
					for row := 3; row <= 2*r.Pairs; row++ {
						require.Equal(t, r.Further, r.Worked(row)-r.Worked(row-1))
						steps++
					}
					require.Equal(t, r.First, r.Worked(2))
					if r.Pairs < pairs { // no more go in, at a stitch each, two left
						require.Greater(t, steps+2, last-2)
					}
					if steps == 0 {
						require.Zero(t, r.Further)
						require.True(t, r.First == first || r.First == first+1)
						continue
					}
					require.Positive(t, r.Further)
					end := r.Worked(2 * r.Pairs)
					require.True(t, end == last || end == last+1, "%d stitches, %d pairs, %d to %d: %+v", stitches, pairs, first, last, r)
					step := 1 // of all that begin with two stitches at least, the nearest, the first to begin
					for s := 2; last-s*steps >= 2; s++ {
						was, is := last-step*steps-first, last-s*steps-first
						if abs(is) < abs(was) || abs(is) == abs(was) && is < 0 {
							step = s
						}
					}
					require.Equal(t, step, r.Further, "%d stitches, %d pairs, %d to %d: %+v", stitches, pairs, first, last, r)
				}
			}
		}
	}
}

// The crown gains the customary rate that is nearest to flat, what is over flat counting
// twice; where none is near enough, the nearest even number.
func TestCrownsAreTheNearestToFlat(t *testing.T) {
	d := thrown(12)
	custom, own := 0, 0
	for range 2000 {
		g, stitches, every, within := d.gauge(), d.whole(2, 200), d.whole(1, 3), d.between(0, 0.6)
		var rates []int
		for range d.whole(0, 4) {
			rates = append(rates, d.whole(1, 16))
		}
		flat := polygon(g.HeightCm(every)) / g.WidthCm(1)
		off := func(n int) float64 {
			if over := float64(n) - flat; over > 0 {
				return 2 * over / flat
			}
			return (flat - float64(n)) / flat
		}
		best := 0
		for _, n := range rates {
			if off(n) <= within && (best == 0 || off(n) < off(best)) {
				best = n
			}
		}
		if best == 0 {
			best = 2 * nearestTo(flat, 1, func(n int) float64 { return float64(2 * n) })
			own++
		} else {
			custom++
		}
		best = min(best, stitches)
		c, err := PlanCrown(g, stitches, every, rates, within)
		require.NoError(t, err)
		count, rounds := best, 1
		for count+best <= stitches {
			count, rounds = count+best, rounds+every
		}
		if count < stitches {
			rounds += every
		}
		require.Equal(t, []int{best, stitches - count, rounds}, []int{c.Middle, c.Rest, c.Rounds}, "%v %d %v", g, stitches, rates)
		require.InDelta(t, float64(best)/float64(every), c.Lie.PerRound, 1e-9)
		require.InDelta(t, float64(best)/flat-1, c.Lie.Deviation, 1e-6)
		n := best // from the middle out, and from the edge in
		for i := range c.Widen.Times {
			require.Equal(t, 1+(i+1)*every, c.Widen.RowOf(i))
			used, made, at := work(c.Widen.Across(i))
			require.Equal(t, []int{n, n + best}, []int{used, made})
			require.Equal(t, made, at[len(at)-1]+best, "the last ends the round")
			n = made
		}
		in := c.Narrow()
		require.Equal(t, n, in.From)
		first := 1
		if c.Rest > 0 {
			first += every
		}
		for i := range in.Times {
			require.Equal(t, first+i*every, in.RowOf(i))
			used, made, at := work(in.Across(i))
			require.Equal(t, []int{n, n - best}, []int{used, made})
			for k := 1; k < len(at); k++ {
				require.Equal(t, at[0], at[k]-at[k-1], "alike all round")
			}
			n = made
		}
		require.Equal(t, best, n)
	}
	require.True(t, custom > 300 && own > 300)
	for _, c := range []struct {
		stitches, every int
		within          float64
		rate            int
		want            string
	}{
		{2, 1, 0, 1, ""}, {20, 1, 1, 6, ""}, {1, 1, 0, 6, "stitches of the crown is 1: want 2 to"}, {20, 0, 0, 6, "rounds from increase to increase is 0: want 1 to"},
		{20, 1, -0.1, 6, "share of flat is -0.1: want 0 to 1"}, {20, 1, 1.1, 6, "share of flat is 1.1"}, {20, 1, 0.5, 0, "customary increases is 0: want 1 to"},
	} {
		_, err := PlanCrown(square, c.stitches, c.every, []int{c.rate}, c.within)
		if c.want == "" {
			require.NoError(t, err, "%+v", c)
			continue
		}
		require.ErrorContains(t, err, c.want)
	}
	for deviation, lie := range map[float64]Lie{0.125: Flat, -0.125: Flat, 0.126: Ruffles, -0.126: Cups} {
		require.Equal(t, lie, Circle{Deviation: deviation}.Lie(0.125))
	}
	require.Zero(t, Circle{PerRound: 6, Flat: 6}.FallShare())
	require.InDelta(t, 1, Circle{PerRound: 0, Flat: 6}.FallShare(), 1e-9, "a tube")
	require.InDelta(t, 0.8, Circle{PerRound: 3, Flat: 5}.FallShare(), 1e-9, "3, 4 and 5")
}

// The rounds of an oval gain round its ends alone, as much at each, spread evenly.
func TestOvalsGainAtTheirEnds(t *testing.T) {
	for straight := 1; straight <= 12; straight++ {
		for ends := 6; ends <= 40; ends += 2 {
			for change := 2; change <= min(ends, 14); change++ {
				stitches := 2*straight + ends
				a := Ends(stitches, straight, change)
				used, made, at := work(a)
				require.Equal(t, []int{stitches, stitches + change/2*2, stitches + change/2*2}, []int{used, made, a.After()})
				// Laid out: a side, an end, a side, an end.
				gains := [4]int{}
				var in []int
				for _, n := range at {
					switch {
					case n <= straight:
						gains[0]++
					case n <= straight+ends/2:
						gains[1]++
						in = append(in, n-straight)
					case n <= 2*straight+ends/2:
						gains[2]++
					default:
						gains[3]++
						require.Contains(t, in, n-2*straight-ends/2, "as at the other end")
					}
				}
				require.Equal(t, [4]int{0, change / 2, 0, change / 2}, gains)
				gaps := gapsOf(in)
				require.LessOrEqual(t, slices.Max(gaps)-slices.Min(gaps), 1)
				require.Equal(t, ends/2, in[len(in)-1])
			}
		}
	}
}

// Fronts and back at their least, and one part under it.
func TestSplitsHaveALeast(t *testing.T) {
	least := Split{Front: 1, Back: 1, SleevePart: 1, Underarm: 0, Yoke: 4, Body: 2, Sleeve: 1}
	require.NoError(t, least.Check())
	for want, s := range map[string]Split{
		"front is 0: want 1 to":                                   {Front: 0, Back: 2, SleevePart: 1, Yoke: 4, Body: 2, Sleeve: 1},
		"back is 0: want 1 to":                                    {Front: 2, Back: 0, SleevePart: 1, Yoke: 4, Body: 2, Sleeve: 1},
		"sleeve part of the yoke is 0: want 1 to":                 {Front: 1, Back: 1, SleevePart: 0, Yoke: 2, Body: 2, Sleeve: 0},
		"underarm is -1: want 0 to":                               {Front: 1, Back: 1, SleevePart: 2, Underarm: -1, Yoke: 6, Body: 0, Sleeve: 1},
		"body is 5: want fronts 4 + back 2 + underarms 2 × 1 = 8": {FrontOpening: true, Front: 2, Back: 2, SleevePart: 3, Underarm: 1, Yoke: 12, Body: 5, Sleeve: 4},
		"yoke is 10: want fronts 4 + back 2 + sleeves 2 × 3 = 12": {FrontOpening: true, Front: 2, Back: 2, SleevePart: 3, Underarm: 1, Yoke: 10, Body: 8, Sleeve: 4},
		"sleeve is 5: want sleeve part 3 + underarm 1 = 4":        {FrontOpening: true, Front: 2, Back: 2, SleevePart: 3, Underarm: 1, Yoke: 12, Body: 8, Sleeve: 5},
	} {
		require.ErrorContains(t, s.Check(), want)
	}
	require.InDelta(t, 15, ArmholeDepthCm(12, 6), 1e-9)
}
