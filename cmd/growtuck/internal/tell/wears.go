package tell

import (
	"fmt"
	"math"
	"slices"

	"growtuck/sizing"
)

// WornBy is when one child, or the usual child of a size, can wear a garment.
type WornBy struct {
	Name    string // of the child or its file, or the size
	Child   sizing.Child
	Growth  *sizing.Growth
	Wearing *sizing.Wearing
}

type wornRecord struct {
	Who   string  `json:"who" doc:"the child, or the size"`
	Part  string  `json:"part" doc:"id of the part; empty for the whole garment"`
	Name  string  `json:"name" doc:"the part in words"`
	Cm    Figure  `json:"finished" doc:"the finished measurement in cm; 0 for the whole garment"`
	From  *Figure `json:"from_months" doc:"from when it fits, in months from measuring, or of age for a size; null where it does not come to fit"`
	Until *Figure `json:"until_months" doc:"until when; null where it is too small already"`
	Open  bool    `json:"open" doc:"whether it still fits then, where the forecast ends"`
}

// A WearsDocument is when a garment fits, as JSON.
type WearsDocument struct {
	Garment string       `json:"garment" doc:"id of the garment"`
	Spec    string       `json:"making" doc:"in words: fit, clothes underneath"`
	Worn    []wornRecord `json:"worn" doc:"each child or size, and each part"`
	Sources []string     `json:"sources" doc:"ids of the sources that it rests on"`
	Credits []string     `json:"credits" doc:"credit lines that the sources used ask for"`
}

func newWornRecord(who, part, name string, cm, from, until float64, open bool) wornRecord {
	return wornRecord{who, part, name, Figure(cm), Known(from, !math.IsNaN(from)), Known(until, !math.IsNaN(until)), open}
}

// Wears reports when children can wear a garment, part by part for one, and who can next
// where there are several.
func (st Style) Wears(ref *sizing.Reference, spec sizing.Spec, all []WornBy) Document {
	r, doc := st.worn(ref, spec, all)
	if len(all) == 1 {
		w := all[0]
		r.Heading = append(r.Heading, ChildLine(w.Child))
		r.Heading = slices.DeleteFunc(r.Heading, func(s string) bool { return s == "" })
		table := Table{Columns: []Column{{Head: "part", Wrap: true}, {Head: "finished, " + st.Units()[0], Right: true}, {Head: "fits from"}, {Head: "until"}}}
		for _, p := range w.Wearing.Parts {
			table.Rows = append(table.Rows, Row{Cells: []string{p.Part.Name, LengthIn(p.Finished, st.Units()[0]), since(w.Child, p.From, "too large throughout"), till(w.Child, p.Until, p.Open, "too small already")}})
		}
		r.Tables = []Table{table}
		r.Remarks = append(r.Remarks, st.wornWords(w))
	} else {
		slices.SortStableFunc(all, func(a, b WornBy) int { return soonest(a.Wearing, b.Wearing) })
		table := Table{Columns: []Column{{Head: "child"}, {Head: "fits from"}, {Head: "until"}, {Head: "first too small", Wrap: true}}}
		for _, w := range all {
			table.Rows = append(table.Rows, Row{Cells: []string{w.Name, since(w.Child, w.Wearing.From, "never all of it"), till(w.Child, w.Wearing.Until, w.Wearing.Open, ""), partName(w.Wearing, w.Wearing.First)}})
		}
		r.Tables = []Table{table}
	}
	if slices.ContainsFunc(all, func(w WornBy) bool { return w.Growth.Implied }) {
		r.Remarks = append(r.Remarks, "Where no age was given it is that at which the height is the median.")
	}
	r.JSON, r.Rows = doc, doc.Worn
	return r
}

// soonest orders children by when they can wear a garment: those who never can come last.
func soonest(a, b *sizing.Wearing) int {
	key := func(w *sizing.Wearing) float64 {
		if math.IsNaN(w.From) {
			return math.Inf(1)
		}
		return w.From*1000 + w.Until
	}
	switch x, y := key(a), key(b); {
	case x < y:
		return -1
	case x > y:
		return 1
	}
	return 0
}

func partName(w *sizing.Wearing, part string) string {
	for _, p := range w.Parts {
		if p.Part.Part == part {
			return p.Part.Name
		}
	}
	return ""
}

// month names a month from measuring on, or its day.
func month(c sizing.Child, months float64) string {
	if months == 0 || !c.Measured.IsZero() {
		return when(c, months)
	}
	return "month " + sizing.FormatExact(months)
}

func since(c sizing.Child, months float64, never string) string {
	if math.IsNaN(months) {
		return never
	}
	return month(c, months)
}

func till(c sizing.Child, months float64, open bool, never string) string {
	switch {
	case math.IsNaN(months):
		return never
	case open:
		return month(c, months) + " and on"
	}
	return month(c, months)
}

// wornWords say in a sentence from when until when one child can wear it.
func (st Style) wornWords(w WornBy) string {
	g := w.Wearing
	switch {
	case math.IsNaN(g.From):
		return "It never fits this child in all its parts."
	case g.Open:
		return fmt.Sprintf("It fits from %s; within what can be foreseen nothing of it is outgrown.", month(w.Child, g.From))
	}
	return fmt.Sprintf("It fits from %s until %s; what is too small first is %s.", month(w.Child, g.From), month(w.Child, g.Until), partName(g, g.First))
}

func (st Style) worn(ref *sizing.Reference, spec sizing.Spec, all []WornBy) (Document, WearsDocument) {
	r := Document{Sources: []string{"cdc-2000", "cpsc-1977", "craft-2018", "growtuck"}}
	doc := WearsDocument{Garment: spec.Garment, Spec: st.Spec(spec), Worn: []wornRecord{}}
	for _, w := range all {
		doc.Worn = append(doc.Worn, newWornRecord(w.Name, "", "all of it", 0, w.Wearing.From, w.Wearing.Until, w.Wearing.Open))
		for _, p := range w.Wearing.Parts {
			doc.Worn = append(doc.Worn, newWornRecord(w.Name, p.Part.Part, p.Part.Name, p.Finished, p.From, p.Until, p.Open))
		}
	}
	r.Credits = CreditLines(ref, r.Sources)
	doc.Sources, doc.Credits = r.Sources, r.Credits
	r.Heading = []string{"When it fits: " + Spoken(spec.Garment) + ", " + st.Spec(spec)}
	r.Remarks = []string{"A girth fits while its ease is that of the fit or of the next to it, a length while it is off by no more than half a size of the trade chart; what hangs longer can be folded back or held in a tuck."}
	return r, doc
}

// WearsSizes reports which ages of a usual child each size covers.
func (st Style) WearsSizes(ref *sizing.Reference, spec sizing.Spec, all []WornBy) Document {
	r, doc := st.worn(ref, spec, all)
	table := Table{Columns: []Column{{Head: "size"}, {Head: "fits a usual child from"}, {Head: "until"}, {Head: "first too small", Wrap: true}}}
	for _, w := range all {
		age := func(months float64) string {
			if math.IsNaN(months) {
				return "never all of it"
			}
			return ageWords(int(months))
		}
		until := age(w.Wearing.Until)
		if w.Wearing.Open {
			until += " and on"
		}
		table.Rows = append(table.Rows, Row{Cells: []string{w.Name, age(w.Wearing.From), until, partName(w.Wearing, w.Wearing.First)}})
	}
	r.Tables, r.JSON, r.Rows = []Table{table}, doc, doc.Worn
	return r
}
