package tell

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

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
	hows := []plan.How{singleCrochet, doubleCrochet, stocking, coarse, fine}
	samples.EachFinished(t, len(hows), len(plan.Constructions), func(name string, finished *sizing.Finished, i, j int) {
		how := hows[i]
		how.Construction = plan.Constructions[j]
		how.Turned = (i+j)%2 == 1
		name = fmt.Sprintf("%s %s %gx%g", name, how.Construction, how.Gauge.StitchesPer10Cm, how.Gauge.RowsPer10Cm)
		p, err := plan.Make(finished, how)
		require.NoError(t, err, name)
		t.Run(name, func(t *testing.T) { f(t, p) })
	})
}

func suit(t testing.TB, how plan.How) *plan.Plan {
	t.Helper()
	m := samples.Spec("one-piece-hooded")
	m.Layer = "winter"
	p, err := plan.Make(samples.Finish(t, samples.Baby(t), m), how)
	require.NoError(t, err)
	return p
}

func withYarn(h plan.How) plan.How {
	h.Ball = stitch.Ball{Grams: 50, Metres: 125}
	h.Swatch = stitch.YarnSwatch{WidthCm: 10, HeightCm: 10, Grams: 4}
	return h
}
