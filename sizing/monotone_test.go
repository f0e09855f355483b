package sizing_test

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// Bodies grow: every column of the default chart, read at every tenth of a size
// from 3 months to 16 years, for boys, girls and both. What the trade standard
// prints otherwise is listed with what it prints.
func TestDefaultChartGrows(t *testing.T) {
	printed := map[string]string{
		"upper_arm 24m–2": "7.5 in at 24 months, 7 in at 2 (booklet of February 2018, pp. 15–17)",
	}
	chart, err := reference(t).Chart("child")
	require.NoError(t, err)
	found, read := make(map[string]bool), 0
	for _, sex := range []sizing.Sex{sizing.Both, sizing.Boy, sizing.Girl} {
		for _, m := range reference(t).Measurements() {
			last, at := math.Inf(-1), ""
			for _, scale := range []sizing.Scale{sizing.Months, sizing.Years} {
				run, ok := chart.Run(scale, sex)
				require.True(t, ok)
				for i, size := range run.Sizes {
					for tenth := range 10 {
						position, label := size.Position, size.Size
						if tenth > 0 {
							if i+1 == len(run.Sizes) {
								break
							}
							position += float64(tenth) / 10 * (run.Sizes[i+1].Position - size.Position)
							label = fmt.Sprintf("%s+%d/10", size.Size, tenth)
						}
						v := run.Value(m.ID, position)
						if math.IsNaN(v) {
							continue
						}
						read++
						if v < last-0.01 { // a tenth of a millimetre, where two charts meet
							key := m.ID + " " + at + "–" + label
							found[key] = true
							if printed[key] == "" {
								t.Errorf("%s: %s falls from %.3f to %.3f", sex, key, last, v)
							}
						}
						last, at = v, label
					}
				}
			}
		}
	}
	require.Greater(t, read, 3*25*110)
	for _, key := range slices.Sorted(maps.Keys(printed)) {
		require.True(t, found[key], "%s does not fall any more: take it off the list", key)
	}
}

// No estimate falls as a child grows and nothing else is known.
func TestEstimatesGrow(t *testing.T) {
	for _, sex := range []sizing.Sex{sizing.Both, sizing.Boy, sizing.Girl} {
		last := make(map[string]float64)
		for h := 60.5; h <= 175; h += 0.5 {
			for _, r := range estimate(t, sex, map[string]float64{"height": h}).Readings {
				if v := last[r.Measurement.ID]; r.Value < v-0.006 { // the medians add up exactly only every centimetre or so
					t.Errorf("%s %s falls from %.3f to %.3f at %.1f cm", sex, r.Measurement.ID, v, r.Value, h)
				}
				last[r.Measurement.ID] = r.Value
			}
		}
	}
}
