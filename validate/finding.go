package validate

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"growtuck/sizing"
)

// Severity is how serious a finding is for the work.
type Severity int

const (
	Note Severity = iota + 1 // worth knowing
	Warn                     // likely to disappoint
	Stop                     // will not work; do not start
)

var severityNames = map[Severity]string{Note: "note", Warn: "warn", Stop: "stop"}

func (s Severity) String() string { return severityNames[s] }

// MarshalText writes the severity's name.
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// ParseSeverity reads note, warn or stop.
func ParseSeverity(name string) (Severity, error) {
	for s, n := range severityNames {
		if n == name {
			return s, nil
		}
	}
	return 0, fmt.Errorf("severity %.80q is not one of note, warn, stop", name)
}

// Rule is an entry of the rule list. Codes are stable: the code of a removed rule
// is not used again.
type Rule struct {
	Code     string   `json:"code"`     // such as F01: a letter for the group, a number
	Group    string   `json:"group"`    // such as "fit"
	Title    string   `json:"title"`    // one line
	Severity Severity `json:"severity"` // the highest severity it reports
}

// Finding is what a rule reports. Found, Expected, By and Fix
// are facts: what was found and expected, by how much it is off, what to do.
type Finding struct {
	Rule     string
	Severity Severity
	File     string
	Line     int
	Column   int
	Subject  string // the measurement, part or field
	Found    sizing.Fact
	Expected sizing.Fact
	By       sizing.Fact
	Fix      sizing.Fact
	Source   string // where the expectation comes from
	Also     []int  // other lines of the file of which the same is said; see [Gather]
}

// Caution reports whether the finding is for the care of the child.
func (f Finding) Caution() bool {
	return slices.ContainsFunc(cautionRules(), func(r draftRule) bool { return r.Code == f.Rule })
}

// Place is the finding's file:line:column, as far as it is known.
func (f Finding) Place() string {
	s := f.File
	if f.Line > 0 {
		s += fmt.Sprintf(":%d", f.Line)
		if f.Column > 0 {
			s += fmt.Sprintf(":%d", f.Column)
		}
	}
	return s
}

// String is the finding on one line, with its facts as they are: place: severity
// rule: subject: found; expected …. Package tell has the words for readers.
func (f Finding) String() string {
	s := fmt.Sprintf("%s %s: %s", f.Severity, f.Rule, f.message())
	if p := f.Place(); p != "" {
		s = p + ": " + s
	}
	return s
}

func (f Finding) message() string {
	var b strings.Builder
	if f.Subject != "" {
		b.WriteString(f.Subject + ": ")
	}
	b.WriteString(f.Found.String())
	if !f.Expected.IsZero() {
		b.WriteString("; expected " + f.Expected.String())
	}
	if !f.By.IsZero() {
		b.WriteString(" (" + f.By.String() + ")")
	}
	if !f.Fix.IsZero() {
		b.WriteString("; " + f.Fix.String())
	}
	return b.String()
}

// Sort puts findings in the order of file, line, column, severity (worst
// first), rule and subject; the likeliest slip of a file before its others.
func Sort(findings []Finding) {
	slices.SortStableFunc(findings, func(a, b Finding) int {
		return cmp.Or(
			cmp.Compare(a.File, b.File), before(a.Likeliest(), b.Likeliest()), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column),
			cmp.Compare(b.Severity, a.Severity), cmp.Compare(a.Rule, b.Rule), cmp.Compare(a.Subject, b.Subject))
	})
}

// before puts what is before what is not.
func before(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

// Worst returns the highest severity, 0 if there are no findings.
func Worst(findings []Finding) Severity {
	var w Severity
	for _, f := range findings {
		w = max(w, f.Severity)
	}
	return w
}
