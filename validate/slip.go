package validate

import (
	"cmp"
	"slices"

	"growtuck/sizing"
)

// A RowEdit is a change of a row of a draft, by which a slip is put right. From is
// zero for a row that is added after the line, To for one that is taken out.
type RowEdit struct {
	Line int `json:"line" doc:"line of the row; of a row that is added, the line that it goes after"`
	From Row `json:"from,omitzero" doc:"the row as it is; left out for a row that is added"`
	To   Row `json:"to,omitzero" doc:"the row as it was likely meant; left out for a row that is taken out"`
	// Cell is where the row stands in a workbook.
	Cell string `json:"cell,omitempty" doc:"of a draft in a workbook, the cell to change, or the row's first"`
}

// A Slip is what was likely typed wrong: the change of the draft that clears most
// of its findings, of several such the likeliest.
type Slip struct {
	Kind   string // what was done wrong, such as digits-exchanged
	Edits  []RowEdit
	Clears []Finding
}

// likeliest is reported before all that it clears.
var likeliest = Rule{Code: "L01", Group: "slip", Title: "The one slip that explains most of the findings", Severity: Note}

// A candidate is a slip that may have been made. The cost says how unlikely it is.
type candidate struct {
	kind  string
	edits []RowEdit
	cost  float64
}

// A search looks for the likeliest slip of one draft.
type search struct {
	*trials
	rows     []placed
	now      outcome
	found    []candidate
	places   map[string]int // in found, by the edits
	suspects []placed       // rows without which there are fewer findings
}

// searchSlip finds the likeliest slip in a draft that was checked. ok is false
// where no one change leaves less to say.
func (t *trials) searchSlip(rows []placed, now outcome) (s Slip, ok bool) {
	if len(rows) == 0 || now.weight() < lightest {
		return Slip{}, false
	}
	at := &search{trials: t, rows: rows, now: now, places: make(map[string]int)}
	at.collect()
	slices.SortStableFunc(at.found, func(a, b candidate) int { return cmp.Compare(a.cost, b.cost) })
	var best candidate
	var after outcome
	least := now.weight() - lightest
	for _, c := range at.found {
		if t.left == 0 {
			break
		}
		o := t.check(apply(rows, c.edits))
		weight, cost := o.weight(), c.cost+o.misfit
		if weight > least || best.edits != nil && weight == least && cost >= best.cost {
			continue
		}
		least, after = weight, o
		best = candidate{c.kind, c.edits, cost}
	}
	if best.edits == nil {
		return Slip{}, false
	}
	clears := now.without(after)
	return Slip{Kind: best.kind, Edits: best.edits, Clears: clears}, len(clears) > 0
}

// finding is the slip as it is reported.
func (s Slip) finding(name string) Finding {
	e := s.Edits[0]
	row := e.From
	if row == (Row{}) {
		row = e.To
	}
	var cleared []sizing.Fact
	seen := make(map[string]bool)
	for _, f := range s.Clears {
		about := fact("slip.about", f.Rule, f.Subject)
		if f.Subject == "" {
			about = fact("slip.rule", f.Rule)
		}
		if id := about.String(); !seen[id] {
			seen[id] = true
			cleared = append(cleared, about)
		}
	}
	var edits []any
	for _, e := range s.Edits {
		edits = append(edits, e)
	}
	fix := fact("fix.slip", edits...)
	switch {
	case len(edits) == 2:
		fix = fact("fix.slip-both", edits...)
	case len(edits) > 2:
		fix = fact("fix.slip-all", slices.Insert(edits, 1, any(len(edits)-1))...)
	}
	return Finding{Rule: likeliest.Code, Severity: likeliest.Severity, File: name, Line: e.Line, Subject: row.subject(),
		Found: fact("slip." + s.Kind), By: fact("slip.clears", len(s.Clears), cleared), Fix: fix}
}

// subject is what a row is about.
func (r Row) subject() string {
	if r.Part != "" {
		return r.Field + " " + r.Part
	}
	return r.Field
}

// advise puts the likeliest slip before the findings. What it clears is sent to it,
// and of the other remedies those stay that leave less to say than there is: so no
// two of them undo each other, whichever is followed.
func (t *trials) advise(rows []placed, now outcome) []Finding {
	slip, found := t.searchSlip(rows, now)
	advised := slices.Clone(now.findings)
	for i := range advised {
		f := &advised[i]
		edits := f.Edits()
		switch {
		case found && slip.clears(*f) && (f.counts() || len(edits) > 0):
			f.Fix = fact("fix.with-slip", slip.Edits[0].Line)
		case len(edits) == 0 || t.allLessen(rows, now, f.Fix.ID == "fix.set-both", edits):
		case f.Fix.ID == "fix.add-edges": // and the fabric with it, which the edit has not
			f.Fix = fact(f.Fix.ID, f.Fix.Args[0])
		case f.Fix.ID == "fix.measure-stretch":
			f.Fix = fact("fix.measure-stretch-only", f.Fix.Args[0])
		default:
			f.Fix = fact("fix.not-alone")
		}
	}
	if !found {
		return advised
	}
	return slices.Insert(advised, 0, slip.finding(t.name))
}

// allLessen reports whether each edit leaves less to say; together, all of them at once.
func (t *trials) allLessen(rows []placed, now outcome, together bool, edits []Edit) bool {
	var all []RowEdit
	for _, e := range edits {
		r, ok := rowEdit(rows, e)
		if !ok || !together && t.check(apply(rows, []RowEdit{r})).withNotes() >= now.withNotes() {
			return false
		}
		all = append(all, r)
	}
	return !together || t.check(apply(rows, all)).withNotes() < now.withNotes()
}

func (s Slip) clears(f Finding) bool {
	return slices.ContainsFunc(s.Clears, func(c Finding) bool { return c.sameMatter(f) })
}

// sameMatter reports whether findings are of the same rule and about the same thing.
func (f Finding) sameMatter(g Finding) bool { return f.Rule == g.Rule && f.Subject == g.Subject }

// Likeliest reports whether the finding names the likeliest slip of its draft.
func (f Finding) Likeliest() bool { return f.Rule == likeliest.Code }

// RowEdits are the changes of the draft by which the finding's slip is put right:
// all of them together, nil where it names none.
func (f Finding) RowEdits() []RowEdit {
	var all []RowEdit
	for _, a := range f.Fix.Args {
		if e, ok := a.(RowEdit); ok {
			all = append(all, e)
		}
	}
	return all
}
