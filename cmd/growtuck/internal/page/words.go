package page

import (
	"errors"
	"strings"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing/plan"
)

// noPlan says why a garment cannot be planned, with names in the place of ids.
func (s *site) noPlan(garment string, err error) string {
	var unmeasured *plan.UnmeasuredError
	if errors.As(err, &unmeasured) {
		if m, err := s.engine.Reference.Measurement(unmeasured.Part.Measurement); err == nil {
			return tell.Style{Place: tell.Page}.Unmeasured(unmeasured.Part, m)
		}
	}
	return strings.TrimPrefix(err.Error(), garment+": ")
}

// words puts inches beside the centimetres of a text, for a tape in inches.
func (s shower) words(text string) string {
	if s.inches() {
		return tell.WithInches(text)
	}
	return text
}

// inWords is the unit of a tape as a word.
func inWords(unit string) string {
	if unit == "in" {
		return "inches"
	}
	return unit
}
