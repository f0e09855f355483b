package main

import (
	"bytes"
	"fmt"
	"strings"
)

// writeTable writes a report for a terminal: the credit lines come last.
func writeTable(out *bytes.Buffer, r report, width int) {
	var blocks [][]string
	var block []string
	for _, p := range r.heading {
		block = append(block, wrap(p, width, "", "  ")...)
	}
	blocks = append(blocks, block)
	for _, g := range r.grids {
		block = nil
		if g.caption != "" {
			block = wrap(g.caption, width, "", "  ")
		}
		blocks = append(blocks, append(block, g.text(width)...))
	}
	block = nil
	for _, p := range r.remarks {
		block = append(block, wrap(p, width, "", "  ")...)
	}
	blocks = append(blocks, block)
	block = nil
	for i, n := range r.notes {
		mark := fmt.Sprintf("[%d] ", i+1)
		block = append(block, wrap(n, width, mark, strings.Repeat(" ", len(mark)))...)
	}
	blocks = append(blocks, block)
	block = nil
	if len(r.sources) > 0 {
		block = wrap("Rests on: "+strings.Join(r.sources, ", "), width, "", "  ")
	}
	blocks = append(blocks, append(block, r.credits...))

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
			out.WriteString(printable(line) + "\n")
		}
	}
}
