package tell

import (
	"slices"
	"strconv"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// A pattern lays out one plan as a document to work from.
type pattern struct {
	Style
	plan  *plan.Plan
	child sizing.Child
}

// chapters are the pattern from its sizes to the finishing.
func (x pattern) chapters() []Chapter {
	all := []Chapter{x.sizes(), x.materials(), x.gauge()}
	all = append(all, x.construction(), Chapter{ID: "drawing", Title: "Schematic", Lines: []string{x.say("drawing")}, Drawn: true})
	for _, s := range x.plan.Sections {
		all = append(all, x.section(s))
	}
	all = append(all, x.finishing())
	if c, ok := x.yarnAndTime(); ok {
		all = append(all, c)
	}
	return x.withGlossary(all)
}

// LetterHead is over the letters that a drawing shares with its tables.
const LetterHead = "letter"

// Letter is the letter of a part in drawings and tables, by its place among the
// finished measurements. After Z Z come AA, AB and so on.
func Letter(place int) string {
	letter := string(rune('A' + place%26))
	if place >= 26 {
		return Letter(place/26-1) + letter
	}
	return letter
}

// letter is that of a part.
func letter(f *sizing.Finished, part string) string {
	i := slices.IndexFunc(f.Lines, func(l sizing.Line) bool { return l.Part.Part == part })
	if i < 0 {
		return ""
	}
	return Letter(i)
}

// sizes are what the counts give beside the body, by the letters of the drawing.
func (x pattern) sizes() Chapter {
	t := Table{Columns: []Column{{Head: LetterHead}, {Head: "part", Wrap: true}}}
	units := x.Units()
	for i, u := range units {
		if i == 0 {
			t.Columns = append(t.Columns, Column{Head: "body, " + u, Right: true})
		}
		t.Columns = append(t.Columns, Column{Head: "finished, " + u, Right: true}, Column{Head: "asked", Right: true})
	}
	t.Columns = append(t.Columns, Column{Head: "count", Right: true, Opens: true})
	for i, line := range x.plan.Finished.Lines {
		p, planned := x.plan.Part(line.Part.Part)
		if !planned { // no count makes it
			p = plan.Part{Line: line, SizeCm: line.Finished, WantCm: line.Finished}
		}
		row := newRow(Letter(i), line.Part.Name)
		for i, u := range units {
			if i == 0 {
				row.Cells = append(row.Cells, amount(onBody(line), u))
			}
			row.Cells = append(row.Cells, LengthIn(p.SizeCm, u), LengthIn(p.WantCm, u))
		}
		count := absent
		if p.Count > 0 {
			count = strconv.Itoa(p.Count) + " " + p.Unit
		}
		row.Cells = append(row.Cells, count)
		if x.Place == Page && planned {
			row.ID, row.Why = "count-"+p.Line.Part.Part, x.countReasons(x.plan.How, p)
		}
		t.Rows = append(t.Rows, row)
	}
	return Chapter{ID: "sizes", Title: "Finished sizes", Table: &t}
}

// onBody is what a part lies over: the share of the measurement that it is a part of.
func onBody(l sizing.Line) sizing.Reading {
	r := l.Body
	if l.Share.Cm != 0 {
		r.Value, r.Imperial = r.Value*l.Share.Cm/100, r.Imperial*l.Share.Cm/100
	}
	return r
}

// gauge is what the swatch must have.
func (x pattern) gauge() Chapter {
	h := x.plan.How
	items := []string{x.say("gauge-washed", Capital(x.Gauge(h.Gauge)))}
	if h.Rib != nil {
		items = append(items, x.say("gauge-rib", x.Gauge(*h.Rib)))
	} else if slices.ContainsFunc(x.plan.Sections, func(s *plan.Section) bool { return s.Ribbed }) {
		items = append(items, x.say("gauge-rib-unknown"))
	}
	if h.Before != nil {
		items = append(items, x.say("gauge-before", x.Gauge(*h.Before)))
	}
	over, times := x.swatch()
	items = append(items, x.say("gauge-first", sizing.Length(15), over, 1/(h.Gauge.StitchesPer10Cm*times)))
	return Chapter{ID: "gauge", Title: "Gauge", Items: items}
}

// construction says how the garment is put together.
func (x pattern) construction() Chapter {
	p := x.plan
	items := []string{x.say(madeHow(p))}
	var turned, round, twice []string
	for _, s := range p.Sections {
		name := sectionName(s.Kind)
		if s.InRounds {
			round = append(round, name)
		} else {
			turned = append(turned, name)
		}
		if s.Copies == 2 {
			twice = append(twice, name)
		}
	}
	switch {
	case len(round) == 0:
		items = append(items, x.say("made-all-turned"))
	case len(turned) == 0:
		items = append(items, x.say("made-all-rounds"))
	default:
		items = append(items, x.say("made-turned", strings.Join(turned, "; ")), x.say("made-rounds", strings.Join(round, "; ")))
	}
	if len(twice) > 0 {
		items = append(items, x.say("made-copies", strings.Join(twice, "; ")))
	}
	items = append(items, x.craft().notes(x.Style, len(round) > 0)...)
	items = append(items, x.colours()...)
	return Chapter{ID: "construction", Title: "How it is made", Items: append(items, x.say("made-counts"))}
}

// madeHow is the words for the order of the work.
func madeHow(p *plan.Plan) string {
	has := func(id string) bool { _, ok := p.Section(id); return ok }
	switch p.Garment.Group {
	case "lower":
		return "made-waist"
	case "hand":
		return "made-hand"
	case "foot":
		if has("calf") {
			return "made-leg"
		}
		return "made-foot"
	case "head":
		if has("hood") {
			return "made-tube"
		}
		if p.Sections[0].ID == "crown" {
			return "made-crown"
		}
		return "made-brim"
	case "one-piece":
		if p.Hood != nil {
			return "made-down-suit"
		}
		return "made-down-plain"
	}
	switch {
	case has("drape"):
		return "made-drape"
	case has("yoke"):
		return "made-down"
	}
	return "made-shoulders"
}

// colours say what is striped, and what has a colour of its own.
func (x pattern) colours() []string {
	var items []string
	if stripes := x.plan.How.Stripes; len(stripes) > 0 {
		items = append(items, x.say("made-stripes", x.bands(stripes)))
		odd := slices.ContainsFunc(stripes, func(s plan.Stripe) bool { return s.Rows%2 == 1 })
		if odd && slices.ContainsFunc(x.plan.Sections, func(s *plan.Section) bool { return !s.InRounds }) {
			items = append(items, x.say("made-stripes-odd"))
		}
	}
	var order []string
	plain := make(map[string][]string)
	for _, s := range x.plan.Sections {
		if bands := s.Bands(); len(bands) == 1 {
			colour := bands[0].Colour
			if plain[colour] == nil {
				order = append(order, colour)
			}
			plain[colour] = append(plain[colour], sectionName(s.Kind))
		}
	}
	for _, colour := range order {
		items = append(items, x.say("made-colour", colour, strings.Join(plain[colour], "; ")))
	}
	return items
}

// stripesOf say how the rows of a section change their colours; nothing where they
// have one.
func (x pattern) stripesOf(s *plan.Section) []string {
	if len(s.Bands()) < 2 {
		return nil
	}
	return []string{x.striped(s)}
}

// striped says how the rows of a section change their colours: what is left of the
// repeat at its beginning, the repeat, and the end.
func (x pattern) striped(s *plan.Section) string {
	bands, repeat := s.Bands(), x.plan.How.Stripes
	first := slices.IndexFunc(bands, func(b plan.Stripe) bool { return b == repeat[0] })
	if first < 0 || len(bands) <= first+len(repeat)+1 {
		return x.say("section-colours", x.bands(bands))
	}
	last := bands[len(bands)-1:]
	if first == 0 {
		return x.say("section-stripes", x.bands(repeat), x.bands(last))
	}
	return x.say("section-stripes-begun", x.bands(bands[:first]), x.bands(repeat), x.bands(last))
}

// bands are rows of colours: "4 rows red, 2 rows white".
func (x pattern) bands(stripes []plan.Stripe) string {
	var all []string
	for _, s := range stripes {
		all = append(all, counted(strconv.Itoa(s.Rows), float64(s.Rows), "rows")+" "+s.Colour)
	}
	return strings.Join(all, ", ")
}

// section is the work of a section, what to look at once it is tried on, and how it
// is made longer or wider.
func (x pattern) section(s *plan.Section) Chapter {
	about := span(strconv.Itoa(s.From), strconv.Itoa(s.To())) + " stitches, " + x.value(s.Rows(), rowsOf(s)) + ", " + x.inUnit(s.HeightCm())
	if s.Copies > 1 {
		about = copies(s.Copies) + "; " + about
	}
	c := Chapter{ID: s.ID, Title: sectionName(s.Kind), About: about, Twice: s.Copies > 1}
	if x.Place == Page {
		c.Why = x.sectionReasons(s)
	}
	for _, step := range s.Steps {
		c.Work = append(c.Work, x.work(s, step))
	}
	c.Lines = x.stripesOf(s)
	if !x.plan.Adds(s) {
		c.After = append(x.tryOn(s), x.longer(s), x.wider(s))
	}
	return c
}

// rowsOf is what the section's rows are called.
func rowsOf(s *plan.Section) string {
	if s.InRounds {
		return "rounds"
	}
	return "rows"
}

// work is a step with the rows that it works.
func (x pattern) work(s *plan.Section, step plan.Step) Work {
	w := Work{Step: step.ID, Text: x.Step(step)}
	if step.Rows == 0 {
		return w
	}
	w.Count = strconv.Itoa(step.To)
	for r := step.Row; r < step.Row+step.Rows; r++ {
		row := WorkedRow{Row: r, Count: s.StitchesAfter(r)}
		if r <= len(s.Colours) {
			row.Colour = s.Colours[r-1]
		}
		w.Rows = append(w.Rows, row)
	}
	return w
}

// title names the garment and whom it is for.
func (x pattern) title() string {
	if x.child.Name != "" {
		return x.plan.Garment.Title + " for " + x.child.Name
	}
	return x.plan.Garment.Title
}

// remarks are what the plan notes and what the checks found.
func (x pattern) remarks(findings []validate.Finding) []Chapter {
	var all []Chapter
	if notes := x.Facts(x.plan.Notes); len(notes) > 0 {
		all = append(all, Chapter{ID: "notes", Title: "Notes", Items: notes})
	}
	if checks := x.checks(findings); len(checks) > 0 {
		all = append(all, Chapter{ID: "checks", Title: "Checks and cautions", Items: checks})
	}
	return all
}

// first are the cautions for a garment to which parts are sewn: they are read before
// its numbers. It also returns the other findings.
func (x pattern) first(findings []validate.Finding) ([]Chapter, []validate.Finding) {
	if len(x.plan.Added) == 0 {
		return nil, findings
	}
	var cautions, others []validate.Finding
	for _, f := range findings {
		if validate.Caution(f.Rule) {
			cautions = append(cautions, f)
		} else {
			others = append(others, f)
		}
	}
	items := append(x.checks(cautions), x.say("parts-sewn-on"))
	return []Chapter{{ID: "cautions", Title: "Before you begin", Items: items}}, others
}

// checks are findings, a line each.
func (x pattern) checks(findings []validate.Finding) []string {
	options := x.Style
	if options.Place == Terminal {
		options.Place = Command
	}
	var checks []string
	for _, f := range findings {
		checks = append(checks, Capital(f.Severity.String())+" "+f.Rule+": "+options.Message(f)+".")
	}
	return checks
}
