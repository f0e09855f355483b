package sizing

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
)

// Tables that say less are read too. Without what goes with weight, measurements go with
// each other as the survey has it: by the plain regression of one on another. What goes
// with nothing is read at the height: of the survey, or of the default chart.
func TestTablesThatSayLess(t *testing.T) {
	tables, err := data.Load(data.Embedded())
	require.NoError(t, err)
	x := rowReader{t, Boy, slices.Clone(tables.Relations), map[[3]string]func(float64) float64{}}
	tables.Relations = slices.DeleteFunc(tables.Relations, func(r data.Relation) bool {
		return r.A == "weight" || r.B == "weight"
	})
	for i := range tables.Measurements {
		if m := &tables.Measurements[i]; m.ID == "head" || m.ID == "weight" {
			m.Relation = ""
		}
	}
	ref, err := New(tables)
	require.NoError(t, err)
	full, err := Default()
	require.NoError(t, err)
	for _, height := range []float64{97, 122.5, 140} { // in the lowest band, and at the middles of two
		usual, err := ref.Estimate(Child{Sex: Boy, Own: map[string]float64{"height": height}})
		require.NoError(t, err)
		at := func(b *Body, id string) Reading {
			r, ok := b.Get(id)
			require.True(t, ok, id)
			return r
		}
		chest := at(usual, "chest").Value * 1.04
		b, err := ref.Estimate(Child{Sex: Boy, Own: map[string]float64{"height": height, "chest": chest}})
		require.NoError(t, err)
		own, _ := x.at("sd", "chest", "chest", height)
		for _, id := range []string{"hip", "waist", "thigh", "arm_length"} {
			sd, _ := x.at("sd", id, id, height)
			r, _ := x.at("r", "chest", id, height)
			require.InEpsilon(t, at(usual, id).Value*math.Exp(r*sd/own*math.Log(1.04)), at(b, id).Value, 1e-6, "%s at %g", id, height)
			require.InEpsilon(t, 2*1.2815515655*sd*math.Sqrt(1-r*r), math.Log(at(b, id).High/at(b, id).Low), 1e-6, "%s at %g", id, height)
		}
		survey, _ := ref.charts["measured"].Run(Height, Boy)
		for _, id := range []string{"head", "weight"} {
			r := at(b, id)
			require.InDelta(t, survey.Value(id, height), r.Value, 1e-9, id)
			require.NotEqual(t, Estimated, r.Provenance)
		}
	}
	baby, err := ref.Estimate(Child{Sex: Boy, Own: map[string]float64{"height": 70}})
	require.NoError(t, err)
	chart, err := full.Chart("child")
	require.NoError(t, err)
	place, err := chart.AtHeight(70, Boy)
	require.NoError(t, err)
	head, ok := baby.Get("head")
	require.True(t, ok)
	require.InDelta(t, place.Run.Value("head", place.Position), head.Value, 1e-9)
}
