package tell

import (
	"strings"

	"growtuck/sizing"
)

// From says in full how a reading was got: the size of a chart, or what it was
// estimated or worked out from.
func (st Style) From(r sizing.Reading) string {
	from := briefly(r)
	if r.From.Formula != "" {
		from += ": " + st.formula(r.From)
	}
	return from
}

// briefly says where a reading is from, without its formula.
func briefly(r sizing.Reading) string {
	o := r.From
	switch {
	case r.Provenance == sizing.Measured:
		return "the child"
	case len(o.AgreesWith) > 0:
		return "from " + agreedWith(o)
	case r.Provenance == sizing.Estimated:
		from := List(o.Evidence.Names())
		if rest := beside(o); rest != "" {
			from += ", " + rest
		}
		return from
	case o.Follows != "":
		return o.Follows + " from " + place(o)
	}
	return place(o)
}

func (st Style) formula(o sizing.Origin) string {
	return o.Formula + " (" + st.Fact(sizing.Text(o.Why)) + ")"
}

// place says at which size of which chart a reading was taken.
func place(o sizing.Origin) string {
	switch {
	case o.Above != "":
		return o.Chart + ", " + between(o)
	case o.Middle:
		return o.Chart + " " + o.Below + ", " + middle
	}
	return o.Chart + " " + o.Below
}

const middle = "middle of the range"

func between(o sizing.Origin) string {
	text := "between " + o.Below + " and " + o.Above
	if o.Linear {
		text += ", in proportion"
	}
	return text
}

func agreedWith(o sizing.Origin) string {
	var names []string
	for _, m := range o.AgreesWith {
		names = append(names, m.Name)
	}
	if o.AgreesWithOwn {
		return "the child's " + List(names)
	}
	return List(names)
}

// beside says what an estimate rests on beside the evidence; "" for nothing.
func beside(o sizing.Origin) string {
	if o.ByTradeChart {
		return "from the trade chart's figure at that height"
	}
	return ""
}

// atSize says in a few words how a reading at a size of the chart was got.
func atSize(r sizing.Reading) string {
	switch {
	case r.Provenance == sizing.Published:
		return "as published"
	case r.Provenance == sizing.Between:
		return between(r.From)
	case r.From.Middle:
		return middle
	}
	return string(r.Provenance)
}

// forChild says in a few words how a reading of a child's body was got, and what
// to say in a footnote, if anything. What all estimates of the body rest on is
// said once elsewhere.
func forChild(r sizing.Reading) (words, note string) {
	o := r.From
	switch r.Provenance {
	case sizing.Estimated:
		return "estimated", beside(o)
	case sizing.Derived:
		if len(o.AgreesWith) > 0 {
			return "derived", briefly(r)
		}
		return "derived, " + briefly(r), ""
	case sizing.Between, sizing.Published:
		switch {
		case o.Follows == "":
			return "chart " + place(o), ""
		case o.Above != "":
			return o.Follows + ", " + between(o), ""
		}
		return briefly(r), ""
	}
	return string(r.Provenance), ""
}

// footnotes are the notes of a reading; one that is about a size says so.
func (st Style) footnotes(r sizing.Reading) []string {
	var notes []string
	for _, n := range r.Notes {
		text := st.Fact(n)
		if n.ID == "size-note" {
			text = "size " + text
		}
		notes = append(notes, text)
	}
	return notes
}

// A Reason says how a number was got.
type Reason struct {
	How     string // "estimated", "measured on the child"
	From    string // the size, or the evidence; "" where How says it all
	Formula string // with why it is right; "" for none
	Notes   []string
}

// Lines are the reason as lines, with the notes on separate lines.
func (r Reason) Lines() []string {
	first := r.How
	for _, more := range []string{r.From, r.Formula} {
		if more != "" {
			first += ": " + more
		}
	}
	return append([]string{first}, r.Notes...)
}

// How says on one line how a reading was got.
func (st Style) How(r sizing.Reading) string { return st.reason(r).Lines()[0] }

func (st Style) reason(r sizing.Reading) Reason {
	if r.Provenance == sizing.Measured {
		return Reason{How: "measured on the child"}
	}
	out := Reason{How: string(r.Provenance), From: briefly(r)}
	if r.From.Formula != "" {
		out.Formula = st.formula(r.From)
	}
	return out
}

// Reason says how a reading was got, from which sources, and what to mind.
func (st Style) Reason(r sizing.Reading) Reason {
	out := st.reason(r)
	out.Notes = st.footnotes(r)
	if ids := InOrder(r.Sources); len(ids) > 0 {
		last := &out.How
		for _, more := range []*string{&out.From, &out.Formula} {
			if *more != "" {
				last = more
			}
		}
		*last += " [" + strings.Join(ids, ", ") + "]"
	}
	return out
}
