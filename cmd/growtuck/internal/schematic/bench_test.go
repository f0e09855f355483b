package schematic

import (
	"io"
	"testing"

	"growtuck/sizing"
	"growtuck/sizing/plan"
)

func BenchmarkSVG(b *testing.B) {
	ref, err := sizing.Default()
	if err != nil {
		b.Fatal(err)
	}
	chart, _ := ref.Chart("child")
	place, _ := chart.Place("4", sizing.Both)
	f, err := ref.Finish(ref.BodyAt(place, sizing.Monotone), sizing.Spec{Garment: "one-piece-hooded", Fit: "classic", Layer: "skin"})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if err := Finished(f, plan.How{}, "cm").SVG(io.Discard, SVGOptions{Inline: true}); err != nil {
			b.Fatal(err)
		}
	}
}
