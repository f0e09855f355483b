package sizing

import (
	"fmt"
	"strings"
)

// A Fact is something to be told, without the words for it: an id that says
// what it is, and what it is about. Package sizing and those above it work in
// facts; words are chosen where they are shown, for a unit, a craft and a place.
//
// An argument is a string (a name or an id, or text that somebody wrote), an
// int (a count), a float64 (a plain number), a [Length], a [Range], a [Weight],
// a []string, a Fact or a []Fact.
type Fact struct {
	ID   string `json:"id"`
	Args []any  `json:"args,omitempty"`
}

// NewFact makes a fact of an id and its arguments.
func NewFact(id string, args ...any) Fact { return Fact{id, args} }

// Text is a fact that is words already: those of a table's row, or of whoever
// wrote a draft. It is told as it is.
func Text(s string) Fact {
	if s == "" {
		return Fact{}
	}
	return Fact{ID: "text", Args: []any{s}}
}

// IsZero reports whether there is nothing to tell.
func (f Fact) IsZero() bool { return f.ID == "" }

// String writes a fact without words of its own: text as it is, any other as its
// id and its arguments. It is for those who use the package; words for readers
// are made where they are shown.
func (f Fact) String() string {
	if f.ID == "text" && len(f.Args) == 1 {
		return fmt.Sprint(f.Args[0])
	}
	var b strings.Builder
	b.WriteString(f.ID)
	for _, a := range f.Args {
		fmt.Fprintf(&b, " %v", a)
	}
	return b.String()
}

// A Range is two lengths in cm. High is +Inf where there is no upper end.
type Range struct{ Low, High Length }

// Weight is a weight in kilograms.
type Weight float64
