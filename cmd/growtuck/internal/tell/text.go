package tell

import (
	"bytes"
	"fmt"
	"strings"
)

// writeText writes a document for a terminal: the credit lines come last.
func writeText(out *bytes.Buffer, r Document, width int) {
	var blocks [][]string
	var block []string
	for _, p := range r.Doubts {
		block = append(block, wrap(p, width, "", "  ")...)
	}
	blocks = append(blocks, block)
	block = nil
	for _, p := range r.Heading {
		block = append(block, wrap(p, width, "", "  ")...)
	}
	blocks = append(blocks, block)
	for _, g := range r.Tables {
		block = nil
		if g.Caption != "" {
			block = wrap(g.Caption, width, "", "  ")
		}
		blocks = append(blocks, append(block, g.text(width)...))
	}
	block = nil
	for _, p := range r.Remarks {
		block = append(block, wrap(p, width, "", "  ")...)
	}
	blocks = append(blocks, block)
	block = nil
	for i, n := range r.Notes {
		mark := fmt.Sprintf("[%d] ", i+1)
		block = append(block, wrap(n, width, mark, strings.Repeat(" ", len(mark)))...)
	}
	blocks = append(blocks, block)
	block = nil
	if len(r.Sources) > 0 {
		block = wrap("Rests on: "+strings.Join(r.Sources, ", "), width, "", "  ")
	}
	blocks = append(blocks, append(block, r.Credits...))

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
			out.WriteString(Printable(line) + "\n")
		}
	}
}
