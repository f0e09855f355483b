package sizing

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// CmPerInch is exact by definition (international inch).
const CmPerInch = 2.54

// KgPerPound is exact by definition (international pound).
const KgPerPound = 0.45359237

// A unit is what a length or a weight is written in.
type unit struct {
	name     string
	kind     string  // cm or kg, in which it is kept
	of, per  float64 // one is of/per of that
	smaller  string  // unit of what follows: 3 ft 7
	smallest float64 // and how many of those are one
}

var units = map[string]*unit{
	"cm": {"cm", "cm", 1, 1, "mm", 10},
	"mm": {"mm", "cm", 1, 10, "", 0},
	"m":  {"m", "cm", 100, 1, "cm", 100},
	"in": {"in", "cm", CmPerInch, 1, "", 0},
	"ft": {"ft", "cm", 12 * CmPerInch, 1, "in", 12},
	"kg": {"kg", "kg", 1, 1, "g", 1000},
	"g":  {"g", "kg", 1, 1000, "", 0},
	"oz": {"oz", "kg", KgPerPound, 16, "", 0},
	"lb": {"lb", "kg", KgPerPound, 1, "oz", 16},
	"st": {"st", "kg", 14 * KgPerPound, 1, "lb", 14},
}

// unitsOf are the units to write what is kept in cm or kg in.
var unitsOf = map[string]string{"cm": "cm, mm, m, in or ft", "kg": "kg, g, lb, oz or st"}

// unitNames are other names of the units.
var unitNames = map[string]string{
	"cms": "cm", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
	"millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
	"metre": "m", "metres": "m", "meter": "m", "meters": "m",
	"ins": "in", "inch": "in", "inches": "in", `"`: "in", "''": "in",
	"foot": "ft", "feet": "ft", "'": "ft",
	"kgs": "kg", "kilo": "kg", "kilos": "kg", "kilogram": "kg", "kilograms": "kg", "kilogramme": "kg", "kilogrammes": "kg",
	"gr": "g", "gram": "g", "grams": "g", "gramme": "g", "grammes": "g",
	"lbs": "lb", "pound": "lb", "pounds": "lb", "ounce": "oz", "ounces": "oz", "stone": "st", "stones": "st",
}

func unitNamed(word string) *unit {
	word = strings.TrimSuffix(word, ".")
	if name, ok := unitNames[word]; ok {
		word = name
	}
	return units[word]
}

// maxAmount bounds what is read as a length (cm) or a weight (kg), and mostMeasured
// what is read as measured on a child: millimetres may be taken for centimetres, and
// grams for kilograms, and are then doubted.
const (
	maxAmount    = 1000
	mostMeasured = 200000
)

// amountForm is how a length or a weight is written.
const amountForm = "24.5, 24.5 cm or 9 3/4 in"

// An UnreadError is a text that is no number, length, weight or age.
type UnreadError struct {
	Text, Kind string
	Meant      string // what it most likely should be; "" where that is not clear
	Form       string // how it is written
}

func (e *UnreadError) Error() string {
	if e.Meant != "" {
		return fmt.Sprintf("%.80q is not %s; write %s", e.Text, e.Kind, e.Meant)
	}
	return fmt.Sprintf("%.80q is not %s; write it as %s", e.Text, e.Kind, e.Form)
}

// ParseLength reads a length such as 24.5, 24,5 cm, 245 mm, 9 3/4 in, 9¾", 1.05 m,
// 1 m 5 cm, 3 ft 7 in or 3'7". A number without a unit takes the given one.
func ParseLength(s, unit string) (Length, error) {
	v, _, err := parseAmount("cm", s, unit, maxAmount)
	return Length(v), err
}

// ParseMeasured reads what was measured on a child, in cm or in kg as the
// measurement is. A number without a unit takes the given one. What no child can
// have is read too, up to millimetres taken for centimetres: [Reference.Doubts] says
// what may have been meant.
func ParseMeasured(in, s, unit string) (float64, error) {
	v, _, err := parseAmount(in, s, unit, mostMeasured)
	return v, err
}

// A BesideError is a text that names another unit than the one beside it.
type BesideError struct{ Text, Unit, Beside string }

func (e *BesideError) Error() string {
	return fmt.Sprintf("%.80q has the unit %s, and %s is beside it; leave the wrong one out", e.Text, e.Unit, e.Beside)
}

// UnitName is the short name of a unit of lengths, weights or ages; a word that is
// none is returned as it is.
func UnitName(word string) string {
	small := strings.ToLower(strings.TrimSpace(word))
	if u := unitNamed(small); u != nil {
		return u.name
	}
	if u := ageUnitNamed(small); u != nil {
		return u.name
	}
	return word
}

// ParseBeside reads what [ParseMeasured] reads, from a cell that has a unit beside
// it, which may not be another one than the cell names.
func ParseBeside(in, s, unit string) (float64, error) {
	v, named, err := parseAmount(in, s, unit, mostMeasured)
	if beside := unitNamed(strings.ToLower(strings.TrimSpace(unit))); err == nil && len(named) > 0 && beside != nil && !slices.Contains(named, beside.name) {
		return 0, &BesideError{s, named[0], beside.name}
	}
	return v, err
}

// parseAmount reads a length or a weight, and the units that it names.
func parseAmount(in, s, standard string, most float64) (float64, []string, error) {
	v, named, err := readAmount(in, s, standard)
	if err != nil && !errors.As(err, new(*unitError)) {
		meant := likeliest(s, func(t string) bool {
			v, _, err := readAmount(in, t, standard)
			return err == nil && v > 0 && v <= most
		})
		if meant != "" || errors.Is(err, errNoNumber) {
			err = &UnreadError{s, "a measurement", meant, amountForm}
		}
		return 0, nil, err
	}
	if err == nil && math.Abs(v) > most {
		err = fmt.Errorf("%.80q is more than %g %s", s, most, in)
	}
	return v, named, err
}

// readAmount adds up what an amount consists of, largest unit first.
func readAmount(in, s, standard string) (sum float64, named []string, err error) {
	parts, negative, err := readFigures(s)
	if err != nil {
		return 0, nil, err
	}
	var before *unit
	for i, p := range parts {
		u := unitNamed(p.word)
		switch {
		case p.word == "" && before != nil:
			u = units[before.smaller]
			if before.name == "m" && p.value < 10 && !strings.HasPrefix(p.text, "0") {
				return 0, nil, errNoNumber // 1 m 5 may be 1.5 m or 1.05
			}
		case p.word == "":
			if u = unitNamed(strings.ToLower(standard)); u == nil {
				return 0, nil, &unitError{s, standard, in}
			}
		case u == nil:
			return 0, nil, fmt.Errorf("%.80q: unknown unit %.80q; %s", s, p.word, likelyUnit(p.word, in))
		}
		if u == nil {
			return 0, nil, errNoNumber // no unit follows before's
		}
		if u.kind != in {
			word := p.word
			if word == "" {
				word = standard
			}
			return 0, nil, &unitError{s, word, in}
		}
		if before != nil && (before.smaller != u.name && !(before.name == "m" && u.name == "mm") || p.value >= before.smallest || parts[i-1].value != math.Trunc(parts[i-1].value)) {
			return 0, nil, errNoNumber
		}
		if p.word != "" || before != nil {
			named = append(named, u.name)
		}
		sum += p.value * u.of / u.per
		before = u
	}
	if negative {
		sum = -sum
	}
	return sum, named, nil
}

// A unitError says that a unit is not one of what is read.
type unitError struct{ text, unit, in string }

func (e *unitError) Error() string {
	what := map[string]string{"cm": "length", "kg": "weight"}[e.in]
	return fmt.Sprintf("%.80q: %.80q is not a unit of %s; use %s", e.text, e.unit, what, unitsOf[e.in])
}

// likelyUnit says what to write for a word that is no unit.
func likelyUnit(word, in string) string {
	var known []string
	for name, u := range units {
		if u.kind == in {
			known = append(known, name)
		}
	}
	for other, name := range unitNames {
		if units[name].kind == in {
			known = append(known, other)
		}
	}
	slices.Sort(known)
	if near := Nearest(word, known); near != "" && len(word) > 2 {
		return "did you mean " + unitNamed(near).name + "?"
	}
	return "use " + unitsOf[in]
}

var errNoNumber = errors.New("not a number")

// What is typed is a number with the word after it.
type typed struct {
	text  string
	value float64
	word  string // in small letters; "" where there is none
}

// longestFigure is the longest text that is read as an amount or an age.
const longestFigure = 40

// readFigures reads the numbers of a text, each with the word after it.
func readFigures(s string) (all []typed, negative bool, err error) {
	t := strings.ToLower(strings.TrimSpace(PlainFigures(s)))
	if len(t) > longestFigure {
		return nil, false, fmt.Errorf("%.40q… is too long for a measurement", t)
	}
	switch {
	case strings.HasPrefix(t, "-"):
		negative, t = true, t[1:]
	case strings.HasPrefix(t, "+"):
		t = t[1:]
	}
	for t = strings.TrimSpace(t); t != ""; {
		end := figureEnd(t)
		v, err := parseDigitsOrFraction(t[:end])
		if err != nil {
			return nil, false, err
		}
		f := typed{text: strings.TrimSpace(t[:end]), value: v}
		t = t[end:]
		end = wordEnd(t)
		f.word = strings.TrimLeft(strings.Trim(t[:end], " ,&-"), ".")
		f.word = strings.TrimSpace(strings.TrimSuffix(f.word, " and"))
		all, t = append(all, f), strings.TrimSpace(t[end:])
	}
	if len(all) == 0 {
		return nil, false, errNoNumber
	}
	return all, negative, nil
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// figureEnd is where a number at the front ends.
func figureEnd(t string) int {
	end := 0
	for i := range len(t) {
		switch {
		case isDigit(t[i]):
			end = i + 1
		case !strings.ContainsRune(".,/ -", rune(t[i])):
			return trailingPoint(t, end)
		}
	}
	return trailingPoint(t, end)
}

// trailingPoint takes a point after the last digit along: 53. is 53.
func trailingPoint(t string, end int) int {
	if end > 0 && end < len(t) && (t[end] == '.' || t[end] == ',') && (end+1 == len(t) || t[end+1] == ' ') {
		return end + 1
	}
	return end
}

// wordEnd is where a word at the front ends: before a digit, and before a point that
// begins a number.
func wordEnd(t string) int {
	for i := range len(t) {
		if isDigit(t[i]) {
			if i > 1 && (t[i-1] == '.' || t[i-1] == ',') && t[i-2] == ' ' {
				return i - 1
			}
			return i
		}
	}
	return len(t)
}

// ParseNumber reads a number without a unit, as [ParseLength] reads lengths.
func ParseNumber(s string) (float64, error) {
	all, negative, err := readFigures(s)
	if err != nil || len(all) != 1 || all[0].word != "" {
		plain := func(t string) bool {
			all, _, err := readFigures(t)
			return err == nil && len(all) == 1 && all[0].word == ""
		}
		return 0, &UnreadError{s, "a number", likeliest(s, plain), "24.5 or 9 3/4"}
	}
	if negative {
		return -all[0].value, nil
	}
	return all[0].value, nil
}

// parseDigitsOrFraction reads 24.5, 24,5, 9 3/4, 9-3/4 and 3/4.
func parseDigitsOrFraction(s string) (float64, error) {
	s = strings.TrimSpace(s)
	num, den, ok := strings.Cut(s, "/")
	if !ok {
		return parseDigits(s, true)
	}
	whole := ""
	num = strings.TrimSpace(num)
	if i := strings.LastIndexAny(num, " -"); i >= 0 {
		whole, num = strings.TrimSpace(num[:i]), num[i+1:]
	}
	n, err1 := parseDigits(num, false)
	d, err2 := parseDigits(den, false)
	if err1 != nil || err2 != nil || n >= d {
		return 0, errNoNumber
	}
	if whole == "" {
		return n / d, nil
	}
	w, err := parseDigits(whole, false)
	return w + n/d, err
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
