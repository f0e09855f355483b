package page

import (
	"bytes"
	"fmt"
	"html/template"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// A frame is what every view has round it.
type frame struct {
	*parts
	View, Title string // View is maker, designer, several or contributor
	Query       string // what was typed in any of the views, as their addresses carry it
	Version     string
	Shared      bool // served to other machines too
	Desktop     bool // stops when asked, or with its last tab
	Credits     []string
	Sources     []sourceView
}

// A makerView is the maker's view.
type makerView struct {
	frame
	Form      form
	Measuring measuringView
	Ease      []easeBand
	Grown     *growthView
	Later     *table    // what the child will measure
	Fits      *table    // from when until when each part fits
	FitsWords []string  // and all of it
	Tape      string    // the unit of the tape that the form was filled in by
	Said      string    // what changed, in a few words, for those who listen
	Look      []concern // entries that need a look
	Bar       []barFigure
	Who       string
	BodyFrom  string
	Apart     string // where a size parts from children measured
	BodyFault string
	Questions []string
	Profile   *profileView
	Finished  *finishedView
	Plan      *planView
	Left      *leftView
	Cautions  []findingView
	Checks    []findingView
	Files     []link
	Start     []link // to begin with, where nothing is known
}

// A measuringView is the pictures of where to measure, and what asks for their file.
type measuringView struct {
	Query string
	Views []measuringPicture
}

type measuringPicture struct {
	Title string
	SVG   template.HTML // of this program
}

// measuring shows where to measure a child like this one. It is the same for all
// children of one figure, so that it is sent once.
func (s *site) measuring(c sizing.Child) measuringView {
	m := work.MeasuringOf(s.engine.Reference, c)
	v := measuringView{Query: map[schematic.Figured]string{schematic.Girl: "sex=f", schematic.Boy: "sex=m", schematic.Baby: "age=1"}[m.Figure]}
	for _, p := range m.Views() {
		v.Views = append(v.Views, measuringPicture{tell.Capital(p.Title), template.HTML(p.SVG)})
	}
	return v
}

type link struct{ Href, Text string }

// A finishedView is the finished measurements, as growtuck garment reports them.
type finishedView struct {
	Fault   string
	Heading []string
	Lines   *table
	Missing *table
	Remarks []string
	Picture template.HTML // SVG drawn by this program
}

// A planView is the work, as growtuck plan reports it.
type planView struct {
	Fault    string
	Chapters []chapterView
	IDs      string // of the sections, as how far the work is names them
}

// A leftView is what is left of work that is begun, as growtuck plan --done reports it.
type leftView struct {
	Lines  []string
	Tables []*table
	Notes  []string
}

// A findingView is a finding of a check.
type findingView struct {
	Rule, Severity, Title         string
	Subject, Found, Expected, Fix string
	By, Source, Place             string
}

func (s *site) frame(view, title, query string, sources []string) frame {
	return frame{parts: &parts{templates: s.pages[view+".html"]}, View: view, Title: title, Query: query, Version: s.engine.Version.Program, Shared: s.shared, Desktop: s.desktop, Credits: tell.CreditLines(s.engine.Reference, sources), Sources: s.sourceViews(sources)}
}

// Address is the maker's view with all that was typed.
func (f frame) Address() string { return f.Tabs()[0].Href }

// A tab is a link to one of the views.
type tab struct {
	View, Href, Text string
}

// Tabs are the links to the views. They carry what was typed in each.
func (f frame) Tabs() []tab {
	query := ""
	if f.Query != "" {
		query = "?" + f.Query
	}
	return []tab{{"maker", "./" + query, "A garment for a child"}, {"designer", "sizes" + query, "Sizes side by side"}, {"several", "children" + query, "Several children"}, {"contributor", "rows" + query, "Check rows and drafts"}}
}

func (f frame) written() *parts { return f.parts }

// maker answers with the maker's view.
func (s *site) maker(w http.ResponseWriter, r *http.Request) {
	st := s.readState(r.URL.RawQuery)
	st.ctx = r.Context()
	s.render(w, r, http.StatusOK, s.makerView(st))
}

func (s *site) makerView(st *state) *makerView {
	if t := st.Value("tape"); t != "cm" && t != "in" {
		st.fault("tape", fmt.Sprintf("%.80q: want cm or in", t))
	}
	r := s.compute(st)
	style := st.style()
	v := &makerView{Tape: style.Unit, Form: form{st: st, ref: s.engine.Reference}, BodyFault: tell.Capital(r.bodyFault), Who: tell.Capital(tell.ChildLine(r.request.Child))}
	v.Form.doubts, v.Measuring = r.doubts, s.measuring(r.request.Child)
	v.Look = v.Form.Concerns()
	var sources []string
	if r.body != nil {
		v.BodyFrom = style.BodySummary(r.body)
		v.Apart = style.Fact(r.body.AsApart())
		v.Profile = s.profileOf(style, r)
		v.Questions = style.Questions(r.body.Questions)
		sources = append(sources, r.body.Sources()...)
	} else if r.bodyFault == "" && len(st.faults) == 0 && len(st.left) == 0 {
		v.Start = starts()
	}
	if r.finished != nil {
		d := style.Garment(s.engine.Reference, r.request.Child, r.finished, false)
		v.Finished = finishedOf(style, d)
		var held []plan.Held
		if r.plan != nil {
			held = r.plan.Held()
		}
		v.Ease, v.Grown = s.easeBands(style, r.finished), s.outgrown(style, r.finished, held)
		s.later(v, style, r)
		v.Finished.Picture = drawn(schematic.Finished(r.finished, r.request.How, style.Unit), r.finished.Garment.Title, style.Unit)
		sources = append(sources, d.Sources...)
	} else if r.finishedFault != "" {
		v.Finished = &finishedView{Fault: tell.Capital(r.finishedFault)}
	}
	if r.plan != nil {
		style.Over4In = r.request.Over4In()
		d := style.Plan(s.engine.Reference, r.request.Child, r.plan.Plan, nil) // the findings have a list of their own
		v.Plan = planOf(style, d)
		v.Finished.Picture = drawn(work.Lettered(r.plan.Plan, style.Unit, true), r.plan.Garment.Title, style.Unit)
		var ids []string
		for _, s := range r.plan.Sections {
			ids = append(ids, s.ID)
		}
		v.Plan.IDs = strings.Join(ids, ", ")
		sources = append(sources, d.Sources...)
	} else if r.planFault != "" {
		v.Plan = &planView{Fault: tell.Capital(r.planFault)}
	}
	if r.left != nil {
		v.Left = &leftView{Lines: r.left.Heading[1:], Notes: r.left.Remarks}
		for i, t := range r.left.Tables {
			v.Left.Tables = append(v.Left.Tables, newTable(t, []string{"left", "counts"}[min(i, 1)], []string{"What is left", "What else moves"}[min(i, 1)], ""))
		}
	}
	v.Cautions, v.Checks = findingViews(style, r.findings)
	for _, list := range [][]findingView{v.Cautions, v.Checks} {
		for i := range list {
			f := &list[i]
			f.Place = "" // of a draft that is not shown
			f.Subject = tell.Spoken(f.Subject)
		}
	}
	v.Bar = v.figures(r)
	v.Files = s.files(st, r)
	v.frame = s.frame("maker", "A garment for a child", st.Query(), sources)
	v.Said = v.said(r)
	return v
}

// starts are examples to begin with: made-up children.
func starts() []link {
	tall := url.Values{"sex": {"f"}, "age": {"9y3m"}, "height": {"141"}, "chest": {"61"}, "arm_length": {"47.5"}, "widths": {"6"}, "lengths": {"10"},
		"garment": {"cardigan"}, "layer": {"indoor"}, "growth": {"1"}, "craft": {"knit"}, "stitches": {"20"}, "rows": {"28"}}
	sturdy := url.Values{"sex": {"m"}, "age": {"27m"}, "height": {"88"}, "weight": {"13.8"}, "waist": {"48.5"}, "hip": {"52.5"}, "rise": {"17"},
		"garment": {"trousers"}, "nappy": {"yes"}, "growth": {"1"}, "craft": {"knit"}, "stitches": {"22"}, "rows": {"30"}}
	baby := url.Values{"age": {"22m"}, "height": {"89"}, "chest": {"50.5"}, "head": {"48.5"}, "inside_leg": {"35"},
		"garment": {"one-piece-hooded"}, "layer": {"indoor"}, "nappy": {"yes"}, "growth": {"1"}, "stitches": {"14"}, "rows": {"16"}}
	size := url.Values{"size": {"6"}, "garment": {"cardigan"}, "craft": {"knit"}, "stitches": {"20"}, "rows": {"28"}}
	return []link{
		{"./?" + tall.Encode(), "a tall, slim child of nine, a cardigan with lengths from size 10 and widths from size 6"},
		{"./?" + sturdy.Encode(), "a sturdy child of two, trousers over a nappy"},
		{"./?" + baby.Encode(), "a baby of 22 months, a hooded pram suit"},
		{"./?" + size.Encode(), "a cardigan in size 6"},
	}
}

// A barFigure is a figure that stays in sight.
type barFigure struct{ Name, Text string }

// figures are those that matter most: the first girth, how long it is, and the stitches of
// the girth.
func (v *makerView) figures(r *result) []barFigure {
	if v.Finished == nil || v.Finished.Lines == nil {
		return nil
	}
	lines := r.finished.Lines
	long := slices.IndexFunc(lines, func(l sizing.Line) bool { return l.Part.Dimension == "length" })
	for i, l := range lines {
		if l.Part.Part == "inside_leg" || l.Part.Part == "body_length" && lines[long].Part.Part != "inside_leg" {
			long = i
		}
	}
	var all []barFigure
	for _, i := range []int{0, long} {
		if i < 0 || i > 0 && long == 0 {
			continue
		}
		name, _, _ := strings.Cut(lines[i].Part.Name, ",")
		cells := v.Finished.Lines.Rows[i].Cells
		all = append(all, barFigure{name, cells[len(cells)-1].Text + " " + v.Tape})
	}
	if r.plan != nil && len(r.plan.Parts) > 0 && r.plan.Parts[0].Count > 0 {
		all = append(all, barFigure{"", strconv.Itoa(r.plan.Parts[0].Count) + " " + r.plan.Parts[0].Unit})
	}
	return all
}

// Without are the entries that a section of the answer leaves out first.
func (v *makerView) Without(section string) []concern {
	return slices.DeleteFunc(slices.Clone(v.Look), func(c concern) bool { return c.Section != section })
}

// said sums the view up in a sentence.
func (v *makerView) said(r *result) string {
	switch {
	case len(v.Look) > 0:
		return lookSentence(v.Look)
	case v.Finished == nil || v.Finished.Lines == nil:
		return "Nothing to show yet."
	}
	cells := v.Finished.Lines.Rows[0].Cells
	said := r.finished.Garment.Title + ": " + v.Finished.Lines.Rows[0].Name + " " + cells[len(cells)-1].Text + " " + v.Tape
	if r.plan != nil && len(r.plan.Parts) > 0 && r.plan.Parts[0].Count > 0 {
		said += ", " + strconv.Itoa(r.plan.Parts[0].Count) + " " + r.plan.Parts[0].Unit
	}
	return said + "."
}

// finishedOf lays out the document of finished measurements: what is known, and what
// is left out.
func finishedOf(style tell.Style, d tell.Document) *finishedView {
	v := &finishedView{Heading: d.Heading, Remarks: d.Remarks,
		Lines: newTable(d.Tables[0], "sums", "Finished measurements", "Finished measurements in "+tell.UnitWord(style.Unit)+": body and ease and adjustment.")}
	if len(d.Tables) > 1 {
		v.Missing = newTable(d.Tables[1], "left", "Left out", d.Tables[1].Caption)
	}
	return v
}

// planOf lays out the pattern of a plan. The findings have a list of their own, and the
// drawing stands above.
func planOf(style tell.Style, d tell.Document) *planView {
	return &planView{Chapters: chapters(d, "Finished sizes, what was asked for and the body, in "+tell.UnitWord(style.Unit)+", and the counts that give them.")}
}

// drawn is a panel as SVG; nothing where its sizes cannot be drawn.
func drawn(p schematic.Panel, title, unit string) template.HTML {
	var out bytes.Buffer
	o := schematic.SVGOptions{Title: title + ", drawn to scale", Prefix: "drawn", Unit: unit, Inline: true}
	if p.SVG(&out, o) != nil {
		return ""
	}
	return template.HTML(out.String()) // drawn here, its texts escaped
}

// findingViews separates the cautions from the other findings.
func findingViews(style tell.Style, findings []validate.Finding) (cautions, checks []findingView) {
	titles := map[string]string{}
	for _, r := range slices.Concat(validate.DraftRules(), validate.RowRules()) {
		titles[r.Code] = strings.TrimSuffix(r.Title, ".")
	}
	for _, f := range findings {
		w := style.Finding(f)
		v := findingView{Rule: f.Rule, Severity: f.Severity.String(), Title: titles[f.Rule], Subject: f.Subject,
			Found: w.Found, Expected: w.Expected, Fix: tell.Capital(w.Fix), By: w.By, Source: f.Source, Place: f.Place()}
		if f.Caution() {
			cautions = append(cautions, v)
		} else {
			checks = append(checks, v)
		}
	}
	slices.SortStableFunc(checks, func(a, b findingView) int { return severityOrder[a.Severity] - severityOrder[b.Severity] })
	return cautions, checks
}

var severityOrder = map[string]int{"stop": 0, "warn": 1, "note": 2}

// files are the files that the state gives.
func (s *site) files(st *state, r *result) []link {
	if r.body == nil {
		return nil
	}
	offer := func(name string) link {
		return link{"files/" + name + "?" + st.query(st.left), tell.Capital(s.downloads[name].summary) + " (" + ending(name) + ")"}
	}
	var all []link
	if r.plan != nil {
		all = append(all, offer("pattern.html"), offer("pattern.md"), offer("plan.xlsx"), offer("plan.csv"), offer("draft.csv"))
	}
	if r.finished != nil {
		all = append(all, offer("finished.csv"), offer("drawing.svg"))
	}
	if len(r.request.Child.Own) > 0 || r.request.Sizes.Named() {
		all = append(all, offer("body.csv"))
	}
	return all
}
