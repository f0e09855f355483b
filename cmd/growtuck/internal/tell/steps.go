package tell

import (
	"strings"

	"growtuck/sizing/plan"
)

// Step tells a step of a plan as a maker follows it.
func (st Style) Step(step plan.Step) string {
	text := st.phrase(step).text(st)
	switch {
	case step.Across != nil && step.Across.Change != 0:
		text += ": " + acrossRow(*step.Across)
	case step.Repeat != nil:
		text += ": " + acrossRow(step.Repeat.Across(0)) + st.again(step).text(st)
	case step.Buttonholes != nil:
		text += ": " + buttonholeRow(*step.Buttonholes)
	case step.PickUp != nil:
		text += ": " + pickUpRow(*step.PickUp)
		if rib, ok := step.Values["rib"].(int); ok && rib > 0 {
			text += ", and " + st.plain(rib) + " along the ribbing"
		}
	}
	return text
}

// again is how a row of shaping is worked again.
func (st Style) again(step plan.Step) phrase {
	kind := "repeat"
	if r := step.Repeat; r != nil {
		if kind = "repeat-more"; r.Change < 0 {
			kind = "repeat-fewer"
		}
	}
	switch {
	case step.Values["times"] == 1:
		return phrase{}
	case step.Values["every"] == 1:
		kind += "-each"
	}
	return st.stepPhrase(kind, step)
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
func (st Style) phrase(step plan.Step) phrase {
	switch step.Kind {
	case "shape-sides", "shape-middle-back":
		return st.shaping(step, step.Kind)
	case "raglan-repeat", "raglan-repeat-body", "raglan-repeat-sleeves", "raglan-repeat-two":
		p, then := st.stepPhrase(step.Kind, step), st.again(step)
		p.add(then.words, then.args...)
		return p
	case "work-other-shaped":
		p := st.stepPhrase(step.Kind, step)
		rest := st.shaping(step, "shape-sides")
		p.add(rest.words, rest.args...)
		return p
	case "zipper", "zipper-shortened":
		// The words differ from zipper to zipper: they cannot be merged for several sizes.
		advice, _ := step.Values["advice"].(string)
		p, then := st.stepPhrase(step.Kind, step), st.stepPhrase("zipper-"+advice, step)
		return phrase{words: p.text(st) + then.text(st)}
	}
	return st.stepPhrase(step.Kind, step)
}

// stepPhrase fills the words of a kind with the values of a step.
func (st Style) stepPhrase(kind string, step plan.Step) phrase {
	template, ok := stepWords[kind+"@"+st.Craft]
	if !ok {
		if template, ok = stepWords[kind]; !ok {
			return phrase{words: kind}
		}
	}
	row, rows := "row", "rows"
	if step.InRounds {
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
		p.add("{"+form+"}", step.Values[name])
		template = rest
	}
}
