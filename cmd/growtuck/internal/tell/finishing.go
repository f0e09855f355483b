package tell

import (
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// finishing is what is done once all is worked.
func (x pattern) finishing() Chapter {
	p := x.plan
	var items []string
	if _, ok := p.Section("sleeve"); ok && p.Circular != nil || p.Raglan != nil {
		items = append(items, x.say("underarms"))
	}
	var sewn []string
	for _, s := range p.Sections {
		if s.Copies == 2 && !s.InRounds && p.How.Turned {
			sewn = append(sewn, strings.ToLower(sectionName(s.Kind)))
		}
	}
	if len(sewn) > 0 {
		items = append(items, x.say("turned-seams", sewn))
	}
	m := p.Materials()
	items = append(items, x.say("weave-in", sizing.Length(5)), x.say("block", x.blocked(p)))
	if m.Zipper != nil {
		items = append(items, x.say("zipper-by-hand"))
	}
	if m.Buttons > 0 {
		items = append(items, x.say("buttons-sewn"))
	}
	return Chapter{ID: "finishing", Title: "Finishing", Items: append(items, x.say("care"))}
}

// blocked are the sizes that it is laid out to, by their letters.
func (x pattern) blocked(p *plan.Plan) string {
	var all []string
	for _, part := range p.Parts {
		if l := letter(p.Finished, part.Line.Part.Part); l != "" {
			all = append(all, l+" "+x.inUnit(part.SizeCm))
		}
	}
	return strings.Join(all, ", ")
}

// triedOn are the words for what to look at, by the section that is done.
var triedOn = map[string]string{
	"yoke": "try-yoke", "back": "try-back", "body": "try-body", "body-to-waist": "try-body", "seat": "try-seat", "seat-below-hips": "try-seat",
	"sleeve": "try-sleeve", "leg": "try-leg", "lower-leg": "try-leg", "hood-crown": "try-hood", "hood-panel": "try-hood", "neckband": "try-neckband",
	"side": "try-side", "palm": "try-palm", "hand": "try-hand", "foot": "try-foot", "cuff": "try-cuff", "ankle": "try-ankle",
}

// tryOn is what to look at once a section is tried on.
func (x pattern) tryOn(s *plan.Section) []string {
	id := triedOn[s.Kind]
	switch {
	case s.Kind == "leg" && x.plan.Garment.Group == "foot":
		return nil
	case s.Kind == "leg" && x.has("lower-leg"):
		return nil // it goes on
	case s.Kind == "sleeve" && x.isShare("sleeve_length"):
		id = "try-sleeve-short"
	case x.isShare(s.Kind):
		id = "try-drawn-in"
	case id == "try-body" && x.plan.Garment.Group == "one-piece":
		id = "try-body-trunk"
	case s.Kind == "hood" && x.plan.Hood != nil && !x.has("hood-crown") && !x.has("hood-panel"):
		id = "try-hood"
	}
	template, ok := patternWords[id]
	if !ok {
		return nil
	}
	for _, part := range x.plan.Parts {
		template = strings.ReplaceAll(template, "{"+part.Line.Part.Part+"}", x.length(part.SizeCm, "cm"))
	}
	if strings.Contains(template, "{") { // it is not known how long it is
		return nil
	}
	return []string{template}
}

// isShare reports a part of the plan that is made a share of what it goes round or along.
func (x pattern) isShare(part string) bool {
	p, ok := x.plan.Part(part)
	return ok && p.Line.Share.Cm != 0
}

// has reports a section of the plan.
func (x pattern) has(section string) bool {
	_, ok := x.plan.Section(section)
	return ok
}
