package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// By how much a garment gets longer from one size to the next, beside how much a dress for
// the usual girl of those years gets longer in a year: a size of these patterns is a year.
//
// "Growing Clothes", Random Sampler, Ensign, January 1976.
func TestPublishedSteps(t *testing.T) {
	ref := reference(t)
	for _, tt := range []struct {
		what      string
		years     []float64 // from which she grows
		part      string    // of the dress
		or        string    // a measurement of hers, where the dress has no such part
		inches    float64   // published
		low, high float64   // ours is so much less, or more, in inches
		why       string
	}{
		{"bodice above the waist, sizes 3 to 6", []float64{3, 4, 5}, "body_length", "", 0.5, 0.05, 0.15, ""},
		{"bodice above the waist, sizes 1 to 3", []float64{1, 2}, "body_length", "", 0.5, 0.1, 0.55,
			"a child of one grows by 11 cm in a year, one of three by 7: one step for both is short for the first"},
		{"floor-length skirt, sizes 3 to 6", []float64{3, 4, 5}, "", "waist_height", 2.25, -0.55, -0.05,
			"the surveyed waist lies near the navel, below the waist of a dress"},
		{"skirt, sizes 1 to 3", []float64{1, 2}, "skirt_length", "", 0.5, 0.5, 1.4,
			"half an inch is less than her leg grows (9 to 11 cm of height a year); ours follows the knee"},
		{"short skirt, sizes 4 to 6", []float64{4, 5}, "skirt_length", "", 1.5, -0.85, -0.4,
			"two thirds of the floor-length step, so the published hem comes down the leg; ours follows the knee"},
	} {
		for _, years := range tt.years {
			height, _ := ref.MedianHeight(years, sizing.Girl)
			girl := child(sizing.Girl, years, height)
			body, err := ref.Estimate(girl)
			require.NoError(t, err)
			grown := 0.0
			if tt.part != "" {
				f := finish(t, body, sizing.Spec{Garment: "dress", Fit: "classic", Layer: "skin", Seasons: 2})
				line, ok := f.Line(tt.part)
				require.True(t, ok)
				grown = line.RoomCm()
			} else {
				g, err := ref.Growth(body)
				require.NoError(t, err)
				then, err := g.At(1)
				require.NoError(t, err)
				grown = get(t, then, tt.or).Value - get(t, body, tt.or).Value
			}
			by := grown/sizing.CmPerInch - tt.inches
			require.True(t, by >= tt.low && by <= tt.high, "%s: published %g in, ours at %g years %+.2f", tt.what, tt.inches, years, by)
			t.Logf("%s, at %g years: published %g in, ours %+.2f %s", tt.what, years, tt.inches, by, tt.why)
		}
	}
}
