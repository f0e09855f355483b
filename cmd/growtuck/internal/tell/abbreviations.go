package tell

import (
	"slices"
	"strings"
	"unicode"

	"growtuck/data"
)

// glossary are the abbreviations that texts use, with what they stand for, in the
// order of the list.
func (x pattern) glossary(texts []string) []string {
	used := usedIn(texts)
	var items []string
	for _, a := range x.known() {
		if used(a.Abbreviation) {
			item := a.Abbreviation + ": " + a.Meaning
			if how, ok := x.howTo(a.Abbreviation); ok {
				item += ": " + how
			}
			items = append(items, item)
		}
	}
	return items
}

// known are the abbreviations of the craft, in the terms of the pattern.
func (x pattern) known() []data.Abbreviation {
	return x.plan.Finished.Abbreviations(x.Craft, string(x.Terms))
}

// howTo says how a stitch is worked that a word alone does not tell.
func (x pattern) howTo(abbreviation string) (string, bool) {
	how, ok := patternWords["how-"+abbreviation+"@"+x.Craft]
	return putIn(how, x.craft().slots(x.Style)), ok
}

// usedIn finds abbreviations in texts: whole words, in the plural too and before a
// number, such as k4.
func usedIn(texts []string) func(abbreviation string) bool {
	between := func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '-' }
	once := make(map[string]bool)
	for _, text := range texts {
		for w := range strings.FieldsFuncSeq(text, between) {
			once[w] = true
		}
	}
	return func(abbreviation string) bool {
		parts := strings.Fields(abbreviation)
		first := parts[0]
		used := once[first] || once[first+"s"] || once[Capital(first)]
		if !used && (first == "k" || first == "p") {
			for w := range once {
				used = used || isAbbreviation(w, first)
			}
		}
		return used && (len(parts) == 1 || slices.ContainsFunc(texts, func(text string) bool {
			words := strings.FieldsFunc(text, between)
			for i := range len(words) - len(parts) + 1 {
				if slices.EqualFunc(words[i:i+len(parts)], parts, isAbbreviation) {
					return true
				}
			}
			return false
		}))
	}
}

// isAbbreviation reports whether a word is an abbreviation, perhaps in the plural, with
// a capital at the front of a sentence, or with a number of stitches behind it.
func isAbbreviation(word, abbreviation string) bool {
	switch {
	case word == abbreviation, strings.TrimSuffix(word, "s") == abbreviation, word == Capital(abbreviation):
		return true
	case abbreviation != "k" && abbreviation != "p" || len(word) < 2:
		return false
	}
	return strings.HasPrefix(word, abbreviation) && strings.Trim(word[1:], "0123456789") == ""
}

// withGlossary puts the abbreviations that the chapters use behind the gauge.
func (x pattern) withGlossary(chapters []Chapter) []Chapter {
	var texts []string
	for _, c := range chapters {
		texts = append(texts, c.Items...)
		texts = append(texts, c.After...)
		for _, w := range c.Work {
			texts = append(texts, w.Text)
		}
	}
	items := x.glossary(texts)
	if len(items) == 0 {
		return chapters
	}
	at := slices.IndexFunc(chapters, func(c Chapter) bool { return c.ID == "gauge" }) + 1
	return slices.Insert(chapters, at, Chapter{ID: "abbreviations", Title: "Abbreviations", Lines: []string{x.say("abbreviations-" + string(x.Terms))}, Items: items})
}
