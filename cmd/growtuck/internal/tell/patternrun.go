package tell

import (
	"slices"
	"strconv"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// A patternRun lays out the plans of a run of sizes as one document to work from, with
// every number in brackets. The pattern is that of the first size: what it says for
// all sizes.
type patternRun struct {
	pattern
	graded *plan.Graded
}

// chapters are the pattern from its sizes to the finishing.
func (x patternRun) chapters() []Chapter {
	run := x.Run(x.graded)
	construction := x.construction()
	if labels := x.graded.Labels; len(labels) > 1 {
		construction.Items = append(construction.Items, x.say("made-brackets", labels[0], labels[1:]))
	}
	all := []Chapter{x.sizesOf(), x.materialsOf(), x.gauge(), construction,
		{ID: "drawing", Title: "Schematic", Lines: []string{x.say("drawing")}, Drawn: true}}
	for i, s := range run.Sections {
		all = append(all, x.sectionOf(x.graded.Sections[i], s))
	}
	all = append(all, x.finishingOf())
	if c, ok := x.holdingOf(); ok {
		all = append(all, c)
	}
	if c, ok := x.yarnAndTimeOf(); ok {
		all = append(all, c)
	}
	if len(run.Notes) > 0 {
		all = append(all, Chapter{ID: "notes", Title: "Notes", Items: run.Notes})
	}
	return x.withGlossary(all)
}

// sizesOf are the finished sizes with the bodies and the counts, a column for each size.
func (x patternRun) sizesOf() Chapter {
	unit := x.Units()[0]
	t := Table{Columns: []Column{{Head: LetterHead}, {Head: "part, " + unit, Wrap: true}}}
	for _, label := range x.graded.Labels {
		t.Columns = append(t.Columns, Column{Head: label, Right: true})
	}
	for i, line := range x.plan.Finished.Lines {
		part := line.Part.Part
		t.Rows = append(t.Rows,
			x.ofParts(Letter(i), line.Part.Name, part, func(_ sizing.Line, p plan.Part) string { return LengthIn(p.SizeCm, unit) }),
			x.ofParts("", "  asked", part, func(_ sizing.Line, p plan.Part) string { return LengthIn(p.WantCm, unit) }),
			x.ofParts("", "  "+line.Body.Measurement.Name+" of the body", part, func(l sizing.Line, _ plan.Part) string { return amount(onBody(l), unit) }))
		if p, ok := x.plan.Part(part); ok && p.Count > 0 {
			t.Rows = append(t.Rows, x.ofParts("", "  "+p.Unit, part, func(_ sizing.Line, p plan.Part) string { return strconv.Itoa(p.Count) }))
		}
	}
	return Chapter{ID: "sizes", Title: "Finished sizes", Table: &t}
}

// ofParts is a row with a value of a part in every size.
func (x patternRun) ofParts(letter, name, part string, value func(sizing.Line, plan.Part) string) Row {
	row := newRow(letter, name)
	for _, p := range x.graded.Plans {
		text := absent
		if l, ok := p.Finished.Line(part); ok {
			planned, counted := p.Part(part)
			if !counted { // no count makes it
				planned = plan.Part{Line: l, SizeCm: l.Finished, WantCm: l.Finished}
			}
			text = value(l, planned)
		}
		row.Cells = append(row.Cells, text)
	}
	return row
}

// ofPlans writes a value of every size.
func (x patternRun) ofPlans(value func(*plan.Plan) string) string {
	return ofSizes(x.graded.Plans, value, func(*plan.Plan) bool { return true })
}

// materialsOf are what the sizes take.
func (x patternRun) materialsOf() Chapter {
	m := x.plan.Materials()
	var items []string
	if len(m.Yarn) == 0 {
		items = append(items, x.say("yarn-any"))
	} else {
		items = append(items, x.say("yarn-class", classes(m.Yarn), titles(m.Yarn)))
	}
	items = append(items, x.ballsOf()...)
	items = append(items, x.tool(m))
	zipped := func(p *plan.Plan) bool { return p.Zipper != nil }
	if slices.ContainsFunc(x.graded.Plans, zipped) {
		items = append(items, x.say("zipper-run", ofSizes(x.graded.Plans, func(p *plan.Plan) string {
			if p.Zipper.Shorten {
				return sizing.FormatQuarters(p.Zipper.LongerIn) + " shortened to " + x.length(p.Zipper.UseCm, "cm1")
			}
			return sizing.FormatQuarters(p.Zipper.LengthIn)
		}, zipped)))
	}
	if m.Buttons > 0 {
		items = append(items, x.say("buttons-run", x.ofPlans(func(p *plan.Plan) string { return strconv.Itoa(p.Materials().Buttons) }), sizing.Length(buttonCm)))
	}
	return Chapter{ID: "materials", Title: "Materials", Items: append(items, x.notions(m)...)}
}

// ballsOf are the balls for the sizes, of each colour.
func (x patternRun) ballsOf() []string {
	y, b := x.plan.Yarn, x.plan.How.Ball
	if y == nil {
		return []string{x.say("balls-unknown")}
	}
	var items []string
	for _, c := range y.Colours {
		balls := ofSizes(x.graded.Plans, func(p *plan.Plan) string { return strconv.Itoa(p.Yarn.Of(c.Colour).Need.Balls) },
			func(p *plan.Plan) bool { return p.Yarn != nil })
		if c.Colour == "" {
			items = append(items, x.say("balls-run", balls, b.Grams, b.Metres, y.Margin))
		} else {
			items = append(items, x.say("balls-run-colour", Capital(c.Colour), balls, b.Grams, b.Metres))
		}
	}
	return items
}

// sectionOf is the work of a section in all sizes.
func (x patternRun) sectionOf(g plan.GradedSection, s RunSection) Chapter {
	about := s.Stitches() + " stitches, " + s.Rows + " " + rowsOf(g.Any())
	if s.Copies > 1 {
		about = s.Times() + "; " + about
	}
	c := Chapter{ID: s.ID, Title: s.Name, About: about, Twice: s.Copies > 1}
	if len(s.Sizes) < len(x.graded.Labels) {
		c.Lines = append(c.Lines, "Size "+Brackets(s.Sizes)+" only.")
	}
	for _, l := range s.Steps {
		c.Work = append(c.Work, Work{Step: l.ID, Sizes: l.Sizes, Text: l.Text, Count: l.Count})
	}
	for _, lines := range []func(pattern, *plan.Section) []string{
		func(p pattern, s *plan.Section) []string { return p.stripesOf(s) },
		func(p pattern, s *plan.Section) []string { return p.tryOn(s) },
		func(p pattern, s *plan.Section) []string { return []string{p.longer(s)} },
		func(p pattern, s *plan.Section) []string { return []string{p.wider(s)} },
	} {
		c.After = append(c.After, x.ofSections(g, lines)...)
	}
	return c
}

// ofSections are lines about a section in each size, each line once: where sizes
// differ, with the sizes that it is about.
func (x patternRun) ofSections(g plan.GradedSection, lines func(pattern, *plan.Section) []string) []string {
	var all []string
	about := make(map[string][]string)
	sizes := 0
	for i, s := range g.Sizes {
		if s == nil {
			continue
		}
		sizes++
		for _, line := range lines(pattern{Style: x.Style, plan: x.graded.Plans[i]}, s) {
			if about[line] == nil {
				all = append(all, line)
			}
			about[line] = append(about[line], x.graded.Labels[i])
		}
	}
	return x.inSizes(all, about, sizes)
}

// inSizes puts numbers of lines with the same words into brackets: a line for each
// wording, named with its sizes where not all have it.
func (x patternRun) inSizes(all []string, about map[string][]string, sizes int) []string {
	type merged struct {
		words  []string // between the numbers
		values [][]string
		names  []string
	}
	var groups []*merged
	for _, line := range all {
		words, numbers := figures(strings.ReplaceAll(line, " once", " 1 times"))
		for _, name := range about[line] {
			k := slices.IndexFunc(groups, func(m *merged) bool { return slices.Equal(m.words, words) })
			if k < 0 {
				groups = append(groups, &merged{words: words, values: make([][]string, len(numbers))})
				k = len(groups) - 1
			}
			groups[k].names = append(groups[k].names, name)
			for i, n := range numbers {
				groups[k].values[i] = append(groups[k].values[i], n)
			}
		}
	}
	var out []string
	for _, m := range groups {
		var b strings.Builder
		for i, w := range m.words {
			b.WriteString(w)
			if i < len(m.values) {
				b.WriteString(sameOrBrackets(m.values[i]))
			}
		}
		line := strings.ReplaceAll(b.String(), " 1 times", " once")
		if len(m.names) < sizes {
			line = "Size " + Brackets(m.names) + ": " + line
		}
		out = append(out, line)
	}
	return out
}

// sameOrBrackets writes values of sizes once where they are the same.
func sameOrBrackets(values []string) string {
	if !slices.ContainsFunc(values, func(v string) bool { return v != values[0] }) {
		return values[0]
	}
	return Brackets(values)
}

// figures takes the numbers out of a line: the words round them, and the numbers.
func figures(line string) (words, numbers []string) {
	from := 0
	for i := 0; i < len(line); {
		if line[i] < '0' || line[i] > '9' {
			i++
			continue
		}
		end := i
		for end < len(line) && (line[end] >= '0' && line[end] <= '9' || line[end] == '.' && end+1 < len(line) && line[end+1] >= '0' && line[end+1] <= '9') {
			end++
		}
		for _, suffix := range []string{"st", "nd", "rd", "th"} {
			if strings.HasPrefix(line[end:], suffix+" ") {
				end += len(suffix)
			}
		}
		words, numbers = append(words, line[from:i]), append(numbers, line[i:end])
		from, i = end, end
	}
	return append(words, line[from:]), numbers
}

// finishingOf is what is done once all is worked, in all sizes.
func (x patternRun) finishingOf() Chapter {
	c := x.finishing()
	for i, item := range c.Items {
		if item == x.say("block", x.blocked(x.plan)) {
			c.Items[i] = x.say("block-run")
		}
	}
	return c
}

// yarnAndTimeOf are the hours and grams of the sizes.
func (x patternRun) yarnAndTimeOf() (Chapter, bool) {
	c := Chapter{ID: "yarn", Title: x.say("by-part")}
	pace := x.plan.How.Pace
	if x.plan.Yarn == nil && pace.Per10Min == 0 {
		return c, false
	}
	t := Table{Columns: []Column{{Head: "size"}, {Head: "stitches", Right: true}, {Head: "g", Right: true}, {Head: "m", Right: true}, {Head: "hours", Right: true}}}
	for i, p := range x.graded.Plans {
		row := newRow(x.graded.Labels[i], strconv.Itoa(p.Stitches()), "", "", "")
		if p.Yarn != nil {
			row.Cells[2], row.Cells[3] = fixed(p.Yarn.Need.Grams, 0), fixed(p.Yarn.Need.Metres, 0)
		}
		if of := pace.For(p.Stitches()); of != nil {
			row.Cells[4] = fixed(of.Hours, 1)
		}
		t.Rows = append(t.Rows, row)
	}
	c.Table = &t
	return c, true
}
