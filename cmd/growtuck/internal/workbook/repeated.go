package workbook

import (
	"errors"
	"fmt"
)

// faults are what is wrong with cells.
type faults []*Error

func (f *faults) add(e *Error) { *f = append(*f, e) }

// join is all of them, nil for none. What is wrong with several cells of a sheet in the
// same way is said once, at the first, with how many more there are.
func (f faults) join() error {
	type kind struct{ sheet, msg string }
	more := make(map[kind][]string) // the cells after the first
	var first faults
	for _, e := range f {
		k := kind{e.Sheet, e.Msg}
		if _, said := more[k]; said {
			more[k] = append(more[k], e.Cell)
			continue
		}
		more[k] = nil
		first = append(first, e)
	}
	var errs []error
	for _, e := range first {
		said := *e
		switch cells := more[kind{e.Sheet, e.Msg}]; len(cells) {
		case 0:
		case 1:
			said.Msg += "; " + cells[0] + " too"
		default:
			said.Msg += fmt.Sprintf("; %d more cells of this sheet too, %s to %s", len(cells), cells[0], cells[len(cells)-1])
		}
		errs = append(errs, &said)
	}
	return errors.Join(errs...)
}
