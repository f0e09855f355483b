package page

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"sync"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// The names of the groups that the words below send a maker to.
const (
	measuresName = tell.PageMeasures
	sizesName    = tell.PageSizes
)

// A swap is words and what stands in their place.
type swap struct {
	words *regexp.Regexp
	here  string
}

// elsewhere are words of plans that speak of a command's options, and what is
// done on the page instead.
var elsewhere = sync.OnceValue(func() []swap {
	return []swap{
		{regexp.MustCompile(`measure it$`), "measure it and enter it at " + measuresName},
		{regexp.MustCompile(`name sizes`), "name a size at " + sizesName},
		{regexp.MustCompile(` of chart child\b`), " of the chart"},
	}
})

// onPage says on the maker's page what was said for a draft or a command.
func onPage(text string) string {
	for _, x := range elsewhere() {
		text = x.words.ReplaceAllString(text, x.here)
	}
	return text
}

// noBody says why nothing can be estimated, with units.
func noBody(err error) string {
	var r *sizing.RangeError
	text := err.Error()
	if errors.As(err, &r) && r.What == "height" {
		text = strings.Replace(text, r.Error(), fmt.Sprintf("a height of %.4g cm is outside %s, which has %.4g to %.4g cm; nothing is extrapolated", r.Value, r.Where, r.Low, r.High), 1)
	}
	return onPage(text)
}

// noPlan says why a garment cannot be planned, with names in the place of ids.
func (s *site) noPlan(garment string, err error) string {
	var unknown *plan.UnmeasuredError
	if errors.As(err, &unknown) {
		if m, err := s.engine.Reference.Measurement(unknown.Part.Measurement); err == nil {
			return unknown.Part.Name + " cannot be planned: the " + m.Name + " is not known; measure it and enter it at " + measuresName
		}
	}
	return onPage(strings.TrimPrefix(err.Error(), garment+": "))
}

// words puts inches beside the centimetres of a text, for a tape in inches.
func (s shower) words(text string) string {
	if s.inches() {
		return sizing.WithInches(text)
	}
	return text
}

func (s shower) wordsOf(texts []string) []string {
	var all []string
	for _, t := range texts {
		all = append(all, s.words(t))
	}
	return all
}

// inWords is the unit of a tape as a word.
func inWords(unit string) string {
	if unit == "in" {
		return "inches"
	}
	return unit
}
