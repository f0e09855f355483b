package sizing

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// CmPerInch is exact by definition (international inch).
const CmPerInch = 2.54

// KgPerPound is exact by definition (international pound).
const KgPerPound = 0.45359237

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

// maxAmount bounds what is read as a length (cm) or a weight (kg), and mostMeasured
// what is read as measured on a child: millimetres may be taken for centimetres, and
// grams for kilograms, and are then doubted.
const (
	maxAmount    = 1000
	mostMeasured = 200000
)

// ParseLength reads a length such as 24.5, 24,5 cm, 245 mm, 9 3/4 in, 9¾" or
// 9.75in. A number without a unit takes the given one: "cm", "mm" or "in".
func ParseLength(s, unit string) (Length, error) {
	v, err := parseCm(s, unit, maxAmount)
	return Length(v), err
}

// ParseMeasured reads what was measured on a child, in cm or in kg as the
// measurement is. A number without a unit takes the given one. What no child can
// have is read too, up to millimetres taken for centimetres: [Reference.Doubts] says
// what may have been meant.
func ParseMeasured(in, s, unit string) (float64, error) {
	if in == "kg" {
		return parseKg(s, unit, mostMeasured)
	}
	return parseCm(s, unit, mostMeasured)
}

func parseCm(s, unit string, most float64) (float64, error) {
	v, unit, err := parseAmount(s, unit)
	if err != nil {
		return 0, err
	}
	switch unit {
	case "cm":
	case "mm":
		v /= 10
	case "m":
		v *= 100
	case "in":
		v *= CmPerInch
	default:
		return 0, fmt.Errorf("%q: %q is not a unit of length; use cm, mm, m or in", s, unit)
	}
	if math.Abs(v) > most {
		return 0, fmt.Errorf("%q is more than %g cm", s, most)
	}
	return v, nil
}

// parseKg reads a weight such as 17.2, 17.2 kg or 38 lb. A number without a unit
// takes the given one: "kg", "g" or "lb".
func parseKg(s, unit string, most float64) (float64, error) {
	v, unit, err := parseAmount(s, unit)
	if err != nil {
		return 0, err
	}
	switch unit {
	case "kg":
	case "g":
		v /= 1000
	case "lb":
		v *= KgPerPound
	default:
		return 0, fmt.Errorf("%q: %q is not a unit of weight; use kg, g or lb", s, unit)
	}
	if math.Abs(v) > most {
		return 0, fmt.Errorf("%q is more than %g kg", s, most)
	}
	return v, nil
}

var unitNames = map[string]string{
	"cm": "cm", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
	"mm": "mm", "m": "m", "metre": "m", "metres": "m", "meter": "m", "meters": "m", "in": "in", "in.": "in", "inch": "in", "inches": "in", `"`: "in", "″": "in", "”": "in",
	"kg": "kg", "g": "g", "lb": "lb", "lbs": "lb",
}

var fractions = map[string]float64{
	"¼": 1. / 4, "½": 1. / 2, "¾": 3. / 4, "⅛": 1. / 8, "⅜": 3. / 8, "⅝": 5. / 8, "⅞": 7. / 8, "⅓": 1. / 3, "⅔": 2. / 3,
}

var errNoNumber = errors.New("not a number")

// parseAmount splits s into its number and its unit, unit being the default.
func parseAmount(s, unit string) (float64, string, error) {
	t := strings.TrimSpace(s)
	if len(t) > 40 {
		return 0, "", fmt.Errorf("%q is too long for a measurement", t[:40]+"…")
	}
	cut := strings.LastIndexFunc(t, func(r rune) bool {
		return r >= '0' && r <= '9' || fractions[string(r)] != 0
	})
	if cut < 0 {
		return 0, "", fmt.Errorf("%q is not a measurement; write it as 24.5, 24.5 cm or 9 3/4 in", s)
	}
	_, size := utf8.DecodeRuneInString(t[cut:])
	end := cut + size
	if u := strings.ToLower(strings.TrimSpace(t[end:])); u != "" {
		name, ok := unitNames[u]
		if !ok {
			return 0, "", fmt.Errorf("%q: unknown unit %q; use cm, mm, m, in, kg, g or lb", s, u)
		}
		unit = name
	}
	v, err := parseNumber(t[:end])
	if err != nil {
		return 0, "", fmt.Errorf("%q is not a measurement; write it as 24.5, 24.5 cm or 9 3/4 in", s)
	}
	return v, unit, nil
}

// parseNumber reads 24.5, 24,5, 9 3/4, 9-3/4, 3/4, 9¾ and ¾.
func parseNumber(s string) (float64, error) {
	s = strings.TrimSpace(s)
	sign := 1.0
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		sign, s = -1, strings.TrimSpace(rest)
	}
	for f, v := range fractions {
		if whole, ok := strings.CutSuffix(s, f); ok {
			if whole = strings.TrimSpace(whole); whole == "" {
				return sign * v, nil
			}
			w, err := parseDigits(whole, false)
			return sign * (w + v), err
		}
	}
	if num, den, ok := strings.Cut(s, "/"); ok {
		whole := ""
		if i := strings.LastIndexAny(strings.TrimSpace(num), " -"); i >= 0 {
			whole, num = num[:i], num[i+1:]
		}
		n, err1 := parseDigits(num, false)
		d, err2 := parseDigits(den, false)
		if err1 != nil || err2 != nil || d == 0 || n >= d {
			return 0, errNoNumber
		}
		if strings.TrimSpace(whole) == "" {
			return sign * n / d, nil
		}
		w, err := parseDigits(whole, false)
		return sign * (w + n/d), err
	}
	v, err := parseDigits(s, true)
	return sign * v, err
}

// parseDigits reads digits, with one point or comma where decimal is true.
func parseDigits(s string, decimal bool) (float64, error) {
	s = strings.TrimSpace(s)
	points := 0
	for _, r := range s {
		switch {
		case r >= '0' && r <= '9':
		case decimal && (r == '.' || r == ','):
			points++
		default:
			return 0, errNoNumber
		}
	}
	if points > 1 || strings.Trim(s, ".,") == "" {
		return 0, errNoNumber
	}
	return strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
}
