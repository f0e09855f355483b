package sizing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// A garment made for a month fits in that month; how long each of its lengths fits is
// found by going through the months one by one. What fails first and what fits last are
// those of its parts.
func TestWears(t *testing.T) {
	ref := reference(t)
	for _, sex := range []sizing.Sex{sizing.Boy, sizing.Girl} {
		body := estimate(t, sex, map[string]float64{"height": 112, "chest": 58})
		growth, err := ref.Growth(body)
		require.NoError(t, err)
		path := growth.Path()
		require.Zero(t, path.First)
		require.Greater(t, path.Last, 36)
		for _, garment := range []string{"pullover", "trousers", "mittens"} {
			spec := sizing.Spec{Garment: garment, Fit: "classic", Layer: "skin"}
			finishedIn := func(month int) map[string]float64 {
				b, err := path.At(month)
				require.NoError(t, err)
				f, err := ref.Finish(b, spec)
				require.NoError(t, err)
				sizes := make(map[string]float64)
				for _, l := range f.Lines {
					sizes[l.Part.Part] = l.Finished
				}
				return sizes
			}
			from, until := -1.0, -1.0
			for _, month := range []int{0, 12, 24} {
				sizes := finishedIn(month)
				w, err := ref.Wears(spec, sizes, path)
				require.NoError(t, err)
				require.LessOrEqual(t, w.From, float64(month), "%s for month %d", garment, month)
				require.GreaterOrEqual(t, w.Until, float64(month), "%s for month %d", garment, month)
				require.GreaterOrEqual(t, w.From, from)
				require.GreaterOrEqual(t, w.Until, until, "a larger one fits as long")
				from, until = w.From, w.Until
				first, last := "", ""
				soonest, latest := float64(path.Last), 0.0
				require.Len(t, w.Parts, len(sizes))
				require.Empty(t, w.Missing)
				for _, p := range w.Parts {
					require.Equal(t, sizes[p.Part.Part], p.Finished)
					require.Equal(t, p.Until == float64(path.Last), p.Open, p.Part.Part)
					if p.Until < soonest {
						first, soonest = p.Part.Part, p.Until
					}
					if p.From > latest {
						last, latest = p.Part.Part, p.From
					}
					if p.Part.Dimension != "length" {
						continue
					}
					fits := func(m int) bool {
						cm := finishedIn(m)[p.Part.Part]
						slack := math.Max(ref.Practice("length_slack").Value, ref.Practice("length_slack_share").Share()*cm)
						return math.Abs(cm-p.Finished) <= slack+1e-9
					}
					for m := path.First; m <= path.Last; m += 3 {
						require.Equal(t, float64(m) >= p.From && float64(m) <= p.Until, fits(m), "%s %s in month %d: %g to %g", garment, p.Part.Part, m, p.From, p.Until)
					}
				}
				require.Equal(t, []any{first, last, soonest, latest}, []any{w.First, w.Last, w.Until, w.From})
				require.Equal(t, soonest == float64(path.Last), w.Open)
			}
		}
	}
}

// What fits never is not said to fit: too small already, too large for years, or of parts
// that do not go together.
func TestWearsNever(t *testing.T) {
	ref := reference(t)
	growth, err := ref.Growth(estimate(t, sizing.Boy, map[string]float64{"height": 112}))
	require.NoError(t, err)
	spec := sizing.Spec{Garment: "pullover", Fit: "classic", Layer: "skin"}
	wears := func(sizes map[string]float64) *sizing.Wearing {
		w, err := ref.Wears(spec, sizes, growth.Path())
		require.NoError(t, err)
		return w
	}
	small := wears(map[string]float64{"chest": 40})
	require.True(t, math.IsNaN(small.From) && math.IsNaN(small.Until) && !small.Open)
	require.True(t, math.IsNaN(small.Parts[0].Until))
	require.Equal(t, "chest", small.First)
	large := wears(map[string]float64{"chest": 140})
	require.True(t, math.IsNaN(large.From) && math.IsNaN(large.Until))
	require.True(t, math.IsNaN(large.Parts[0].From))
	require.Equal(t, "chest", large.Last)
	odd := wears(map[string]float64{"sleeve_length": 10, "chest": 66})
	require.True(t, math.IsNaN(odd.From) && math.IsNaN(odd.Until))
	_, err = ref.Wears(spec, map[string]float64{"tail": 10}, growth.Path())
	require.ErrorContains(t, err, `"tail"`)
	_, err = ref.Wears(spec, nil, growth.Path())
	require.ErrorContains(t, err, "no finished measurement")
	spec.Fit = "snug"
	_, err = ref.Wears(spec, map[string]float64{"chest": 66}, growth.Path())
	require.ErrorContains(t, err, `"snug"`)
}

// What cannot be read is answered with what was likely meant, where that can be read.
func TestUnreadNumbers(t *testing.T) {
	for in, meant := range map[string]string{"about 24.5": "24.5", "1e2": "100", "24.5 (snug)": "24.5", "twelve": "", "1.2.3.4": ""} {
		_, err := sizing.ParseNumber(in)
		require.Error(t, err, in)
		var unread *sizing.UnreadError
		require.ErrorAs(t, err, &unread)
		require.Equal(t, meant, unread.Meant, in)
	}
}
