package tell

import (
	"bytes"
	"fmt"
	"strings"
)

// writeMarkdown writes a document as Markdown with pipe tables: the credit lines
// come last.
func writeMarkdown(out *bytes.Buffer, r Document) {
	paragraph := func(s string) { fmt.Fprintf(out, "%s\n\n", s) }
	for _, p := range r.Doubts {
		paragraph("**" + escape(p) + "**")
	}
	for i, p := range r.Heading {
		if i == 0 && len(r.Chapters) > 0 {
			p = "# " + escape(p)
		} else {
			p = escape(p)
		}
		paragraph(p)
	}
	for _, c := range r.Chapters {
		c.markdown(out, r.Drawing)
	}
	for _, g := range r.Tables {
		if g.Caption != "" {
			paragraph(escape(g.Caption))
		}
		g.markdown(out)
	}
	for _, p := range r.Remarks {
		paragraph(escape(p))
	}
	for i, n := range r.Notes {
		paragraph(fmt.Sprintf("[%d] %s", i+1, escape(n)))
	}
	if len(r.Sources) > 0 {
		paragraph("Rests on: " + escape(strings.Join(r.Sources, ", ")))
	}
	for _, c := range r.Credits {
		paragraph(escape(c))
	}
	out.Truncate(len(bytes.TrimRight(out.Bytes(), "\n")))
	out.WriteByte('\n')
}

// markdown writes a chapter under its title, its work as a list with boxes.
func (c Chapter) markdown(out *bytes.Buffer, drawing *Drawing) {
	paragraph := func(s string) { fmt.Fprintf(out, "%s\n\n", s) }
	paragraph("## " + escape(c.Title))
	if c.About != "" {
		paragraph(escape(Capital(c.About)) + ".")
	}
	for _, p := range c.Lines {
		paragraph(escape(p))
	}
	switch {
	case !c.Drawn || drawing == nil:
	case drawing.File != "":
		paragraph("![The garment, drawn to scale](<" + drawing.File + ">)")
	default:
		paragraph(escape(drawing.words()))
	}
	if c.Table != nil {
		c.Table.markdown(out)
	}
	list := func(mark string, lines []string) {
		for _, p := range lines {
			fmt.Fprintf(out, "%s%s\n", mark, escape(p))
		}
		if len(lines) > 0 {
			out.WriteByte('\n')
		}
	}
	list("- ", c.Items)
	var work []string
	for _, w := range c.Work {
		work = append(work, w.String())
	}
	list("- [ ] ", work)
	for _, p := range c.After {
		paragraph(escape(p))
	}
}

func (g Table) markdown(out *bytes.Buffer) {
	kept := g.Used()
	if len(kept) == 0 {
		return
	}
	line := func(cell func(i int) string) {
		for _, i := range kept {
			out.WriteString("| " + cell(i) + " ")
		}
		out.WriteString("|\n")
	}
	line(func(i int) string { return escape(g.Columns[i].Head) })
	line(func(i int) string {
		if g.Columns[i].Right {
			return "---:"
		}
		return "---"
	})
	for _, r := range g.Rows {
		line(func(i int) string { return escape(r.Cells[i]) })
	}
	out.WriteByte('\n')
	under := false
	for _, r := range g.Rows {
		if len(r.Under) == 0 {
			continue
		}
		under = true
		fmt.Fprintf(out, "- %s\n", escape(r.Cells[0]))
		for _, u := range r.Under {
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
func escape(s string) string { return markup.Replace(Printable(s)) }
