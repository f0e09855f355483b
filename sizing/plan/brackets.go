package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"growtuck/sizing/stitch"
)

// A GradedSection is a section in bracket form.
type GradedSection struct {
	ID, Name       string
	Copies         int
	From, To, Rows string
	Lines          []GradedLine
}

// A GradedLine is an instruction in bracket form. Sizes are set where it is
// about some of them only.
type GradedLine struct {
	ID, Sizes, Text string
}

// A GradedPart is a finished measurement in bracket form.
type GradedPart struct {
	Part, Name, Unit     string
	Count, SizeCm, Error string // Count is "" where it has none
}

// absent stands in brackets for a size that has no such count.
const absent = "–"

func bracketed(labels []string, plans []*Plan) *Graded {
	g := &Graded{Labels: labels, Plans: plans}
	ids := make([][]string, len(plans))
	for i, p := range plans {
		for _, s := range p.Sections {
			ids[i] = append(ids[i], s.ID)
		}
	}
	for _, id := range merged(ids) {
		g.Sections = append(g.Sections, g.section(id))
	}
	for _, l := range plans[0].Parts {
		g.Parts = append(g.Parts, g.part(l.Line.Part.Part))
	}
	g.Yarn = brackets(len(plans), func(i int) (string, bool) {
		if plans[i].Yarn == nil {
			return "", false
		}
		return fmt.Sprint(plans[i].Yarn.Need.Balls), true
	})
	if plans[0].Yarn == nil {
		g.Yarn = ""
	}
	g.notes()
	return g
}

// merged is the order of all ids, each after the one it followed first.
func merged(lists [][]string) []string {
	var all []string
	for _, list := range lists {
		at := -1
		for _, id := range list {
			if i := slices.Index(all, id); i >= 0 {
				at = max(at, i)
				continue
			}
			at++
			all = slices.Insert(all, at, id)
		}
	}
	return all
}

func (g *Graded) section(id string) GradedSection {
	var found []*Section // nil where a size has none
	out := GradedSection{ID: id}
	var ids [][]string
	for _, p := range g.Plans {
		s, _ := p.Section(id)
		found = append(found, s)
		if s == nil {
			continue
		}
		out.Name, out.Copies = s.Name, s.Copies
		var lines []string
		for _, l := range s.Lines {
			lines = append(lines, l.ID)
		}
		ids = append(ids, lines)
	}
	count := func(of func(*Section) int) string {
		return brackets(len(found), func(i int) (string, bool) {
			if found[i] == nil {
				return "", false
			}
			return fmt.Sprint(of(found[i])), true
		})
	}
	out.From = count(func(s *Section) int { return s.From })
	out.To = count((*Section).To)
	out.Rows = count((*Section).Rows)
	for _, id := range merged(ids) {
		out.Lines = append(out.Lines, g.lines(id, found)...)
	}
	return out
}

// lines words one instruction for all sizes: in brackets where they have the
// same words, else one line for each wording.
func (g *Graded) lines(id string, sections []*Section) []GradedLine {
	has := make([]*Line, len(sections))
	var words []string
	for i, s := range sections {
		if s == nil {
			continue
		}
		for j := range s.Lines {
			if s.Lines[j].ID == id {
				has[i] = &s.Lines[j]
				if !slices.Contains(words, has[i].Words) {
					words = append(words, has[i].Words)
				}
			}
		}
	}
	var out []GradedLine
	for _, w := range words {
		var same []*Line
		var names []string
		for i, l := range has {
			switch {
			case l != nil && l.Words == w:
				same = append(same, l)
				names = append(names, g.Labels[i])
			case len(words) == 1:
				same = append(same, nil)
			}
		}
		line := GradedLine{ID: id, Text: bracketLine(same)}
		// A missing count shows in the brackets; words alone must name their sizes.
		if len(names) < len(g.Labels) && (len(words) > 1 || !strings.Contains(line.Text, absent)) {
			line.Sizes = strings.Join(names, ", ")
		}
		out = append(out, line)
	}
	return out
}

// bracketLine fills the slots of a line with the counts of all sizes.
func bracketLine(lines []*Line) string {
	i := slices.IndexFunc(lines, func(l *Line) bool { return l != nil })
	return lines[i].fill(func(slotAt int, noun string) string {
		same := true
		for _, l := range lines {
			same = same && l != nil && l.Counts[slotAt] == lines[i].Counts[slotAt]
		}
		if same {
			return slot(lines[i].Counts[slotAt], noun)
		}
		s := brackets(len(lines), func(i int) (string, bool) {
			if lines[i] == nil {
				return "", false
			}
			return number(lines[i].Counts[slotAt], noun), true
		})
		if noun != "" && noun != "nth" && noun != "cm" {
			s += " " + noun
		}
		return s
	})
}

// brackets writes a value of every size; a single one where all are the same.
func brackets(n int, value func(i int) (string, bool)) string {
	all := make([]string, n)
	same := true
	for i := range all {
		v, ok := value(i)
		if !ok {
			v = absent
		}
		all[i] = v
		same = same && v == all[0]
	}
	if same {
		return all[0]
	}
	return stitch.Brackets(all)
}

func (g *Graded) part(id string) GradedPart {
	out := GradedPart{Part: id}
	of := func(value func(Part) string) string {
		return brackets(len(g.Plans), func(i int) (string, bool) {
			p, ok := g.Plans[i].Part(id)
			if !ok {
				return "", false
			}
			return value(p), true
		})
	}
	if p, ok := g.Plans[0].Part(id); ok {
		out.Name, out.Unit = p.Line.Part.Name, p.Unit
		if p.Count > 0 {
			out.Count = of(func(p Part) string { return fmt.Sprint(p.Count) })
		}
	}
	out.SizeCm = of(func(p Part) string { return cm(p.SizeCm) })
	out.Error = of(func(p Part) string { return fmt.Sprintf("%+.1f", math.Round(p.ErrorCm()*10)/10+0) }) // + 0: not -0.0
	return out
}

// notes gathers the notes of all sizes, each once, with the sizes it is about.
func (g *Graded) notes() {
	var order []string
	about := make(map[string][]string)
	for i, p := range g.Plans {
		for _, n := range p.Notes {
			if about[n] == nil {
				order = append(order, n)
			}
			about[n] = append(about[n], g.Labels[i])
		}
	}
	for _, n := range order {
		if len(about[n]) < len(g.Labels) {
			n = "Size " + strings.Join(about[n], ", ") + ": " + n
		}
		g.Notes = append(g.Notes, n)
	}
	for _, id := range []string{"chest", "hip"} {
		var run []stitch.Finished
		for _, p := range g.Plans {
			if x, ok := p.Part(id); ok {
				run = append(run, stitch.Finished{Count: x.Count, SizeCm: x.SizeCm, WantCm: x.WantCm})
			}
		}
		for _, i := range stitch.SameCounts(run) {
			if len(run) == len(g.Labels) {
				g.Notes = append(g.Notes, fmt.Sprintf("Size %s has the %s of size %s: the repeat is too wide for the step between them.", g.Labels[i], id, g.Labels[i-1]))
			}
		}
	}
}
