package page

import (
	"fmt"
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
	Letter string // of the drawing; "" where it has none
	Part   string // of the garment, which lights up in drawing and tables together
	Name   string
	Cells  []tableCell
	ID     string // of the reasons that its buttons open; "" for none
	Why    []string
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

// styledColumns are those that the style sheet sets to the right by a class of the table;
// in columns behind them each cell says so.
const styledColumns = 9

// newTable lays a table out under a name for its region and a caption.
func newTable(t tell.Table, class, label, caption string) *table {
	used := t.Used()
	lettered := t.Columns[0].Head == tell.LetterHead && len(used) > 1
	if lettered {
		used = used[1:]
	}
	if len(used) == 0 {
		return nil
	}
	out := &table{Label: label, Caption: caption, Class: class}
	for k, i := range used {
		c := t.Columns[i]
		if c.Right && k < styledColumns {
			out.Class += fmt.Sprintf(" r%d", k+1)
			c.Right = false
		}
		out.Heads = append(out.Heads, c)
	}
	for _, r := range t.Rows {
		row := tableRow{Name: r.Cells[used[0]], Why: r.Why}
		if r.ID != "" {
			row.ID = "why-" + r.ID
		}
		if lettered {
			row.Letter = r.Cells[0]
			_, row.Part, _ = strings.Cut(r.ID, "-")
		}
		for _, i := range used[1:] {
			c := t.Columns[i]
			label := row.Name + ", " + strings.TrimLeft(c.Head, "+= ") + ": " + r.Cells[i]
			row.Cells = append(row.Cells, tableCell{r.Cells[i], label, c.Right && len(row.Cells)+2 > styledColumns, c.Opens && row.ID != "" && r.Cells[i] != ""})
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
			v.Sheet = newTable(*c.Table, "counts", c.Title, caption)
			caption = c.Title
		}
		all = append(all, v)
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
