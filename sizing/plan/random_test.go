package plan

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
	"growtuck/testdata/proof"
	"growtuck/testdata/samples"
)

// A chooser draws what a garment is made of and how.
type chooser struct{ *rand.Rand }

func pick[T any](r chooser, of ...T) T { return of[r.IntN(len(of))] }

func (r chooser) between(low, high float64) float64 { return low + (high-low)*r.Float64() }

func (r chooser) half() bool { return r.IntN(2) == 0 }

// how draws how it is worked, in any figure that is taken.
func (r chooser) how() How {
	g := stitch.Gauge{StitchesPer10Cm: r.between(10, 34)}
	how := How{Craft: pick(r, Crafts...), Construction: pick(r, Constructions...), Closure: pick(r, Closures...), Hood: pick(r, Hoods...), Turned: r.half(), Stretch: make(map[string]float64)}
	g.RowsPer10Cm = g.StitchesPer10Cm * r.between(1.1, 1.6)
	if how.Craft == Crochet {
		g.RowsPer10Cm = g.StitchesPer10Cm * r.between(0.5, 1.3)
	}
	how.Gauge = g
	if r.half() {
		how.Rib = &stitch.Gauge{StitchesPer10Cm: g.StitchesPer10Cm * r.between(0.95, 1.25), RowsPer10Cm: g.RowsPer10Cm * r.between(0.9, 1.2)}
	}
	for _, edge := range Edges {
		if r.half() {
			how.Stretch[edge] = r.between(1, 2.5)
		}
	}
	if r.half() {
		how.HemCm, how.CuffCm, how.BandCm, how.RibShare = r.between(1, 8), r.between(1, 8), r.between(1, 5), r.between(0.75, 1)
	}
	if r.IntN(3) == 0 {
		how.Multiple = stitch.Multiple{Repeat: 1 + r.IntN(8), Edge: r.IntN(3)}
	}
	if way := pick(r, append([]Way{""}, Ways...)...); way != "" {
		how.Hold = map[Room]Way{"": way}
	}
	how.Ball, how.Swatch = stitch.Ball{Grams: 50, Metres: r.between(60, 220)}, stitch.YarnSwatch{WidthCm: r.between(8, 15), HeightCm: r.between(8, 15), Grams: r.between(2, 9)}
	if r.IntN(3) == 0 {
		for range 1 + r.IntN(4) {
			how.Stripes = append(how.Stripes, Stripe{1 + r.IntN(7), pick(r, "red", "blue", "white")})
		}
	}
	if r.IntN(3) == 0 {
		how.Colours = append(how.Colours, PartColour{pick(r, MainColour, Ribbing), "green"})
	}
	if r.IntN(3) == 0 {
		margin := r.Float64()
		how.Margin = &margin
	}
	if r.IntN(3) == 0 {
		how.KnitPer4In = r.between(12, 32)
	}
	return how
}

// child draws a child by height, with some measurements that are not those of the chart.
func (r chooser) child(t testing.TB) *sizing.Body {
	own := map[string]float64{"height": r.between(88, 165)}
	b, err := samples.Reference(t).Estimate(sizing.Child{Sex: pick(r, sizing.Boy, sizing.Girl), AgeYears: own["height"]/12 - 5, Own: own})
	require.NoError(t, err)
	for _, id := range []string{"chest", "waist", "hip", "inside_leg", "arm_length", "head"} {
		if x, ok := b.Get(id); ok && r.IntN(3) == 0 {
			own[id] = x.Value * r.between(0.95, 1.06)
		}
	}
	b, err = samples.Reference(t).Estimate(sizing.Child{Sex: sizing.Boy, AgeYears: own["height"]/12 - 5, Own: own})
	require.NoError(t, err)
	return b
}

// finished draws a garment for a child.
func (r chooser) finished(t testing.TB) (*sizing.Finished, error) {
	ref := samples.Reference(t)
	g := pick(r, ref.Garments()...)
	spec := sizing.Spec{Garment: g.ID, Fit: pick(r, sizing.Fits...), Layer: pick(r, sizing.Layers...), Nappy: r.IntN(4) == 0}
	if r.half() {
		spec.Seasons = r.between(0, 3)
	}
	options, _ := ref.GarmentOptions(g.ID)
	for _, o := range options {
		if r.IntN(3) == 0 {
			spec.Options = append(spec.Options, o)
		}
	}
	return ref.Finish(r.child(t), spec)
}

// randomPlans calls f with plans that nobody picked.
func randomPlans(t *testing.T, n int, f func(name string, p *Plan)) {
	t.Helper()
	for seed := range uint64(n) {
		r := chooser{rand.New(rand.NewPCG(seed, 19))}
		finished, err := r.finished(t)
		if err != nil {
			continue // options that take each other's length away
		}
		p, err := Make(finished, r.how())
		if err != nil {
			continue // says what cannot be
		}
		f(fmt.Sprintf("seed %d: %s", seed, finished.Garment.ID), p)
	}
}

// manyPlans are so many by default, all of them as proof.
var manyPlans = map[bool]int{false: 400, true: 20000}[proof.Whole()]
