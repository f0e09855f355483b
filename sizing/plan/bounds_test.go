package plan

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

// What has bounds is taken on them and refused beyond them.
func TestFiguresHaveBounds(t *testing.T) {
	f := samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("hat"))
	figures := map[string]struct {
		low, high float64
		set       func(h *How, v float64)
	}{
		"share of ribbing": {0.5, 1, func(h *How, v float64) { h.RibShare = v }},
		"depth of the hem": {0.5, 20, func(h *How, v float64) { h.HemCm = v }},
		"depth of the cuf": {0.5, 20, func(h *How, v float64) { h.CuffCm = v }},
		"depth of the nec": {0.5, 20, func(h *How, v float64) { h.BandCm = v }},
		"margin of yarn":   {0, 1, func(h *How, v float64) { h.Margin = &v }},
		"stitches over 4":  {1, 80, func(h *How, v float64) { h.KnitPer4In = v }},
		"a stocked zipper": {1, 100, func(h *How, v float64) { h.ZippersIn = []float64{12, v} }},
	}
	for _, edge := range Edges {
		figures["stretch of the "+edge] = struct {
			low, high float64
			set       func(h *How, v float64)
		}{1, 3, func(h *How, v float64) { h.Stretch = map[string]float64{edge: v} }}
	}
	for what, x := range figures {
		for _, v := range []float64{x.low, x.high, (x.low + x.high) / 2} {
			how := singleCrochet
			x.set(&how, v)
			_, err := how.complete(f)
			require.NoError(t, err, "%s %g", what, v)
		}
		for _, v := range []float64{x.low - 0.01, x.high + 0.01, math.NaN()} {
			how := singleCrochet
			x.set(&how, v)
			_, err := how.complete(f)
			require.ErrorContains(t, err, what, "%g", v)
		}
	}
	for set, wrong := range map[*How]string{
		{Construction: "kimono"}: "construction", {Hood: "pointed"}: "hood", {Closure: "snaps"}: "closure", {Stitch: "puff"}: "stitch",
		{Terms: "au"}: "terms", {Foundation: "knot"}: "foundation", {Rounds: "square"}: "rounds",
	} {
		set.Craft, set.Gauge = Crochet, singleCrochet.Gauge
		_, err := set.complete(f)
		require.ErrorContains(t, err, "unknown "+wrong)
		if set.Stitch+Stitch(set.Terms)+Stitch(set.Foundation)+Stitch(set.Rounds) != "" { // knitting has none of these
			set.Craft = Knit
			h, err := set.complete(f)
			require.NoError(t, err)
			require.Empty(t, string(h.Stitch)+string(h.Terms)+string(h.Foundation)+string(h.Rounds))
		}
	}
}

// What is given is kept, what is not is usual: rounds are turned where parts of the
// garment are in turned rows.
func TestCrochetIsCompleted(t *testing.T) {
	for _, g := range samples.Reference(t).Garments() {
		f := samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec(g.ID))
		h, err := singleCrochet.complete(f)
		require.NoError(t, err)
		small := strings.Contains("hat mittens socks leg-warmers balaclava", g.ID)
		require.Equal(t, small, h.Rounds == RoundsJoined, g.ID)
		require.Equal(t, []any{US, Chain, ShapedCrown, Zip, Circular}, []any{h.Terms, h.Foundation, h.Hood, h.Closure, h.Construction})
		given := singleCrochet
		given.Stitch, given.Terms, given.Foundation, given.Rounds, given.Hood, given.Closure, given.Construction = HalfDouble, UK, Chainless, RoundsSpiral, Straight, Buttons, Raglan
		h, err = given.complete(f)
		require.NoError(t, err)
		require.Equal(t, []any{HalfDouble, UK, Chainless, RoundsSpiral, Straight, Buttons, Raglan}, []any{h.Stitch, h.Terms, h.Foundation, h.Rounds, h.Hood, h.Closure, h.Construction})
	}
	require.Equal(t, []int{1, 1, 2, 1}, []int{How{Stitch: Single}.TurningChain(), How{Stitch: HalfDouble}.TurningChain(), How{Stitch: Double}.TurningChain(), How{Craft: Knit}.TurningChain()})
}

// Both countries' names are read; one that both have is a stitch of the terms given. As
// the Craft Yarn Council's list of abbreviations has them: sc is UK dc, hdc UK htr, dc UK tr.
func TestStitchesByName(t *testing.T) {
	for text, want := range map[string][2]Stitch{ // in US terms, in UK terms
		"sc": {Single, Single}, "HDC": {HalfDouble, HalfDouble}, "dc": {Double, Single}, "htr": {HalfDouble, HalfDouble}, "tr": {Double, Double}, "double": {Double, Single},
		"double crochet": {Double, Single}, "Half-Double_Crochet": {HalfDouble, HalfDouble}, " half treble": {HalfDouble, HalfDouble}, "single": {Single, Single}, "single_crochet": {Single, Single},
		"half double": {HalfDouble, HalfDouble}, "half treble crochet": {HalfDouble, HalfDouble}, "treble": {Double, Double}, "treble-crochet": {Double, Double},
	} {
		for i, terms := range []Terms{US, UK, ""} {
			got, err := ParseStitch(text, terms)
			require.NoError(t, err, text)
			require.Equal(t, want[i%2], got, "%s, %q", text, terms)
		}
	}
	for _, text := range []string{"", "puff", "crochet", "s c"} {
		_, err := ParseStitch(text, US)
		require.ErrorContains(t, err, "want sc, hdc or dc")
	}
}

// The stitch of a gauge is the one whose usual rows are as high beside their stitches;
// half way between two, on a scale of times, it changes. A gauge outside what the stitch
// has is doubted, one on its bounds is not.
func TestStitchOfAGauge(t *testing.T) {
	ref := samples.Reference(t)
	f := samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("hat"))
	for i, s := range Stitches {
		usual := ref.Practice("row_height_" + string(s)).Share()
		gauge := func(times float64) stitch.Gauge { return stitch.Gauge{StitchesPer10Cm: 16, RowsPer10Cm: 16 / times} }
		require.Equal(t, s, likelyStitch(f, gauge(usual)))
		if i > 0 {
			between := math.Sqrt(usual * ref.Practice("row_height_"+string(Stitches[i-1])).Share())
			require.Equal(t, s, likelyStitch(f, gauge(between*1.01)))
			require.Equal(t, Stitches[i-1], likelyStitch(f, gauge(between/1.01)))
		}
		low, high := ref.Practice("row_height_"+string(s)+"_low").Share(), ref.Practice("row_height_"+string(s)+"_high").Share()
		for times, doubted := range map[float64]bool{low - 0.01: true, low + 1e-9: false, high - 1e-9: false, high + 0.01: true} {
			how := How{Craft: Crochet, Gauge: gauge(times), Stitch: s}
			m, err := newMaker(f, how)
			require.NoError(t, err)
			m.doubtStitch()
			require.Equal(t, doubted, len(m.p.Notes) == 1, "%s with rows of %g", s, times)
			if doubted {
				require.Equal(t, sizing.NewFact("stitch-and-gauge", string(s), 16.0, how.Gauge.RowsPer10Cm, how.Gauge.RowByStitch(), low, high, string(likelyStitch(f, how.Gauge))), m.p.Notes[0])
			}
			how.Craft = Knit
			m, err = newMaker(f, how)
			require.NoError(t, err)
			m.doubtStitch()
			require.Empty(t, m.p.Notes)
		}
	}
}

// Parts that are added have bounds too, and are written back as they are read.
func TestAdditionsHaveBounds(t *testing.T) {
	for size, want := range map[string]Addition{
		"1*4cm": {Pieces: 1, WidthCm: 4}, "40*4cm": {Pieces: 40, WidthCm: 4}, "150cm": {WidthCm: 150}, "3x150cm": {WidthCm: 3, HeightCm: 150}, "0.5x0.5cm": {WidthCm: 0.5, HeightCm: 0.5}, "2 * 0.5": {Pieces: 2, WidthCm: 0.5},
	} {
		a, err := ParseAddition("ear", size)
		require.NoError(t, err, size)
		want.Kind = "ear"
		require.Equal(t, want, a, size)
		again, err := ParseAddition(a.Name(), a.Size())
		require.NoError(t, err)
		require.Equal(t, a, again)
	}
	for _, size := range []string{"0*4cm", "41*4cm", "150.1cm", "3x150.1cm", "0x3cm", "3x0cm"} {
		_, err := ParseAddition("ear", size)
		require.ErrorContains(t, err, "add ", size)
	}
}

// A repeat has up to 40 stripes of 1 to 400 rows, in colours of up to 40 letters; an
// empty place between them is none.
func TestStripesHaveBounds(t *testing.T) {
	long := strings.Repeat("a", 40)
	got, err := ParseStripes("1 " + long + ",,400 b; ,2 c")
	require.NoError(t, err)
	require.Equal(t, []Stripe{{1, long}, {400, "b"}, {2, "c"}}, got)
	_, err = ParseStripes("401 b")
	require.ErrorContains(t, err, "401 rows: want 1 to 400")
	_, err = ParseStripes("1 a" + long)
	require.Error(t, err)
	for n := 39; n < 43; n++ {
		got, err := ParseStripes(strings.Repeat("2 red,", n))
		require.Equal(t, n <= 40, err == nil, "%d stripes", n)
		require.True(t, err != nil || len(got) == n)
	}
}

// How far edges stretch is said of one or of all.
func TestStretchIsRead(t *testing.T) {
	for text, want := range map[string][]string{"1.5": Edges, " neck = 1.5": {"neck"}, "brim=1 1/2": {"brim"}} {
		edges, times, err := ParseStretch(text)
		require.NoError(t, err, text)
		require.Equal(t, want, edges)
		require.InDelta(t, 1.5, times, 1e-12)
	}
	for _, text := range []string{"", "neck", "neck=", "neck=wide"} {
		_, _, err := ParseStretch(text)
		require.ErrorContains(t, err, fmt.Sprintf("stretch %q: want how many times", text))
	}
	_, err := ParseGauge("/10cm")
	require.Error(t, err)
}
