package validate

import (
	"math"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// An Edit is a change of one row of a draft that a finding proposes: the row of a
// field and part goes From one value To another. From is nil for a row that is
// added, To for one that is removed; values are as the arguments of a
// [sizing.Fact]. Edits are arguments of a finding's Fix, which says what they are
// for and what else could be done.
type Edit struct {
	Field, Part string
	From, To    any
	Unit        string
}

// Edits are the changes of the draft that the finding proposes, the likeliest
// first: each is a separate remedy.
func (f Finding) Edits() []Edit { return editsIn(f.Fix) }

func editsIn(f sizing.Fact) []Edit {
	var all []Edit
	for _, a := range f.Args {
		switch a := a.(type) {
		case Edit:
			all = append(all, a)
		case sizing.Fact:
			all = append(all, editsIn(a)...)
		}
	}
	return all
}

// do is the remedy that an edit alone is.
func do(e Edit) sizing.Fact { return fact("fix", e) }

// change brings a part to a size: in stitches or rows where the draft counts it.
func (c *checker) change(l sizing.Line, toCm float64, r stitch.Rounding) Edit {
	part := l.Part.Part
	resize := Edit{Field: "finished", Part: part, To: cm(toCm), Unit: "cm"}
	if e, ok := c.d.get("finished", part); ok {
		resize.From = cm(e.Cm)
	}
	n, e, ok := c.d.count("finished", part)
	if !ok {
		return resize
	}
	fit := c.d.gaugeOf(part).FitWidth
	if e.Unit == "rows" {
		fit = c.d.gaugeOf(part).FitHeight
	}
	toCm -= c.d.edges(part)
	fitted, err := fit(toCm, c.d.multiple(part), r)
	if err != nil {
		return resize
	}
	return recount(e, n, fitted.Count)
}

// recount changes the count of a row.
func recount(e *Entry, from, to int) Edit {
	return Edit{Field: e.Field, Part: e.Part, From: from, To: to, Unit: e.Unit}
}

func fact(id string, args ...any) sizing.Fact { return sizing.NewFact(id, args...) }

// counted is a number of stitches, rows or rounds.
func counted(n int, unit string) sizing.Fact { return fact("count."+unit, n) }

// about is a count that need not be whole, to a tenth.
func about(n float64, unit string) sizing.Fact {
	return fact("count."+unit, math.Round(n*10)/10)
}

func cm(v float64) sizing.Length { return sizing.Length(v) }

// length is a fact that is a length alone.
func length(v float64) sizing.Fact { return fact("length", cm(v)) }

// span is a range of lengths in cm.
func span(low, high float64) sizing.Range { return sizing.Range{Low: cm(low), High: cm(high)} }
