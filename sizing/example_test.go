package sizing_test

import (
	"fmt"

	"growtuck/sizing"
)

// A size that the chart does not have, between two that it has.
func ExampleReference_Read() {
	ref, err := sizing.Default()
	if err != nil {
		fmt.Println(err)
		return
	}
	chart, err := ref.Chart("child")
	if err != nil {
		fmt.Println(err)
		return
	}
	place, err := chart.Place("3", sizing.Both)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range []string{"chest", "arm_to_underarm", "inside_leg"} {
		r, err := ref.Read(place, m, sizing.Monotone)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: %s cm, %s\n", r.Measurement.Name, sizing.FormatCm(r.Value), r.Provenance)
	}
	// Output:
	// chest girth: 56 cm, between
	// arm length to underarm: 24.5 cm, between
	// inside leg: 38.5 cm, between
}

// Two tapes and a scale, and what they say of the rest.
func ExampleReference_Estimate() {
	ref, err := sizing.Default()
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := ref.Estimate(sizing.Child{Sex: sizing.Girl, Own: map[string]float64{
		"height": 141, "chest": 61, "weight": 29,
	}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range []string{"chest", "hip", "inside_leg"} {
		r, _ := b.Get(m)
		fmt.Printf("%s: %s cm, %s", r.Measurement.Name, sizing.FormatCm(r.Value), r.Provenance)
		if r.Spread != "" {
			fmt.Printf(", likely %s to %s", sizing.FormatCm(r.Low), sizing.FormatCm(r.High))
		}
		fmt.Println()
	}
	// Output:
	// chest girth: 61 cm, measured
	// hip girth: 67.5 cm, estimated, likely 65 to 70
	// inside leg: 66.5 cm, estimated, likely 64 to 68.5
}
