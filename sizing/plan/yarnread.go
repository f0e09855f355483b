package plan

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// An amount is a number with its unit, as it was written.
type amount struct {
	value float64
	unit  string // "" where there was none
	by    bool   // an x follows: 10 x 10 cm
}

// A yarnUnit is a unit of yarn or of a swatch, by its names.
type yarnUnit struct {
	kind  string  // what it measures, in g, m or cm
	of    float64 // these
	names []string
}

var yarnUnits = []yarnUnit{
	{"g", 1, strings.Fields("g gr gm gms gram grams gramme grammes")}, {"g", 1000, strings.Fields("kg")}, {"g", 28.349523125, strings.Fields("oz ozs ounce ounces")}, {"g", 453.59237, strings.Fields("lb lbs pound pounds")},
	{"m", 1, strings.Fields("m mt mtr mtrs metre metres meter meters")}, {"m", 0.9144, strings.Fields("yd yds yard yards")},
	{"cm", 1, strings.Fields("cm")}, {"cm", 0.1, strings.Fields("mm")}, {"cm", 2.54, strings.Fields(`in inch inches "`)},
}

// yarnUnitOf is the unit of a name.
func yarnUnitOf(name string) (yarnUnit, bool) {
	for _, u := range yarnUnits {
		if slices.Contains(u.names, name) {
			return u, true
		}
	}
	return yarnUnit{}, false
}

// fillers are words of a ball's band that say nothing here.
var fillers = strings.Fields("per a an the of is to and each ball skein hank cone approx approximately about ca circa net wt weight weighs length")

// digitAt reports a digit at a place of a text, which may be past its end.
func digitAt(s string, i int) bool { return i < len(s) && strings.IndexByte("0123456789", s[i]) >= 0 }

// letters are how many letters a text begins with.
func letters(s string) int {
	return len(s) - len(strings.TrimLeft(s, "abcdefghijklmnopqrstuvwxyz"))
}

// amounts reads the numbers of a text with their units: 50 g / 125 m, 1¾ oz, 10 x 10 cm.
func amounts(s string) ([]amount, error) {
	var all []amount
	s = strings.ToLower(sizing.PlainFigures(s))
	for s != "" {
		var last *amount // whose unit may follow
		if n := len(all); n > 0 && all[n-1].unit == "" {
			last = &all[n-1]
		}
		word := s[:max(1, letters(s))]
		switch _, unit := yarnUnitOf(word); {
		case digitAt(s, 0) || s[0] == '.' && digitAt(s, 1):
			v, rest, err := readFigure(s)
			if err != nil {
				return nil, err
			}
			// 1 3/4: a whole number and its fraction.
			if last != nil && !last.by && v < 1 && last.value == math.Trunc(last.value) {
				last.value += v
			} else {
				all = append(all, amount{value: v})
			}
			s = rest
			continue
		case (word == "x" || word == "by") && len(all) > 0:
			all[len(all)-1].by = true
		case unit && last != nil:
			last.unit = word
		case unit, letters(s) > 0:
			if !slices.Contains(fillers, word) {
				return nil, fmt.Errorf("%.80q is no unit of yarn", word)
			}
		case s[0] == '-' && digitAt(s, 1) && (len(all) == 0 || last != nil):
			return nil, fmt.Errorf("%.80q is below 0", s)
		case s[0] < utf8.RuneSelf && !strings.Contains(" \t/,;:=|()-+.~*", word): // between amounts, dashes and signs beyond ASCII too
			return nil, fmt.Errorf("%.80q is not understood", word)
		}
		s = s[len(word):]
	}
	return all, nil
}

// readFigure reads a number at the front: 50, 1.75, 1,75, 1,000 or 3/4.
func readFigure(s string) (v float64, rest string, err error) {
	end := 0
	for digitAt(s, end) || strings.IndexAny(s[end:], ".,") == 0 && digitAt(s, end+1) {
		end++
	}
	text, rest := s[:end], s[end:]
	if whole, part, ok := strings.Cut(text, ","); ok && len(part) == 3 && whole != "0" && !strings.Contains(text, ".") {
		text = whole + part // 1,000
	}
	if v, err = strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64); err != nil || v > mostOfYarn {
		return v, rest, fmt.Errorf("%.80q is not a number", s[:end])
	}
	below, fraction := strings.CutPrefix(rest, "/")
	if !fraction || !digitAt(below, 0) || below[0] == '0' {
		return v, rest, nil
	}
	of, rest, err := readFigure(below)
	return v / of, rest, err
}

// mostOfYarn is more than any figure of yarn.
const mostOfYarn = 1e6

// agreeing is how far two ways to write an amount may differ: both are rounded.
const agreeing = 0.03

// ballHelp shows how a ball is written.
const ballHelp = "write what a ball weighs and how long it is, such as 50 g / 125 m or 100g 220yd"

// ParseBall reads yarn as it is sold, the weight and the length of a ball, in any usual
// way: "50 g / 125 m", "100g 220yd", "1.75 oz, 137 yd", "50g=125m".
func ParseBall(s string) (stitch.Ball, error) {
	bad := func(format string, args ...any) (stitch.Ball, error) {
		return stitch.Ball{}, fmt.Errorf("yarn %.80q: %s; %s", s, fmt.Sprintf(format, args...), ballHelp)
	}
	all, err := amounts(s)
	if err != nil {
		return bad("%v", err)
	}
	got := make(map[string]float64)
	for _, a := range all {
		u, known := yarnUnitOf(a.unit)
		switch v := a.value * u.of; {
		case !known:
			return bad("%g has no unit", a.value)
		case u.kind == "cm":
			return bad("%g %s is no length of a ball", a.value, a.unit)
		case got[u.kind] == 0:
			got[u.kind] = v
		case math.Abs(v-got[u.kind]) > agreeing*got[u.kind]:
			return bad("%g %s and %.4g %s do not agree", a.value, a.unit, got[u.kind], u.kind)
		}
	}
	b := stitch.Ball{Grams: got["g"], Metres: got["m"]}
	switch {
	case b.Grams == 0 && b.Metres == 0:
		return bad("weight and length are missing")
	case b.Grams == 0:
		return bad("the weight is missing")
	case b.Metres == 0:
		return bad("the length is missing")
	case b.Grams < 1 || b.Grams > 1e4 || b.Metres < 1 || b.Metres > 1e5:
		return bad("no ball is of %.0f g and %.0f m", b.Grams, b.Metres)
	}
	return b, nil
}

// swatchHelp shows how a swatch is written.
const swatchHelp = "write its size and its weight or length of yarn, such as 10x10cm 4g"

// ParseSwatch reads a swatch that was weighed, "10x10cm 4g" or "4 x 4 in, 0.15 oz", or
// measured, "10x10cm 9.5m".
func ParseSwatch(s string) (stitch.YarnSwatch, error) {
	bad := func(format string, args ...any) (stitch.YarnSwatch, error) {
		return stitch.YarnSwatch{}, fmt.Errorf("swatch %.80q: %s; %s", s, fmt.Sprintf(format, args...), swatchHelp)
	}
	all, err := amounts(s)
	if err != nil {
		return bad("%v", err)
	}
	var y stitch.YarnSwatch
	var sides []float64
	for i, a := range all {
		if a.unit == "" && a.by && i+1 < len(all) {
			a.unit = all[i+1].unit
		}
		u, known := yarnUnitOf(a.unit)
		v := a.value * u.of
		switch {
		case !known:
			return bad("%g has no unit", a.value)
		case u.kind == "cm":
			sides = append(sides, v)
		case u.kind == "g" && y.Grams == 0:
			y.Grams = v
		case u.kind == "m" && y.Metres == 0:
			y.Metres = v
		default:
			return bad("%g %s is one amount too many", a.value, a.unit)
		}
	}
	switch {
	case len(sides) != 2 || sides[0] <= 0 || sides[1] <= 0:
		return bad("its width and height are missing")
	case y.Grams+y.Metres <= 0:
		return bad("its weight is missing")
	}
	y.WidthCm, y.HeightCm = sides[0], sides[1]
	return y, nil
}
