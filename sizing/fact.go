package sizing

import (
	"fmt"
	"strings"
)

// A Fact is a statement without its words: an id that says what it states, and
// the arguments it is about. Package sizing and those that use it work in facts;
// words are chosen where they are shown, for a unit, a craft and a place.
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

// Text is a fact that is already words, of a table's row or of the author of a
// draft. It is shown unchanged.
func Text(s string) Fact {
	if s == "" {
		return Fact{}
	}
	return Fact{ID: "text", Args: []any{s}}
}

// IsZero reports whether the fact is empty.
func (f Fact) IsZero() bool { return f.ID == "" }

// String writes a text unchanged and any other fact as its id and arguments. It
// is for users of the package; words for readers are chosen elsewhere.
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
