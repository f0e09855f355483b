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
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// A frame is what every view has round it.
type frame struct {
	View, Title string // View is maker, designer or contributor
	Home        string // the address of the maker's view, with its state
	Version     string
	Shared      bool // served to other machines too
	Credits     []string
	Sources     []sourceView
}

// A makerView is the maker's view.
type makerView struct {
	frame
	Form      form
	Tape      string // the unit of the tape that the form is filled in by
	Said      string // what changed, in a few words, for those who listen
	Faults    int
	Who       string
	BodyFrom  string
	BodyFault string
	Questions []string
	Standing  *standing
	Finished  *finishedView
	Plan      *planView
	Cautions  []findingView
	Checks    []findingView
	Files     []link
	Start     []link // to begin with, where nothing is known
}

type link struct{ Href, Text string }

// A finishedView is the finished measurements.
type finishedView struct {
	Title, Spec, Unit, Fault string
	Lines                    []finishedLine
	Missing                  []missingLine
	Picture                  template.HTML // SVG drawn by this program
}

type finishedLine struct {
	Name, Provenance, Share string
	Body                    num
	Ease, Adjust            num
	Finished                num
}

type missingLine struct{ Name, Measurement, How string }

// A planView is the work.
type planView struct {
	Fault, Gauge, Yarn string
	Unit               string
	Sections           []sectionView
	Parts              []partView
	Notes              []string
}

type sectionView struct {
	Name, Times string
	Stitches    num
	Rows        num
	Steps       []string
}

type partView struct {
	Name         string
	Count        num
	Gives, Asked string
}

// A findingView is a finding of a check.
type findingView struct {
	Rule, Severity, Title         string
	Subject, Found, Expected, Fix string
	By, Source, Place             string
}

func (s *site) frame(view, title, query string, sources []string) frame {
	home := "/"
	if query != "" {
		home += "?" + query
	}
	return frame{View: view, Title: title, Home: home, Version: s.engine.Version.Program, Shared: s.shared, Credits: tell.CreditLines(s.engine.Reference, tell.InOrder(sources)), Sources: s.sourceViews(sources)}
}

// maker answers with the maker's view.
func (s *site) maker(w http.ResponseWriter, r *http.Request) {
	st := s.readState(r.URL.RawQuery)
	s.render(w, http.StatusOK, "maker.html", s.makerView(st))
}

// render writes a view whole, or says that it could not.
func (s *site) render(w http.ResponseWriter, status int, name string, v any) {
	var out bytes.Buffer
	if err := s.pages[name].ExecuteTemplate(&out, "layout.html", v); err != nil {
		panic(err) // a slip in a template; guard says so
	}
	writeAnswer(w, status, "text/html; charset=utf-8", out.Bytes())
}

func (s *site) makerView(st *state) *makerView {
	sh := st.shower()
	if t := st.Value("tape"); t != "cm" && t != "in" {
		st.fault("tape", fmt.Sprintf("%q: want cm or in", t))
	}
	r := s.compute(st)
	v := &makerView{Tape: sh.unit, Form: form{st, s.engine.Reference}, BodyFault: capital(r.bodyFault), Who: capital(who(r.asked.Child))}
	var sources []string
	if r.body != nil {
		v.BodyFrom = sh.style().BodySummary(r.body)
		v.Questions = sh.style().Questions(r.body.Questions)
		v.Standing = s.standing(sh, r)
		sources = append(sources, r.body.Sources()...)
	} else if r.bodyFault == "" && len(st.faults) == 0 {
		v.Start = starts()
	}
	if r.finished != nil {
		v.Finished = s.finishedView(sh, r.finished)
		for _, l := range r.finished.Lines {
			sources = append(sources, l.Sources()...)
		}
	} else if r.finishedFault != "" {
		v.Finished = &finishedView{Fault: capital(sh.words(r.finishedFault))}
	}
	if r.plan != nil {
		v.Plan = s.planView(sh, r.plan.Plan)
		sources = append(sources, r.plan.Sources()...)
	} else if r.planFault != "" {
		v.Plan = &planView{Fault: capital(sh.words(r.planFault))}
	}
	v.Cautions, v.Checks = s.findingViews(sh.style(), r.findings)
	for _, list := range [][]findingView{v.Cautions, v.Checks} {
		for i := range list {
			f := &list[i]
			f.Place = "" // of a draft that is not shown
			f.Subject = spoken(f.Subject)
		}
	}
	v.Faults = len(st.faults)
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
		{"/?" + tall.Encode(), "a tall, slim child of nine, a cardigan with lengths from size 10 and widths from size 6"},
		{"/?" + sturdy.Encode(), "a sturdy child of two, trousers over a nappy"},
		{"/?" + baby.Encode(), "a baby of 22 months, a hooded pram suit"},
		{"/?" + size.Encode(), "a cardigan in size 6"},
	}
}

// who says who the child is.
func who(c sizing.Child) string {
	var parts []string
	switch c.Sex {
	case sizing.Boy:
		parts = append(parts, "boy")
	case sizing.Girl:
		parts = append(parts, "girl")
	}
	if c.AgeYears > 0 {
		months := int(c.AgeYears*12 + 0.5)
		years, rest := several(months/12, "year"), several(months%12, "month")
		switch {
		case months < 12:
			parts = append(parts, rest)
		case months%12 == 0:
			parts = append(parts, years)
		default:
			parts = append(parts, years+" "+rest)
		}
	}
	return strings.Join(parts, ", ")
}

// said sums the view up in a sentence.
func (v *makerView) said(r *result) string {
	switch {
	case v.Faults > 0:
		return entriesToLookAt(v.Faults)
	case v.Finished == nil || len(v.Finished.Lines) == 0:
		return "Nothing to show yet."
	}
	l := v.Finished.Lines[0]
	said := v.Finished.Title + ": " + l.Name + " " + l.Finished.Text + " " + v.Finished.Unit
	if r.plan != nil && len(r.plan.Parts) > 0 && r.plan.Parts[0].Count > 0 {
		said += ", " + strconv.Itoa(r.plan.Parts[0].Count) + " " + r.plan.Parts[0].Unit
	}
	return said + "."
}

func entriesToLookAt(n int) string {
	if n == 1 {
		return "One entry needs a look."
	}
	return strconv.Itoa(n) + " entries need a look."
}

func (s *site) finishedView(sh shower, f *sizing.Finished) *finishedView {
	v := &finishedView{Title: f.Garment.Title, Spec: sh.style().Spec(f.Spec), Unit: sh.unit}
	v.Picture = picture(f, sh.unit)
	for _, l := range f.Lines {
		id := "why-part-" + l.Part.Part
		text := sh.finished(l)
		terms := sh.style().Terms(l).Lines()
		line := finishedLine{Name: l.Part.Name, Provenance: string(l.Body.Provenance),
			Body:     num{Text: sh.reading(l.Body), ID: "why-body-" + l.Part.Measurement, Name: l.Body.Measurement.Name, More: true},
			Ease:     num{Text: sh.added(l.Ease), ID: id, Name: "ease", More: true},
			Adjust:   num{Text: sh.added(l.Adjust), ID: id, Name: "adjustment", More: true},
			Finished: num{Text: text, ID: id, Name: l.Part.Name, Why: append(terms, rangeWords(sh, l)...)}}
		if l.Share.Cm != 0 {
			line.Share = plain(l.Share.Cm) + " %"
		}
		v.Lines = append(v.Lines, line)
	}
	for _, p := range f.Missing {
		if m, err := s.engine.Reference.Measurement(p.Measurement); err == nil {
			v.Missing = append(v.Missing, missingLine{p.Name, m.Name, m.How})
		}
	}
	return v
}

// picture draws the garment; nothing where its sizes cannot be drawn.
func picture(f *sizing.Finished, unit string) template.HTML {
	var out bytes.Buffer
	o := schematic.SVGOptions{Title: f.Garment.Title + ", drawn to scale", Prefix: "drawn", Unit: unit, Inline: true}
	if schematic.Finished(f, unit).SVG(&out, o) != nil {
		return ""
	}
	return template.HTML(out.String()) // drawn here, its texts escaped
}

// rangeWords say which ease still belongs to the fit.
func rangeWords(sh shower, l sizing.Line) []string {
	switch {
	case len(l.Ease) == 0 || l.EaseLow == l.EaseHigh:
		return nil
	case l.EaseHigh > 1000:
		return []string{"Ease of this fit: " + sh.length(l.EaseLow) + " " + sh.unit + " or more."}
	}
	return []string{"Ease of this fit: " + sh.length(l.EaseLow) + " to " + sh.length(l.EaseHigh) + " " + sh.unit + "."}
}

func (s *site) planView(sh shower, p *plan.Plan) *planView {
	words := tell.Style{Unit: sh.unit, Craft: string(p.How.Craft)}
	v := &planView{Unit: sh.unit, Notes: words.Facts(p.Notes), Gauge: capital(string(p.How.Craft)) + ", " + sh.gauge(p.How.Gauge)}
	if y := p.Yarn; y != nil {
		balls := "1 ball"
		if y.Need.Balls != 1 {
			balls = strconv.Itoa(y.Need.Balls) + " balls"
		}
		v.Yarn = fmt.Sprintf("%s: %.0f m, %.0f g, with %.0f %% to spare, for %.0f cm² of fabric.", balls, y.Need.Metres, y.Need.Grams, y.Margin*100, y.AreaCm2)
	}
	for i, x := range p.Sections {
		id, name := "why-section-"+strconv.Itoa(i), tell.SectionName(x.Kind)
		kind := "turned rows"
		if x.InRounds {
			kind = "rounds"
		}
		rows := num{Text: strconv.Itoa(x.Rows()), ID: id, Name: name, Why: []string{
			fmt.Sprintf("Worked in %s, at %s: %d rows are %s %s high.", kind, sh.gauge(x.Gauge), x.Rows(), sh.length(x.HeightCm()), sh.unit),
			fmt.Sprintf("It begins with %d stitches, %s %s wide, and ends with %d, %s %s wide.", x.From, sh.length(x.Gauge.WidthCm(x.From)), sh.unit, x.To(), sh.length(x.Gauge.WidthCm(x.To())), sh.unit)}}
		sec := sectionView{Name: name, Times: times(x.Copies), Rows: rows, Stitches: num{Text: span(strconv.Itoa(x.From), strconv.Itoa(x.To())), ID: id, Name: name, More: true}}
		sec.Steps = words.Steps(x.Steps)
		v.Sections = append(v.Sections, sec)
	}
	for _, x := range p.Parts {
		part := partView{Name: x.Line.Part.Name, Gives: sh.length(x.SizeCm), Asked: sh.length(x.WantCm),
			Count: num{Text: "–", ID: "why-count-" + x.Line.Part.Part, Name: x.Line.Part.Name}}
		if x.Count > 0 {
			part.Count.Text = fmt.Sprintf("%d %s", x.Count, x.Unit)
			part.Count.Why = []string{fmt.Sprintf("%s %s asked for; %d %s at %s give %s %s.", sh.length(x.WantCm), sh.unit, x.Count, x.Unit, sh.gaugeOf(p, x), sh.length(x.SizeCm), sh.unit)}
			if x.Multiple != (plan.Part{}).Multiple {
				part.Count.Why = append(part.Count.Why, "The count is kept to the form "+fmt.Sprint(x.Multiple)+".")
			}
		} else {
			part.Count.Why = []string{"Made up of rows of several gauges: " + sh.length(x.SizeCm) + " " + sh.unit + " in all."}
		}
		v.Parts = append(v.Parts, part)
	}
	return v
}

// findingViews parts the cautions from the other findings.
func (s *site) findingViews(style tell.Style, findings []validate.Finding) (cautions, checks []findingView) {
	titles := map[string]string{}
	for _, r := range slices.Concat(validate.DraftRules(), validate.RowRules()) {
		titles[r.Code] = strings.TrimSuffix(r.Title, ".")
	}
	for _, f := range findings {
		w := style.Finding(f)
		v := findingView{Rule: f.Rule, Severity: f.Severity.String(), Title: titles[f.Rule], Subject: f.Subject,
			Found: w.Found, Expected: w.Expected, Fix: capital(w.Fix), By: w.By, Source: f.Source, Place: f.Place()}
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
	if len(st.faults) > 0 || r.body == nil {
		return nil
	}
	offer := func(name string) link {
		return link{"/files/" + name + "?" + st.Query(), capital(s.toTake[name].summary) + " (" + ending(name) + ")"}
	}
	var all []link
	if r.plan != nil {
		all = append(all, offer("plan.xlsx"), offer("plan.csv"), offer("draft.csv"))
	}
	if r.finished != nil {
		all = append(all, offer("finished.csv"), offer("drawing.svg"))
	}
	if len(r.asked.Child.Own) > 0 || r.asked.Sizes.Named() {
		all = append(all, offer("body.csv"))
	}
	return all
}
