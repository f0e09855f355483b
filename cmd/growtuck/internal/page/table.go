package page

import "growtuck/cmd/growtuck/internal/tell"

// A table is a table of a document on the page, without the columns that have nothing
// in them.
type table struct {
	Label, Caption, Class string
	Heads                 []tell.Column
	Rows                  []tableRow
	Visible               bool // the caption is for all readers, not for screen readers alone
}

type tableRow struct {
	Name  string
	Cells []tableCell
	ID    string // of the reasons that its buttons open; "" for none
	Why   []string
}

type tableCell struct {
	Text         string
	Right, Opens bool
}

// newTable lays a table out under a name for its region and a caption.
func newTable(t tell.Table, class, label, caption string) *table {
	used := t.Used()
	if len(used) == 0 {
		return nil
	}
	out := &table{Label: label, Caption: caption, Class: class}
	for _, i := range used {
		out.Heads = append(out.Heads, t.Columns[i])
	}
	for _, r := range t.Rows {
		row := tableRow{Name: r.Cells[used[0]], Why: r.Why}
		if r.ID != "" {
			row.ID = "why-" + r.ID
		}
		for _, i := range used[1:] {
			c := t.Columns[i]
			row.Cells = append(row.Cells, tableCell{r.Cells[i], c.Right, c.Opens && row.ID != "" && r.Cells[i] != ""})
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

// A section is a part of the work, with its steps.
type section struct {
	Name, Times    string
	Stitches, Rows explained
	Steps          []string
}

// sections are the rows of the table of sections of a plan: name, stitches, rows,
// times, and the steps under them.
func sections(t tell.Table) []section {
	var all []section
	for _, r := range t.Rows {
		s := section{Name: r.Cells[0], Stitches: explained{Text: r.Cells[1]}, Rows: explained{Text: r.Cells[2]}, Times: r.Cells[3], Steps: r.Under}
		if r.ID != "" {
			s.Stitches.ID, s.Rows.ID = "why-"+r.ID, "why-"+r.ID
			s.Rows.Name, s.Rows.Why = r.Cells[0], r.Why
		}
		all = append(all, s)
	}
	return all
}

// An explained is a number that opens what it rests on. Several may share the words,
// which one of them has.
type explained struct {
	Text, ID string
	Name     string // what it is, for the head of the words
	Why      []string
}
