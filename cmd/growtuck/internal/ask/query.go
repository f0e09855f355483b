package ask

import (
	"fmt"
	"maps"
	"net/url"
	"slices"
	"strings"

	"growtuck/sizing"
)

// mostValues is how many values a parameter takes, those of a list among them: a
// short address must not ask for hours of work.
const mostValues = 100

// FromQuery turns the parameters of an address into what was given for the fields.
func FromQuery(fields []Field, query url.Values) (Values, Faults) {
	values := make(Values)
	var faults Faults
	for _, name := range slices.Sorted(maps.Keys(query)) {
		fault := func(format string, args ...any) {
			faults = append(faults, &Fault{Field: name, Err: fmt.Errorf(format, args...)})
		}
		f, known := Lookup(fields, name)
		said := query[name]
		repeats := f.Many || f.Kind == List
		n := len(said)
		if repeats {
			n += strings.Count(strings.Join(said, ""), ",")
		}
		switch {
		case n > mostValues:
			fault("%s has %d values; want at most %d", name, n, mostValues)
		case !known:
			faults = append(faults, &Fault{Field: name, Err: &sizing.UnknownError{Kind: "parameter", Name: name, Nearest: sizing.Nearest(name, Names(fields)), Known: Names(fields)}})
		case len(said) > 1 && !repeats:
			fault("%s is given %d times", name, len(said))
		default:
			for _, text := range said {
				values.Add(name, text)
			}
		}
	}
	for _, f := range fields {
		if f.Required && strings.Join(query[f.Name], "") == "" {
			faults = append(faults, &Fault{Field: f.Name, Err: fmt.Errorf("%s is missing: %s", f.Name, f.Help)})
		}
	}
	return values, faults
}
