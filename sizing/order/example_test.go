package order_test

import (
	"fmt"

	"growtuck/sizing/order"
)

// Nine children of a choir in two sizes, where a centimetre too small counts twice.
func ExampleCut() {
	chests := []float64{55, 56, 57, 58, 63, 64, 64, 66, 67}
	groups, err := order.Cut(chests, 2, order.Misfit{Small: 2})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, g := range groups {
		fmt.Printf("%d children of %g to %g cm: %g cm\n", g.Children, g.Low, g.High, g.Size)
	}
	// Output:
	// 4 children of 55 to 58 cm: 57 cm
	// 5 children of 63 to 67 cm: 66 cm
}
