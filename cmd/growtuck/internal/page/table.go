package page

import (
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/tell"
)

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
	Label        string // of its button: the row, the column and the text
	Right, Opens bool
}

// Opens reports whether any of its numbers is a button: the arrow keys then go over it,
// and it needs no stop of its own.
func (t *table) Opens() bool {
	return slices.ContainsFunc(t.Rows, func(r tableRow) bool {
		return slices.ContainsFunc(r.Cells, func(c tableCell) bool { return c.Opens })
	})
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
			label := row.Name + ", " + strings.TrimLeft(c.Head, "+= ") + ": " + r.Cells[i]
			row.Cells = append(row.Cells, tableCell{r.Cells[i], label, c.Right, c.Opens && row.ID != "" && r.Cells[i] != ""})
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

// A chapterView is a chapter of a pattern on the page.
type chapterView struct {
	tell.Chapter
	Sheet *table // its table
}

// chapters lays out those of a pattern; the drawing is elsewhere on the page.
func chapters(d tell.Document, caption string) []chapterView {
	var all []chapterView
	for _, c := range d.Chapters {
		if c.Drawn {
			continue
		}
		v := chapterView{Chapter: c}
		if c.Table != nil {
			v.Sheet = newTable(named(*c.Table), "counts", c.Title, caption)
			caption = c.Title
		}
		all = append(all, v)
	}
	return all
}

// named is a table whose rows begin with their names: letters of the drawing go in
// front of them.
func named(t tell.Table) tell.Table {
	if t.Columns[0].Head != tell.LetterHead {
		return t
	}
	out := tell.Table{Caption: t.Caption, Columns: t.Columns[1:]}
	for _, r := range t.Rows {
		r.Cells = append([]string{strings.TrimSpace(r.Cells[0] + " " + r.Cells[1])}, r.Cells[2:]...)
		out.Rows = append(out.Rows, r)
	}
	return out
}

// An explained is a number that opens what it rests on. Several may share the words,
// which one of them has.
type explained struct {
	Text, ID string
	Name     string // what it is, for the head of the words
	Why      []string
}
