package tell

import (
	"cmp"
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"growtuck/validate"
)

// A Finding is a finding in words, as JSON shows it.
type Finding struct {
	Rule     string            `json:"rule" doc:"code of the rule"`
	Severity validate.Severity `json:"severity" doc:"stop, warn or note; of a rule, the worst that it reports"`
	File     string            `json:"file,omitempty" doc:"name of the file, as far as one is known"`
	Line     int               `json:"line,omitempty" doc:"line of the file, from 1"`
	Column   int               `json:"column,omitempty" doc:"column of the file, from 1"`
	Subject  string            `json:"subject,omitempty" doc:"the measurement, part or field that it is about"`
	Found    string            `json:"found" doc:"what was found, with its unit"`
	Expected string            `json:"expected,omitempty" doc:"what was expected, with its unit"`
	By       string            `json:"by,omitempty" doc:"by how much what was found differs"`
	Fix      string            `json:"fix,omitempty" doc:"what to change"`
	Source   string            `json:"source,omitempty" doc:"where the expectation comes from"`
	Also     []int             `json:"also,omitempty" doc:"other lines of the file of which the same is said"`
	// Edits are those of a likeliest slip.
	Edits []validate.RowEdit `json:"edits,omitempty" doc:"of the likeliest slip of a draft, the rows to change, all of them together"`
}

// Finding tells a finding.
func (st Style) Finding(f validate.Finding) Finding {
	return Finding{f.Rule, f.Severity, f.File, f.Line, f.Column, f.Subject,
		st.Fact(f.Found), st.Fact(f.Expected), st.Fact(f.By), st.Fact(f.Fix), f.Source, f.Also, f.RowEdits()}
}

// edit tells what an edit of a draft does.
func (st Style) edit(e validate.Edit) string {
	from, counted := e.From.(int)
	to, isCount := e.To.(int)
	if !counted || !isCount {
		return "make the " + Spoken(cmp.Or(e.Part, e.Field)) + " " + st.plain(e.To)
	}
	verb := "add "
	if to < from {
		verb = "take out "
	}
	return fmt.Sprintf("%s%s: %d → %d", verb, st.value(max(to-from, from-to), e.Unit), from, to)
}

// rowEdit tells what an edit of a row does.
func rowEdit(e validate.RowEdit) string {
	cells := func(r validate.Row) string {
		return strings.TrimRight(strings.Join([]string{r.Field, r.Part, r.Value, r.Unit}, ","), ",")
	}
	where := cmp.Or(e.Cell, fmt.Sprintf("line %d", e.Line))
	switch {
	case e.From == validate.Row{}:
		return fmt.Sprintf("add %q after %s", cells(e.To), where)
	case e.To == validate.Row{}:
		return fmt.Sprintf("take out %s, %q", where, cells(e.From))
	case e.From.Field == e.To.Field && e.From.Part == e.To.Part && e.From.Unit == e.To.Unit:
		return strings.TrimSpace(fmt.Sprintf("%s: %s → %s %s", where, cmp.Or(e.From.Value, "nothing"), e.To.Value, e.To.Unit))
	}
	return fmt.Sprintf("%s: %q → %q", where, cells(e.From), cells(e.To))
}

// Findings tells each finding for JSON.
func (st Style) Findings(findings []validate.Finding) []Finding {
	st.Place = Data
	all := make([]Finding, len(findings))
	for i, f := range findings {
		all[i] = st.Finding(f)
	}
	return all
}

// Message is a finding in words, without place, severity and rule.
func (st Style) Message(f validate.Finding) string {
	w := st.Finding(f)
	var b strings.Builder
	if w.Subject != "" {
		b.WriteString(w.Subject + ": ")
	}
	b.WriteString(w.Found)
	if w.Expected != "" {
		b.WriteString("; expected " + w.Expected)
	}
	if w.By != "" {
		b.WriteString(" (" + w.By + ")")
	}
	if w.Fix != "" {
		b.WriteString("; " + w.Fix)
	}
	if len(w.Also) > 0 {
		fmt.Fprintf(&b, "; the same in %s, %s", Counted(len(w.Also), "more rows"), lineSpans(w.Also))
	}
	return b.String()
}

// mostSpans is how many spans of lines are listed.
const mostSpans = 6

// lineSpans are lines in order as spans: "lines 3–409, 411".
func lineSpans(lines []int) string {
	var spans []string
	for i := 0; i < len(lines); {
		j := i
		for j+1 < len(lines) && lines[j+1] == lines[j]+1 {
			j++
		}
		span := fmt.Sprint(lines[i])
		if j > i {
			span += fmt.Sprintf("–%d", lines[j])
		}
		spans = append(spans, span)
		i = j + 1
	}
	if len(spans) > mostSpans {
		spans = append(spans[:mostSpans], "…")
	}
	if len(lines) == 1 {
		return "line " + spans[0]
	}
	return "lines " + strings.Join(spans, ", ")
}

// Line is a finding on one line: place: severity rule: message.
func (st Style) Line(f validate.Finding) string {
	line := fmt.Sprintf("%s %s: %s", f.Severity, f.Rule, st.Message(f))
	if p := f.Place(); p != "" {
		line = p + ": " + line
	}
	return line
}

// WriteFindings writes a finding a line.
func (st Style) WriteFindings(w io.Writer, findings []validate.Finding) error {
	for _, f := range findings {
		if _, err := fmt.Fprintln(w, st.Line(f)); err != nil {
			return err
		}
	}
	return nil
}

// WriteFindingsJSON writes the findings as one JSON array, indented.
func (st Style) WriteFindingsJSON(w io.Writer, findings []validate.Finding) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(st.Findings(findings))
}

// WriteAnnotations writes the findings as workflow commands that a code forge
// shows beside the lines: ::error file=…,line=…,col=…,title=…::message.
func (st Style) WriteAnnotations(w io.Writer, findings []validate.Finding) error {
	level := map[validate.Severity]string{validate.Note: "notice", validate.Warn: "warning", validate.Stop: "error"}
	message := strings.NewReplacer("%", "%25", "\r", "%0D", "\n", "%0A")
	property := strings.NewReplacer("%", "%25", "\r", "%0D", "\n", "%0A", ":", "%3A", ",", "%2C")
	for _, f := range findings {
		props := []string{}
		add := func(name, value string) { props = append(props, name+"="+property.Replace(value)) }
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
		if _, err := fmt.Fprintf(w, "::%s %s::%s\n", level[f.Severity], strings.Join(props, ","), message.Replace(st.Message(f))); err != nil {
			return err
		}
	}
	return nil
}
