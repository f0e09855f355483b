package tell

import (
	"regexp"
	"strings"
	"sync"
)

// inCm finds lengths in centimetres, and ranges of them, in a text.
var inCm = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(\d+(?:\.\d+)?)(?:( to |–| and | or )(\d+(?:\.\d+)?))? cm\b`)
})

// WithInches puts inches, to a tenth, behind every length in centimetres in a
// text: "14.2 cm (5.6 in)", "2.5 to 5 cm (1 to 2 in)". A length with a bracket
// behind it, or in brackets itself, stays as it is: it has its inches.
func WithInches(text string) string {
	var out strings.Builder
	end := 0
	for _, m := range inCm().FindAllStringSubmatchIndex(text, -1) {
		out.WriteString(text[end:m[1]])
		end = m[1]
		before, after := text[:m[0]], text[end:]
		if strings.HasPrefix(after, " (") || strings.HasPrefix(after, "²") || strings.HasSuffix(before, "(") && strings.HasPrefix(after, ")") {
			continue
		}
		out.WriteString(" (")
		if m[4] >= 0 {
			out.WriteString(inchTenths(text[m[2]:m[3]]) + text[m[4]:m[5]] + inchTenths(text[m[6]:m[7]]))
		} else {
			out.WriteString(inchTenths(text[m[2]:m[3]]))
		}
		out.WriteString(" in)")
	}
	return out.String() + text[end:]
}
