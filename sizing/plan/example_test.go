package plan_test

import (
	"fmt"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

// A hat of size 4, knitted: from the body through the finished measurements to counts.
func ExampleMake() {
	ref, err := sizing.Default()
	if err != nil {
		fmt.Println(err)
		return
	}
	chart, _ := ref.Chart(sizing.DefaultChart)
	place, _ := chart.Place("4", sizing.Both)
	finished, err := ref.Finish(ref.BodyAt(place, sizing.Monotone), sizing.Spec{Garment: "hat", Fit: "classic", Layer: "skin"})
	if err != nil {
		fmt.Println(err)
		return
	}
	hat, err := plan.Make(finished, plan.How{Craft: plan.Knit, Gauge: stitch.Gauge{StitchesPer10Cm: 22, RowsPer10Cm: 30}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range hat.Parts {
		fmt.Println(p.Line.Part.Part, p.Count, p.Unit)
	}
	// Output:
	// brim 102 stitches
	// hat_height 57 rows
}
