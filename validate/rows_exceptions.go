package validate

import (
	"strings"

	"growtuck/sizing"
)

// A rowException is a finding of the rules of sense that is known and right:
// the source has it so. Its subject is that of the finding.
type rowException struct{ rule, table, subject, reason string }

const largeGirths = "the trade chart's girths are large at the small end, as the note on the chart says"

// rowExceptions are all that our own tables need. Oddities that a row's own
// note explains need no entry.
var rowExceptions = []rowException{
	{"R27", bodyTable, "craft 2 chest", largeGirths},
	{"R27", bodyTable, "craft 2 waist", largeGirths + "; equal to the chest in the standard"},
	{"R27", bodyTable, "craft 2 hip", largeGirths},
	{"R27", bodyTable, "craft 2 upper_arm", largeGirths},
	{"R27", bodyTable, "craft 4 chest", largeGirths},
	{"R27", bodyTable, "craft 4 hip", largeGirths},
	{"R27", bodyTable, "craft 4 upper_arm", largeGirths},
	{"R21", bodyTable, "craft-foot 4-5 foot_length low", "the standard has 4.75, 6.5 and 7.75 in for bands of 2, 2 and 4 years"},
	{"R20", bodyTable, "measured-infants 16-19m foot_breadth p5", "a tail of few infants; the median grows"},
	{"R20", bodyTable, "measured-infants 16-19m foot_length p5", "a tail of few infants; the median grows"},
}

// excepts reports whether a finding is a known exception, and notes that the
// exception fired.
func (r *rowReport) excepts(rule, table, subject string) bool {
	for i, e := range rowExceptions {
		if e.rule == rule && e.table == table && e.subject == subject {
			r.excepted[i] = true
			return true
		}
	}
	return false
}

// reportExceptions reports exceptions for charts that are there but whose
// finding is not. For a proposal those of the other tables are passed over.
func (s *bodySet) reportExceptions(all bool) {
	for i, e := range rowExceptions {
		chart, _, _ := strings.Cut(e.subject, " ")
		_, here := s.charts[chart]
		if s.rep.excepted[i] || e.table == bodyTable && !here || e.table != bodyTable && !all {
			continue
		}
		f := Finding{Rule: "X02", Severity: Warn, File: s.file, Subject: e.subject,
			Found: sizing.Text("the known exception to " + e.rule + " no longer fires"), Expected: sizing.Text("the rule to find what the exception explains: " + e.reason),
			Fix: sizing.Text("put the value back, or take the exception out of rows_exceptions.go")}
		if e.table != bodyTable {
			f.File = e.table
		}
		s.rep.add(f)
	}
}
