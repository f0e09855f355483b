package validate

import (
	"math"
	"strconv"
	"strings"
)

// What slips cost: the likelier, the less. They are this program's judgement, on
// the scale of a logarithm of likelihood, as is the misfit that they are added to.
const (
	costTogether  = 0.5 // two rows changed places, or a unit for both gauges
	costDoubled   = 0.8
	costUnit      = 0.8
	costExchanged = 1
	costPoint     = 1.5
	costMiscount  = 1.6 // by one; by two it is costDigit
	costMissing   = 2   // a row was forgotten
	costDigit     = 2.5
	costWord      = 3 // another word of the list than was meant
	costRemedy    = 4 // no slip of the hand: another value altogether
	bonusOfRemedy = 1 // a slip of the hand and what a rule asks for
)

// A variant is another text for a cell, and the slip by which it became the one
// that is there.
type variant struct {
	text, kind string
	cost       float64
}

// numberVariants are the numbers from which one slip of the hand leads to a text.
func numberVariants(text string) []variant {
	var all []variant
	seen := map[string]bool{text: true}
	add := func(kind string, cost float64, to string) {
		if !seen[to] && to != "" {
			seen[to] = true
			all = append(all, variant{to, kind, cost})
		}
	}
	for i := 0; i+1 < len(text); i++ {
		if isDigit(text[i]) && isDigit(text[i+1]) {
			add("digits-exchanged", costExchanged, text[:i]+string(text[i+1])+string(text[i])+text[i+2:])
		}
	}
	for i := range len(text) {
		doubled := i > 0 && text[i] == text[i-1]
		switch {
		case doubled:
			add("digit-doubled", costDoubled, text[:i]+text[i+1:])
		case !isDigit(text[i]) && text[i] != '.' && text[i] != ',' && text[i] != ' ' && text[i] != '/':
			add("sign", costDoubled, text[:i]+text[i+1:])
		}
	}
	if v, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64); err == nil {
		for _, shift := range []float64{10, 0.1, 100, 0.01} {
			add("point", costPoint, strconv.FormatFloat(round(v*shift, 6), 'f', -1, 64))
		}
	}
	for i := range len(text) {
		if text[i] == '.' || text[i] == ',' {
			for _, to := range []int{i - 1, i + 1} {
				if rest := text[:i] + text[i+1:]; to > 0 && to < len(rest) {
					add("point", costPoint, rest[:to]+"."+rest[to:])
				}
			}
		}
	}
	if n, err := strconv.Atoi(text); err == nil {
		for _, by := range []int{1, 2} {
			for _, to := range []int{n + by, n - by} {
				if to > 0 {
					add("miscounted", []float64{costMiscount, costDigit}[by-1], strconv.Itoa(to))
				}
			}
		}
	}
	for i := range len(text) {
		if !isDigit(text[i]) {
			continue
		}
		for d := byte('0'); d <= '9'; d++ {
			add("digit-wrong", costDigit, text[:i]+string(d)+text[i+1:])
		}
		add("digit-too-many", costDigit, text[:i]+text[i+1:])
	}
	for i := range len(text) + 1 {
		for d := byte('0'); d <= '9'; d++ {
			kind, cost := "digit-missing", costDigit
			if i > 0 && text[i-1] == d || i < len(text) && text[i] == d {
				cost = costPoint // one of two alike is easily left out
			}
			add(kind, cost, text[:i]+string(d)+text[i:])
		}
	}
	return all
}

// letters are typed for digits, and signs for the point of a decimal.
var letters = strings.NewReplacer("O", "0", "o", "0", "l", "1", "I", "1", "S", "5", "B", "8", ";", ".", ":", ".", "..", ".", ",,", ".")

// textVariants are readings of a text that is no number.
func textVariants(text string) []variant {
	all := []variant{{letters.Replace(text), "letter", costUnit}}
	digits := strings.TrimFunc(text, func(r rune) bool { return r < '0' || r > '9' })
	if digits != text && digits != "" {
		all = append(all, variant{digits, "sign", costUnit})
	}
	return append(all, numberVariants(text)...)
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// round rounds to so many decimals.
func round(v float64, decimals int) float64 {
	unit := math.Pow10(decimals)
	return math.Round(v*unit) / unit
}
