package plan

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

// A sock has the nearest even count of those within its ease, which is below the
// body; where none is, the nearest of all. Always the next one up would be out of the ease
// on the wide side.
func TestSocksRoundBothWays(t *testing.T) {
	under := 0
	for _, size := range samples.Sizes {
		for _, stitches := range []float64{12, 14, 16, 18, 20, 24, 28} {
			how := How{Craft: Crochet, Gauge: stitch.Gauge{StitchesPer10Cm: stitches, RowsPer10Cm: stitches * 1.1}}
			p, err := Make(samples.Finish(t, samples.BodyAt(t, size), samples.Spec("socks")), how)
			require.NoError(t, err)
			for _, id := range []string{"foot", "ankle"} {
				x, ok := p.Part(id)
				require.True(t, ok)
				name := fmt.Sprintf("%s of size %s at %g stitches: %.2f for %.2f", id, size, stitches, x.SizeCm, x.WantCm)
				pair := how.Gauge.WidthCm(2)
				low, high := x.Line.Body.Value+x.Line.EaseLow, x.Line.Body.Value+x.Line.EaseHigh
				inside := math.Ceil(low/pair-1e-9)*pair <= high+1e-9
				if inside {
					require.GreaterOrEqual(t, x.SizeCm, low-1e-9, name)
					require.LessOrEqual(t, x.SizeCm, high+pair/2, name)
					continue
				}
				require.LessOrEqual(t, math.Abs(x.ErrorCm()), pair/2+1e-9, name)
				if x.ErrorCm() < 0 {
					under++
				}
			}
		}
	}
	require.Positive(t, under)
}
