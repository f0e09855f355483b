package validate

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"

	"growtuck/data"
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

// ReadExceptions reads a table of known exceptions: CSV with the header
// rule,file,subject,reason. A rule must exist and a reason be given. All faults
// are returned, joined, each a [*data.Error].
func ReadExceptions(in io.Reader, name string) ([]Exception, error) {
	r := csv.NewReader(io.LimitReader(in, maxExceptionBytes))
	r.FieldsPerRecord = len(exceptionColumns)
	r.Comment = '#'
	var errs []error
	fault := func(line int, format string, args ...any) {
		errs = append(errs, &data.Error{File: name, Line: line, Msg: fmt.Sprintf(format, args...)})
	}
	head, err := r.Read()
	if err != nil || !slices.Equal(head, exceptionColumns) {
		fault(1, "has no header %s", strings.Join(exceptionColumns, ","))
		return nil, errors.Join(errs...)
	}
	rules := DraftRules()
	var out []Exception
	for {
		row, err := r.Read()
		if err == io.EOF {
			break
		}
		var p *csv.ParseError
		if errors.As(err, &p) {
			fault(p.Line, "%v", p.Err)
			continue
		}
		if err != nil {
			fault(0, "%v", err)
			break
		}
		line, _ := r.FieldPos(0)
		e := Exception{line, row[0], path.Clean(row[1]), row[2], strings.TrimSpace(row[3])}
		switch {
		case !slices.ContainsFunc(rules, func(r Rule) bool { return r.Code == e.Rule }):
			fault(line, "no rule %s", clip(e.Rule))
		case row[1] == "":
			fault(line, "names no file")
		case e.Reason == "":
			fault(line, "has no reason; an exception needs one")
		default:
			out = append(out, e)
		}
	}
	return out, errors.Join(errs...)
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
