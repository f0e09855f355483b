package sizing

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
)

// What a document prints is read in cm and kg: mm and oz without a rounding of ours,
// pounds as they are printed too, a mean where there is no median, and the range that is
// there.
func TestRowsAsPrinted(t *testing.T) {
	own, err := data.Load(data.Embedded())
	require.NoError(t, err)
	own.Charts = append(own.Charts, data.Chart{ID: "printed", Title: "Printed", Source: "cdc-2000"})
	count := 57.0
	for i, size := range []string{"4", "6", "8"} {
		years := []float64{4, 6, 8}[i]
		own.Sizes = append(own.Sizes, data.Size{Chart: "printed", Size: size, Scale: "years", Position: &years})
		row := func(measurement, statistic, unit string, value float64) {
			own.Body = append(own.Body, data.Body{Chart: "printed", Size: size, Sex: "both", Measurement: measurement, Statistic: statistic,
				Value: value, Unit: unit, Source: "cdc-2000", Where: "table 3", Basis: "published", Review: "r", N: &count})
		}
		n := float64(i)
		row("height", "mean", "mm", 1023+100*n)
		row("weight", "p50", "lb", 36+8*n)
		row("chest", "mean", "cm", 55+3*n)
		row("chest", "sd", "cm", 2.5)
		row("waist", "p10", "mm", 480+20*n)
		row("waist", "p50", "mm", 523+20*n)
		row("waist", "p90", "mm", 570+20*n)
		row("head", "p3", "in", 19.25)
		row("head", "p50", "in", 20+n/4)
		row("head", "p97", "in", 21)
		row("neck", "given", "cm", 26+n)
		row("neck", "p50", "cm", 30)
		row("neck", "p25", "cm", 25)
		row("neck", "p75", "cm", 29)
		row("neck", "p3", "cm", 24)
		row("neck", "p97", "cm", 31)
	}
	ref, err := New(own)
	require.NoError(t, err)
	chart, err := ref.Chart("printed")
	require.NoError(t, err)
	place, err := chart.Place("6", Both)
	require.NoError(t, err)
	for _, tt := range []struct {
		measurement     string
		value, imperial float64
		low, high       float64
		spread          Spread
	}{
		{"height", 112.3, 112.3 / 2.54, 0, 0, NoSpread},
		{"weight", 44 * 0.45359237, 44, 0, 0, NoSpread},
		{"chest", 58, 58 / 2.54, 55.5, 60.5, TwoInThree},
		{"waist", 54.3, 54.3 / 2.54, 50, 59, TenthToNinetieth},
		{"head", 20.25 * 2.54, 20.25, 19.25 * 2.54, 21 * 2.54, ThirdTo97th},
		{"neck", 27, 27 / 2.54, 25, 29, MiddleHalf},
	} {
		t.Run(tt.measurement, func(t *testing.T) {
			r, err := ref.Read(place, tt.measurement, Monotone)
			require.NoError(t, err)
			require.InDeltaSlice(t, []float64{tt.value, tt.imperial, tt.low, tt.high}, []float64{r.Value, r.Imperial, r.Low, r.High}, 1e-12)
			require.Equal(t, tt.spread, r.Spread)
			require.Equal(t, "table 3, n=57", r.Where)
			require.Equal(t, Published, r.Provenance)
		})
	}
}
