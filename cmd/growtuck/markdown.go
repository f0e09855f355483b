package main

import (
	"bytes"
	"fmt"
	"strings"
)

// writeMarkdown writes a report as Markdown with pipe tables: the credit lines
// come last.
func writeMarkdown(out *bytes.Buffer, r report) {
	paragraph := func(s string) { fmt.Fprintf(out, "%s\n\n", s) }
	for _, p := range r.heading {
		paragraph(escape(p))
	}
	for _, g := range r.grids {
		if g.caption != "" {
			paragraph(escape(g.caption))
		}
		g.markdown(out)
	}
	for _, p := range r.remarks {
		paragraph(escape(p))
	}
	for i, n := range r.notes {
		paragraph(fmt.Sprintf("[%d] %s", i+1, escape(n)))
	}
	if len(r.sources) > 0 {
		paragraph("Rests on: " + escape(strings.Join(r.sources, ", ")))
	}
	for _, c := range r.credits {
		paragraph(escape(c))
	}
	out.Truncate(len(bytes.TrimRight(out.Bytes(), "\n")))
	out.WriteByte('\n')
}

func (g grid) markdown(out *bytes.Buffer) {
	kept := g.used()
	if len(kept) == 0 {
		return
	}
	line := func(cell func(i int) string) {
		for _, i := range kept {
			out.WriteString("| " + cell(i) + " ")
		}
		out.WriteString("|\n")
	}
	line(func(i int) string { return escape(g.columns[i].head) })
	line(func(i int) string {
		if g.columns[i].right {
			return "---:"
		}
		return "---"
	})
	for _, r := range g.rows {
		line(func(i int) string { return escape(r.cells[i]) })
	}
	out.WriteByte('\n')
	under := false
	for _, r := range g.rows {
		if len(r.under) == 0 {
			continue
		}
		under = true
		fmt.Fprintf(out, "- %s\n", escape(r.cells[0]))
		for _, u := range r.under {
			fmt.Fprintf(out, "  - %s\n", escape(u))
		}
	}
	if under {
		out.WriteByte('\n')
	}
}

var markup = strings.NewReplacer(
	`\`, `\\`, "|", `\|`, "*", `\*`, "`", "\\`", "<", "&lt;", ">", "&gt;", "&", "&amp;", "~", `\~`, "#", `\#`)

// escape keeps text from being read as markup.
func escape(s string) string { return markup.Replace(printable(s)) }
