package tell

import (
	"strings"

	"growtuck/sizing/plan"
)

// Step tells a step of a plan as a maker follows it.
func (s Style) Step(st plan.Step) string {
	text := s.phrase(st).text(s)
	switch {
	case st.Across != nil && st.Across.Change != 0:
		text += ": " + acrossRow(*st.Across)
	case st.Buttonholes != nil:
		text += ": " + buttonholeRow(*st.Buttonholes)
	case st.PickUp != nil:
		text += ": " + pickUpRow(*st.PickUp)
		if rib, ok := st.Values["rib"].(int); ok && rib > 0 {
			text += ", and " + s.plain(rib) + " along the ribbing"
		}
	}
	return text
}

// A phrase is words with slots, each {form}, and what goes into them in turn.
// Sizes that have the words in common are told together.
type phrase struct {
	words string
	args  []any
}

func (p phrase) text(s Style) string {
	return fill(p.words, func(i int, form string) string { return s.value(p.args[i], form) })
}

// add puts words and what goes into their slots behind.
func (p *phrase) add(words string, args ...any) {
	p.words += words
	p.args = append(p.args, args...)
}

// phrase finds the words for a step.
func (s Style) phrase(st plan.Step) phrase {
	switch st.Kind {
	case "shape-sides", "shape-middle-back":
		return s.shaping(st, st.Kind)
	case "work-other-shaped":
		p := s.stepPhrase(st.Kind, st)
		rest := s.shaping(st, "shape-sides")
		p.add(rest.words, rest.args...)
		return p
	case "zipper", "zipper-shortened":
		// The words differ from zipper to zipper: they cannot be merged for several sizes.
		advice, _ := st.Values["advice"].(string)
		p, then := s.stepPhrase(st.Kind, st), s.stepPhrase("zipper-"+advice, st)
		return phrase{words: p.text(s) + then.text(s)}
	}
	return s.stepPhrase(st.Kind, st)
}

// stepPhrase fills the words of a kind with the values of a step.
func (s Style) stepPhrase(kind string, st plan.Step) phrase {
	template, ok := stepWords[kind+"@"+s.Craft]
	if !ok {
		if template, ok = stepWords[kind]; !ok {
			return phrase{words: kind}
		}
	}
	row, rows := "row", "rows"
	if st.InRounds {
		row, rows = "round", "rounds"
	}
	template = strings.NewReplacer("{line}", row, "{Line}", Capital(row), ":rows}", ":"+rows+"}").Replace(template)
	var p phrase
	for {
		before, after, found := strings.Cut(template, "{")
		p.words += before
		if !found {
			return p
		}
		slot, rest, _ := strings.Cut(after, "}")
		name, form, _ := strings.Cut(slot, ":")
		p.add("{"+form+"}", st.Values[name])
		template = rest
	}
}
