package data_test

import (
	"fmt"

	"growtuck/data"
)

// The tables are read as rows, each with the document that it is from.
func ExampleLoad() {
	tables, err := data.Load(data.Embedded())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range tables.Body {
		if b.Chart == "craft" && b.Size == "4" && b.Measurement == "chest" && b.Unit == "in" {
			fmt.Println(b.Value, b.Unit, b.Source)
		}
	}
	// Output:
	// 23 in craft-2018
}
