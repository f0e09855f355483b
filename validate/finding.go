package validate

import (
	"cmp"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Severity says what a finding means for the work.
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
	return 0, fmt.Errorf("severity %q is none of note, warn, stop", name)
}

// Finding is one thing a rule has to say. Found, Expected and By are whole
// phrases with units; Fix says what to change.
type Finding struct {
	Rule     string   `json:"rule"`
	Severity Severity `json:"severity"`
	File     string   `json:"file,omitempty"`
	Line     int      `json:"line,omitempty"`
	Column   int      `json:"column,omitempty"`
	Subject  string   `json:"subject,omitempty"` // the measurement, part or field
	Found    string   `json:"found"`
	Expected string   `json:"expected,omitempty"`
	By       string   `json:"by,omitempty"`
	Fix      string   `json:"fix,omitempty"`
	Source   string   `json:"source,omitempty"` // where the expectation comes from
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

// Message is the finding in words, without place, severity and rule.
func (f Finding) Message() string {
	var b strings.Builder
	if f.Subject != "" {
		b.WriteString(f.Subject + ": ")
	}
	b.WriteString(f.Found)
	if f.Expected != "" {
		b.WriteString("; expected " + f.Expected)
	}
	if f.By != "" {
		b.WriteString(" (" + f.By + ")")
	}
	if f.Fix != "" {
		b.WriteString("; " + f.Fix)
	}
	return b.String()
}

// String is the finding on one line: place: severity rule: message.
func (f Finding) String() string {
	s := fmt.Sprintf("%s %s: %s", f.Severity, f.Rule, f.Message())
	if p := f.Place(); p != "" {
		s = p + ": " + s
	}
	return s
}

// Sort puts findings in the order of file, line, column, severity (worst
// first), rule and subject.
func Sort(findings []Finding) {
	slices.SortStableFunc(findings, func(a, b Finding) int {
		return cmp.Or(
			cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column),
			cmp.Compare(b.Severity, a.Severity), cmp.Compare(a.Rule, b.Rule), cmp.Compare(a.Subject, b.Subject))
	})
}

// Worst returns the highest severity, 0 if there are no findings.
func Worst(findings []Finding) Severity {
	var w Severity
	for _, f := range findings {
		w = max(w, f.Severity)
	}
	return w
}

// WriteText writes a finding a line.
func WriteText(w io.Writer, findings []Finding) error {
	for _, f := range findings {
		if _, err := fmt.Fprintln(w, f); err != nil {
			return err
		}
	}
	return nil
}

// WriteJSON writes the findings as one JSON array, indented.
func WriteJSON(w io.Writer, findings []Finding) error {
	if findings == nil {
		findings = []Finding{}
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(findings)
}

// WriteAnnotations writes the findings as workflow commands that a code forge
// shows beside the lines: ::error file=…,line=…,col=…,title=…::message.
func WriteAnnotations(w io.Writer, findings []Finding) error {
	level := map[Severity]string{Note: "notice", Warn: "warning", Stop: "error"}
	for _, f := range findings {
		props := []string{}
		add := func(name, value string) {
			props = append(props, name+"="+annotationProperty.Replace(value))
		}
		if f.File != "" {
			add("file", f.File)
		}
		if f.Line > 0 {
			add("line", fmt.Sprint(f.Line))
		}
		if f.Column > 0 {
			add("col", fmt.Sprint(f.Column))
		}
		add("title", f.Rule)
		if _, err := fmt.Fprintf(w, "::%s %s::%s\n", level[f.Severity], strings.Join(props, ","), annotationMessage.Replace(f.Message())); err != nil {
			return err
		}
	}
	return nil
}

var (
	annotationMessage  = strings.NewReplacer("%", "%25", "\r", "%0D", "\n", "%0A")
	annotationProperty = strings.NewReplacer("%", "%25", "\r", "%0D", "\n", "%0A", ":", "%3A", ",", "%2C")
)
