package sizing

import (
	"fmt"
	"slices"
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
		t, err := parseTerm(word)
		if err != nil {
			return nil, err
		}
		t.factor *= sign
		terms = append(terms, t)
	}
	return terms, nil
}

// parseTerm reads a term; whether there are such charts and measurements is for others
// to say. Every look-up reads all formulas: a regular expression takes ten times as long.
func parseTerm(word string) (term, error) {
	t := term{factor: 1}
	rest := word
	if factor, column, ok := strings.Cut(word, "*"); ok {
		var err error
		factor = strings.TrimSuffix(factor, " ")
		if t.factor, err = strconv.ParseFloat(factor, 64); err != nil || strings.Trim(factor, "0123456789.") != "" {
			return t, fmt.Errorf("%.80q is not a factor", factor)
		}
		rest = strings.TrimPrefix(column, " ")
	}
	rest, by, measured := strings.Cut(rest, "@")
	rest, sex, ofSex := strings.Cut(rest, "[")
	var ok, okBy bool
	t.chart, t.measurement, ok = strings.Cut(rest, ".")
	t.measureChart, t.measure, okBy = strings.Cut(by, ".")
	t.sex = Sex(strings.TrimSuffix(sex, "]"))
	if !ok || measured && !okBy || ofSex && (!strings.HasSuffix(sex, "]") || !slices.Contains(sexes, t.sex)) || strings.ContainsAny(rest+by, " []*@") {
		return t, fmt.Errorf("%.80q is not a term; write factor*chart.measurement", word)
	}
	return t, nil
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
