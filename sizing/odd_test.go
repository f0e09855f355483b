package sizing_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// countsLess reports whether a doubt says that its measurement counts for less.
func countsLess(q sizing.Doubt) bool {
	return q.Fact.ID == "doubt.counts-as" || strings.HasSuffix(q.Fact.ID, "-limited")
}

// limited are the measurements of which a doubt says that they count for less.
func limited(b *sizing.Body) []string {
	var ids []string
	for _, q := range b.Questions {
		if countsLess(q) {
			ids = append(ids, q.Measurement)
		}
	}
	return ids
}

// No child is too heavy: each kilogram counts, and girths that go with it are not
// contradicted.
func TestHeavyChildrenAreNotCapped(t *testing.T) {
	before := 0.0
	for _, kg := range []float64{22, 26, 30, 34, 38, 42, 46, 50, 55, 60, 70} {
		b := estimate(t, sizing.Boy, map[string]float64{"height": 128, "weight": kg})
		require.Empty(t, limited(b), "%g kg", kg)
		waist := get(t, b, "waist").Value
		require.Greater(t, waist, before+1, "%g kg", kg)
		before = waist
		own := map[string]float64{"height": 128, "weight": kg}
		for _, id := range []string{"chest", "hip", "upper_arm", "thigh"} {
			own[id] = get(t, b, id).Value
		}
		require.Empty(t, limited(estimate(t, sizing.Boy, own)), "%g kg", kg)
		delete(own, "weight")
		require.Empty(t, limited(estimate(t, sizing.Boy, own)), "girths of %g kg", kg)
	}
}

// What the others contradict counts only as far as it may be right, or not at
// all, and a doubt names it, whichever it is.
func TestContradictedMeasurement(t *testing.T) {
	usual := estimate(t, sizing.Girl, map[string]float64{"height": 120, "weight": 23})
	sound := map[string]float64{"height": 120, "weight": 23}
	for _, id := range []string{"chest", "hip", "upper_arm", "arm_length"} {
		sound[id] = get(t, usual, id).Value
	}
	for _, tc := range []struct {
		id    string
		value float64
		fact  string
	}{
		{"weight", 51, "weight-limited"}, // pounds for kilograms
		{"weight", 12, "weight-limited"},
		{"chest", 75, "evidence-limited"},
		{"hip", 49, "evidence-limited"},
		{"arm_length", 55, "evidence-limited"},
	} {
		own := make(map[string]float64)
		for id, v := range sound {
			own[id] = v
		}
		own[tc.id] = tc.value
		b := estimate(t, sizing.Girl, own)
		i := slices.IndexFunc(b.Questions, func(q sizing.Doubt) bool {
			return q.Measurement == tc.id && (q.Fact.ID == tc.fact || q.Fact.ID == "doubt.counts-as")
		})
		require.GreaterOrEqual(t, i, 0, "%s %g: %v", tc.id, tc.value, b.Questions)
		require.Equal(t, tc.id, b.Questions[i].Measurement)
		require.Equal(t, []string{tc.id}, limited(b))
		require.Equal(t, tc.value, get(t, b, tc.id).Value, "kept as it was given")
		for _, id := range []string{"waist", "thigh", "neck", "inside_leg"} {
			require.InEpsilon(t, get(t, usual, id).Value, get(t, b, id).Value, 0.06, "%s knowing %s %g", id, tc.id, tc.value)
		}
	}
	require.Empty(t, limited(estimate(t, sizing.Girl, sound)))
}

// From the height alone ranges reach further up than down, as today's children
// do; a weight or a chest halves those of girths.
func TestRangesReachUp(t *testing.T) {
	for _, sex := range []sizing.Sex{sizing.Boy, sizing.Girl} {
		for _, height := range []float64{100, 116, 140} {
			alone := estimate(t, sex, map[string]float64{"height": height})
			for _, second := range []string{"weight", "chest"} {
				own := map[string]float64{"height": height, second: get(t, alone, second).Value}
				both := estimate(t, sex, own)
				for _, id := range []string{"hip", "waist_navel", "upper_arm", "thigh"} {
					wide, narrow := get(t, alone, id), get(t, both, id)
					require.Greater(t, wide.High/wide.Value, wide.Value/wide.Low, id)
					require.Less(t, (narrow.High-narrow.Low)/(wide.High-wide.Low), 0.7, "%s %g %s knowing %s", sex, height, id, second)
				}
			}
		}
	}
}
