package table_test

import (
	"fmt"
	"io"
	"strings"

	"growtuck/data/table"
)

// A table as a spreadsheet of another country saves it.
func ExampleOpen() {
	t, err := table.Open(strings.NewReader("measurement;value\nchest;61,5\n"), "child.csv", 1<<20)
	if err == nil {
		err = t.Header([]string{"measurement", "value", "unit"}, 2)
	}
	if err != nil {
		fmt.Println(err)
		return
	}
	for {
		row, err := t.Next()
		if err == io.EOF {
			return
		}
		fmt.Printf("line %d: %q %v\n", row.Line, row.Texts(), err)
	}
	// Output: line 2: ["chest" "61,5" ""] <nil>
}
