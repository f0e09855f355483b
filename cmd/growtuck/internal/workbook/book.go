package workbook

import (
	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// A Content is what a workbook of a plan is made from. Unit, "cm" or "in", is
// that of columns to fill in, and the unit shown at first.
type Content struct {
	Reference *sizing.Reference
	Unit      string
	Title     string
	Program   string // name and version, for the document's properties
	Edition   string // of the tables, with their checksum

	Settings []ask.Cell // how the plan was asked for
	Options  []string   // of the garment, all of them

	Child    sizing.Child
	Finished *sizing.Finished
	Plan     *plan.Plan
	Pattern  tell.Document   // the plan as a document to work from
	Drawn    schematic.Panel // the garment with the letters of the pattern
	Draft    []plan.Row
	Findings []validate.Finding

	Sizes     []Size // of the chart, to compare with
	Growth    *Growth
	Graded    *plan.Graded // nil where the run of sizes has no plan
	NotGraded string       // why
	Credits   []string
}

// A Size is a size of a chart and its body.
type Size struct {
	Label string
	Body  *sizing.Body
}

// settingName is the defined name of a setting's cell. The prefix keeps it from
// being the name of a cell.
func settingName(n string) string { return "in_" + n }

// A Book is a workbook laid out.
type Book struct {
	sheets []*sheet
	title  string
	by     string
	tables string // the edition, for the document's properties
}

// New lays a plan out.
func New(c Content) (*Book, error) {
	l, err := newLayout(c)
	if err != nil {
		return nil, err
	}
	b := &Book{title: c.Title, by: c.Program, tables: c.Edition}
	for _, lay := range []func() *sheet{
		l.start, l.pattern, l.rowsSheet, l.picture, l.child, l.body, l.inches, l.easeAndLengths, l.counts, l.check, l.graded, l.growth, l.sources, l.draft, l.easeTable, l.growthTable,
	} {
		b.sheets = append(b.sheets, lay())
	}
	return b, nil
}
