package tell

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"
)

// writeText writes a document for a terminal: the credit lines come last.
func writeText(out *bytes.Buffer, r Document, width int) {
	var blocks [][]string
	var block []string
	for _, p := range r.Doubts {
		block = append(block, Wrap(p, width, "", "  ")...)
	}
	blocks = append(blocks, block)
	block = nil
	for _, p := range r.Heading {
		block = append(block, Wrap(p, width, "", "  ")...)
	}
	blocks = append(blocks, block)
	for _, c := range r.Chapters {
		blocks = append(blocks, c.text(r.Drawing, width))
	}
	for _, g := range r.Tables {
		block = nil
		if g.Caption != "" {
			block = Wrap(g.Caption, width, "", "  ")
		}
		blocks = append(blocks, append(block, g.text(width)...))
	}
	block = nil
	for _, p := range r.Remarks {
		block = append(block, Wrap(p, width, "", "  ")...)
	}
	blocks = append(blocks, block)
	block = nil
	for i, n := range r.Notes {
		mark := fmt.Sprintf("[%d] ", i+1)
		block = append(block, Wrap(n, width, mark, strings.Repeat(" ", len(mark)))...)
	}
	blocks = append(blocks, block)
	block = nil
	if len(r.Sources) > 0 {
		block = Wrap("Rests on: "+strings.Join(r.Sources, ", "), width, "", "  ")
	}
	for _, c := range r.Credits {
		if width >= roomy { // whole, to be found by others
			block = append(block, c)
			continue
		}
		block = append(block, Wrap(c, width, "", "  ")...)
	}
	blocks = append(blocks, block)

	first := true
	for _, b := range blocks {
		if len(b) == 0 {
			continue
		}
		if !first {
			out.WriteByte('\n')
		}
		first = false
		for _, line := range b {
			out.WriteString(Printable(line))
			out.WriteByte('\n')
		}
	}
}

// text lays a chapter out under its title.
func (c Chapter) text(drawing *Drawing, width int) []string {
	title := c.Title
	if c.About != "" {
		title += ": " + c.About
	}
	lines := Wrap(title, width, "", "  ")
	lines = append(lines, strings.Repeat("═", utf8.RuneCountInString(lines[0])))
	for _, p := range c.Lines {
		lines = append(lines, Wrap(p, width, "", "")...)
	}
	if c.Drawn && drawing != nil {
		lines = append(lines, Wrap(drawing.words(), width, "", "")...)
	}
	if c.Table != nil {
		lines = append(lines, c.Table.text(width)...)
	}
	for _, p := range c.Items {
		lines = append(lines, Wrap(p, width, "- ", "  ")...)
	}
	for _, w := range c.Work {
		lines = append(lines, Wrap(w.String(), width, "[ ] ", "    ")...)
	}
	for _, p := range c.After {
		lines = append(lines, Wrap(p, width, "  ", "  ")...)
	}
	return lines
}
