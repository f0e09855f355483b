// Package samples makes the bodies and finished garments that tests of several
// packages plan and tell. It is for tests.
package samples

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

// Sizes are a run of sizes of the default chart.
var Sizes = []string{"2", "4", "6", "8", "10"}

// Reference is the built-in tables, made ready.
func Reference(t testing.TB) *sizing.Reference {
	t.Helper()
	ref, err := sizing.Default()
	require.NoError(t, err)
	return ref
}

// BodyAt is the body of a size of the default chart.
func BodyAt(t testing.TB, size string) *sizing.Body {
	t.Helper()
	ref := Reference(t)
	chart, err := ref.Chart(sizing.DefaultChart)
	require.NoError(t, err)
	place, err := chart.Place(size, sizing.Both)
	require.NoError(t, err)
	return ref.BodyAt(place, sizing.Monotone)
}

// Baby is 22 months old, the smallest that a one-piece is planned for.
func Baby(t testing.TB) *sizing.Body {
	t.Helper()
	b, err := Reference(t).Estimate(sizing.Child{Sex: sizing.Boy, AgeYears: 22.0 / 12, Own: map[string]float64{
		"height": 89.5, "weight": 12.8, "head": 48.5, "chest": 50.5, "waist": 48, "hip": 51.5, "arm_length": 28.5, "inside_leg": 35}})
	require.NoError(t, err)
	return b
}

// Spec is a garment of classic fit, worn over skin.
func Spec(garment string) sizing.Spec {
	return sizing.Spec{Garment: garment, Fit: "classic", Layer: "skin"}
}

// Finish works out the finished measurements of a garment.
func Finish(t testing.TB, b *sizing.Body, s sizing.Spec) *sizing.Finished {
	t.Helper()
	f, err := Reference(t).Finish(b, s)
	require.NoError(t, err)
	return f
}

// FinishedRun works them out for several sizes.
func FinishedRun(t testing.TB, sizes []string, s sizing.Spec) []*sizing.Finished {
	t.Helper()
	var run []*sizing.Finished
	for _, size := range sizes {
		run = append(run, Finish(t, BodyAt(t, size), s))
	}
	return run
}

// EachFinished calls f with every garment at seven sizes, as many times as there are
// swatches and constructions to plan it with, in all fits and layers; i and j are
// the swatch and the construction.
func EachFinished(t testing.TB, swatches, constructions int, f func(name string, finished *sizing.Finished, i, j int)) {
	t.Helper()
	for _, g := range Reference(t).Garments() {
		for _, size := range []string{"2", "3", "4", "5.5", "6", "8", "10"} {
			body := BodyAt(t, size)
			for i := range swatches {
				for j := range constructions {
					s := Spec(g.ID)
					s.Fit = sizing.Fits[(i+j+len(size))%len(sizing.Fits)]
					s.Layer = sizing.Layers[(i+2*j)%len(sizing.Layers)]
					f(fmt.Sprintf("%s %s %s %s", g.ID, size, s.Fit, s.Layer), Finish(t, body, s), i, j)
				}
			}
		}
	}
}
