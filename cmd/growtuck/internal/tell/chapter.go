package tell

// A Chapter is a part of a document under a heading of its own.
type Chapter struct {
	ID, Title string
	About     string   // beside the title, such as "60 → 180 stitches, 40 rows"
	Why       []string // what that rests on, on the page
	Lines     []string // paragraphs
	Table     *Table
	Items     []string // a list
	Work      []Work   // instructions, in their order
	Twice     bool     // it is worked twice: a second box for each
	After     []string // paragraphs under the work
	Drawn     bool     // the drawing of the document stands here
}

// A Work is an instruction, with a box to tick in front of it.
type Work struct {
	Step  string // id of the step within its section
	Sizes string // the sizes that it is about, where not all
	Text  string
	Count string // stitches after it; "" where none are counted
	Rows  []WorkedRow
}

// A WorkedRow is a row that an instruction works.
type WorkedRow struct {
	Row    int
	Count  int    // stitches after it
	Colour string // "" where there is one
}

// Several are the rows where they are more than one: one alone is the instruction.
func (w Work) Several() []WorkedRow {
	if len(w.Rows) == 1 {
		return nil
	}
	return w.Rows
}

// String is the instruction with the sizes it is about.
func (w Work) String() string {
	if w.Sizes == "" {
		return w.Text
	}
	return "Size " + w.Sizes + ": " + w.Text
}
