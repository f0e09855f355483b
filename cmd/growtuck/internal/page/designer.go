package page

import (
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// usualCurves are shown when none is chosen.
var usualCurves = []string{"chest", "hip", "arm_length", "inside_leg"}

// maxSizes bounds the sizes side by side.
const maxSizes = 24

// A designerView is the chart between sizes, a graded table and growth curves.
type designerView struct {
	frame
	Form   form
	Curves []field
	Said   string
	Look   []concern

	ChartTitle, ChartNote string
	Sizes                 *table
	Remarks               []string
	Graded                *gradedView
	Growth                *growthView
}

// A gradedView is a garment at several sizes.
type gradedView struct {
	Title, Fault string
	NoCounts     string // why there are none
	Parts        *table
	Picture      template.HTML // SVG drawn by this program
	Key          []schematic.KeyRow
	KeyOf        string // the sizes of the key, and that of the figure
	Chapters     []chapterView
	Cautions     []findingView
	Checks       []findingView
	Files        []link
}

// designer answers with the designer's view.
func (s *site) designer(w http.ResponseWriter, r *http.Request) {
	st := s.designerState(r.URL.RawQuery)
	st.ctx = r.Context()
	s.render(w, r, http.StatusOK, s.designerView(st))
}

func (s *site) designerState(query string) *state {
	return s.readForm(query, ask.RunFields(), designerStart)
}

func (s *site) designerView(st *state) *designerView {
	ref := s.engine.Reference
	style := st.style()
	request := s.read(st)
	style.Over4In = request.Over4In()
	v := &designerView{Form: form{st: st, ref: ref}}
	chart, _ := ref.Chart(st.Value("chart")) // its fault is said
	for _, m := range ref.Measurements() {
		x := v.Form.field(ask.Control{Name: "curve", Label: m.Name, Tick: m.ID})
		x.Checked = x.Checked || !st.raw.Has("curve") && slices.Contains(usualCurves, m.ID)
		v.Curves = append(v.Curves, x)
	}
	var sources []string
	if chart != nil {
		v.ChartTitle, v.ChartNote = chart.Title, chart.Note
		labels, places := places(st, request, chart)
		if len(places) > 0 {
			sources = append(sources, s.sideBySide(v, style, labels, request)...)
			request.Run = labels
			var more []string
			v.Graded, more = s.graded(st, style, request)
			sources = append(sources, more...)
		}
		v.Growth = s.growth(v.Curves, style.Unit, chart, request.Child.Sex, places)
	}
	v.Look = v.Form.Concerns()
	v.Said = "Nothing to show yet."
	if v.Sizes != nil {
		v.Said = fmt.Sprintf("%d measurements at %d sizes.", len(v.Sizes.Rows), len(v.Sizes.Heads)-1)
	}
	if len(v.Look) > 0 {
		v.Said = lookSentence(v.Look)
	}
	v.frame = s.frame("designer", "Sizes side by side", st.Query(), sources)
	return v
}

// places finds the sizes that were asked for, each once.
func places(st *state, request *ask.Request, chart *sizing.Chart) ([]string, []sizing.Place) {
	var labels []string
	var places []sizing.Place
	var faults []string
	for _, name := range chart.WithHeights(request.Run, request.Child.Sex) {
		p, err := chart.Place(name, request.Child.Sex)
		switch {
		case err != nil:
			faults = append(faults, err.Error())
		case slices.Contains(labels, name):
		case len(places) == maxSizes:
			faults = append(faults, fmt.Sprintf("at most %d sizes go side by side", maxSizes))
			st.fault("sizes", strings.Join(faults, "\n"))
			return labels, places
		default:
			labels, places = append(labels, name), append(places, p)
		}
	}
	if len(places) == 0 && len(faults) == 0 {
		faults = append(faults, "want sizes, comma-separated, such as 3, 4, 5.5, 18m, 104cm")
	}
	if len(faults) > 0 {
		st.fault("sizes", strings.Join(faults, "\n"))
	}
	return labels, places
}

// sideBySide shows the sizes as growtuck size does, and returns their sources.
func (s *site) sideBySide(v *designerView, style tell.Style, labels []string, request *ask.Request) []string {
	d, err := work.Sizes(s.engine.Reference, request, labels, style)
	if err != nil {
		return nil // the sizes were found: it does not fail
	}
	v.Sizes = newTable(d.Tables[0], "many", "Body measurements by size", d.Heading[0]+", before ease.")
	if v.Sizes != nil {
		v.Sizes.Visible = true
	}
	v.Remarks = d.Remarks
	return d.Sources
}

// graded works a garment out for all the sizes, with counts in brackets where
// there is a gauge, and returns its sources. What is wrong takes away what rests on it.
func (s *site) graded(st *state, style tell.Style, request *ask.Request) (*gradedView, []string) {
	if st.Fault("garment") != "" {
		return nil, nil
	}
	ref := s.engine.Reference
	v := &gradedView{}
	run, err := work.FinishRun(ref, request)
	if err != nil {
		var field *ask.Fault
		if errors.As(err, &field) {
			st.fault(field.Control(), style.Error(field.Err))
			return nil, nil
		}
		v.Fault = tell.Capital(style.Error(err))
		return v, nil
	}
	var sources []string
	for _, f := range run {
		for _, l := range f.Lines {
			sources = append(sources, l.Sources()...)
		}
	}
	g := s.planRun(st, style, v, request, run)
	v.Title = run[0].Garment.Title + ", " + style.Spec(request.Spec)
	v.Parts = newTable(style.FinishedSizes(request.Run, run, g), "many", "Finished measurements by size", "Finished measurements by size, in "+tell.UnitWord(style.Unit)+".")
	if len(run) <= work.MostDrawn {
		p := work.Panel(run, request, style.Unit)
		v.Picture, v.Key = drawn(p, run[0].Garment.Title, style.Unit), p.Key()
		v.KeyOf = fmt.Sprintf("The figure is size %s; its letters, in sizes %s:", request.Run[len(run)/2], schematic.Bracketed(request.Run))
	}
	if g != nil {
		d := style.Graded(ref, g)
		v.Chapters = chapters(d, "Finished sizes, what was asked for and the bodies, in "+tell.UnitWord(style.Unit)+", and the counts that give them.")
		sources = append(sources, d.Sources...)
		s.checkRun(v, style, request, g)
	}
	v.Files = s.filesOfSizes(st, g != nil, len(run))
	return v, sources
}

// planRun plans the sizes where the gauge is known; nil where there is no plan.
func (s *site) planRun(st *state, style tell.Style, v *gradedView, request *ask.Request, run []*sizing.Finished) *plan.Graded {
	if !request.Given("gauge") {
		return nil
	}
	g, err := work.GradeRun(request, run)
	var field *ask.Fault
	if errors.As(err, &field) { // of what is beside the counts: they are planned without it
		st.fault(field.Control(), style.Error(field.Err))
		st.leaveOut(field.Control())
		request.How.Colours, request.How.Pace = nil, plan.Pace{}
		g, err = work.GradeRun(request, run)
	}
	if err != nil {
		v.NoCounts = "No counts: " + style.Error(err)
		return nil
	}
	return g
}

// checkRun checks the plan of every size: what is found in several is said once, with
// the sizes.
func (s *site) checkRun(v *gradedView, style tell.Style, request *ask.Request, g *plan.Graded) {
	found, err := work.CheckRun(s.engine.Reference, request, g)
	if err != nil {
		return // the plan was made of what is checked: it does not fail
	}
	merge := func(into []findingView, some []findingView, size string) []findingView {
		for _, f := range some {
			f.Subject = tell.Spoken(f.Subject)
			f.Place = ""
			i := slices.IndexFunc(into, func(x findingView) bool { x.Place = ""; return x == f })
			if i < 0 {
				f.Place = "Size " + size
				into = append(into, f)
			} else {
				into[i].Place += ", " + size
			}
		}
		return into
	}
	for i, findings := range found {
		cautions, checks := findingViews(style, findings)
		v.Cautions, v.Checks = merge(v.Cautions, cautions, g.Labels[i]), merge(v.Checks, checks, g.Labels[i])
	}
}

// filesOfSizes are the files that the sizes give.
func (s *site) filesOfSizes(st *state, planned bool, sizes int) []link {
	names := []string{"finished.csv", "body.csv"}
	if sizes <= work.MostDrawn {
		names = slices.Insert(names, 1, "drawing.svg")
	}
	if planned {
		names = slices.Concat([]string{"pattern.html", "pattern.md", "plan.xlsx", "plan.csv"}, names)
	}
	var all []link
	for _, name := range names {
		all = append(all, link{"files/sizes/" + name + "?" + st.query(st.left), tell.Capital(s.downloads[name].summary) + " (" + ending(name) + ")"})
	}
	return all
}
