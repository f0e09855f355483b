package validate

import (
	"growtuck/data"
	"growtuck/sizing"
)

// maxRowFindings is how many findings of one rule are kept for a file. The
// rest are counted.
const maxRowFindings = 2000

// A rowReport gathers findings about tables.
type rowReport struct {
	dir        string // put before table names
	findings   []Finding
	counts     map[rowRuleAt]int
	exceptions []data.Exception // known and right
	excepted   map[int]bool     // those that fired
}

type rowRuleAt struct{ rule, file string }

func newRowReport(dir string, exceptions []data.Exception) *rowReport {
	return &rowReport{dir: dir, exceptions: exceptions, counts: make(map[rowRuleAt]int), excepted: make(map[int]bool)}
}

func (r *rowReport) add(f Finding) {
	at := rowRuleAt{f.Rule, f.File}
	r.counts[at]++
	if r.counts[at] <= maxRowFindings {
		f.File = r.dir + f.File
		r.findings = append(r.findings, f)
	}
}

// worstOf reports the severity of the worst finding so far.
func (r *rowReport) worst() Severity { return Worst(r.findings) }

// finish returns the findings, sorted, with a line for those that were only
// counted.
func (r *rowReport) finish() []Finding {
	for at, n := range r.counts {
		if n > maxRowFindings {
			r.findings = append(r.findings, Finding{Rule: at.rule, Severity: Note, File: r.dir + at.file,
				Found: sizing.NewFact("rows.more", n-maxRowFindings), Fix: sizing.NewFact("rows.fix-these-first")})
		}
	}
	Sort(r.findings)
	return r.findings
}
