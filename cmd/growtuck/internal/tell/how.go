package tell

import (
	"strings"

	"growtuck/sizing"
)

// howAtSize says in a few words how a reading at a size of the chart was got.
func howAtSize(r sizing.Reading, chart string) string {
	from, _, _ := strings.Cut(r.From, ": ") // a formula follows
	switch r.Provenance {
	case sizing.Published:
		return "as published"
	case sizing.Between:
		return strings.TrimPrefix(from, chart+", ")
	}
	if _, more, ok := strings.Cut(from, ", "); ok {
		return more
	}
	return string(r.Provenance)
}

// howForChild says in a few words how a reading of a child's body was got, and
// what to say in a footnote, if anything. evidence is what all estimates of
// the body rest on, which is said once elsewhere.
func howForChild(r sizing.Reading, evidence string) (words, note string) {
	from, _, _ := strings.Cut(r.From, ": ")
	switch r.Provenance {
	case sizing.Estimated:
		rest, _ := strings.CutPrefix(from, evidence)
		return "estimated", strings.TrimLeft(rest, ", ")
	case sizing.Derived:
		if strings.HasPrefix(from, "from ") {
			return "derived", from
		}
		return "derived, " + from, ""
	case sizing.Between, sizing.Published:
		follows, place, named := strings.Cut(from, " from ")
		if !named {
			return "chart " + from, ""
		}
		if _, between, ok := strings.Cut(place, ", "); ok {
			return follows + ", " + between, ""
		}
		return follows + " from " + place, ""
	}
	return string(r.Provenance), ""
}

// sizeNotes are the footnotes of a reading, each of which begins with the size
// that it is about.
func sizeNotes(r sizing.Reading) []string {
	var notes []string
	for _, n := range r.Notes {
		notes = append(notes, "size "+n)
	}
	return notes
}

// Reasons are the lines that --why prints under a reading.
func Reasons(r sizing.Reading) []string {
	first := string(r.Provenance) + ": " + r.From
	if r.Provenance == sizing.Measured {
		first = "measured on the child"
	}
	if s := InOrder(r.Sources); len(s) > 0 {
		first += " [" + strings.Join(s, ", ") + "]"
	}
	return append([]string{first}, sizeNotes(r)...)
}
