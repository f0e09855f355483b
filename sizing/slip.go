package sizing

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// A Slip is how a value may have come to be wrong.
type Slip string

// The slips that are looked for.
const (
	SlipTenth       Slip = "tenth"       // the value is a tenth of what was said, or a hundredth
	SlipTenTimes    Slip = "ten-times"   // it is ten times that
	SlipInches      Slip = "inches"      // what was said is in inches
	SlipFeet        Slip = "feet"        // in feet
	SlipMetres      Slip = "metres"      // in metres
	SlipMillimetres Slip = "millimetres" // in millimetres
	SlipCentimetres Slip = "centimetres" // in centimetres, and was read as inches
	SlipPounds      Slip = "pounds"      // in pounds
	SlipKilograms   Slip = "kilograms"   // in kilograms, and was read as pounds
	SlipGrams       Slip = "grams"       // in grams
	SlipMonths      Slip = "months"      // in months
	SlipYears       Slip = "years"       // in years, and was read as months
	SlipSwapped     Slip = "swapped"     // two values changed places
	SlipDigits      Slip = "digits"      // two digits changed places
	SlipUsual       Slip = "usual"       // none of these: it is what is usual with the rest
)

const cmPerFoot = 12 * CmPerInch

// lengthSlips, massSlips and ageSlips are by what a value is multiplied where a
// slip was made.
var (
	lengthSlips = []factorSlip{{SlipTenth, 0.1, 0}, {SlipTenTimes, 10, 0}, {SlipTenth, 0.01, 1}, {SlipInches, CmPerInch, 0}, {SlipMetres, 100, 0}, {SlipFeet, cmPerFoot, 0}, {SlipCentimetres, 1 / CmPerInch, rarer}}
	massSlips   = []factorSlip{{SlipPounds, KgPerPound, -commoner}, {SlipGrams, 0.001, 0}, {SlipTenth, 0.1, 0}, {SlipTenTimes, 10, 0}, {SlipKilograms, 1 / KgPerPound, rarer}}
	ageSlips    = []factorSlip{{SlipMonths, 1. / 12, 0}, {SlipYears, 12, rarer}}
	wholeSlips  = []factorSlip{{SlipInches, CmPerInch, 0}, {SlipMillimetres, 0.1, 0}, {SlipMetres, 100, 0}, {SlipCentimetres, 1 / CmPerInch, rarer}}
)

type factorSlip struct {
	slip   Slip
	factor float64
	price  float64 // over that of others
}

// rarer is what slips cost more that an unlikely value needs: that somebody chose a
// unit and used another.
const rarer = 3

// commoner is what pounds for kilograms cost less: scales show either.
const commoner = 1.5

// What a slip costs: minus the logarithm of how likely it is, about, beside a
// value that is right.
const (
	costOfSlip   = 5
	costOfSwap   = 7
	costOfWhole  = 6 // all lengths have it
	costOfDigits = 9
	costOfAge    = 8.5 // an age that is wrong for no reason that is known
	costOfOther  = 10  // another value
)

// A reading of what is said is another that may have been meant.
type rereading struct {
	slip    Slip // "" where a value is wrong for no reason that is known
	price   float64
	changes []change
}

// about reports whether two rereadings change the same.
func (r *rereading) about(other *rereading) bool {
	return slices.EqualFunc(r.changes, other.changes, func(a, b change) bool { return a.number == b.number })
}

// leastGain is what a measurement must stand out by to be read in another way.
const leastGain = 1

// rereadings are all that may have been meant in place of what is said. What was
// settled before stays, and so does what does not stand out; gains says by how much
// each of the fields does.
func (l *likeness) rereadings(s *said, settled []int, gains []float64) []rereading {
	var all []rereading
	numbers := l.given(s, settled)
	standsOut := func(m int) bool {
		i := slices.Index(s.fields, m)
		return i < 0 || i >= len(gains) || gains[i] >= leastGain
	}
	for i, m := range numbers {
		if !standsOut(m) {
			continue
		}
		log := l.get(s, m)
		for _, n := range numbers[:i] {
			if standsOut(n) {
				all = append(all, rereading{SlipSwapped, costOfSwap, []change{{n, log}, {m, l.get(s, n)}}})
			}
		}
		all = append(all, l.ofOne(m, log)...)
	}
	lengths := slices.DeleteFunc(numbers, func(m int) bool { return m == ageNumber || l.fields[m].weight })
	if len(lengths) > 1 {
		for _, f := range wholeSlips {
			whole := rereading{slip: f.slip, price: costOfWhole + f.price}
			for _, m := range lengths {
				whole.changes = append(whole.changes, change{m, l.get(s, m) + math.Log(f.factor)})
			}
			all = append(all, whole)
		}
	}
	return all
}

// ofOne are what may have been meant by one value.
func (l *likeness) ofOne(m int, log float64) []rereading {
	var all []rereading
	for _, f := range l.slipsOf(m) {
		all = append(all, rereading{f.slip, costOfSlip + f.price, []change{{m, log + math.Log(f.factor)}}})
	}
	price := float64(costOfAge)
	if m != ageNumber {
		price = costOfOther
		for _, v := range transposed(math.Exp(log)) {
			all = append(all, rereading{SlipDigits, costOfDigits, []change{{m, math.Log(v)}}})
		}
	}
	return append(all, rereading{"", price, []change{{m, math.NaN()}}})
}

func (l *likeness) slipsOf(number int) []factorSlip {
	switch {
	case number == ageNumber:
		return ageSlips
	case l.fields[number].weight:
		return massSlips
	}
	return lengthSlips
}

// transposed are a value with two digits beside each other exchanged, in each way
// that there is. One that is not written in a few digits has none.
func transposed(v float64) []float64 {
	text := strconv.FormatFloat(v, 'g', 12, 64)
	v, err := strconv.ParseFloat(text, 64) // a logarithm is not exact
	text = strconv.FormatFloat(v, 'f', -1, 64)
	if whole, decimals, _ := strings.Cut(text, "."); err != nil || len(whole) > 4 || len(decimals) > 1 {
		return nil
	}
	var all []float64
	for i := 0; i+1 < len(text); i++ {
		j := i + 1
		if text[j] == '.' {
			j++
		}
		if text[i] == '.' || text[i] == text[j] {
			continue
		}
		b := []byte(text)
		b[i], b[j] = b[j], b[i]
		if w, err := strconv.ParseFloat(string(b), 64); err == nil && w > 0 && b[0] != '0' {
			all = append(all, w)
		}
	}
	return all
}
