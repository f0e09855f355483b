package tell

import (
	"fmt"
	"strconv"
	"strings"

	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

// A leftRow is what is left of a section.
type leftRow struct {
	Section  string `json:"section"`
	Name     string `json:"name"`
	RowsDone int    `json:"rows_done"`
	RowsToGo int    `json:"rows_to_go"`
	How      string `json:"how"`
	Others   string `json:"others"`
}

// A ProgressDocument is what is left of the work, as JSON.
type ProgressDocument struct {
	Garment    string    `json:"garment"`
	Left       []leftRow `json:"left"`
	RowsDone   int       `json:"rows_done"`
	RowsToGo   int       `json:"rows_to_go"`
	DoneShare  Figure    `json:"done_share"`
	NeedMetres *Figure   `json:"need_metres"`
	HaveMetres *Figure   `json:"have_metres"`
	SpareBalls *Figure   `json:"spare_balls"`
	Notes      []string  `json:"notes"`
}

// Progress reports what is left of a plan's work. yarn is what the rest takes by what
// was used so far; nil where that was not weighed.
func (st Style) Progress(p *plan.Plan, left *plan.Remaining, yarn *stitch.YarnLeft) Document {
	words := Style{Craft: string(p.How.Craft)}
	notes := words.Facts(left.Notes)
	r := Document{Heading: []string{p.Garment.Title + ", " + st.Spec(p.Spec) + ": what is left"}}
	doc := ProgressDocument{Garment: p.Garment.ID, Left: []leftRow{}, RowsDone: left.Progress.RowsDone, RowsToGo: left.Progress.RowsLeft,
		DoneShare: Figure(left.Progress.DoneShare), Notes: append([]string{}, notes...)}
	g := Table{Columns: []Column{{Head: "section"}, {Head: "rows done", Right: true}, {Head: "to go", Right: true}, {Head: "how", Wrap: true}}}
	for _, l := range left.Left {
		row := leftRow{Section: l.Section.ID, Name: SectionName(l.Section.Kind), RowsDone: l.RowsDone, RowsToGo: l.Rows, How: "as planned"}
		if l.Rest != nil {
			row.How = words.Step(*l.Rest)
		}
		if l.Others != nil {
			row.Others = words.Step(*l.Others)
		}
		doc.Left = append(doc.Left, row)
		g.Rows = append(g.Rows, NewRow(row.Name, strconv.Itoa(row.RowsDone), strconv.Itoa(row.RowsToGo), strings.TrimSpace(row.How+" "+row.Others)))
	}
	r.Tables = []Table{g}
	r.Remarks = append(r.Remarks, fmt.Sprintf("%.0f %% of the stitches are worked; %d of %d rows are left.", left.Progress.DoneShare*100, left.Progress.RowsLeft, left.Progress.Rows))
	switch {
	case yarn != nil:
		doc.NeedMetres, doc.HaveMetres, doc.SpareBalls = Known(yarn.NeedMetres, true), Known(yarn.HaveMetres, true), Known(yarn.SpareBalls, true)
		text := fmt.Sprintf("The rest takes %.0f m, by what was used so far; at hand are %.0f m", yarn.NeedMetres, yarn.HaveMetres)
		if yarn.Enough {
			text += ": enough."
		} else {
			text += fmt.Sprintf(": %.1f balls are missing.", -yarn.SpareBalls)
		}
		r.Remarks = append(r.Remarks, text)
	case left.NeedMetres > 0:
		doc.NeedMetres = Known(left.NeedMetres, true)
		r.Remarks = append(r.Remarks, fmt.Sprintf("The rest takes %.0f m, %.1f balls, by the swatch.", left.NeedMetres, left.NeedMetres/p.How.Ball.Metres))
	}
	r.Remarks = append(r.Remarks, notes...)
	r.Rows, r.JSON = doc.Left, doc
	return st.inInches(r)
}
