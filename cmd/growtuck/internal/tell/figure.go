package tell

import (
	"math"
	"strconv"
)

// A Figure is a number as CSV and JSON show it, to a hundredth.
type Figure float64

func (f Figure) String() string {
	v := math.Round(float64(f)*100) / 100
	return strconv.FormatFloat(v+0, 'f', -1, 64) // + 0: not -0
}

// MarshalJSON writes the Figure as a number.
func (f Figure) MarshalJSON() ([]byte, error) { return []byte(f.String()), nil }

// Known returns a Figure, or nil where there is none: nothing in CSV, null in
// JSON.
func Known(v float64, ok bool) *Figure {
	if !ok || math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	f := Figure(v)
	return &f
}
