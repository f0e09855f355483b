package page

import (
	"fmt"
	"net/http"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
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
	Chapters     []chapterView
}

// designer answers with the designer's view.
func (s *site) designer(w http.ResponseWriter, r *http.Request) {
	s.render(w, r, http.StatusOK, s.designerView(s.designerState(r.URL.RawQuery)))
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
			if len(st.faults) == 0 {
				var more []string
				v.Graded, more = s.graded(style, request, labels, places)
				sources = append(sources, more...)
			}
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
	v.Sizes = newTable(d.Tables[0], "many", "Body measurements by size", d.Heading[0]+", before ease. Each number is a button that says where it comes from.")
	if v.Sizes != nil {
		v.Sizes.Visible = true
	}
	v.Remarks = d.Remarks
	return d.Sources
}

// graded works a garment out for all the sizes, with counts in brackets where
// there is a gauge, and returns its sources.
func (s *site) graded(style tell.Style, request *ask.Request, labels []string, places []sizing.Place) (*gradedView, []string) {
	ref := s.engine.Reference
	v := &gradedView{}
	var run []*sizing.Finished
	var sources []string
	for i, p := range places {
		f, err := ref.Finish(ref.BodyAt(p, request.Sizes.Method), request.Spec)
		if err != nil {
			v.Fault = "Size " + labels[i] + ": " + style.Error(err)
			return v, nil
		}
		run = append(run, f)
		for _, l := range f.Lines {
			sources = append(sources, l.Sources()...)
		}
	}
	var g *plan.Graded
	if request.Given("gauge") {
		var err error
		if g, err = plan.Grade(labels, run, request.How); err != nil {
			v.NoCounts = "No counts: " + err.Error()
		}
	}
	v.Title = run[0].Garment.Title + ", " + style.Spec(request.Spec)
	v.Parts = newTable(style.FinishedSizes(labels, run, g), "many", "Finished measurements by size", "Finished measurements by size, in "+tell.UnitWord(style.Unit)+". Each number is a button that says where it comes from.")
	if g != nil {
		d := style.Graded(ref, g)
		v.Chapters = chapters(d, "Finished sizes, what was asked for and the bodies, in "+tell.UnitWord(style.Unit)+", and the counts that give them.")
		sources = append(sources, d.Sources...)
	}
	return v, sources
}
