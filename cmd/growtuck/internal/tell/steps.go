package tell

import (
	"strings"

	"growtuck/sizing/plan"
)

// Step tells a step of a plan as a maker follows it.
func (st Style) Step(step plan.Step) string { return st.phrase(step).text(st) }

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

func (p *phrase) join(q phrase) { p.add(q.words, q.args...) }

// phrase finds the words for a step.
func (st Style) phrase(step plan.Step) phrase {
	switch step.Kind {
	case "shape-tube":
		if step.InRounds {
			return st.schedule(step, "tube")
		}
		return st.schedule(step, "edges")
	case "shape-sides":
		return st.schedule(step, "sides")
	case "shape-middle-back":
		return st.schedule(step, "middle")
	case "yoke-repeat", "crown-increase", "crown-decrease", "raglan-repeat", "raglan-repeat-body", "raglan-repeat-sleeves", "raglan-repeat-two":
		return st.repeated(step)
	case "work-other-shaped":
		p := phrase{words: "Work the other to the same length. "}
		step.Kind = "shape-tube"
		p.join(st.phrase(step))
		return p
	case "zipper", "zipper-shortened":
		// The words differ from zipper to zipper: they cannot be merged for several sizes.
		advice, _ := step.Values["advice"].(string)
		p, then := st.stepPhrase(step.Kind, step), st.stepPhrase("zipper-"+advice, step)
		return phrase{words: p.text(st) + then.text(st)}
	}
	return st.stepPhrase(step.Kind, step)
}

// stepWords finds the words for a kind: those of the craft first, and of them those
// for how this work is begun, ribbed and joined.
func (st Style) stepWords(kind string, step plan.Step) (string, bool) {
	var ways []string
	if st.Foundation == plan.Chainless {
		ways = append(ways, "@chainless")
	}
	if st.postRibbing() {
		ways = append(ways, "@posts@rounds", "@posts")
	}
	for _, way := range append(ways, "@rounds", "") {
		if strings.HasSuffix(way, "@rounds") && !step.InRounds {
			continue
		}
		if t, ok := st.craft().steps[kind+way]; ok {
			return t, true
		}
	}
	t, ok := commonSteps[kind]
	return t, ok
}

// stepPhrase fills the words of a kind. A slot {name} takes a value of the step,
// {name:form} in a form; {line} is a row, or a round where the step is worked in
// rounds. {at}, {all}, {row}, {end} and the like are what the craft makes of the step.
func (st Style) stepPhrase(kind string, step plan.Step) phrase {
	if step.Rows == 0 && strings.HasPrefix(kind, "rib") {
		kind = "bind-off" // the row that joins the ribbing is all of it
	}
	template, ok := st.stepWords(kind, step)
	if !ok {
		return phrase{words: kind}
	}
	row, rows := "row", "rows"
	if step.InRounds {
		row, rows = "round", "rounds"
	}
	slots := append([]string{"{line}", row, ":rows}", ":" + rows + "}", "{start}", st.craft().start(st, step), "{all}", st.craft().plain(st, step), "{turn}", st.craft().end(st, step)},
		st.craft().slots(st)...)
	template = putIn(template, slots)
	var p phrase
	for {
		before, after, found := strings.Cut(template, "{")
		p.words += before
		if !found {
			return p
		}
		slot, rest, _ := strings.Cut(after, "}")
		template = rest
		if made, ok := st.made(slot, step); ok {
			p.join(made)
			continue
		}
		name, form, _ := strings.Cut(slot, ":")
		p.add("{"+form+"}", step.Values[name])
	}
}

// putIn replaces each slot by the words behind it. A strings.Replacer takes far longer to
// make than one template to fill.
func putIn(template string, slots []string) string {
	for i := 0; i < len(slots); i += 2 {
		template = strings.ReplaceAll(template, slots[i], slots[i+1])
	}
	return template
}

// made is a slot that is not a value of the step but made from it.
func (st Style) made(slot string, step plan.Step) (phrase, bool) {
	var p phrase
	switch slot {
	case "at":
		return st.at(step), true
	case "end":
		return st.end(step), true
	case "row":
		if step.Across != nil {
			return st.across(step), true
		}
		return st.raglan(step), true
	case "pickup":
		return st.pickUp(step), true
	case "holes":
		return st.buttonholes(step), true
	case "deep":
		p.add("{}", step.Rows)
		return p, true
	case "deep_chain":
		p.add("{}", st.crochetChain(step.Rows))
		return p, true
	case "cast_on_chain":
		n, _ := step.Values["cast_on"].(int)
		p.add("{}", st.crochetChain(n))
		return p, true
	}
	return p, false
}
