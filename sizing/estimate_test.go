package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

func estimate(t testing.TB, sex sizing.Sex, own map[string]float64) *sizing.Body {
	b, err := reference(t).Estimate(sizing.Child{Sex: sex, Own: own})
	require.NoError(t, err)
	return b
}

// Knowing the height alone, the estimate is the survey's median.
func TestEstimateFromHeightIsTheMedian(t *testing.T) {
	for _, sex := range []sizing.Sex{sizing.Boy, sizing.Girl, sizing.Both} {
		b := estimate(t, sex, map[string]float64{"height": 116})
		for _, m := range []string{"chest", "hip", "upper_arm", "head", "hand_length"} {
			require.InDelta(t, value(t, place(t, "measured", "116cm", sex), m), get(t, b, m).Value, 1e-9, "%s %s", sex, m)
		}
		// Between two classes the leg is what the others leave of the height.
		require.InDelta(t, value(t, place(t, "measured", "116cm", sex), "inside_leg"), get(t, b, "inside_leg").Value, 0.1, sex)
	}
}

// Each further measurement that is known narrows the likely range.
func TestKnowingMoreNarrows(t *testing.T) {
	width := func(own map[string]float64) float64 {
		r := get(t, estimate(t, sizing.Boy, own), "waist")
		return r.High/r.Low - 1
	}
	alone := width(map[string]float64{"chest": 55})
	height := width(map[string]float64{"height": 110})
	chest := width(map[string]float64{"height": 110, "chest": 55})
	both := width(map[string]float64{"height": 110, "chest": 55, "weight": 18})
	require.Greater(t, height, chest)
	require.Greater(t, chest, both)
	require.Greater(t, alone, chest)
}

// A slim child's other girths are estimated slimmer, and a long-legged
// child's trunk shorter.
func TestEstimateGoesTheRightWay(t *testing.T) {
	usual := estimate(t, sizing.Boy, map[string]float64{"height": 110})
	slim := estimate(t, sizing.Boy, map[string]float64{"height": 110, "chest": 52})
	leggy := estimate(t, sizing.Boy, map[string]float64{"height": 110, "inside_leg": 50})
	for _, m := range []string{"waist", "hip", "upper_arm", "thigh", "neck", "weight"} {
		require.Less(t, get(t, slim, m).Value, get(t, usual, m).Value, m)
	}
	require.Less(t, get(t, leggy, "trunk").Value, get(t, usual, "trunk").Value)
	require.Greater(t, get(t, leggy, "arm_length").Value, get(t, usual, "arm_length").Value)
}

// Without a height, one or two tapes still give an answer: wider, and near the
// height they were taken from. An age narrows it.
func TestEstimateWithoutHeight(t *testing.T) {
	full := estimate(t, sizing.Girl, map[string]float64{"height": 122})
	for _, known := range [][]string{{"chest"}, {"inside_leg"}, {"chest", "arm_length"}, {"hip", "foot_length", "head"}} {
		own := make(map[string]float64)
		for _, m := range known {
			own[m] = get(t, full, m).Value
		}
		b := estimate(t, sizing.Girl, own)
		h := get(t, b, "height")
		require.InDelta(t, 122, h.Value, 8, "%v", known)
		require.Less(t, h.Low, 122.0, "%v", known)
		require.Greater(t, h.High, 122.0, "%v", known)
		waist, sure := get(t, b, "waist"), get(t, full, "waist")
		if len(known) == 1 && known[0] == "inside_leg" {
			require.Greater(t, waist.High/waist.Low, sure.High/sure.Low)
		}
	}
	c := sizing.Child{Sex: sizing.Girl, Own: map[string]float64{"chest": 60}}
	vague, err := reference(t).Estimate(c)
	require.NoError(t, err)
	c.AgeYears = 7
	aged, err := reference(t).Estimate(c)
	require.NoError(t, err)
	a, v := get(t, aged, "height"), get(t, vague, "height")
	require.Less(t, a.High-a.Low, v.High-v.Low)
}

func TestEstimateRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		own  map[string]float64
		want string
	}{
		"nothing":           {nil, "nothing to estimate from"},
		"no relation":       {map[string]float64{"waist_to_knee": 31}, "nothing to estimate from"},
		"too short":         {map[string]float64{"height": 55}, "height 55 is outside the survey of measured babies and children, which has 60.1 to 181.1"},
		"too tall":          {map[string]float64{"height": 190}, "name sizes instead"},
		"an infant's chest": {map[string]float64{"chest": 38, "inside_leg": 20}, "would fit a height outside"},
	} {
		_, err := reference(t).Estimate(sizing.Child{Own: c.own})
		require.ErrorContains(t, err, c.want, name)
	}
}

// Inches written for centimetres, or a slipped point, give no height: not the one
// at which measurements spread most. Beside others, such a tape is left out and
// questioned.
func TestAbsurdTapeWithoutHeight(t *testing.T) {
	for id, v := range map[string]float64{"chest": 21, "weight": 3, "waist": 20, "hip": 15, "neck": 5, "wrist": 5, "arm_length": 300} {
		for _, sex := range []sizing.Sex{sizing.Boy, sizing.Girl, sizing.Both} {
			_, err := reference(t).Estimate(sizing.Child{Sex: sex, Own: map[string]float64{id: v}})
			require.ErrorContains(t, err, "would fit a height outside", "%s %s %g", sex, id, v)
		}
	}
	alone := estimate(t, sizing.Boy, map[string]float64{"chest": 53})
	both := estimate(t, sizing.Boy, map[string]float64{"chest": 53, "waist": 20})
	require.Equal(t, get(t, alone, "height").Value, get(t, both, "height").Value)
	require.Equal(t, get(t, alone, "hip").Value, get(t, both, "hip").Value)
	require.Equal(t, 20.0, get(t, both, "waist").Value)
	require.Equal(t, []string{"chest"}, both.Evidence.IDs())
	require.Len(t, both.Questions, 1)
	require.Equal(t, sizing.SlipInches, both.Questions[0].Likely[0].Slip)
	require.Equal(t, []sizing.Value{{Measurement: "waist", Amount: 50.8, Unit: "cm"}}, both.Questions[0].Likely[0].Values)
	three := estimate(t, sizing.Boy, map[string]float64{"chest": 53, "waist": 10, "hip": 300})
	require.GreaterOrEqual(t, len(three.Questions), 2)
	require.Equal(t, get(t, alone, "height").Value, get(t, three, "height").Value)
}

// A child at the lower end of the survey has all parts of a one-piece, though the
// heights of the trunk were taken from a class higher up; the readings say so.
func TestSmallestChildrenAreWhole(t *testing.T) {
	for _, sex := range []sizing.Sex{sizing.Boy, sizing.Girl, sizing.Both} {
		for _, height := range []float64{88, 90, 96} {
			b := estimate(t, sex, map[string]float64{"height": height})
			f := finish(t, b, sizing.Spec{Garment: "one-piece-hooded", Fit: "classic", Layer: "winter"})
			require.Empty(t, f.Missing, "%s %g", sex, height)
			trunk := get(t, b, "trunk")
			require.Equal(t, height < 92, len(trunk.Notes) > 0, "%s %g: %v", sex, height, trunk.Notes)
		}
		low, high := estimate(t, sex, map[string]float64{"height": 88}), estimate(t, sex, map[string]float64{"height": 96})
		require.Less(t, get(t, low, "trunk").Value, get(t, high, "trunk").Value)
		require.InDelta(t, value(t, place(t, "child", "90cm", sizing.Both), "trunk"),
			get(t, estimate(t, sizing.Both, map[string]float64{"height": 90}), "trunk").Value, 1)
	}
}

// What hardly any child has is questioned, kept as measured, and not allowed to
// carry the rest away.
func TestRareMeasurementIsQuestioned(t *testing.T) {
	b := estimate(t, sizing.Boy, map[string]float64{"height": 104, "inside_leg": 81})
	require.Len(t, b.Questions, 1)
	require.Equal(t, "inside_leg", b.Questions[0].Measurement)
	require.Equal(t, 81.0, b.Questions[0].Given)
	require.Less(t, b.Questions[0].High, 52.0)
	require.Equal(t, 81.0, get(t, b, "inside_leg").Value)
	usual := estimate(t, sizing.Boy, map[string]float64{"height": 104})
	for _, m := range []string{"chest", "arm_length", "trunk", "head"} {
		require.InEpsilon(t, get(t, usual, m).Value, get(t, b, m).Value, 0.12, m)
	}
	require.Empty(t, estimate(t, sizing.Boy, map[string]float64{"height": 104, "inside_leg": 45, "chest": 53, "weight": 17}).Questions)
}

// Measurements that only the trade standard has say that they rest on it.
func TestEstimateFromTheTradeStandard(t *testing.T) {
	b := estimate(t, sizing.Boy, map[string]float64{"height": 110, "arm_length": 38.5})
	usual := estimate(t, sizing.Boy, map[string]float64{"height": 110})
	for _, m := range []string{"arm_to_underarm", "neck_to_wrist"} {
		r := get(t, b, m)
		require.Contains(t, r.Sources, "craft-2018")
		require.Greater(t, r.Value, get(t, usual, m).Value)
		require.Less(t, r.Low, r.High)
	}
}

// A measurement that only the trade standard has speaks for the others too,
// more softly than a surveyed one.
func TestTradeMeasurementIsEvidence(t *testing.T) {
	usual := estimate(t, sizing.Boy, map[string]float64{"height": 110})
	arm := get(t, usual, "arm_to_underarm").Value
	long := estimate(t, sizing.Boy, map[string]float64{"height": 110, "arm_to_underarm": arm * 1.06})
	same := estimate(t, sizing.Boy, map[string]float64{"height": 110, "arm_length": get(t, usual, "arm_length").Value * 1.06})
	got, most := get(t, long, "arm_length").Value, get(t, same, "arm_length").Value
	require.Greater(t, got, get(t, usual, "arm_length").Value)
	require.Less(t, got, most)
	require.Contains(t, long.Evidence.IDs(), "arm_to_underarm")
}

func TestAgeIsNamed(t *testing.T) {
	b, err := reference(t).Estimate(sizing.Child{Sex: sizing.Girl, AgeYears: 6, Own: map[string]float64{"chest": 57}})
	require.NoError(t, err)
	require.Equal(t, []string{"chest", "age"}, b.Evidence.IDs())
	require.Equal(t, b.Evidence, get(t, b, "hip").From.Evidence)
}

func BenchmarkEstimate(b *testing.B) {
	c := sizing.Child{Sex: sizing.Boy, Own: map[string]float64{"height": 110, "chest": 53, "weight": 16.5}}
	for name, own := range map[string]map[string]float64{
		"with height": c.Own, "without height": {"chest": 53, "arm_length": 36},
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			ref := reference(b)
			for b.Loop() {
				if _, err := ref.Estimate(sizing.Child{Sex: sizing.Boy, Own: own}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkBlendOfTwoSizes(b *testing.B) {
	widths, lengths := place(b, "child", "3", sizing.Both), place(b, "child", "5", sizing.Both)
	ref := reference(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ref.Blend(widths, lengths, sizing.Child{}, sizing.Monotone); err != nil {
			b.Fatal(err)
		}
	}
}
