package stitch

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// Each multiple, at and just beside each half stitch: the counts by their definition.
func TestEveryCountOfAMultiple(t *testing.T) {
	for _, rep := range []int{0, 1, 2, 5} {
		for edge := 1 - max(rep, 1); edge <= rep+1; edge++ {
			m := Multiple{rep, edge}
			require.NoError(t, m.Validate())
			all := m.counts(80)
			require.Equal(t, all[0], m.least())
			for n := -3; n <= 70; n++ {
				require.Equal(t, slices.Contains(all, n), m.Has(n), "%v has %d", m, n)
			}
			for half := 0; half <= 60; half++ {
				for _, by := range []float64{-1e-3, -1e-11, 0, 1e-11, 1e-3} {
					x := float64(half)/2 + by
					if x < 0 {
						continue
					}
					below, above := 0, 0
					for _, n := range all {
						if float64(n) <= x+1e-6 {
							below = n
						}
						if float64(n) >= x-1e-6 && above == 0 {
							above = n
						}
					}
					nearest := above
					if below > 0 && x-float64(below) < float64(above)-x-1e-6 {
						nearest = below
					}
					low, high, err := m.Neighbours(x)
					require.NoError(t, err)
					require.Equal(t, []int{below, above}, []int{low, high}, "%v at %g", m, x)
					for r, want := range map[Rounding]int{Nearest: nearest, Up: above, Down: below} {
						n, err := m.Count(x, r)
						if want == 0 {
							require.ErrorContains(t, err, fmt.Sprintf("want %d or more", all[0]))
							continue
						}
						require.NoError(t, err)
						require.Equal(t, want, n, "%v at %g, %v", m, x, r)
					}
					for _, floor := range []float64{0, x - 1, x - 1e-11, x, x + 1e-11, x + 0.4, x + 3} {
						if floor < 0 {
							continue
						}
						want := nearest
						for !m.Has(want) || float64(want) < floor-1e-6 {
							want++
						}
						n, err := m.AtLeast(x, floor)
						require.NoError(t, err)
						require.Equal(t, want, n, "%v at %g, at least %g", m, x, floor)
					}
				}
			}
			require.Equal(t, Multiple{max(rep, 1), 0}, m.InTheRound())
		}
	}
	// What divisions leave is forgiven in proportion: a count of thousands too.
	n, err := Plain.Count(9000*(1+1e-11), Up)
	require.NoError(t, err)
	require.Equal(t, 9000, n)
	n, err = Plain.Count(9000*(1-1e-11), Down)
	require.NoError(t, err)
	require.Equal(t, 9000, n)
	n, err = Plain.Count(9000+1e-4, Up)
	require.NoError(t, err)
	require.Equal(t, 9001, n)
}

func TestMultiplesHaveBounds(t *testing.T) {
	for m, ok := range map[Multiple]bool{
		{2000, 0}: true, {2001, 0}: false, {-1, 0}: false, {0, 0}: true, {6, 2000}: true, {6, 2001}: false,
		{6, -5}: true, {6, -6}: false, {0, -1}: false, {1, 0}: true, {1, -1}: false, {2000, -1999}: true, {2000, -2000}: false,
	} {
		require.Equal(t, ok, m.Validate() == nil, "%+v", m)
	}
	require.EqualError(t, Multiple{6, -6}.Validate(), "stitch: edge of a multiple is -6: want -5 to 2000 stitches for a repeat of 6")
	for in, want := range map[string]string{"2000n": "2000n", "2n+3": "2n+3", "n+1": "n+1", "3n-2": "3n-2", "1n": "plain", "2n-1": "2n-1", "2n+0": "even"} {
		m, err := ParseMultiple(in)
		require.NoError(t, err)
		require.Equal(t, want, m.String())
	}
}

// A size in whole stitches or rows, the nearest of all that are not under its floor.
func TestSizesAreTheNearestCounts(t *testing.T) {
	d := thrown(9)
	for range 3000 {
		g, m, cm, least := d.gauge(), d.multiple(), d.between(0.5, 120), 0.0
		if d.bool() {
			least = cm * d.between(0.8, 1.2)
		}
		for _, way := range []struct {
			fit     func() (Finished, error)
			size    func(n int) float64
			floored bool
		}{
			{func() (Finished, error) { return g.FitWidthAtLeast(cm, least, m) }, g.WidthCm, true},
			{func() (Finished, error) { return g.FitHeightAtLeast(cm, least, m) }, g.HeightCm, true},
			{func() (Finished, error) { return g.FitWidth(cm, m, Nearest) }, g.WidthCm, false},
			{func() (Finished, error) { return g.FitHeight(cm, m, Nearest) }, g.HeightCm, false},
		} {
			n := m.least()
			for n+m.repeat() <= maxCount && math.Abs(way.size(n+m.repeat())-cm) <= math.Abs(way.size(n)-cm) {
				n += m.repeat()
			}
			for way.floored && way.size(n) < least-1e-9 {
				n += m.repeat()
			}
			f, err := way.fit()
			require.NoError(t, err)
			require.Equal(t, n, f.Count, "%v, %g cm, at least %g, %v", g, cm, least, m)
			require.InDelta(t, way.size(n), f.SizeCm, 1e-9)
			require.InDelta(t, way.size(n)-cm, f.errorCm(), 1e-9)
			require.Equal(t, cm, f.WantCm)
		}
		require.InDelta(t, cm, g.StitchWidthCm()*g.Stitches(cm), 1e-9)
		require.InDelta(t, cm, g.RowHeightCm()*g.Rows(cm), 1e-9)
		st, rows := g.Per4In()
		require.InDelta(t, st, g.Stitches(4*2.54), 1e-9)
		require.InDelta(t, rows, g.Rows(4*2.54), 1e-9)
		require.InDelta(t, g.RowHeightCm()/g.StitchWidthCm(), g.RowByStitch(), 1e-9)
	}
	g := Gauge{20, 28}
	_, err := g.FitWidthAtLeast(40, -1, Plain)
	require.ErrorContains(t, err, "least width is -1 cm")
	_, err = g.FitHeightAtLeast(40, 1001, Plain)
	require.ErrorContains(t, err, "least height is 1001 cm")
	f, err := g.FitWidth(41, Multiple{4, 0}, Up)
	require.NoError(t, err)
	require.Equal(t, 84, f.Count)
	f, err = g.FitHeight(41, Multiple{4, 0}, Down)
	require.NoError(t, err)
	require.Equal(t, 112, f.Count)
	_, err = Per10Cm(20, 201)
	require.ErrorContains(t, err, "row gauge is 201 rows per 10 cm")
}

// The nearest to half goes up, whatever divisions have left of it.
func TestNearestWhole(t *testing.T) {
	for x, want := range map[float64]int{0: 0, 0.49: 0, 0.5: 1, 0.5 - 1e-10: 1, 1.4999: 1, -0.5: 0, -0.51: -1, -1.5: -1, 7: 7} {
		require.Equal(t, want, nearestInt(x), x)
	}
	require.Equal(t, 6, gcd(12, 18))
	require.Equal(t, 5, gcd(0, 5))
	require.Equal(t, 5, gcd(5, 0))
	require.Equal(t, []int{-1, 1, 1}, []int{sign(-3), sign(0), sign(3)})
}

// Figures in messages have no tail, and no more than a thousandth.
func TestFiguresAreShort(t *testing.T) {
	for x, want := range map[float64]string{0: "0", 12.5: "12.5", 100.0 / 3: "33.333", -0.0625: "-0.063", 0.0001: "0.0001", 1e15: "1e+15", 1.25e15: "1.25e+15", -1e15: "-1e+15", 9e14: "900000000000000",
		0.0004: "0.0004", -0.0004: "-0.0004", 0.0006: "0.001", math.Inf(1): "+Inf", 1.23456e-7: "1.23e-07"} {
		require.Equal(t, want, num(x))
	}
	require.Equal(t, "NaN", num(math.NaN()))
	require.Equal(t, []string{"1 row", "2 rows", "1 stitch", "0 stitches"}, []string{plural(1, "row"), plural(2, "row"), plural(1, "stitch"), plural(0, "stitch")})
	require.EqualError(t, checkRange("x", 3, 4, 5, "cm"), "stitch: x is 3 cm: want 4 to 5 cm")
	require.EqualError(t, checkRange("x", 6, 4, 5, ""), "stitch: x is 6: want 4 to 5")
	for n, ok := range map[int]bool{2: false, 3: true, maxCount: true, maxCount + 1: false} {
		require.Equal(t, ok, checkCount("x", n, 3) == nil)
	}
}

// What is left of the yarn, counted by hand: 100 m in 1,000 stitches leave 300 m for 3,000.
func TestYarnLeftToTheMetre(t *testing.T) {
	p := Progress{StitchesDone: 1000, StitchesLeft: 3000}
	for _, c := range []struct {
		have, margin, need, spare float64
		enough                    bool
	}{{300, 0, 300, 0, true}, {299, 0, 300, -0.02, false}, {350, 0, 300, 1, true}, {600, 1, 600, 0, true}, {599, 1, 600, -0.02, false}, {0, 0.5, 450, -9, false}} {
		y, err := p.YarnToGo(100, c.have, c.margin, Ball{25, 50})
		require.NoError(t, err)
		require.Equal(t, YarnLeft{c.need, c.have, y.SpareBalls, c.enough}, y)
		require.InDelta(t, c.spare, y.SpareBalls, 1e-9)
	}
	for _, c := range []struct {
		used, have, margin float64
		ball               Ball
		ok                 bool
	}{
		{0.001, 0, 0, Ball{1, 1}, true}, {1e7, 1e7, 1, Ball{1e4, 1e5}, true}, {0.0009, 0, 0, Ball{25, 50}, false}, {1.1e7, 0, 0, Ball{25, 50}, false},
		{1, -0.1, 0, Ball{25, 50}, false}, {1, 1.1e7, 0, Ball{25, 50}, false}, {1, 1, -0.01, Ball{25, 50}, false}, {1, 1, 1.01, Ball{25, 50}, false}, {1, 1, 0, Ball{0.9, 50}, false},
	} {
		_, err := p.YarnToGo(c.used, c.have, c.margin, c.ball)
		require.Equal(t, c.ok, err == nil, "%+v", c)
	}
	p.StitchesDone = 0.5
	_, err := p.YarnToGo(1, 1, 0, Ball{25, 50})
	require.NoError(t, err)
}

// A band of yarn holds at both its ends, and yarns at the ends of their stitches.
func TestYarnBandsAtTheirEnds(t *testing.T) {
	b := YarnBand{Yarn: "DK", Low: 1000, High: 1500} // metres on a square metre
	for metres, ok := range map[float64]bool{500: true, 499.9: false, 750: true, 750.1: false} {
		require.Equal(t, ok, b.Check(metres, 5000) == nil, metres)
	}
	require.EqualError(t, b.Check(200, 5000), "stitch: yarn for 5000 cm² is 200 m: want 500 to 750 m in DK")
	for area, ok := range map[float64]bool{1: true, 0.9: false, 1e6: true, 1.1e6: false} {
		err := b.Check(area*0.12, area)
		require.Equal(t, ok, err == nil, area)
	}
	require.ErrorContains(t, b.Check(-1, 5000), "length of yarn is -1 m")
	require.ErrorContains(t, b.Check(2e7, 5000), "length of yarn is 20000000 m")
	require.Equal(t, YarnBand{"DK", 2000, 4500}, b.Times(2, 3))
	in2 := 0.9144 / (0.0254 * 0.0254)
	for stitches, want := range map[float64]YarnBand{
		16: {"worsted", 0.8, 1.1}, 20: {"worsted", 0.8, 1.1}, 20.01: {"worsted to DK", 0.8, 1.3}, 20.99: {"worsted to DK", 0.8, 1.3}, 21: {"DK", 1, 1.3},
		24: {"DK", 1, 1.3}, 26.9: {"DK to fingering", 1, 1.7}, 27: {"fingering", 1.3, 1.7}, 32: {"fingering", 1.3, 1.7},
	} {
		got, err := BelievableYarn(stitches, yarnUses)
		require.NoError(t, err)
		require.Equal(t, want.Yarn, got.Yarn, stitches)
		require.InDelta(t, want.Low*in2, got.Low, 1e-6)
		require.InDelta(t, want.High*in2, got.High, 1e-6)
	}
	for _, beyond := range []float64{15.9, 32.1} {
		_, err := BelievableYarn(beyond, yarnUses)
		require.ErrorContains(t, err, "want 16 to 32 (no band is known beyond)")
	}
	_, err := BelievableYarn(20, nil)
	require.ErrorContains(t, err, "uses of yarn is 0")
	// Weight counts where both are given.
	n, err := EstimateYarn(YarnSwatch{WidthCm: 10, HeightCm: 20, Grams: 5, Metres: 90}, Ball{50, 120}, 2000, 0.5)
	require.NoError(t, err)
	require.InDelta(t, 5.0*120/50*10*1.5, n.Metres, 1e-9)
	require.InDelta(t, 75, n.Grams, 1e-9)
	require.Equal(t, 2, n.Balls)
	require.InDelta(t, 0.5, n.LastShare, 1e-9)
	for _, s := range []YarnSwatch{{WidthCm: 10, HeightCm: 10, Grams: 0.5, Metres: 90}, {WidthCm: 10, HeightCm: 10, Metres: 1}} {
		n, err = EstimateYarn(s, Ball{50, 100}, 10000, 0)
		require.NoError(t, err)
		require.InDelta(t, 100, n.Metres, 1e-9, "a metre in the swatch, a hundred swatches")
	}
	n, err = ballsFor(0.001, Ball{50, 120})
	require.NoError(t, err)
	require.Equal(t, 1, n.Balls)
}
