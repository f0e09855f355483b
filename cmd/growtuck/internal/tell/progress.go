package tell

import (
	"fmt"
	"strconv"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

// A leftRow is what is left of a section.
type leftRow struct {
	Section  string `json:"section" doc:"id of the section"`
	Name     string `json:"name" doc:"name in words"`
	RowsDone int    `json:"rows_done" doc:"rows that are worked and stay, over all copies"`
	RowsToGo int    `json:"rows_to_go" doc:"rows to go, over all copies"`
	OnWork   int    `json:"stitches_on_work" doc:"stitches of the copy that is begun, after its last row that stays; 0 where none is"`
	How      string `json:"how" doc:"how to go on"`
	Others   string `json:"others" doc:"how to work the copies that are not begun, where that is changed"`
}

// A movedRow is a finished measurement that becomes another than planned.
type movedRow struct {
	Part    string `json:"part" doc:"id of the garment's part; zipper for the zipper"`
	Name    string `json:"name" doc:"name in words"`
	Planned Figure `json:"planned" doc:"as it was planned, cm"`
	Becomes Figure `json:"becomes" doc:"as it becomes, cm"`
}

// A ripRow is work that must be undone first.
type ripRow struct {
	Section  string   `json:"section" doc:"id of the section"`
	ToRow    int      `json:"to_row" doc:"the last row that stays, of the copy in work; 0: none"`
	Rows     int      `json:"rows" doc:"rows of it that are undone"`
	Stitches int      `json:"stitches" doc:"stitches after the last row that stays"`
	Whole    []string `json:"whole" doc:"ids of sections that are undone whole"`
}

// A ProgressDocument is what is left of the work, as JSON.
type ProgressDocument struct {
	Doubts     []DoubtRecord `json:"doubts" doc:"what is hardly to be believed of what was said of the child"`
	Garment    string        `json:"garment" doc:"id of the garment"`
	InWork     string        `json:"in_work" doc:"id of the section in work; empty where none is"`
	OnWork     int           `json:"stitches_on_work" doc:"stitches on it now"`
	RipBack    []ripRow      `json:"rip_back" doc:"what must be undone first"`
	Left       []leftRow     `json:"left" doc:"the sections that are not finished"`
	Moves      []movedRow    `json:"moves" doc:"what becomes another size than planned"`
	RowsDone   int           `json:"rows_done" doc:"rows that are worked, over all copies"`
	RowsToGo   int           `json:"rows_to_go" doc:"rows to go, over all copies"`
	DoneShare  Figure        `json:"done_share" doc:"share of the stitches that are worked, 0 to 1"`
	NeedMetres *Figure       `json:"need_metres" doc:"metres of yarn that the rest takes; null where it is not known"`
	MoreMetres *Figure       `json:"more_metres" doc:"metres of it that the changes take, below 0 that they save; null where it is not known"`
	HaveMetres *Figure       `json:"have_metres" doc:"metres of yarn at hand; null where it was not said"`
	SpareBalls *Figure       `json:"spare_balls" doc:"balls left over, below 0 missing; null where it is not known"`
	Notes      []string      `json:"notes" doc:"what to watch out for"`
}

// Progress reports what is left of a plan's work. yarn is what the rest takes by what
// was used so far; nil where that was not weighed.
func (st Style) Progress(p *plan.Plan, left *plan.Remaining, yarn *stitch.YarnLeft) Document {
	words := Style{}.For(p.How) // JSON and CSV are in centimetres
	shown := Style{Unit: st.Unit, Place: st.Place}.For(p.How)
	r := Document{Doubts: st.CheckFirst(p.Body.Questions), Heading: []string{p.Garment.Title + ", " + st.Spec(p.Spec) + ": what is left"}}
	doc := ProgressDocument{Doubts: DoubtRecords(p.Body.Questions), Garment: p.Garment.ID, RipBack: []ripRow{}, Left: []leftRow{}, Moves: []movedRow{}, OnWork: left.OnWork,
		RowsDone: left.Progress.RowsDone, RowsToGo: left.Progress.RowsLeft,
		DoneShare: Figure(left.Progress.DoneShare), Notes: append([]string{}, words.Facts(left.Notes)...)}
	if s := left.Section; s != nil {
		doc.InWork = s.ID
		r.Heading = append(r.Heading, fmt.Sprintf("On the work now: %s, %s; %s of it to go.", shown.value(left.OnWork, "stitches"), strings.ToLower(sectionName(s.Kind)), shown.rowsOf(s, left.RowsLeft)))
	}
	for _, rip := range left.RipBack {
		whole := append([]string{}, rip.Whole...)
		doc.RipBack = append(doc.RipBack, ripRow{rip.Section, rip.ToRow, rip.Rows, rip.Onto, whole})
		r.Heading = append(r.Heading, shown.ripWords(p, rip))
	}
	g := Table{Columns: []Column{{Head: "section"}, {Head: "done", Right: true}, {Head: "to go", Right: true}, {Head: "on the work", Right: true}, {Head: "how", Wrap: true}}}
	for _, l := range left.Left {
		row := leftRow{Section: l.Section.ID, Name: sectionName(l.Section.Kind), RowsDone: l.RowsDone, RowsToGo: l.Rows, OnWork: l.OnWork,
			How: words.rest(l), Others: words.others(l)}
		doc.Left = append(doc.Left, row)
		onWork := ""
		if l.OnWork > 0 {
			onWork = strconv.Itoa(l.OnWork)
		}
		g.Rows = append(g.Rows, newRow(row.Name, strconv.Itoa(row.RowsDone), strconv.Itoa(row.RowsToGo), onWork, strings.TrimSpace(shown.rest(l)+" "+shown.others(l))))
	}
	r.Tables = append([]Table{g}, shown.moved(left, &doc)...)
	r.Remarks = append(r.Remarks, fmt.Sprintf("%.0f %% of the stitches are worked; %d of %d rows and rounds are left.", left.Progress.DoneShare*100, left.Progress.RowsLeft, left.Progress.Rows))
	r.Remarks = append(r.Remarks, doc.yarn(p, left, yarn)...)
	r.Remarks = append(r.Remarks, shown.Facts(left.Notes)...)
	r.Rows, r.JSON = doc.Left, doc
	return r
}

// rowsOf counts rows of a section, or rounds.
func (st Style) rowsOf(s *plan.Section, n int) string {
	if s.InRounds {
		return st.value(n, "rounds")
	}
	return st.value(n, "rows")
}

// rest tells how a section goes on.
func (st Style) rest(l plan.Left) string {
	switch {
	case len(l.Rest) > 0:
		return strings.Join(st.stepTexts(l.Rest), " ")
	case l.Others != nil:
		return ""
	}
	return "as planned"
}

// others tells how the copies that are not begun are worked.
func (st Style) others(l plan.Left) string {
	if len(l.Others) == 0 {
		return ""
	}
	return "The other, all of it: " + strings.Join(st.stepTexts(l.Others), " ")
}

func (st Style) stepTexts(steps []plan.Step) []string {
	var all []string
	for _, step := range steps {
		text := st.Step(step)
		if !strings.HasSuffix(text, ".") {
			text += "."
		}
		all = append(all, text)
	}
	return all
}

// ripWords tells what must be undone.
func (st Style) ripWords(p *plan.Plan, rip plan.RipBack) string {
	var parts []string
	for _, id := range rip.Whole {
		if s, ok := p.Section(id); ok {
			parts = append(parts, strings.ToLower(sectionName(s.Kind)))
		}
	}
	text := "From here it cannot be done. Rip back "
	if len(parts) > 0 {
		text += "the " + List(parts)
		if rip.Rows > 0 {
			text += ", and "
		}
	}
	s, ok := p.Section(rip.Section)
	if !ok {
		return text
	}
	name := strings.ToLower(sectionName(s.Kind))
	line := "row"
	if s.InRounds {
		line = "round"
	}
	switch {
	case rip.Rows == 0:
		return text + fmt.Sprintf(", to the end of the %s: %s.", name, st.value(rip.Onto, "stitches"))
	case rip.ToRow == 0:
		return text + fmt.Sprintf("%s of the %s, to its beginning: %s.", st.rowsOf(s, rip.Rows), name, st.value(rip.Onto, "stitches"))
	}
	return text + fmt.Sprintf("%s of the %s, to the end of %s %d: %s.", st.rowsOf(s, rip.Rows), name, line, rip.ToRow, st.value(rip.Onto, "stitches"))
}

// moved shows what becomes another size than planned.
func (st Style) moved(left *plan.Remaining, doc *ProgressDocument) []Table {
	g := Table{Caption: "What else moves:", Columns: []Column{{Head: "part", Wrap: true}, {Head: "planned", Right: true}, {Head: "becomes", Right: true}}}
	for _, m := range left.Moves {
		doc.Moves = append(doc.Moves, movedRow{m.Part.Line.Part.Part, m.Part.Line.Part.Name, Figure(m.WasCm), Figure(m.Cm)})
		g.Rows = append(g.Rows, newRow(m.Part.Line.Part.Name, st.value(sizing.Length(m.WasCm), "cm1"), st.value(sizing.Length(m.Cm), "cm1")))
	}
	if z, was := left.Zipper, left.WasZipper; z != nil && was != nil && *z != *was {
		doc.Moves = append(doc.Moves, movedRow{"zipper", "zipper to buy", Figure(was.Stocked() * sizing.CmPerInch), Figure(z.Stocked() * sizing.CmPerInch)})
		g.Rows = append(g.Rows, newRow("zipper to buy", st.zipper(*was), st.zipper(*z)))
	}
	if len(g.Rows) == 0 {
		return nil
	}
	return []Table{g}
}

func (st Style) zipper(z plan.Zipper) string {
	text := st.value(z.Stocked(), "quarters") + " in"
	if z.Shorten {
		text += ", shortened"
	}
	return text
}

// yarn tells what yarn the rest takes.
func (doc *ProgressDocument) yarn(p *plan.Plan, left *plan.Remaining, yarn *stitch.YarnLeft) (remarks []string) {
	switch {
	case yarn != nil:
		doc.NeedMetres, doc.HaveMetres, doc.SpareBalls = Known(yarn.NeedMetres, true), Known(yarn.HaveMetres, true), Known(yarn.SpareBalls, true)
		text := fmt.Sprintf("The rest takes %.0f m, going by what was used so far; %.0f m are at hand", yarn.NeedMetres, yarn.HaveMetres)
		if yarn.Enough {
			text += ": enough."
		} else {
			text += fmt.Sprintf(": %.1f balls are missing.", -yarn.SpareBalls)
		}
		remarks = append(remarks, text)
	case left.NeedMetres > 0:
		doc.NeedMetres = Known(left.NeedMetres, true)
		remarks = append(remarks, fmt.Sprintf("The rest takes %.0f m, %.1f balls, by the swatch.", left.NeedMetres, left.NeedMetres/p.How.Ball.Metres))
	}
	if p.Yarn != nil {
		doc.MoreMetres = Known(left.MoreMetres, true)
		switch more := left.MoreMetres; {
		case more >= 0.5:
			remarks = append(remarks, fmt.Sprintf("The changes take %.0f m more than planned.", more))
		case more <= -0.5:
			remarks = append(remarks, fmt.Sprintf("The changes save %.0f m of what was planned.", -more))
		}
	}
	return remarks
}
