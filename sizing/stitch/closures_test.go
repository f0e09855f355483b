package stitch

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// Zippers, of any stock: the longest that the opening hides, what is left, the rows to
// take out so that none is left but never the opening too short, the rows to add so that
// the next longer one goes in.
func TestZippersAreTriedOneByOne(t *testing.T) {
	d := thrown(6)
	seen := make(map[ZipperAdvice]int)
	for range 1500 {
		g := d.gauge()
		var stock []float64
		for range d.whole(1, 8) {
			stock = append(stock, float64(d.whole(4, 30)))
		}
		opening := d.between(8, 80)
		if d.IntN(4) == 0 {
			opening = stock[0] * 2.54 // exactly
		}
		exact, byHand := d.between(0, 1), d.between(1, 4)
		z, err := FitZipper(g, opening, stock, exact, byHand)
		in, longer := 0.0, math.Inf(1)
		for _, s := range stock {
			if s*2.54 <= opening+tapeCm {
				in = max(in, s)
			} else {
				longer = min(longer, s)
			}
		}
		if in == 0 {
			require.Error(t, err)
			continue
		}
		require.NoError(t, err)
		left := max(0, opening-in*2.54)
		require.Equal(t, opening, z.OpeningCm)
		require.InDelta(t, in, z.LengthIn, 1e-9)
		require.InDelta(t, in*2.54, z.LengthCm, 1e-9)
		require.InDelta(t, left, z.DifferCm, 1e-9)
		out := 0
		for g.HeightCm(out+1) <= left+1e-9 {
			out++
		}
		require.Equal(t, out, z.RowsToFit)
		advice, add := TakeOutRows, 0
		if !math.IsInf(longer, 1) {
			advice = TakeOutOrAddRows
			for opening+g.HeightCm(add) < longer*2.54-1e-9 {
				add++
			}
			require.InDelta(t, longer, z.LongerIn, 1e-9)
		} else {
			require.Zero(t, z.LongerIn)
		}
		require.Equal(t, add, z.RowsToNext)
		if left <= byHand {
			advice = CloseByHand
		}
		if left <= exact {
			advice = SetIn
		}
		require.Equal(t, advice, z.Advice)
		seen[advice]++
	}
	require.Len(t, seen, 4)
	g := Gauge{20, 28}
	for _, c := range []struct { // just what is set in, what is closed by hand, what the tape hides
		opening float64
		in      float64
		advice  ZipperAdvice
	}{{26, 10, CloseByHand}, {25.4 + 2.5, 10, CloseByHand}, {25.4 + 0.5, 10, SetIn}, {25.4 - 0.04, 10, SetIn}, {25.4 - 0.06, 8, TakeOutOrAddRows}} {
		z, err := FitZipper(g, c.opening, []float64{8, 10, 20}, 0.5000001, 2.5000001)
		require.NoError(t, err)
		require.InDelta(t, c.in, z.LengthIn, 1e-9)
		require.Equal(t, c.advice, z.Advice, c.opening)
	}
	for _, bad := range []float64{0, -4, 400, math.NaN()} { // ten metres are no zipper
		_, err := FitZipper(g, 30, []float64{9, bad}, 0.5, 2.5)
		require.ErrorContains(t, err, "stocked zipper")
	}
	_, err := FitZipper(g, 1000.5, []float64{9}, 0.5, 2.5)
	require.ErrorContains(t, err, "opening is 1000.5 cm")
	// Exactly as much as is set in, and as is closed by hand.
	for differ, advice := range map[float64]ZipperAdvice{0.25: SetIn, 0.375: CloseByHand, 2.5: CloseByHand, 2.625: TakeOutRows} {
		require.Equal(t, advice, Zipper{DifferCm: differ}.advice(0.25, 2.5), differ)
	}
}

// A band along rows: the nearest count at its own gauge; to work it, so many picked up in
// so many rows, by the nearest fraction that a maker can count, one skipped in each group.
func TestBandsArePickedUp(t *testing.T) {
	d := thrown(7)
	skipped := 0
	for range 400 {
		fabric, band := d.gauge(), d.gauge()
		rows, m := d.whole(1, 400), d.multiple()
		p, err := PlanPickUp(rows, fabric, band, m)
		require.NoError(t, err)
		length := fabric.HeightCm(rows)
		want := m.counts(int(2*length/band.WidthCm(1)) + 60)
		best := want[0]
		for _, n := range want {
			if math.Abs(band.WidthCm(n)-length) <= math.Abs(band.WidthCm(best)-length)+1e-9 {
				best = n
			}
		}
		require.Equal(t, best, p.Stitches)
		require.Equal(t, rows, p.Rows)
		require.InDelta(t, band.WidthCm(best), p.LengthCm, 1e-9)
		require.InDelta(t, fabric.HeightCm(1)/band.WidthCm(1), p.Ratio, 1e-9)
		up, of := 0, 1 // tried one by one
		for den := 1; den <= 16; den++ {
			for n := int(p.Ratio) * den; n <= int(p.Ratio+1)*den; n++ {
				if off := func(n, den int) float64 { return math.Abs(float64(n)/float64(den) - p.Ratio) }; off(n, den) < off(up, of)-1e-6 {
					up, of = n, den
				}
			}
		}
		if up >= of || up == 0 {
			require.Empty(t, p.Groups, "none is skipped")
			continue
		}
		skipped++
		require.Len(t, p.Groups, of-up, "%g is %d of %d", p.Ratio, up, of)
		sum := 0
		for _, n := range p.Groups {
			sum += n
		}
		require.Equal(t, of, sum)
		require.LessOrEqual(t, slices.Max(p.Groups)-slices.Min(p.Groups), 1)
	}
	require.Greater(t, skipped, 100)
	for n, d := range map[int]int{1: 1, 15: 16, 7: 13, 2: 3, 5: 2} { // as they are written
		num, den := simpleRatio(float64(n) / float64(d))
		require.Equal(t, []int{n, d}, []int{num, den})
	}
	num, den := simpleRatio(1.0 / 17)
	require.Equal(t, []int{1, 16}, []int{num, den}, "no more than 16 are counted")
	_, err := PlanPickUp(20, Gauge{20, 28}, Gauge{0, 28}, Plain)
	require.ErrorContains(t, err, "stitch gauge is 0")
	_, err = PlanPickUp(20, Gauge{20, 0}, Gauge{20, 28}, Plain)
	require.ErrorContains(t, err, "row gauge is 0")
	_, err = PlanPickUp(20, Gauge{20, 0}, Gauge{0, 28}, Plain)
	require.ErrorContains(t, err, "row gauge is 0", "the fabric's first")
	_, err = PlanPickUp(1, Gauge{20, 28}, Gauge{20, 28}, Plain)
	require.NoError(t, err)
}

// The fewest stitches that buttonholes fit in have one between any two.
func TestButtonholesNeedAStitchBetween(t *testing.T) {
	for holes := 2; holes <= 9; holes++ {
		for size := 1; size <= 4; size++ {
			for ends := 0; ends <= 4; ends++ {
				row := 0 // laid side by side
				row += ends
				for i := range holes {
					if i > 0 {
						row++
					}
					row += size
				}
				row += ends
				b, err := SpaceButtonholes(row, ends, holes, size)
				require.NoError(t, err)
				for _, gap := range b.Gaps {
					require.Equal(t, 1, gap)
				}
				_, err = SpaceButtonholes(row-1, ends, holes, size)
				require.Error(t, err)
			}
		}
	}
	for _, c := range []struct {
		stitches, ends, holes, size int
		want                        string
	}{
		{0, 0, 2, 1, "stitches of the band is 0"}, {40, -1, 2, 1, "stitches beside the buttonholes is -1"},
		{40, 3, 1, 1, "buttonholes is 1: want 2 to"}, {40, 3, 2, 0, "stitches of a buttonhole is 0"},
		{1, 0, 2, 1, "band is 1 stitch: want at least 3 for 2 buttonholes of 1"}, {20, 3, 7, 3, "band is 20 stitches: want at least 33 for 7"},
	} {
		_, err := SpaceButtonholes(c.stitches, c.ends, c.holes, c.size)
		require.ErrorContains(t, err, c.want)
	}
}

// Ribbing on a share of the fabric: of all counts not over the fabric the nearest, joined
// by a row that leaves as many.
func TestRibbingIsTheNearest(t *testing.T) {
	d := thrown(8)
	over := 0
	for range 1500 {
		fabric, share, rounds := d.whole(6, 300), d.between(0.5, 1), d.bool()
		if d.IntN(4) == 0 {
			share = 1
		}
		m := d.multiple()
		rib := d.gauge()
		p, err := PlanRib(fabric, share, m, rib, rounds)
		if rounds {
			m.Edge = 0 // a tube has none
		}
		best := -1
		want := float64(fabric) * share
		for _, n := range m.counts(700) {
			if best < 0 || math.Abs(float64(n)-want) <= math.Abs(float64(best)-want)+1e-9 {
				best = n
			}
		}
		if best > fabric { // the nearest is none: the most that are not over it
			best = -1
			over++
			for _, n := range m.counts(fabric) {
				best = n
			}
		}
		lost := fabric - best
		if edges := 2; best < 0 || lost > 0 && rounds && 2*lost > fabric || lost > 0 && !rounds && 2*lost+edges > fabric {
			require.Error(t, err, "%d × %g, %v", fabric, share, m)
			continue
		}
		require.NoError(t, err, "%d × %g, %v", fabric, share, m)
		require.Equal(t, []int{fabric, best}, []int{p.Fabric, p.Rib}, "%d × %g, %v", fabric, share, m)
		require.InDelta(t, float64(best)*10/rib.StitchesPer10Cm, p.WidthCm, 1e-9)
		used, made, at := work(p.Join)
		require.Equal(t, []int{fabric, best}, []int{used, made})
		if lost > 0 {
			require.Equal(t, rounds, at[len(at)-1] == fabric, "the last of a round ends it")
		}
	}
	require.Greater(t, over, 20)
	_, err := PlanRib(0, 0.9, Plain, square, true)
	require.ErrorContains(t, err, "stitches of the fabric is 0")
	_, err = PlanRib(1, 0.9, Plain, square, true)
	require.NoError(t, err)
}

// An edge that stretches by half again passes half as much again, to what is measured.
func TestOpeningsPass(t *testing.T) {
	for _, c := range []struct {
		edge, stretch, over float64
		passes              bool
	}{{34, 1.5, 51, true}, {34, 1.5, 51.001, false}, {34, 1.5, 50.999, true}, {0.1 * 3, 1, 0.3, true}, {0.3, 1, 0.1 * 3, true}, {40, 1, 39, true}, {39, 1, 40, false}} {
		o := Opening{EdgeCm: c.edge, Stretch: c.stretch, OverCm: c.over}
		require.Equal(t, c.passes, o.Passes(), "%+v", c)
		require.InDelta(t, c.over, c.edge*o.NeededStretch(), 1e-9)
		require.InDelta(t, c.over, c.stretch*o.NeededCm(), 1e-9)
	}
	require.InDelta(t, 34+20+20, FrontOpening{20}.PassCm(34), 1e-9, "and both sides of the slit")
}
