package stitch

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestGaugeFromSwatch(t *testing.T) {
	g, err := Swatch{Stitches: 21, WidthCm: FourInchesCm, Rows: 28, HeightCm: FourInchesCm}.Gauge()
	require.NoError(t, err)
	st, rows := g.Per4In()
	require.InDelta(t, 21, st, 1e-12)
	require.InDelta(t, 28, rows, 1e-12)
	require.InDelta(t, 10.16/21, g.StitchWidthCm(), 1e-12)
	require.InDelta(t, 10.16/28, g.RowHeightCm(), 1e-12)
	require.InDelta(t, 0.75, g.RowByStitch(), 1e-12)

	require.InDelta(t, 0.05, Swatch{Stitches: 20}.OneStitchShare(), 1e-12, "one stitch in 20 is 5 % of the girth")
}

func TestGaugeRefused(t *testing.T) {
	for _, tt := range []struct {
		name   string
		swatch Swatch
		want   string
	}{
		{"no stitches", Swatch{0, 10, 20, 10}, "swatch stitches is 0: want 1 to 20000"},
		{"NaN width", Swatch{20, math.NaN(), 20, 10}, "swatch width is NaN cm: want more than 0 and at most 1000 cm"},
		{"infinite rows", Swatch{20, 10, math.Inf(1), 10}, "swatch rows is +Inf"},
		{"negative height", Swatch{20, 10, 20, -1}, "swatch height is -1 cm"},
		{"zero height", Swatch{20, 10, 20, 0}, "swatch height is 0 cm"},
		{"finer than any yarn", Swatch{200, 10, 200, 10}, "stitch gauge is 200 stitches per 10 cm: want 1 to 120"},
		{"width in mm", Swatch{20, 400, 28, 400}, "stitch gauge is 0.5 stitches per 10 cm"},
		{"stitches and rows of two swatches", Swatch{100, 10, 10, 10}, "row height ÷ stitch width is 10: want 0.2 to 8"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := tt.swatch.Gauge()
			require.ErrorContains(t, err, tt.want)
			var in *InputError
			require.ErrorAs(t, err, &in)
		})
	}
}

func TestWash(t *testing.T) {
	// Widens from 20 to 19 stitches, shrinks from 28 to 30 rows.
	w := WashedGauge{Before: Gauge{20, 28}, After: Gauge{19, 30}}
	require.NoError(t, w.Validate())
	require.InDelta(t, 20.0/19-1, w.widthChange(), 1e-12)
	require.InDelta(t, 28.0/30-1, w.heightChange(), 1e-12)
	// 60 rows are 20 cm washed; on the needles they measure 60 rows at 28.
	require.InDelta(t, w.Before.HeightCm(60), w.WorkHeightCm(20), 1e-12)
	require.InDelta(t, w.Before.WidthCm(38), w.WorkWidthCm(20), 1e-12)
	require.ErrorContains(t, WashedGauge{After: Gauge{20, 28}}.Validate(), "stitch gauge is 0")
	require.ErrorContains(t, WashedGauge{Before: Gauge{20, 0}, After: Gauge{0, 28}}.Validate(), "row gauge is 0", "in the order in which it is counted")
	require.ErrorContains(t, WashedGauge{Gauge{20, 28}, Gauge{12, 28}}.Validate(), "change of width in the wash is 0.667")
	require.ErrorContains(t, WashedGauge{Gauge{20, 28}, Gauge{20, 84}}.Validate(), "change of height in the wash is -0.667")
}

func TestFitKeepsFloor(t *testing.T) {
	g := Gauge{20, 28}
	f, err := g.FitWidthAtLeast(60.4, 60.2, Multiple{4, 0})
	require.NoError(t, err)
	require.Equal(t, 124, f.Count, "120 would be 60 cm, under the floor")
	require.InDelta(t, 62, f.SizeCm, 1e-12)
	require.InDelta(t, 1.6, f.errorCm(), 1e-9)

	// A floor that is exactly a count, reached through divisions, does not push it up.
	f, err = g.FitWidthAtLeast(60, 0.1*600, Multiple{4, 0})
	require.NoError(t, err)
	require.Equal(t, 120, f.Count)

	rapid.Check(t, func(t *rapid.T) {
		g := drawGauge(t)
		m := drawMultiple(t)
		cm := rapid.Float64Range(1, 150).Draw(t, "cm")
		least := rapid.Float64Range(0.1, 150).Draw(t, "least")
		f, err := g.FitWidthAtLeast(cm, least, m)
		require.NoError(t, err)
		require.True(t, m.Has(f.Count))
		require.GreaterOrEqual(t, f.SizeCm, least-1e-6)
		require.Equal(t, g.WidthCm(f.Count), f.SizeCm)
		if f.Count > m.least() && f.errorCm() > float64(m.repeat())*g.StitchWidthCm()/2+1e-6 {
			require.Less(t, g.WidthCm(f.Count-m.repeat()), least, "a nearer count was free")
		}
	})
}

func drawGauge(t *rapid.T) Gauge {
	st := rapid.Float64Range(5, 45).Draw(t, "stitches")
	return Gauge{st, st / rapid.Float64Range(0.5, 2.5).Draw(t, "ratio")}
}

func drawMultiple(t *rapid.T) Multiple {
	rep := rapid.IntRange(1, 14).Draw(t, "repeat")
	return Multiple{rep, rapid.IntRange(1-rep, 20).Draw(t, "edge")}
}
