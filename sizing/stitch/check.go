package stitch

import (
	"fmt"
	"math"
	"strconv"
)

// Limits beyond which a value counts as a typing mistake.
const (
	MaxLengthCm = 1000.0 // any length or girth
	maxCount    = 20000  // stitches in a row, rows in a part
)

// An InputError says which value cannot be worked with and what would be.
type InputError struct {
	What string // the value, in the trade's terms: "neck"
	Got  string // what it was: "NaN cm"
	Want string // what would be right: "more than 0 and at most 1000 cm"
}

// Error gives one line: stitch: what is got: want want.
func (e *InputError) Error() string {
	return "stitch: " + e.What + " is " + e.Got + ": want " + e.Want
}

// num prints a number without a tail of zeros, to the thousandth.
func num(x float64) string {
	if math.Abs(x) >= 1e15 {
		return strconv.FormatFloat(x, 'g', -1, 64)
	}
	if r := math.Round(x*1000) / 1000; r != 0 {
		return strconv.FormatFloat(r, 'f', -1, 64)
	}
	return strconv.FormatFloat(x, 'g', 3, 64)
}

// checkRange accepts low <= x <= high.
func checkRange(what string, x, low, high float64, unit string) error {
	if x >= low && x <= high {
		return nil
	}
	if unit != "" {
		unit = " " + unit
	}
	return &InputError{what, num(x) + unit, num(low) + " to " + num(high) + unit}
}

// checkLength accepts 0 < cm <= MaxLengthCm.
func checkLength(what string, cm float64) error {
	if cm > 0 && cm <= MaxLengthCm {
		return nil
	}
	return &InputError{what, num(cm) + " cm", "more than 0 and at most " + num(MaxLengthCm) + " cm"}
}

// checkOptionalLength accepts 0 as "not given".
func checkOptionalLength(what string, cm float64) error {
	if cm == 0 {
		return nil
	}
	return checkLength(what, cm)
}

// checkCount accepts least <= n <= maxCount.
func checkCount(what string, n, least int) error {
	if n >= least && n <= maxCount {
		return nil
	}
	return &InputError{what, strconv.Itoa(n), fmt.Sprintf("%d to %d", least, maxCount)}
}

// firstError returns the first error of a list of checks.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
