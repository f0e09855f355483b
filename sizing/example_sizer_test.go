package sizing_test

import (
	"fmt"
	"math"

	"growtuck/sizing"
)

// Two children of a class: one was measured round the chest too.
func ExampleReference_Sizer() {
	ref, err := sizing.Default()
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := ref.Sizer(sizing.Bulk{Known: []string{"height", "chest"}, Want: []string{"hip", "arm_length"}})
	if err != nil {
		fmt.Println(err)
		return
	}
	out := make([]sizing.Figure, 2)
	for _, own := range [][]float64{{110, 53}, {121, math.NaN()}} {
		if _, err := s.Size(sizing.Girl, 0, own, out); err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("hip %.1f cm (%.1f–%.1f), arm %.1f cm\n", out[0].Value, out[0].Low, out[0].High, out[1].Value)
	}
	// Output:
	// hip 55.1 cm (52.6–57.8), arm 35.5 cm
	// hip 61.9 cm (58.0–71.0), arm 38.4 cm
}
