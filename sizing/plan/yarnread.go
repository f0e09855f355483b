package plan

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// An amount is a number with its unit, as it was written.
type amount struct {
	value float64
	unit  string // "" where there was none
	by    bool   // an x follows: 10 x 10 cm
}

// yarnUnits are the units of yarn and swatches: what they measure, and in terms of g,
// m or cm.
var yarnUnits = map[string]struct {
	kind string
	of   float64
}{
	"g": {"g", 1}, "gr": {"g", 1}, "gm": {"g", 1}, "gms": {"g", 1}, "gram": {"g", 1}, "grams": {"g", 1}, "gramme": {"g", 1}, "grammes": {"g", 1},
	"kg": {"g", 1000}, "oz": {"g", 28.349523125}, "ozs": {"g", 28.349523125}, "ounce": {"g", 28.349523125}, "ounces": {"g", 28.349523125},
	"lb": {"g", 453.59237}, "lbs": {"g", 453.59237}, "pound": {"g", 453.59237}, "pounds": {"g", 453.59237},
	"m": {"m", 1}, "mt": {"m", 1}, "mtr": {"m", 1}, "mtrs": {"m", 1}, "metre": {"m", 1}, "metres": {"m", 1}, "meter": {"m", 1}, "meters": {"m", 1},
	"yd": {"m", 0.9144}, "yds": {"m", 0.9144}, "yard": {"m", 0.9144}, "yards": {"m", 0.9144},
	"cm": {"cm", 1}, "mm": {"cm", 0.1}, "in": {"cm", 2.54}, "inch": {"cm", 2.54}, "inches": {"cm", 2.54}, `"`: {"cm", 2.54},
}

// fillers are words of a ball's band that say nothing here.
var fillers = map[string]bool{"per": true, "a": true, "an": true, "the": true, "of": true, "is": true, "to": true, "and": true, "each": true, "ball": true, "skein": true, "hank": true, "cone": true,
	"approx": true, "approximately": true, "about": true, "ca": true, "circa": true, "net": true, "wt": true, "weight": true, "weighs": true, "length": true}

// amounts reads the numbers of a text with their units: 50 g / 125 m, 1¾ oz, 10 x 10 cm.
func amounts(s string) ([]amount, error) {
	var all []amount
	s = strings.ToLower(sizing.PlainFigures(s))
	for s != "" {
		switch c := s[0]; {
		case c >= '0' && c <= '9' || c == '.' && len(s) > 1 && s[1] >= '0' && s[1] <= '9':
			v, rest, err := readFigure(s)
			if err != nil {
				return nil, err
			}
			// 1 3/4: a whole number and its fraction.
			if n := len(all); n > 0 && all[n-1].unit == "" && !all[n-1].by && v < 1 && all[n-1].value == math.Trunc(all[n-1].value) {
				all[n-1].value += v
			} else {
				all = append(all, amount{value: v})
			}
			s = rest
		case c >= 'a' && c <= 'z' || c == '"':
			end := 1
			for c != '"' && end < len(s) && s[end] >= 'a' && s[end] <= 'z' {
				end++
			}
			word, n := s[:end], len(all)
			_, unit := yarnUnits[word]
			switch {
			case (word == "x" || word == "by") && n > 0:
				all[n-1].by = true
			case unit && n > 0 && all[n-1].unit == "":
				all[n-1].unit = word
			case !fillers[word]:
				return nil, fmt.Errorf("%.80q is no unit of yarn", word)
			}
			s = s[end:]
		case c == '-' && len(s) > 1 && s[1] >= '0' && s[1] <= '9' && (len(all) == 0 || all[len(all)-1].unit == ""):
			return nil, fmt.Errorf("%.80q is below 0", s)
		case c < 0x80 && !strings.ContainsRune(" \t/,;:=|()-+.~*", rune(c)):
			return nil, fmt.Errorf("%.80q is not understood", string(rune(c)))
		default: // what stands between them, dashes and signs beyond ASCII too
			s = s[1:]
		}
	}
	return all, nil
}

// readFigure reads a number at the front: 50, 1.75, 1,75, 1,000 or 3/4.
func readFigure(s string) (float64, string, error) {
	end := 0
	isDigit := func(i int) bool { return i < len(s) && s[i] >= '0' && s[i] <= '9' }
	for isDigit(end) || end < len(s) && (s[end] == '.' || s[end] == ',') && isDigit(end+1) {
		end++
	}
	text := s[:end]
	if whole, part, ok := strings.Cut(text, ","); ok && len(part) == 3 && whole != "0" && !strings.Contains(text, ".") {
		text = whole + part // 1,000
	}
	v, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if err != nil || v > 1e6 {
		return 0, "", fmt.Errorf("%.80q is not a number", s[:end])
	}
	if s = s[end:]; len(s) > 1 && s[0] == '/' && s[1] >= '1' && s[1] <= '9' {
		below, rest, err := readFigure(s[1:])
		if err != nil {
			return 0, "", err
		}
		return v / below, rest, nil
	}
	return v, s, nil
}

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
		u, known := yarnUnits[a.unit]
		switch v := a.value * u.of; {
		case !known:
			return bad("%g has no unit", a.value)
		case u.kind == "cm":
			return bad("%g %s is no length of a ball", a.value, a.unit)
		case got[u.kind] == 0:
			got[u.kind] = v
		case math.Abs(v/got[u.kind]-1) > agreeing:
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
		u, known := yarnUnits[a.unit]
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
