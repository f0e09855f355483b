package validate

import (
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

// excepts reports whether a finding is a known exception, and notes that the
// exception fired.
func (r *rowReport) excepts(rule, table, subject string) bool {
	for i, e := range r.exceptions {
		if e.Rule == rule && e.Table == table && e.Subject == subject {
			r.excepted[i] = true
			return true
		}
	}
	return false
}

// checkExceptions checks that exceptions name rules and tables.
func (ts *tableSet) checkExceptions() {
	for _, e := range ts.t.Exceptions {
		if !slices.ContainsFunc(rowRules, func(r Rule) bool { return r.Code == e.Rule }) {
			f := ts.at("R07", Stop, data.ExceptionsFile, e.Line, "rule")
			f.Found, f.Expected = sizing.NewFact("rows.no-rule", e.Rule), sizing.NewFact("rows.rule-code")
			ts.rep.add(f)
		}
		if formOf(ts.forms, e.Table) == nil {
			f := ts.at("R07", Stop, data.ExceptionsFile, e.Line, "table")
			f.Found, f.Expected = sizing.NewFact("rows.no-table", e.Table), sizing.NewFact("rows.table-file")
			ts.rep.add(f)
		}
	}
}

// reportExceptions reports exceptions for charts that are there but whose
// finding is not. For a proposal those of the other tables are passed over.
func (s *bodySet) reportExceptions(all bool) {
	for i, e := range s.rep.exceptions {
		chart, _, _ := strings.Cut(e.Subject, " ")
		_, here := s.charts[chart]
		if s.rep.excepted[i] || e.Table == bodyTable && !here || e.Table != bodyTable && !all {
			continue
		}
		f := Finding{Rule: "X02", Severity: Warn, File: s.file, Subject: e.Subject,
			Found: sizing.NewFact("rows.exception-unused", e.Rule), Expected: sizing.NewFact("rows.exception-reason", e.Reason),
			Fix: sizing.NewFact("rows.exception-fix")}
		if e.Table != bodyTable {
			f.File = e.Table
		}
		s.rep.add(f)
	}
}
