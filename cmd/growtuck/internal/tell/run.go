package tell

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// Run is a garment over a run of sizes in words, with every count in a
// pattern's form: the first size before the bracket, the others in it.
type Run struct {
	Sections []RunSection
	Parts    []RunPart
	Holding  []RunStep // how room to grow is held and let down
	Balls    string    // of yarn; "" without yarn data
	Notes    []string  // with the sizes they are about
}

// A RunSection is a section in bracket form, of the sizes that have it.
type RunSection struct {
	Sizes          []string
	ID, Name       string
	Copies         int
	From, To, Rows string
	Steps          []RunStep
}

// A RunStep is a step in bracket form. Sizes are set where it is about some
// of them only.
type RunStep struct {
	ID, Sizes, Text string
	Count           string // stitches after it; "" where it works no row
}

// String is the step with the sizes it is about.
func (r RunStep) String() string {
	if r.Sizes == "" {
		return r.Text
	}
	return "Size " + r.Sizes + ": " + r.Text
}

// A RunPart is a finished measurement in bracket form.
type RunPart struct {
	Part, Name, Unit     string
	Count, SizeCm, Error string // Count is "" where it has none
}

// Counted is the count with what it counts; "" where it has none.
func (p RunPart) Counted() string {
	if p.Count == "" {
		return ""
	}
	return p.Count + " " + p.Unit
}

// Stitches are those that the section goes from and to.
func (x RunSection) Stitches() string { return span(x.From, x.To) }

// Times is how often the section is worked; "" for once.
func (x RunSection) Times() string { return copies(x.Copies) }

// absent is written in brackets for a size that has no such count.
const absent = "–"

// Run tells a run of sizes.
func (st Style) Run(g *plan.Graded) Run {
	var out Run
	for _, x := range g.Sections {
		out.Sections = append(out.Sections, st.runSection(g.Labels, x))
	}
	for _, x := range g.Parts {
		out.Parts = append(out.Parts, runPart(x))
	}
	if g.Plans[0].Yarn != nil {
		out.Balls = ofSizes(g.Plans, func(p *plan.Plan) string { return strconv.Itoa(p.Yarn.Need.Balls) },
			func(p *plan.Plan) bool { return p.Yarn != nil })
	}
	out.Holding, out.Notes = st.runHolding(g), st.runNotes(g)
	return out
}

func (st Style) runSection(labels []string, x plan.GradedSection) RunSection {
	last := x.Any()
	out := RunSection{ID: x.ID, Name: sectionName(last.Kind), Copies: last.Copies}
	var from, to, rows []string
	for i, sec := range x.Sizes {
		if sec != nil {
			out.Sizes = append(out.Sizes, labels[i])
			from, to, rows = append(from, strconv.Itoa(sec.From)), append(to, strconv.Itoa(sec.To())), append(rows, strconv.Itoa(sec.Rows()))
		}
	}
	out.From, out.To, out.Rows = sameOrBrackets(from), sameOrBrackets(to), sameOrBrackets(rows)
	if len(out.Sizes) < len(labels) {
		out.Name += ", size " + Brackets(out.Sizes)
	}
	told := make([][]RunStep, len(x.Steps))
	for i, step := range x.Steps {
		told[i] = st.runSteps(labels, step)
	}
	for i := 0; i < len(told); {
		end := i
		for end < len(told) && told[end][0].Sizes != "" {
			end++
		}
		if end > i+1 {
			out.Steps = append(out.Steps, st.sizeBySize(labels, x.Steps[i:end], told[i:end])...)
			i = end
			continue
		}
		out.Steps = append(out.Steps, told[i]...)
		i++
	}
	return out
}

// sizeBySize tells steps that no step of all sizes parts. Where they are not all about
// the same sizes, those of each size follow each other, so that nobody has to look for
// the next row of hers.
func (st Style) sizeBySize(labels []string, steps []plan.GradedStep, told [][]RunStep) []RunStep {
	var out []RunStep
	same := true
	for _, lines := range told {
		out = append(out, lines...)
		same = same && len(lines) == 1 && lines[0].Sizes == told[0][0].Sizes
	}
	if same {
		return out
	}
	out = nil
	for i, label := range labels {
		for _, step := range steps {
			one := step.Sizes[i]
			if one == nil {
				continue
			}
			line := RunStep{ID: step.ID, Sizes: label, Text: st.Step(*one)}
			if one.Rows > 0 {
				line.Count = strconv.Itoa(one.To)
			}
			out = append(out, line)
		}
	}
	return out
}

// runSteps tells one step for all sizes: in brackets where they have the same
// words, else a line for each wording, with the sizes that have it.
func (st Style) runSteps(labels []string, step plan.GradedStep) []RunStep {
	told := make([]*phrase, len(step.Sizes))
	var wordings []string
	for i, one := range step.Sizes {
		if one == nil {
			continue
		}
		p := st.phrase(*one)
		told[i] = &p
		if !slices.Contains(wordings, p.words) {
			wordings = append(wordings, p.words)
		}
	}
	var out []RunStep
	for _, words := range wordings {
		var same []*phrase
		var names, counts []string
		for i, p := range told {
			if p != nil && p.words == words {
				same = append(same, p)
				names, counts = append(names, labels[i]), append(counts, strconv.Itoa(step.Sizes[i].To))
			}
		}
		line := RunStep{ID: step.ID, Text: st.bracketed(same)}
		if slices.ContainsFunc(step.Sizes, func(s *plan.Step) bool { return s != nil && s.Rows > 0 }) {
			line.Count = sameOrBrackets(counts)
		}
		if len(names) < len(labels) {
			line.Sizes = Brackets(names)
		}
		out = append(out, line)
	}
	return out
}

// bracketed fills the slots of words that several sizes have in common.
func (st Style) bracketed(sizes []*phrase) string {
	first := sizes[0]
	return fill(first.words, func(slot int, form string) string {
		same := !slices.ContainsFunc(sizes, func(p *phrase) bool { return p.args[slot] != first.args[slot] })
		if same {
			return st.value(first.args[slot], form)
		}
		text := ofSizes(sizes, func(p *phrase) string { return st.bare(p.args[slot], form) }, func(*phrase) bool { return true })
		switch form {
		case "", "nth":
			return text
		case "cm1":
			return text + " cm"
		case "sts":
			return text + " " + st.craft().noun(st)
		}
		return text + " " + form
	})
}

// bare is a value without its noun, as in brackets.
func (st Style) bare(v any, form string) string {
	switch form {
	case "nth":
		return st.value(v, form)
	case "cm1":
		return fixed(number(v), 1)
	}
	return st.plain(v)
}

func runPart(x plan.GradedPart) RunPart {
	out := RunPart{Part: x.Part.Part, Name: x.Part.Name}
	of := func(value func(p *plan.Part) string) string {
		return ofSizes(x.Sizes, value, func(p *plan.Part) bool { return p != nil })
	}
	if p := x.Sizes[0]; p != nil {
		out.Unit = p.Unit
		if p.Count > 0 {
			out.Count = of(func(p *plan.Part) string { return strconv.Itoa(p.Count) })
		}
	}
	out.SizeCm = of(func(p *plan.Part) string { return fixed(p.SizeCm, 1) })
	out.Error = of(func(p *plan.Part) string { return signedTenth(p.ErrorCm()) })
	return out
}

// signedTenth is a number to a tenth with its sign.
func signedTenth(v float64) string {
	v = math.Round(v*10) / 10
	if v < 0 {
		return strconv.FormatFloat(v, 'f', 1, 64)
	}
	return "+" + strconv.FormatFloat(v+0, 'f', 1, 64) // + 0: not -0
}

// ofSizes writes a value of every size; a single one where all are the same.
func ofSizes[T any](sizes []T, value func(T) string, has func(T) bool) string {
	all := make([]string, len(sizes))
	for i, x := range sizes {
		if all[i] = absent; has(x) {
			all[i] = value(x)
		}
	}
	if !slices.ContainsFunc(all, func(v string) bool { return v != all[0] }) {
		return all[0]
	}
	return Brackets(all)
}

// gradedNotes gathers the notes of all sizes, each once, with the sizes it is
// about, and those about the run.
func (st Style) runNotes(g *plan.Graded) []string {
	var all []string
	about := make(map[string][]string)
	for i, p := range g.Plans {
		for _, n := range st.Facts(p.Notes) {
			if about[n] == nil {
				all = append(all, n)
			}
			about[n] = append(about[n], g.Labels[i])
		}
	}
	for i, n := range all {
		if len(about[n]) < len(g.Labels) {
			all[i] = "Size " + strings.Join(about[n], ", ") + ": " + n
		}
	}
	return append(all, st.Facts(g.Notes)...)
}

// Brackets writes the values of a run of sizes in a pattern's form, the first
// size before the bracket: "2 (4, 6, 8, 10)".
func Brackets(values []string) string {
	if len(values) < 2 {
		return strings.Join(values, "")
	}
	return values[0] + " (" + strings.Join(values[1:], ", ") + ")"
}

// DraftNotes puts the words of notes into the rows of a draft.
func (st Style) DraftNotes(rows []plan.Row) []plan.Row {
	for i := range rows {
		if !rows[i].Why.IsZero() {
			rows[i].Note, rows[i].Why = st.Fact(rows[i].Why), sizing.Fact{}
		}
	}
	return rows
}
