package page

import (
	"fmt"
	"net/http"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/data"
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
	Faults int
	Unit   string

	ChartTitle, ChartNote string
	Heads                 []string
	Rows                  []sizesRow
	Hidden                int
	Graded                *gradedView
	Growth                *growthView
}

// A sizesRow is a measurement at several sizes.
type sizesRow struct {
	Name  string
	Why   num // of all cells
	Cells []num
}

// A gradedView is a garment at several sizes.
type gradedView struct {
	Title, Spec, Fault, Gauge, Counts string
	Rows                              []gradedRow
	Sections                          []gradedSection
	Notes                             []string
}

type gradedRow struct {
	Name  string
	Why   num // of all cells
	Cells []num
	Count string // in brackets, where there is a gauge
}

type gradedSection struct {
	Name, Stitches, Rows, Times string
	Steps                       []string
}

// designer answers with the designer's view.
func (s *site) designer(w http.ResponseWriter, r *http.Request) {
	s.render(w, http.StatusOK, "designer.html", s.designerView(s.designerState(r.URL.RawQuery)))
}

func (s *site) designerState(query string) *state {
	st, _ := s.readForm(query, ask.RunFields(), designerStart)
	return st
}

func (s *site) designerView(st *state) *designerView {
	ref := s.engine.Reference
	sh := st.shower()
	asked := s.read(st)
	v := &designerView{Form: form{st, ref}, Unit: sh.unit}
	chart, _ := ref.Chart(st.Value("chart")) // its fault is said
	for _, m := range ref.Measurements() {
		x := v.Form.field(ask.Control{Name: "curve", Label: m.Name, Tick: m.ID})
		x.Checked = x.Checked || !st.raw.Has("curve") && slices.Contains(usualCurves, m.ID)
		v.Curves = append(v.Curves, x)
	}
	var sources []string
	if chart != nil {
		v.ChartTitle, v.ChartNote = chart.Title, chart.Note
		labels, places := places(st, asked, chart)
		bodies := s.sideBySide(v, sh, labels, places, asked)
		for _, b := range bodies {
			sources = append(sources, b.Sources()...)
		}
		if len(bodies) > 0 {
			v.Graded = s.graded(st, sh, asked, labels, bodies, &sources)
		}
		v.Growth = s.growth(v.Curves, sh, chart, asked.Child.Sex, places)
	}
	v.Faults = len(st.faults)
	v.Said = fmt.Sprintf("%d measurements at %d sizes.", len(v.Rows), len(v.Heads))
	if v.Faults > 0 {
		v.Said = entriesToLookAt(v.Faults)
	}
	v.frame = s.frame("designer", "Sizes side by side", "", sources)
	return v
}

// places finds the sizes that were asked for, each once.
func places(st *state, asked *ask.Request, chart *sizing.Chart) ([]string, []sizing.Place) {
	var labels []string
	var places []sizing.Place
	var faults []string
	for _, name := range asked.Run {
		p, err := chart.Place(name, asked.Child.Sex)
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
		faults = append(faults, "want sizes, comma-separated, as 3, 4, 5.5, 18m, 104cm")
	}
	if len(faults) > 0 {
		st.fault("sizes", strings.Join(faults, "\n"))
	}
	return labels, places
}

// sideBySide lays the sizes out in columns.
func (s *site) sideBySide(v *designerView, sh shower, labels []string, places []sizing.Place, asked *ask.Request) []*sizing.Body {
	var bodies []*sizing.Body
	for i, p := range places {
		bodies = append(bodies, s.engine.Reference.BodyAt(p, asked.Sizes.Method))
		head := labels[i]
		if l := p.Label(); !strings.EqualFold(l, head) {
			head += " (" + l + ")"
		}
		v.Heads = append(v.Heads, head)
	}
	for _, m := range s.engine.Reference.Measurements() {
		row := sizesRow{Name: m.Name}
		why := &shared{}
		found := false
		for i, b := range bodies {
			r, ok := b.Get(m.ID)
			if !ok {
				row.Cells = append(row.Cells, num{Text: "–"})
				continue
			}
			found = true
			n := num{Text: sh.reading(r), ID: "why-" + m.ID, More: true}
			why.reading(labels[i], n.Text, sh.style().Reason(r))
			if b := sh.bounds(r); b != "" {
				why.once(labels[i], "range "+b+", "+spreadWords[r.Spread])
			}
			row.Cells = append(row.Cells, n)
		}
		switch {
		case !found:
		case !asked.All && !s.oftenNeeded(m):
			v.Hidden++
		default:
			row.Why = num{Name: m.Name, ID: "why-" + m.ID, Why: why.lines()}
			v.Rows = append(v.Rows, row)
		}
	}
	return bodies
}

// oftenNeeded reports whether a garment has a part that rests on a measurement,
// or people speak of it.
func (s *site) oftenNeeded(m data.Measurement) bool {
	if slices.Contains(firstMeasures, m.ID) {
		return true
	}
	for _, g := range s.engine.Reference.Garments() {
		parts, err := s.engine.Reference.Parts(g.ID)
		if err == nil && slices.ContainsFunc(parts, func(p data.Part) bool { return p.Measurement == m.ID }) {
			return true
		}
	}
	return false
}

// graded works a garment out for all the sizes, with counts in brackets where
// there is a gauge.
func (s *site) graded(st *state, sh shower, asked *ask.Request, labels []string, bodies []*sizing.Body, sources *[]string) *gradedView {
	if len(st.faults) > 0 {
		return nil
	}
	v := &gradedView{}
	var run []*sizing.Finished
	for i, b := range bodies {
		f, err := s.engine.Reference.Finish(b, asked.Spec)
		if err != nil {
			v.Fault = "Size " + labels[i] + ": " + err.Error()
			return v
		}
		run = append(run, f)
	}
	v.Title, v.Spec = run[0].Garment.Title, sh.style().Spec(asked.Spec)
	for _, l := range longest(run).Lines {
		row := gradedRow{Name: l.Part.Name}
		why := &shared{}
		for i, f := range run {
			n := num{Text: "–"}
			if x, ok := f.Line(l.Part.Part); ok {
				text := sh.finished(x)
				*sources = append(*sources, x.Sources()...)
				n = num{Text: text, ID: "why-part-" + x.Part.Part, More: true}
				why.reading(labels[i], text, sh.style().Terms(x))
			}
			row.Cells = append(row.Cells, n)
		}
		row.Why = num{Name: l.Part.Name, ID: "why-part-" + l.Part.Part, Why: why.lines()}
		v.Rows = append(v.Rows, row)
	}
	if asked.Given("gauge") {
		s.gradedCounts(v, sh, labels, run, asked.How)
	}
	return v
}

// longest is the garment with the most parts known.
func longest(run []*sizing.Finished) *sizing.Finished {
	most := run[0]
	for _, f := range run[1:] {
		if len(f.Lines) > len(most.Lines) {
			most = f
		}
	}
	return most
}

func (s *site) gradedCounts(v *gradedView, sh shower, labels []string, run []*sizing.Finished, how plan.How) {
	g, err := plan.Grade(labels, run, how)
	if err != nil {
		v.Counts = "No counts: " + err.Error()
		return
	}
	told := tell.Style{Unit: sh.unit, Craft: string(how.Craft)}.Run(g)
	v.Gauge = string(how.Craft) + ", " + sh.gauge(how.Gauge)
	for _, p := range told.Parts {
		for i := range v.Rows {
			if v.Rows[i].Name == p.Name && p.Count != "" {
				v.Rows[i].Count = p.Count + " " + p.Unit
			}
		}
	}
	for _, x := range told.Sections {
		sec := gradedSection{Name: x.Name, Stitches: span(x.From, x.To), Rows: x.Rows, Times: times(x.Copies)}
		for _, l := range x.Steps {
			sec.Steps = append(sec.Steps, l.String())
		}
		v.Sections = append(v.Sections, sec)
	}
	v.Notes = told.Notes
}
