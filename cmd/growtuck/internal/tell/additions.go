package tell

import (
	"strconv"
	"strings"

	"growtuck/sizing"
)

type additionRecord struct {
	Kind        string   `json:"kind" doc:"id of the kind, as add takes it"`
	Title       string   `json:"title" doc:"name in words"`
	Shape       string   `json:"shape" doc:"circle, oval, ball, cone or tube"`
	Pieces      Figure   `json:"pieces" doc:"how many there usually are"`
	HeightShare Figure   `json:"height_share" doc:"height where only the width is given, in % of the width"`
	Filled      bool     `json:"filled" doc:"whether it is stuffed"`
	Places      []string `json:"places" doc:"where it can go; the first that the garment has is taken"`
	Source      string   `json:"source" doc:"id of the source"`
	Basis       string   `json:"basis" doc:"how its proportions are known"`
	Note        string   `json:"note" doc:"what to know about it; may be empty"`
}

// An AdditionsDocument is the kinds of parts that can be sewn on, as JSON.
type AdditionsDocument struct {
	Additions []additionRecord `json:"additions" doc:"the kinds of parts"`
	Credits   []string         `json:"credits" doc:"credit lines that the sources used ask for"`
}

// Additions reports the kinds of parts that can be sewn on.
func Additions(ref *sizing.Reference) Document {
	r := Document{Heading: []string{"Parts to sew on, by the kinds that --add takes: ear=6cm, pad:knee=8x10cm, spike:back=5*4x5cm"}}
	g := Table{Columns: []Column{{Head: "kind"}, {Head: "what it is", Wrap: true}, {Head: "places", Wrap: true}, {Head: "notes"}}}
	records := []additionRecord{}
	for _, a := range ref.AddedParts() {
		note := ""
		if a.Note != "" {
			note = r.Notes.mark(a.Note)
		}
		rec := additionRecord{a.ID, a.Title, a.Shape, Figure(a.Pieces), Figure(a.HeightShare), a.Filled == "yes", strings.Fields(a.Places), a.Source, a.Basis, a.Note}
		records = append(records, rec)
		r.Sources = append(r.Sources, a.Source)
		what := a.Shape
		if rec.Filled {
			what += ", filled"
		}
		if a.Folded == "yes" {
			what += ", folded in half"
		}
		if a.Pieces > 1 {
			what = strconv.Itoa(int(a.Pieces)) + " × " + what
		}
		g.Rows = append(g.Rows, newRow(a.ID, what, strings.Join(rec.Places, ", "), note))
	}
	r.Tables = []Table{g}
	r.Sources = InOrder(r.Sources)
	r.Credits = CreditLines(ref, r.Sources)
	r.Rows = records
	r.JSON = AdditionsDocument{records, r.Credits}
	return r
}
