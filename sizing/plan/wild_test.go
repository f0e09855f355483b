package plan

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

// Whatever is asked for, there is a plan that holds together, or an error with
// words; nothing panics.
func TestAnyPlan(t *testing.T) {
	ref := samples.Reference(t)
	chart, err := ref.Chart("child")
	if err != nil {
		t.Fatal(err)
	}
	run, _ := chart.Run(sizing.Years, sizing.Both)
	garments := ref.Garments()
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.SampledFrom(garments).Draw(t, "garment")
		m := sizing.Spec{Garment: g.ID, Fit: rapid.SampledFrom(sizing.Fits).Draw(t, "fit"), Layer: rapid.SampledFrom(sizing.Layers).Draw(t, "layer"),
			Nappy: rapid.Bool().Draw(t, "nappy"), Seasons: rapid.Float64Range(0, 4).Draw(t, "seasons")}
		options, _ := ref.GarmentOptions(g.ID)
		if len(options) > 0 {
			m.Options = rapid.SliceOfNDistinct(rapid.SampledFrom(options), 0, len(options), rapid.ID).Draw(t, "options")
		}
		body := ref.BodyAt(sizing.Place{Run: run, Position: rapid.Float64Range(2, 16).Draw(t, "size")}, sizing.Monotone)
		f, err := ref.Finish(body, m)
		if err != nil {
			return // options that take each other's length away
		}
		sts := rapid.Float64Range(1, 60).Draw(t, "stitches")
		how := How{Craft: rapid.SampledFrom(Crafts).Draw(t, "craft"), Gauge: stitch.Gauge{StitchesPer10Cm: sts, RowsPer10Cm: sts * rapid.Float64Range(0.25, 3).Draw(t, "rows to stitches")},
			Construction: rapid.SampledFrom(Constructions).Draw(t, "construction"), Closure: rapid.SampledFrom(Closures).Draw(t, "closure"),
			Turned: rapid.Bool().Draw(t, "turned"), RibShare: rapid.Float64Range(0.5, 1).Draw(t, "rib share"),
			Multiple: stitch.Multiple{Repeat: rapid.IntRange(0, 24).Draw(t, "repeat"), Edge: rapid.IntRange(0, 5).Draw(t, "edge")}}
		if rapid.Bool().Draw(t, "measured") {
			how.Stretch = map[string]float64{"neck": rapid.Float64Range(1, 3).Draw(t, "neck"), "cuff": 1.3, "ankle": 1.1, "waist": 1.4}
		}
		if rapid.Bool().Draw(t, "own rib") {
			how.Rib = &stitch.Gauge{StitchesPer10Cm: how.Gauge.StitchesPer10Cm * 1.2, RowsPer10Cm: how.Gauge.RowsPer10Cm * 1.1}
		}
		p, err := Make(f, how)
		if err != nil {
			if err.Error() == "" || p != nil {
				t.Fatalf("error %q with plan %v", err, p)
			}
			return
		}
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		for _, x := range p.Parts {
			if !(x.SizeCm > 0) || math.IsInf(x.SizeCm, 0) {
				t.Fatalf("%s is %g cm", x.Line.Part.Part, x.SizeCm)
			}
		}
		for _, s := range p.Sections {
			for _, step := range s.Steps {
				if step.ID == "" || step.Kind == "" {
					t.Fatalf("%s: a step %v", s.ID, step)
				}
			}
		}
		for _, r := range p.Draft() {
			if r.Field == "" || r.Value == "" {
				t.Fatalf("an empty row %v", r)
			}
		}
	})
}

// A finer gauge never makes the worst error larger than a stitch of it
// explains: sizes converge.
func TestFineGaugesConverge(t *testing.T) {
	for _, g := range samples.Reference(t).Garments() {
		f := samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec(g.ID))
		p, err := Make(f, How{Craft: Crochet, Gauge: stitch.Gauge{StitchesPer10Cm: 60, RowsPer10Cm: 66}, Stretch: map[string]float64{"cuff": 2, "ankle": 2, "waist": 2}})
		if err != nil {
			t.Fatalf("%s: %v", g.ID, err)
		}
		for _, x := range p.Parts {
			id := x.Line.Part.Part
			if id == "trunk" || id == "rise" || id == "body_length" || id == "front_opening" {
				continue // three measurements of two lengths
			}
			if math.Abs(x.ErrorCm()) > 0.5 {
				t.Errorf("%s %s: %.2f cm off", g.ID, id, x.ErrorCm())
			}
		}
	}
}
