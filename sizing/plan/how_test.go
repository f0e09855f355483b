package plan

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing/stitch"
	"growtuck/testdata/bounded"
	"growtuck/testdata/samples"
)

func TestParseGauge(t *testing.T) {
	for text, want := range map[string]stitch.Gauge{
		"18x24/10cm":      {StitchesPer10Cm: 18, RowsPer10Cm: 24},
		"18 x 24 / 10 cm": {StitchesPer10Cm: 18, RowsPer10Cm: 24},
		"18×24/10":        {StitchesPer10Cm: 18, RowsPer10Cm: 24},
		"27x36/15cm":      {StitchesPer10Cm: 18, RowsPer10Cm: 24},
		"20x28/4in":       {StitchesPer10Cm: 20 / 1.016, RowsPer10Cm: 28 / 1.016},
		"20x28/100mm":     {StitchesPer10Cm: 20, RowsPer10Cm: 28},
		"18½x24,5/10cm":   {StitchesPer10Cm: 18.5, RowsPer10Cm: 24.5},
		"18 1/2 X 24/10":  {StitchesPer10Cm: 18.5, RowsPer10Cm: 24},
		"１８×２４／１０ｃｍ":      {StitchesPer10Cm: 18, RowsPer10Cm: 24},

		"22 sts and 30 rows = 10 cm":     {StitchesPer10Cm: 22, RowsPer10Cm: 30},
		"20 stitches x 28 rows over 4\"": {StitchesPer10Cm: 20 / 1.016, RowsPer10Cm: 28 / 1.016},
		"20 sts, 28 rows to 4 in":        {StitchesPer10Cm: 20 / 1.016, RowsPer10Cm: 28 / 1.016},
	} {
		g, err := ParseGauge(text)
		require.NoError(t, err, text)
		require.InDelta(t, want.StitchesPer10Cm, g.StitchesPer10Cm, 1e-9, text)
		require.InDelta(t, want.RowsPer10Cm, g.RowsPer10Cm, 1e-9, text)
	}
	for _, text := range []string{"", "18", "18x24", "18/10cm", "x24/10cm", "18x/10cm", "18x24/0cm", "18x24/-4in", "NaNx24/10cm", "18xInf/10cm", "1800x24/10cm", "18x24/10kg", "a x b / c"} {
		_, err := ParseGauge(text)
		require.Error(t, err, text)
	}
}

func TestParseYarn(t *testing.T) {
	b, err := ParseBall("50g 125m")
	require.NoError(t, err)
	require.Equal(t, stitch.Ball{Grams: 50, Metres: 125}, b)
	for _, text := range []string{"", "50g", "125m", "50g 125", "50g 125m 3m", "50kg 125m", "NaNg 125m", "-5g 125m", "0g 125m", "g m"} {
		_, err := ParseBall(text)
		require.Error(t, err, text)
	}
	s, err := ParseSwatch("10x10cm 4g")
	require.NoError(t, err)
	require.Equal(t, stitch.YarnSwatch{WidthCm: 10, HeightCm: 10, Grams: 4}, s)
	s, err = ParseSwatch("4x6in 9.5m")
	require.NoError(t, err)
	require.InDelta(t, 10.16, s.WidthCm, 1e-9)
	require.InDelta(t, 15.24, s.HeightCm, 1e-9)
	require.InDelta(t, 9.5, s.Metres, 1e-9)
	for _, text := range []string{"", "10x10cm", "10cm 4g", "10x10cm 4", "0x10cm 4g", "10x10kg 4g", "10x10cm 4g 5g"} {
		_, err := ParseSwatch(text)
		require.Error(t, err, text)
	}
}

// What is left to custom is filled in, and what is given is kept.
func TestHowRefusesWhatIsNoNumber(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	f := samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("hat"))
	for name, change := range map[string]func(*How){
		"knits to NaN":      func(h *How) { h.KnitPer4In = nan },
		"knits to less":     func(h *How) { h.KnitPer4In = -4 },
		"knits to infinite": func(h *How) { h.KnitPer4In = inf },
		"zipper NaN":        func(h *How) { h.ZippersIn = []float64{9, nan} },
		"zipper below":      func(h *How) { h.ZippersIn = []float64{-3} },
		"zipper of nothing": func(h *How) { h.ZippersIn = []float64{0} },
		"margin NaN":        func(h *How) { h.Margin = &nan },
		"rib share NaN":     func(h *How) { h.RibShare = nan },
	} {
		h := singleCrochet
		change(&h)
		_, err := h.complete(f)
		require.Error(t, err, name)
	}
}

func FuzzParseHow(f *testing.F) {
	for _, s := range []string{"18x24/10cm", "20 x 28 / 4in", "50g 125m", "10x10cm 4g", "10x10cm 9.5m", "×/", "1e9x1/10cm", "\xffx", strings.Repeat("\xe5", 1200)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		defer bounded.By(t, 1<<20)()
		if g, err := ParseGauge(s); err == nil && g.Validate() != nil {
			t.Errorf("gauge %q read as %v", s, g)
		}
		if b, err := ParseBall(s); err == nil && !(b.Grams > 0 && b.Metres > 0) {
			t.Errorf("ball %q read as %v", s, b)
		}
		if w, err := ParseSwatch(s); err == nil && !(w.WidthCm > 0 && w.HeightCm > 0) {
			t.Errorf("swatch %q read as %v", s, w)
		}
	})
}

func TestHowIsCompleted(t *testing.T) {
	f := samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("hat"))
	h, err := singleCrochet.complete(f)
	require.NoError(t, err)
	require.Equal(t, Circular, h.Construction)
	require.Equal(t, Zip, h.Closure)
	require.InDelta(t, 0.9, h.RibShare, 0)
	g := singleCrochet
	g.Construction, g.Closure, g.CuffCm = Raglan, Buttons, 6
	h, err = g.complete(f)
	require.NoError(t, err)
	require.Equal(t, Raglan, h.Construction)
	require.Equal(t, Buttons, h.Closure)
	require.InDelta(t, 6.0, h.CuffCm, 0)
}
