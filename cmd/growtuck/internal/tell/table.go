package tell

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// A Table is a table for people: columns with a heading, and rows of text.
type Table struct {
	Caption string
	Columns []Column
	Rows    []Row
}

// A Column is a column of a table.
type Column struct {
	Head  string
	Right bool // numbers, aligned at the right
	Wrap  bool // text that is broken to fit; at most one column of a table
	Opens bool // on the page its cells are buttons that open the row's reasons
}

// A Row is one line of a table, and lines to print under it.
type Row struct {
	Cells []string
	Under []string
	ID    string   // of the row's reasons, on the page
	Why   []string // where the numbers come from, on the page
}

// newRow is a row of cells.
func newRow(cells ...string) Row { return Row{Cells: cells} }

// Used lists the columns that have anything in them.
func (g Table) Used() []int {
	var kept []int
	for i := range g.Columns {
		for _, r := range g.Rows {
			if r.Cells[i] != "" {
				kept = append(kept, i)
				break
			}
		}
	}
	return kept
}

const gap = "  "

// text lays the grid out in lines of at most width characters, as far as what
// is in it can be broken.
func (g Table) text(width int) []string {
	kept := g.Used()
	if len(kept) == 0 {
		return nil
	}
	widths := make([]int, len(g.Columns))
	var lines []string
	cells := make([][]string, len(g.Rows))
	for i, r := range g.Rows {
		cells[i] = append([]string(nil), r.Cells...)
	}
	for _, i := range kept {
		if g.Columns[i].Right {
			padFractions(cells, i)
		}
		widths[i] = utf8.RuneCountInString(g.Columns[i].Head)
		for _, r := range cells {
			widths[i] = max(widths[i], utf8.RuneCountInString(r[i]))
		}
	}
	if g.narrow(kept, widths, width) > width && width < roomy {
		return g.stacked(kept, width)
	}
	head := make([]string, len(g.Columns))
	for i, c := range g.Columns {
		head[i] = c.Head
	}
	if strings.Join(head, "") != "" {
		lines = append(lines, g.line(kept, widths, head)...)
		rule := -len(gap)
		for _, i := range kept {
			rule += widths[i] + len(gap)
		}
		lines = append(lines, strings.Repeat("─", rule))
	}
	for i, r := range g.Rows {
		lines = append(lines, g.line(kept, widths, cells[i])...)
		for _, u := range r.Under {
			lines = append(lines, Wrap(u, width, "    ", "      ")...)
		}
	}
	return lines
}

// padFractions adds space after whole numbers where others of the column have a
// fraction, so that 9 3/4 and 10 line up.
func padFractions(cells [][]string, i int) {
	const fraction = " 1/4"
	isFraction := func(s string) bool { return strings.HasSuffix(s, "/4") || strings.HasSuffix(s, "/2") }
	any := false
	for _, r := range cells {
		any = any || isFraction(r[i])
	}
	if !any {
		return
	}
	for _, r := range cells {
		if !isFraction(r[i]) && r[i] != "" && !strings.Contains(r[i], ".") {
			r[i] += strings.Repeat(" ", len(fraction))
		}
	}
}

// roomy is the width from which on a grid stays one: files and wide terminals.
const roomy = 100

// stacked lays the grid out for a narrow terminal: under the first cell of a row each
// other one on its own line, with its head.
func (g Table) stacked(kept []int, width int) []string {
	var lines []string
	for _, r := range g.Rows {
		lines = append(lines, Wrap(r.Cells[kept[0]], width, "", "  ")...)
		for _, i := range kept[1:] {
			text := r.Cells[i]
			if text == "" {
				continue
			}
			if head := g.Columns[i].Head; head != "" {
				text = head + ": " + text
			}
			lines = append(lines, Wrap(text, width, "  ", "    ")...)
		}
		for _, u := range r.Under {
			lines = append(lines, Wrap(u, width, "    ", "      ")...)
		}
	}
	return lines
}

// narrow takes from the wrapping column what the line is too long by, and returns how
// wide the grid then is.
func (g Table) narrow(kept, widths []int, width int) int {
	const least = 12
	total := -len(gap)
	for _, i := range kept {
		total += widths[i] + len(gap)
	}
	for _, i := range kept {
		if g.Columns[i].Wrap && total > width {
			less := widths[i] - max(min(least, widths[i]), widths[i]-(total-width))
			widths[i] -= less
			total -= less
		}
	}
	return total
}

// line lays out one row, on several lines where a column wraps.
func (g Table) line(kept, widths []int, cells []string) []string {
	broken := make([][]string, len(cells))
	height := 1
	for _, i := range kept {
		broken[i] = []string{cells[i]}
		if g.Columns[i].Wrap {
			broken[i] = Wrap(cells[i], widths[i], "", "")
		}
		height = max(height, len(broken[i]))
	}
	var lines []string
	for k := range height {
		var b strings.Builder
		for n, i := range kept {
			if n > 0 {
				b.WriteString(gap)
			}
			cell := ""
			if k < len(broken[i]) {
				cell = broken[i][k]
			}
			pad := strings.Repeat(" ", max(0, widths[i]-utf8.RuneCountInString(cell)))
			if g.Columns[i].Right {
				b.WriteString(pad + cell)
			} else {
				b.WriteString(cell + pad)
			}
		}
		lines = append(lines, strings.TrimRight(b.String(), " "))
	}
	return lines
}

// Wrap breaks text into lines of at most width characters between words. The
// first line starts with one indent, the others with another. A word longer
// than a line stays whole.
func Wrap(text string, width int, first, rest string) []string {
	var lines []string
	line, long := make([]byte, 0, 128), 0 // its characters
	begin := func(indent, word string) {
		line = append(append(line[:0], indent...), word...)
		long = utf8.RuneCount(line)
	}
	for word := range strings.FieldsSeq(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case len(line) == 0:
			begin(first, word)
		case long+1+n > width:
			lines = append(lines, string(line))
			begin(rest, word)
		default:
			line, long = append(append(line, ' '), word...), long+1+n
		}
	}
	if len(line) > 0 {
		lines = append(lines, string(line))
	}
	return lines
}

// Printable replaces what could move the cursor or change the order of text
// on a terminal.
func Printable(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r > unicode.MaxLatin1 && unicode.Is(unicode.Bidi_Control, r) {
			return unicode.ReplacementChar
		}
		return r
	}, s)
}
