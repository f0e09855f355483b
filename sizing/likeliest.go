package sizing

import (
	"slices"
	"strconv"
	"strings"
)

// sayLittle are words and signs that people write round a figure, and that say
// nothing a reader of numbers can use.
var sayLittle = []string{"ca.", "ca", "c.", "circa", "approximately", "approx.", "approx", "about", "around", "roughly", "nearly", "almost", "estimated", "est.", "est",
	"maybe", "or so", "ish", "plus", "old", "~", "≈", "±", "?", "!", "<", ">", "=", "*", "+", "(", ")", "[", "]", ":", ";", "_", "'", `"`, ",", ".", "-"}

// notTaken is what people write where there is no figure.
var notTaken = []string{"-", "--", "?", ".", "n/a", "na", "none", "nil", "null", "unknown", "not taken", "not measured"}

// likeliest is what a text that is not read was most likely meant to be, as a text
// that is read; "" where nothing is likely.
func likeliest(s string, reads func(string) bool) string {
	t := strings.Join(strings.Fields(PlainFigures(s)), " ")
	if slices.Contains(notTaken, strings.ToLower(t)) {
		return "nothing where it was not taken"
	}
	if len(t) > 2*longestFigure || !strings.ContainsAny(t, "0123456789") {
		return ""
	}
	for _, change := range []func(string) string{letters, bare, exponent, thousands, blank, middle} {
		if meant := change(t); meant != t && meant != "" && reads(meant) {
			return meant
		}
		if meant := strings.TrimSpace(change(bare(t))); meant != "" && reads(meant) {
			return meant
		}
	}
	return ""
}

// bare leaves out what says little before a figure and after it, and any word
// before.
func bare(t string) string {
	t = t[strings.IndexAny(t, "0123456789"):]
	if i := strings.IndexByte(t, '('); i > 0 {
		t = t[:i] // a remark
	}
	for again := true; again; {
		again = false
		for _, word := range sayLittle {
			if rest, ok := strings.CutSuffix(strings.ToLower(t), word); ok && rest != "" {
				t, again = strings.TrimSpace(t[:len(rest)]), true
			}
		}
	}
	return t
}

// letters makes digits of the letters that are typed for them.
func letters(t string) string {
	b := []byte(t)
	for i, c := range b {
		digit := map[byte]byte{'O': '0', 'o': '0', 'l': '1', 'I': '1', '|': '1'}[c]
		if digit != 0 && (i > 0 && ofFigure(b[i-1]) || i+1 < len(b) && ofFigure(b[i+1])) {
			b[i] = digit
		}
	}
	return string(b)
}

func ofFigure(c byte) bool { return isDigit(c) || c == '.' || c == ',' }

// exponent writes 1.1e2 out.
func exponent(t string) string {
	if !strings.ContainsAny(t, "eE") || strings.Trim(t, "0123456789.eE+-") != "" {
		return ""
	}
	v, err := strconv.ParseFloat(t, 64)
	if err != nil || v > mostMeasured {
		return ""
	}
	return FormatExact(v)
}

// thousands leaves out what stands between thousands: 1.105,5 and 1,105.5 and
// 1 105.5 are 1105.5.
func thousands(t string) string {
	t = strings.NewReplacer("_", "", "'", "").Replace(t)
	if i := strings.IndexByte(t, ' '); i > 0 && i+3 < len(t) && isDigit(t[i-1]) && isDigit(t[i+1]) && isDigit(t[i+2]) && isDigit(t[i+3]) {
		t = t[:i] + t[i+1:]
	}
	point, comma := strings.LastIndexByte(t, '.'), strings.LastIndexByte(t, ',')
	switch {
	case point >= 0 && comma > point:
		return strings.Replace(strings.ReplaceAll(t, ".", ""), ",", ".", 1)
	case comma >= 0 && point > comma:
		return strings.ReplaceAll(t, ",", "")
	}
	return t
}

// blank writes 43+1/2 as 43 1/2.
func blank(t string) string { return strings.ReplaceAll(t, "+", " ") }

// middle is what lies between the two figures of a range.
func middle(t string) string {
	low, rest, ok := strings.Cut(strings.ReplaceAll(t, " to ", "-"), "-")
	if !ok {
		return ""
	}
	end := figureEnd(strings.TrimSpace(rest))
	high, after := strings.TrimSpace(rest)[:end], strings.TrimSpace(rest)[end:]
	a, err1 := parseDigitsOrFraction(low)
	b, err2 := parseDigitsOrFraction(high)
	if err1 != nil || err2 != nil || !(a < b) || b > 2*a {
		return ""
	}
	return FormatExact((a+b)/2) + after
}
