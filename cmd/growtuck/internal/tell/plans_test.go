package tell

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

func reference(t testing.TB) *sizing.Reference {
	t.Helper()
	ref, err := sizing.Default()
	require.NoError(t, err)
	return ref
}

func bodyAt(t testing.TB, size string) *sizing.Body {
	t.Helper()
	ref := reference(t)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	place, err := chart.Place(size, sizing.Both)
	require.NoError(t, err)
	return ref.BodyAt(place, sizing.Monotone)
}

// baby is 22 months old, the smallest that a one-piece is planned for.
func baby(t testing.TB) *sizing.Body {
	t.Helper()
	b, err := reference(t).Estimate(sizing.Child{Sex: sizing.Boy, AgeYears: 22.0 / 12, Own: map[string]float64{
		"height": 89.5, "weight": 12.8, "head": 48.5, "chest": 50.5, "waist": 48, "hip": 51.5, "arm_length": 28.5, "inside_leg": 35}})
	require.NoError(t, err)
	return b
}

func finish(t testing.TB, b *sizing.Body, m sizing.Spec) *sizing.Finished {
	t.Helper()
	f, err := reference(t).Finish(b, m)
	require.NoError(t, err)
	return f
}

func spec(garment string) sizing.Spec {
	return sizing.Spec{Garment: garment, Fit: "classic", Layer: "skin"}
}

var (
	singleCrochet = plan.How{Craft: plan.Crochet, Gauge: stitch.Gauge{StitchesPer10Cm: 16, RowsPer10Cm: 18}}
	doubleCrochet = plan.How{Craft: plan.Crochet, Gauge: stitch.Gauge{StitchesPer10Cm: 14, RowsPer10Cm: 7}}
	stocking      = plan.How{Craft: plan.Knit, Gauge: stitch.Gauge{StitchesPer10Cm: 22, RowsPer10Cm: 30}}
	coarse        = plan.How{Craft: plan.Knit, Gauge: stitch.Gauge{StitchesPer10Cm: 12, RowsPer10Cm: 16}}
	fine          = plan.How{Craft: plan.Knit, Gauge: stitch.Gauge{StitchesPer10Cm: 30, RowsPer10Cm: 42}}
)

// everyPlan calls f with plans of all garments, sizes, gauges, constructions
// and both ways of working tubes.
func everyPlan(t *testing.T, f func(t *testing.T, p *plan.Plan)) {
	ref := reference(t)
	for _, g := range ref.Garments() {
		for _, size := range []string{"2", "3", "4", "5.5", "6", "8", "10"} {
			body := bodyAt(t, size)
			for i, how := range []plan.How{singleCrochet, doubleCrochet, stocking, coarse, fine} {
				for j, k := range plan.Constructions {
					how.Construction = k
					how.Turned = (i+j)%2 == 1
					m := spec(g.ID)
					m.Fit = sizing.Fits[(i+j+len(size))%len(sizing.Fits)]
					m.Layer = sizing.Layers[(i+2*j)%len(sizing.Layers)]
					name := fmt.Sprintf("%s %s %s %s %s %gx%g", g.ID, size, m.Fit, m.Layer, k, how.Gauge.StitchesPer10Cm, how.Gauge.RowsPer10Cm)
					p, err := plan.Make(finish(t, body, m), how)
					require.NoError(t, err, name)
					t.Run(name, func(t *testing.T) { f(t, p) })
				}
			}
		}
	}
}

func suit(t testing.TB, how plan.How) *plan.Plan {
	t.Helper()
	m := spec("one-piece-hooded")
	m.Layer = "winter"
	p, err := plan.Make(finish(t, baby(t), m), how)
	require.NoError(t, err)
	return p
}

func withYarn(h plan.How) plan.How {
	h.Ball = stitch.Ball{Grams: 50, Metres: 125}
	h.Swatch = stitch.YarnSwatch{WidthCm: 10, HeightCm: 10, Grams: 4}
	return h
}

var runOfSizes = []string{"2", "4", "6", "8", "10"}

func finishedRun(t testing.TB, labels []string, m sizing.Spec) []*sizing.Finished {
	t.Helper()
	var run []*sizing.Finished
	for _, l := range labels {
		run = append(run, finish(t, bodyAt(t, l), m))
	}
	return run
}
