package validate

import (
	"io"
	"path"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/data/table"
)

// An Exception is a known and accepted finding.
type Exception struct {
	Line    int    // in its own table
	Rule    string // code
	File    string // the draft: its name, or the end of its path
	Subject string // of the finding; "" for any
	Reason  string // why it may stay
}

// unusedException is reported for an exception that no longer applies.
var unusedException = Rule{Code: "X01", Group: "exceptions", Title: "A known exception no longer applies", Severity: Warn}

var exceptionColumns = []string{"rule", "file", "subject", "reason"}

// maxExceptionBytes bounds a table of exceptions.
const maxExceptionBytes = 1 << 20

// ReadExceptions reads a table of known exceptions, with the header
// rule,file,subject,reason. A rule must exist and a reason be given. Faults
// are returned joined, each a [*data.Error].
func ReadExceptions(in io.Reader, name string) ([]Exception, error) {
	t, err := table.Open(in, name, maxExceptionBytes)
	if err == nil {
		err = t.Header(exceptionColumns, len(exceptionColumns))
	}
	if err != nil {
		return nil, err
	}
	rules := DraftRules()
	faults := data.Faults{File: name}
	var out []Exception
	for {
		row, err := t.Next()
		if err == io.EOF {
			return out, faults.Err()
		}
		if err != nil {
			faults.Add(err)
			continue
		}
		text := row.Texts()
		e := Exception{row.Line, text[0], path.Clean(text[1]), text[2], text[3]}
		switch {
		case !slices.ContainsFunc(rules, func(r Rule) bool { return r.Code == e.Rule }):
			faults.Add(t.Fault(row.Line, 0, "no rule "+clip(e.Rule)))
		case text[1] == "":
			faults.Add(t.Fault(row.Line, 0, "names no file"))
		case e.Reason == "":
			faults.Add(t.Fault(row.Line, 0, "has no reason; an exception needs one"))
		default:
			out = append(out, e)
		}
	}
}

func (e Exception) isOf(file string) bool {
	file = path.Clean(strings.ReplaceAll(file, `\`, "/"))
	return file == e.File || strings.HasSuffix(file, "/"+e.File)
}

// except removes known exceptions, and adds a finding for each one that names
// the file and does not apply.
func except(findings []Finding, file string, exceptions []Exception) []Finding {
	for _, e := range exceptions {
		if !e.isOf(file) {
			continue
		}
		kept := slices.DeleteFunc(slices.Clone(findings), func(f Finding) bool {
			return f.Rule == e.Rule && (e.Subject == "" || e.Subject == f.Subject)
		})
		if len(kept) == len(findings) {
			found := fact("exception.unused", e.Rule, e.Reason)
			if e.Subject != "" {
				found = fact("exception.unused-about", e.Rule, e.Subject, e.Reason)
			}
			kept = append(kept, Finding{Rule: unusedException.Code, Severity: unusedException.Severity, File: file, Subject: e.Subject,
				Found: found, Fix: fact("fix.remove-exception")})
		}
		findings = kept
	}
	return findings
}
