package tell

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"net/url"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"growtuck/validate"
)

// WriteFindingsCSV writes the findings as a table, a finding a row.
func (st Style) WriteFindingsCSV(w io.Writer, findings []validate.Finding) error {
	out := csv.NewWriter(w)
	_ = out.Write([]string{"rule", "severity", "file", "line", "column", "subject", "found", "expected", "by", "fix", "source", "also"})
	for _, f := range st.Findings(findings) {
		_ = out.Write([]string{f.Rule, f.Severity.String(), f.File, positive(f.Line), positive(f.Column), f.Subject, f.Found, f.Expected, f.By, f.Fix, f.Source, strings.Trim(fmt.Sprint(f.Also), "[]")})
	}
	out.Flush()
	return out.Error() // the first of them all
}

func positive(n int) string {
	if n < 1 {
		return ""
	}
	return strconv.Itoa(n)
}

// The parts of SARIF 2.1.0, an OASIS standard, that findings need.
type (
	sarifLog struct {
		Schema  string     `json:"$schema"`
		Version string     `json:"version"`
		Runs    []sarifRun `json:"runs"`
	}
	sarifRun struct {
		Tool    sarifTool     `json:"tool"`
		Results []sarifResult `json:"results"`
	}
	sarifTool struct {
		Driver sarifDriver `json:"driver"`
	}
	sarifDriver struct {
		Name    string      `json:"name"`
		Version string      `json:"version,omitempty"`
		Rules   []sarifRule `json:"rules"`
	}
	sarifRule struct {
		ID               string    `json:"id"`
		ShortDescription sarifText `json:"shortDescription"`
	}
	sarifText struct {
		Text string `json:"text"`
	}
	sarifResult struct {
		RuleID    string          `json:"ruleId"`
		Level     string          `json:"level"`
		Message   sarifText       `json:"message"`
		Locations []sarifLocation `json:"locations,omitempty"`
		Fixes     []sarifFix      `json:"fixes,omitempty"`
		Times     int             `json:"occurrenceCount,omitempty"`
	}
	sarifLocation struct {
		Physical sarifPlace `json:"physicalLocation"`
	}
	sarifPlace struct {
		Artifact sarifURI     `json:"artifactLocation"`
		Region   *sarifRegion `json:"region,omitempty"`
	}
	sarifURI struct {
		URI string `json:"uri"`
	}
	sarifRegion struct {
		StartLine   int `json:"startLine"`
		StartColumn int `json:"startColumn,omitempty"`
		EndLine     int `json:"endLine,omitempty"`
		EndColumn   int `json:"endColumn,omitempty"`
	}
	sarifFix struct {
		Description sarifText     `json:"description"`
		Changes     []sarifChange `json:"artifactChanges"`
	}
	sarifChange struct {
		Artifact     sarifURI           `json:"artifactLocation"`
		Replacements []sarifReplacement `json:"replacements"`
	}
	sarifReplacement struct {
		Deleted  sarifRegion `json:"deletedRegion"`
		Inserted *sarifText  `json:"insertedContent,omitempty"`
	}
)

var sarifLevels = map[validate.Severity]string{validate.Note: "note", validate.Warn: "warning", validate.Stop: "error"}

// WriteSARIF writes the findings as a log of SARIF 2.1.0, with the likeliest slip of a
// draft as a fix.
func (st Style) WriteSARIF(w io.Writer, findings []validate.Finding) error {
	run := sarifRun{Tool: sarifTool{sarifDriver{Name: "growtuck", Rules: []sarifRule{}}}, Results: []sarifResult{}}
	for _, r := range slices.Concat(validate.DraftRules(), validate.RowRules()) {
		used := slices.ContainsFunc(findings, func(f validate.Finding) bool { return f.Rule == r.Code })
		known := slices.ContainsFunc(run.Tool.Driver.Rules, func(s sarifRule) bool { return s.ID == r.Code })
		if used && !known {
			run.Tool.Driver.Rules = append(run.Tool.Driver.Rules, sarifRule{r.Code, sarifText{r.Title}})
		}
	}
	for _, f := range findings {
		r := sarifResult{RuleID: f.Rule, Level: sarifLevels[f.Severity], Message: sarifText{st.Message(f)}}
		if n := len(f.Also); n > 0 {
			r.Times = 1 + n
		}
		if f.File != "" {
			place := sarifPlace{Artifact: sarifFile(f.File)}
			if f.Line > 0 {
				place.Region = &sarifRegion{StartLine: f.Line, StartColumn: f.Column}
			}
			r.Locations = []sarifLocation{{place}}
		}
		if edits := f.RowEdits(); len(edits) > 0 && edits[0].Cell == "" { // a workbook has no lines
			change := sarifChange{Artifact: sarifFile(f.File)}
			for _, e := range edits {
				change.Replacements = append(change.Replacements, replacement(e))
			}
			r.Fixes = []sarifFix{{sarifText{st.Fact(f.Fix)}, []sarifChange{change}}}
		}
		run.Results = append(run.Results, r)
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(sarifLog{"https://json.schemastore.org/sarif-2.1.0.json", "2.1.0", []sarifRun{run}})
}

func sarifFile(path string) sarifURI {
	return sarifURI{(&url.URL{Path: filepath.ToSlash(path)}).EscapedPath()}
}

// replacement is an edit of a row: its whole line.
func replacement(e validate.RowEdit) sarifReplacement {
	region := sarifRegion{StartLine: e.Line, StartColumn: 1, EndLine: e.Line + 1, EndColumn: 1}
	if e.From == (validate.Row{}) {
		region.StartLine++
	}
	r := sarifReplacement{Deleted: region}
	if e.To != (validate.Row{}) {
		var line strings.Builder
		w := csv.NewWriter(&line)
		_ = w.Write([]string{e.To.Field, e.To.Part, e.To.Value, e.To.Unit, e.To.Note}) // a strings.Builder takes all
		w.Flush()
		r.Inserted = &sarifText{line.String()}
	}
	return r
}
