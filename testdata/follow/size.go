package follow

import (
	"regexp"
	"strings"
)

// A size that has none has a dash.
const number = `(?:\d[\d.½¼¾]*(?:st|nd|rd|th)?|–)`

var brackets = regexp.MustCompile(`(` + number + `) \((` + number + `(?:, ` + number + `)*)\)`)

// OfSize is a text for several sizes as one of them reads it: of "58 (62, 66) sc" the
// number of its place. Brackets that do not hold a number for each other size are
// something else.
func OfSize(text string, size, sizes int) string {
	return brackets.ReplaceAllStringFunc(text, func(all string) string {
		m := brackets.FindStringSubmatch(all)
		rest := strings.Split(m[2], ", ")
		if len(rest) != sizes-1 {
			return all
		}
		return append([]string{m[1]}, rest...)[size]
	})
}
