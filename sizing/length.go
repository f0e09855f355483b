package sizing

import (
	"math"
	"strconv"
	"strings"
)

// Length is a length in centimetres.
type Length float64

// FormatCm prints centimetres to the nearest half.
func FormatCm(cm float64) string {
	return strconv.FormatFloat(roundTo(cm, 0.5), 'f', -1, 64)
}

// FormatExact prints a number with all the digits that it has.
func FormatExact(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// FormatHalves prints centimetres to the nearest half, always with a decimal, so
// that a column of them lines up.
func FormatHalves(cm float64) string {
	s := FormatCm(cm)
	if !strings.Contains(s, ".") {
		s += ".0"
	}
	return s
}

// FormatQuarters prints inches to the nearest quarter, as a whole number and
// a fraction: "9 3/4", "-1/2", "21".
func FormatQuarters(inches float64) string {
	q := int(math.Round(inches * 4))
	sign := ""
	if q < 0 {
		sign, q = "-", -q
	}
	whole, part := q/4, [4]string{"", "1/4", "1/2", "3/4"}[q%4]
	switch {
	case part == "":
		return sign + strconv.Itoa(whole)
	case whole == 0:
		return sign + part
	}
	return sign + strconv.Itoa(whole) + " " + part
}

func roundTo(v, step float64) float64 {
	r := math.Round(v/step) * step
	if r == 0 {
		return 0 // not -0
	}
	return r
}
