package sizing

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// fractions are the letters that are fractions.
var fractions = map[rune]string{
	'¼': "1/4", '½': "1/2", '¾': "3/4", '⅓': "1/3", '⅔': "2/3", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8",
	'⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5", '⅙': "1/6", '⅚': "5/6", '⅐': "1/7", '⅑': "1/9", '⅒': "1/10",
}

// plainSigns are signs that look like a plain one, and that one.
var plainSigns = map[rune]string{
	'⁄': "/", '∕': "/", '٫': ".", '،': ",", '、': ",", '×': "x", '＋': "+",
	'‐': "-", '‑': "-", '‒': "-", '–': "-", '—': "-", '−': "-", '﹣': "-",
	'′': "'", '’': "'", '‘': "'", '´': "'", '`': "'", 'ʹ': "'",
	'″': `"`, '”': `"`, '“': `"`, '„': `"`, 'ʺ': `"`,
	'㎝': "cm", '㎜': "mm", '㎏': "kg", '٬': "", // between thousands
}

const raised = "⁰¹²³⁴⁵⁶⁷⁸⁹"

// PlainFigures writes the figures of a text, and the signs around them, as the readers
// of numbers know them: digits of every script as 0 to 9, ½ and 1⁄2 as 1/2, and the
// many dashes, blanks and quotation marks as - and ' and ".
func PlainFigures(s string) string {
	if isASCII(s) {
		return s
	}
	var out strings.Builder
	digit := false // the letter before is one of full size
	for _, r := range s {
		plain, small := plainFigure(r)
		if small && digit {
			out.WriteByte(' ') // 4½ is 4 1/2
		}
		out.WriteString(plain)
		digit = !small && len(plain) == 1 && plain[0] >= '0' && plain[0] <= '9'
	}
	return out.String()
}

func isASCII(s string) bool {
	for i := range len(s) {
		if s[i] >= 0x80 {
			return false
		}
	}
	return true
}

// plainFigure is a letter in plain ones; small says that it is a fraction, or a
// raised digit that begins one.
func plainFigure(r rune) (plain string, small bool) {
	if r < 0x80 {
		return string(r), false
	}
	if f, ok := fractions[r]; ok {
		return f, true
	}
	if p, ok := plainSigns[r]; ok {
		return p, false
	}
	switch {
	case r >= '！' && r <= '～': // of full width
		return string(r - '！' + '!'), false
	case strings.ContainsRune(raised, r):
		return strconv.Itoa(slices.Index([]rune(raised), r)), true
	case r >= '₀' && r <= '₉':
		return string(r - '₀' + '0'), false
	case unicode.IsSpace(r):
		return " ", false
	case unicode.Is(unicode.Cf, r): // which way it is written
		return "", false
	case unicode.IsDigit(r):
		return digit(r), false
	}
	return string(r), false
}

// digit is a decimal digit of any script: each script has its ten in order.
func digit(r rune) string {
	for _, t := range unicode.Nd.R16 {
		if r >= rune(t.Lo) && r <= rune(t.Hi) {
			return string('0' + (r-rune(t.Lo))%10)
		}
	}
	for _, t := range unicode.Nd.R32 {
		if r >= rune(t.Lo) && r <= rune(t.Hi) {
			return string('0' + (r-rune(t.Lo))%10)
		}
	}
	return string(r)
}
