package data

import "strings"

// A NotePart is a part of a note in body.csv: what it says, and the codes of the
// rules for rows that it explains, none where it explains none.
type NotePart struct {
	Rules []string
	Text  string
}

// NoteParts splits a note: "R20: as at 24 months in the standard; R25 R26: …" has
// two parts, each with the rules that it explains.
func NoteParts(note string) []NotePart {
	var parts []NotePart
	for text := range strings.SplitSeq(note, "; ") {
		codes, rest, ok := strings.Cut(text, ": ")
		rules := strings.FieldsFunc(codes, func(r rune) bool { return r == ' ' || r == ',' })
		for _, code := range rules {
			ok = ok && isRuleCode(code)
		}
		switch {
		case ok && len(rules) > 0:
			parts = append(parts, NotePart{rules, rest})
		case len(parts) > 0: // a sentence with a semicolon in it
			parts[len(parts)-1].Text += "; " + text
		case note != "":
			parts = append(parts, NotePart{Text: text})
		}
	}
	return parts
}

// NoteText is what a note says to those who use the value: without rules.
func NoteText(note string) string {
	var texts []string
	for _, p := range NoteParts(note) {
		texts = append(texts, p.Text)
	}
	return strings.Join(texts, "; ")
}

// isRuleCode reports a code such as R20.
func isRuleCode(s string) bool {
	return len(s) == 3 && s[0] == 'R' && s[1] >= '0' && s[1] <= '9' && s[2] >= '0' && s[2] <= '9'
}
