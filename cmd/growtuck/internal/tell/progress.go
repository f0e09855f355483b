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
	Section  string `json:"section" doc:"id of the section"`
	Name     string `json:"name" doc:"name in words"`
	RowsDone int    `json:"rows_done" doc:"rows that are worked, over all copies"`
	RowsToGo int    `json:"rows_to_go" doc:"rows to go, over all copies"`
	How      string `json:"how" doc:"how to go on"`
	Others   string `json:"others" doc:"how to work the copies that are not begun, where that is changed"`
}

// A ProgressDocument is what is left of the work, as JSON.
type ProgressDocument struct {
	Garment    string    `json:"garment" doc:"id of the garment"`
	Left       []leftRow `json:"left" doc:"the sections that are not finished"`
	RowsDone   int       `json:"rows_done" doc:"rows that are worked, over all copies"`
	RowsToGo   int       `json:"rows_to_go" doc:"rows to go, over all copies"`
	DoneShare  Figure    `json:"done_share" doc:"share of the stitches that are worked, 0 to 1"`
	NeedMetres *Figure   `json:"need_metres" doc:"metres of yarn that the rest takes; null where it is not known"`
	HaveMetres *Figure   `json:"have_metres" doc:"metres of yarn at hand; null where it was not said"`
	SpareBalls *Figure   `json:"spare_balls" doc:"balls left over, below 0 missing; null where it is not known"`
	Notes      []string  `json:"notes" doc:"what to watch out for"`
}

// Progress reports what is left of a plan's work. yarn is what the rest takes by what
// was used so far; nil where that was not weighed.
func (st Style) Progress(p *plan.Plan, left *plan.Remaining, yarn *stitch.YarnLeft) Document {
	words := Style{}.For(p.How) // JSON and CSV are in centimetres
	shown := Style{Unit: st.Unit}.For(p.How)
	r := Document{Heading: []string{p.Garment.Title + ", " + st.Spec(p.Spec) + ": what is left"}}
	doc := ProgressDocument{Garment: p.Garment.ID, Left: []leftRow{}, RowsDone: left.Progress.RowsDone, RowsToGo: left.Progress.RowsLeft,
		DoneShare: Figure(left.Progress.DoneShare), Notes: append([]string{}, words.Facts(left.Notes)...)}
	g := Table{Columns: []Column{{Head: "section"}, {Head: "rows done", Right: true}, {Head: "to go", Right: true}, {Head: "how", Wrap: true}}}
	for _, l := range left.Left {
		row := leftRow{Section: l.Section.ID, Name: sectionName(l.Section.Kind), RowsDone: l.RowsDone, RowsToGo: l.Rows, How: "as planned"}
		shownRow := row
		if l.Rest != nil {
			row.How, shownRow.How = words.Step(*l.Rest), st.Step(*l.Rest)
		}
		if l.Others != nil {
			row.Others, shownRow.Others = words.Step(*l.Others), shown.Step(*l.Others)
		}
		doc.Left = append(doc.Left, row)
		g.Rows = append(g.Rows, newRow(row.Name, strconv.Itoa(row.RowsDone), strconv.Itoa(row.RowsToGo), strings.TrimSpace(shownRow.How+" "+shownRow.Others)))
	}
	r.Tables = []Table{g}
	r.Remarks = append(r.Remarks, fmt.Sprintf("%.0f %% of the stitches are worked; %d of %d rows are left.", left.Progress.DoneShare*100, left.Progress.RowsLeft, left.Progress.Rows))
	switch {
	case yarn != nil:
		doc.NeedMetres, doc.HaveMetres, doc.SpareBalls = Known(yarn.NeedMetres, true), Known(yarn.HaveMetres, true), Known(yarn.SpareBalls, true)
		text := fmt.Sprintf("The rest takes %.0f m, going by what was used so far; %.0f m are at hand", yarn.NeedMetres, yarn.HaveMetres)
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
	r.Remarks = append(r.Remarks, shown.Facts(left.Notes)...)
	r.Rows, r.JSON = doc.Left, doc
	return r
}
