package sizing_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

func get(t testing.TB, b *sizing.Body, measurement string) sizing.Reading {
	r, ok := b.Get(measurement)
	require.True(t, ok, measurement)
	return r
}

// Widths of a 3, lengths of a 5: each measurement comes from the size its
// direction names, and the child's own come before either.
func TestBlendOfTwoSizes(t *testing.T) {
	widths, lengths := place(t, "child", "3", sizing.Both), place(t, "child", "5", sizing.Both)
	c := sizing.Child{Own: map[string]float64{"arm_to_underarm": 31}}
	b, err := reference(t).Blend(widths, lengths, c, sizing.Monotone)
	require.NoError(t, err)
	for _, m := range []string{"chest", "waist", "hip", "upper_arm", "cross_back", "armhole_depth", "wrist", "thigh", "neck"} {
		r := get(t, b, m)
		require.Equal(t, value(t, widths, m), r.Value, m)
		require.Equal(t, []string{"widths", "child"}, []string{r.From.Follows, r.From.Chart}, m)
	}
	for _, m := range []string{"height", "back_waist_length", "inside_leg", "neck_to_wrist", "head", "trunk", "rise", "foot_length"} {
		r := get(t, b, m)
		require.InDelta(t, value(t, lengths, m), r.Value, 1e-9, m)
		require.Equal(t, []string{"lengths", "child"}, []string{r.From.Follows, r.From.Chart}, m)
	}
	arm := get(t, b, "arm_to_underarm")
	require.Equal(t, 31.0, arm.Value)
	require.Equal(t, sizing.Measured, arm.Provenance)
	_, ok := b.Get("weight")
	require.False(t, ok, "a blend of two sizes has no weight")
}

// What is measured is never changed, whichever way the rest is filled in.
func TestOwnMeasurementsStay(t *testing.T) {
	ref := reference(t)
	widths, lengths := place(t, "child", "4", sizing.Both), place(t, "child", "6", sizing.Both)
	rng := rand.New(rand.NewPCG(8, 3))
	usual := ref.BodyAt(widths, sizing.Monotone)
	for k := range 30 {
		own := make(map[string]float64)
		all := k%5 == 0
		for _, r := range usual.Readings {
			if all || rng.IntN(2) == 0 {
				own[r.Measurement.ID] = r.Value * (0.9 + 0.2*rng.Float64())
			}
		}
		c := sizing.Child{Sex: []sizing.Sex{sizing.Boy, sizing.Girl, sizing.Both}[rng.IntN(3)], Own: own}
		b, err := ref.Blend(widths, lengths, c, sizing.Monotone)
		require.NoError(t, err)
		bodies := []*sizing.Body{b}
		if b, err := ref.Estimate(c); err == nil || all {
			require.NoError(t, err)
			bodies = append(bodies, b)
		}
		for _, b := range bodies {
			for id, v := range own {
				r := get(t, b, id)
				require.Equal(t, v, r.Value, id)
				require.Equal(t, sizing.Measured, r.Provenance, id)
			}
			for _, r := range b.Readings {
				require.True(t, r.Value > 0 && !math.IsInf(r.Value, 0), r.Measurement.ID)
				require.True(t, r.Spread == "" || r.Low <= r.Value && r.Value <= r.High, r.Measurement.ID)
			}
		}
	}
}

// The trunk is what lies above the waist and the rise: what is measured of the
// three moves the others. What lies above the waist is taken as the back waist
// length.
func TestTrunkAgreesWithItsParts(t *testing.T) {
	four := place(t, "child", "4", sizing.Both)
	usual := reference(t).BodyAt(four, sizing.Monotone)
	back, rise, trunk := get(t, usual, "nape_to_waist").Value, get(t, usual, "rise").Value, get(t, usual, "trunk").Value
	require.InDelta(t, trunk, back+rise, 1e-9)
	for name, own := range map[string]map[string]float64{
		"trunk":          {"trunk": trunk + 3},
		"back":           {"back_waist_length": back + 2},
		"rise":           {"rise": rise + 1},
		"trunk and rise": {"trunk": trunk + 3, "rise": rise + 1},
		"back and rise":  {"back_waist_length": back + 2, "rise": rise + 1},
	} {
		own["height"] = 104
		b, err := reference(t).Blend(four, four, sizing.Child{Own: own}, sizing.Monotone)
		require.NoError(t, err)
		e, err := reference(t).Estimate(sizing.Child{Own: own})
		require.NoError(t, err)
		for _, b := range []*sizing.Body{b, e} {
			require.InDelta(t, get(t, b, "trunk").Value, get(t, b, "nape_to_waist").Value+get(t, b, "rise").Value, 1e-6, name)
			require.InDelta(t, get(t, b, "waist_to_knee").Value,
				get(t, b, "rise").Value+get(t, b, "inside_leg").Value-get(t, b, "knee_height").Value, 1e-6, name)
		}
	}
	all := map[string]float64{"trunk": 45, "back_waist_length": 24, "rise": 17}
	b, err := reference(t).Blend(four, four, sizing.Child{Own: all}, sizing.Monotone)
	require.NoError(t, err)
	require.Contains(t, b.Questions, sizing.Doubt{Measurement: "trunk", Name: "trunk (nape to crotch)", Given: 45, Unit: "cm", Fact: sizing.NewFact("parts-contradict", "trunk (nape to crotch)", sizing.Length(45),
		[]string{"back waist length", "rise (waist to crotch)"}, sizing.Length(41))})
}

func TestProfile(t *testing.T) {
	ref := reference(t)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	own := map[string]float64{"chest": value(t, place(t, "child", "2.4", sizing.Boy), "chest"),
		"arm_to_underarm": value(t, place(t, "child", "4.8", sizing.Boy), "arm_to_underarm"),
		"inside_leg":      value(t, place(t, "child", "5.1", sizing.Boy), "inside_leg"),
		"hip":             40, "iliocristale_height": 60}
	s, err := ref.Profile(chart, sizing.Child{Sex: sizing.Boy, Own: own})
	require.NoError(t, err)
	want := map[string]string{"chest": "2.4", "arm_to_underarm": "4.8", "inside_leg": "5.1", "hip": "", "iliocristale_height": ""}
	require.Len(t, s, len(want))
	for _, st := range s {
		require.Equal(t, want[st.Reading.Measurement.ID], st.Label(), st.Reading.Measurement.ID)
		require.Equal(t, st.Run == nil, st.Err != nil)
	}
	require.ErrorContains(t, s[1].Err, "hip 40 is outside chart child (years), which has 56 to 90")
}

func TestBlendRefuses(t *testing.T) {
	four := place(t, "child", "4", sizing.Both)
	for name, own := range map[string]map[string]float64{
		"unknown":  {"chset": 53},
		"NaN":      {"chest": math.NaN()},
		"infinite": {"chest": math.Inf(1)},
		"nothing":  {"chest": 0},
		"huge":     {"chest": 1e6},
	} {
		c := sizing.Child{Own: own}
		_, err := reference(t).Blend(four, four, c, sizing.Monotone)
		require.Error(t, err, name)
		_, err = reference(t).Estimate(c)
		require.Error(t, err, name)
		chart, _ := reference(t).Chart("child")
		_, err = reference(t).Profile(chart, c)
		require.Error(t, err, name)
	}
	_, err := reference(t).Estimate(sizing.Child{Sex: "x", Own: map[string]float64{"height": 104}})
	require.ErrorContains(t, err, `sex "x"`)
}
