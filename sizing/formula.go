package sizing

import (
	"fmt"
	"strconv"
	"strings"
)

// A term of a derivation: factor × the column of a chart, for one sex or for
// whichever is asked for. Where it names a measure, the column is read where its
// own chart has the same figure of that measurement as the chart of the measure:
// "measured.thigh@child.chest" is the thigh of children with the size's chest.
type term struct {
	factor             float64
	chart, measurement string
	sex                Sex // "" for whichever is asked for
	measureChart       string
	measure            string // a measurement; "" where the column is read at the same place or height
}

var termForm = form(`^(?:([0-9.]+) ?\* ?)?([a-z][a-z0-9-]*)\.([a-z][a-z0-9_]*)(?:\[(m|f|both)\])?(?:@([a-z][a-z0-9-]*)\.([a-z][a-z0-9_]*))?$`)

// parseFormula reads a sum of terms such as
// "0.97*measured.height - 0.97*measured.sitting_height", or "measured.thigh@child.chest".
func parseFormula(s string) ([]term, error) {
	var terms []term
	sign := 1.0
	for i, word := range splitSigns(s) {
		if i%2 == 1 {
			sign = 1
			if word == "-" {
				sign = -1
			}
			continue
		}
		m := termForm().FindStringSubmatch(word)
		if m == nil {
			return nil, fmt.Errorf("%.80q is not a term; write factor*chart.measurement", word)
		}
		factor := 1.0
		if m[1] != "" {
			var err error
			if factor, err = strconv.ParseFloat(m[1], 64); err != nil {
				return nil, fmt.Errorf("%.80q is not a factor", m[1])
			}
		}
		terms = append(terms, term{sign * factor, m[2], m[3], Sex(m[4]), m[5], m[6]})
	}
	return terms, nil
}

// splitSigns splits at " + " and " - ", keeping the signs as words of their
// own; a hyphen inside an id has no space around it.
func splitSigns(s string) []string {
	var words []string
	for {
		plus, minus := strings.Index(s, " + "), strings.Index(s, " - ")
		i := plus
		if plus < 0 || minus >= 0 && minus < plus {
			i = minus
		}
		if i < 0 {
			return append(words, s)
		}
		words = append(words, s[:i], s[i+1:i+2])
		s = s[i+3:]
	}
}
