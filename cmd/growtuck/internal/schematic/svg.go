package schematic

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// SVGOptions say how a drawing is laid out and written.
type SVGOptions struct {
	// Title names the drawing: its <title>, and its heading if it is a file of its
	// own.
	Title string
	// Note is a line below the heading of a stand-alone drawing.
	Note string
	// Credits are lines at the foot of a stand-alone drawing: the credit
	// that publishers of the figures ask for.
	Credits []string
	// Prefix begins every id, so that several drawings fit on a page: letters,
	// digits, - and _, first a letter; "schematic" where it is empty. The ids are
	// PREFIX-title, PREFIX-desc and PREFIX-PART.
	Prefix string
	// Unit is that of the tape at the foot: "cm" or "in"; cm where it is empty.
	Unit string
	// Inline leaves out what a drawing within a page takes from the page: <style>,
	// paper, heading, notes, credits, and its width and height. Everything is drawn
	// in currentColor by presentation attributes; no inline style is used. Put Style
	// into the page's style sheet for the colours of a stand-alone drawing.
	Inline bool
	// Key lists the measurements beside the figure, by letters.
	Key bool
}

// Style is the style sheet of a stand-alone drawing. Its classes are
//
//	schematic            the <svg>
//	schematic-fabric     the garment, filled
//	schematic-outline    its outline
//	schematic-edge       lines on the fabric: openings, edges of bands, seams
//	schematic-rib        ribbing and teeth
//	schematic-fold       folds, and rounds of a yoke
//	schematic-ghost      the child's body under it
//	schematic-measure    a measurement, a <g> with its part as data-part
//	schematic-line       within it: the line and its ends
//	schematic-lead       within it: thin lines to the garment
//	schematic-label      within it: the text
//	schematic-tape       the scale
//	schematic-paper      the background of a stand-alone drawing
//	schematic-words      heading, notes and key of one
const Style = `.schematic{color:#2d3b44}
.schematic-paper{color:#fdfbf6}
.schematic-fabric{fill:#e9e2d3;fill-opacity:1}
.schematic-measure,.schematic-tape{color:#8a3f14}
.schematic-ghost{color:#56717f}
@media (prefers-color-scheme:dark){
.schematic{color:#d5dbdf}
.schematic-paper{color:#20262b}
.schematic-fabric{fill:#333c43}
.schematic-measure,.schematic-tape{color:#f0ad7f}
.schematic-ghost{color:#8fb3c4}
}
@media print{
.schematic{color:#111}
.schematic-paper{color:#fff}
.schematic-fabric{fill:#f4f1ea}
.schematic-measure,.schematic-tape{color:#6e2f0c}
.schematic-ghost{color:#43596a}
}
`

// SVG writes the panel as an SVG document. The same panel gives the same bytes.
// It returns an error where its sizes cannot be drawn, the prefix is not an id, or
// w fails.
func (p Panel) SVG(w io.Writer, o SVGOptions) error {
	if err := p.Figure.err(); err != nil {
		return err
	}
	if o.Prefix == "" {
		o.Prefix = "schematic"
	}
	if !isID(o.Prefix) {
		return fmt.Errorf("schematic: %.80q is not a prefix of ids; want letters, digits, - and _, first a letter", o.Prefix)
	}
	if o.Unit == "" {
		o.Unit = "cm"
	}
	if o.Unit != "cm" && o.Unit != "in" {
		return fmt.Errorf("schematic: unknown unit %.80q; want cm or in", o.Unit)
	}
	out := bufio.NewWriter(w)
	newSheet(p, o).scene.write(out, o.Prefix, o.Inline)
	return out.Flush()
}

// write writes the scene as SVG.
func (s *scene) write(w io.Writer, id string, inline bool) {
	f := func(format string, args ...any) { fmt.Fprintf(w, format, args...) }
	f(`<svg xmlns="http://www.w3.org/2000/svg" class="schematic" viewBox="0 0 %s %s"`, num(s.wide), num(s.high))
	if !inline {
		f(` width="%s" height="%s"`, num(s.wide), num(s.high))
	}
	f(` role="img" aria-labelledby="%s-title %s-desc" fill="none" stroke="currentColor" stroke-linecap="round" stroke-linejoin="round" font-family="Helvetica, Arial, sans-serif" font-size="%d">`+"\n", id, id, fontSize)
	f("<title id=\"%s-title\">%s</title>\n<desc id=\"%s-desc\">%s</desc>\n", id, escaped(s.title), id, escaped(s.desc))
	if !inline {
		f("<style>\n%s</style>\n", Style)
	}
	for at := 0; at < len(s.items); {
		n := s.alike(at)
		switch i := s.items[at]; {
		case i.part != "" && (at == 0 || s.items[at-1].part != i.part):
			f("<g id=\"%s-%s\" class=\"schematic-measure\" data-part=\"%s\">\n<title>%s</title>\n", escaped(id), escaped(i.part), escaped(i.part), escaped(s.names[i.part]))
		}
		s.writeAlike(f, s.items[at:at+n])
		at += n
		if last := s.items[at-1]; last.part != "" && (at == len(s.items) || s.items[at].part != last.part) {
			f("</g>\n")
		}
	}
	f("</svg>\n")
}

// alike is how many items from one on are lines that one path can draw.
func (s *scene) alike(at int) int {
	first := s.items[at]
	if first.path == nil || first.fill {
		return 1
	}
	n := 1
	for at+n < len(s.items) {
		i := s.items[at+n]
		if i.path == nil || i.fill || i.class != first.class || i.part != first.part || i.width != first.width || i.dash != first.dash {
			break
		}
		n++
	}
	return n
}

func (s *scene) writeAlike(f func(string, ...any), items []item) {
	i := items[0]
	if i.path == nil {
		f("<text class=\"schematic-%s\" x=\"%s\" y=\"%s\"", i.class, num(i.at.x), num(i.at.y))
		if i.anchor != "" {
			f(` text-anchor="%s"`, i.anchor)
		}
		if i.size != fontSize {
			f(` font-size="%s"`, num(i.size))
		}
		if i.bold {
			f(` font-weight="bold"`)
		}
		f(` fill="currentColor" stroke="none">`)
		if i.letter != "" {
			f(`<tspan font-weight="bold">%s</tspan>`, escaped(i.letter))
			if i.text != "" {
				f(" ")
			}
		}
		f("%s</text>\n", escaped(i.text))
		return
	}
	var d strings.Builder
	for _, i := range items {
		d.WriteString(i.path.relative())
	}
	f(`<path class="schematic-%s" d="%s"`, i.class, d.String())
	switch {
	case i.class == "paper":
		f(` fill="currentColor"`)
	case i.fill:
		f(` fill="currentColor" fill-opacity=".08"`)
	}
	if i.width > 0 {
		f(` stroke-width="%s"`, num(i.width))
	} else {
		f(` stroke="none"`)
	}
	if i.dash {
		f(` stroke-dasharray="3 3.5"`)
	}
	f("/>\n")
}

func isID(s string) bool {
	for i, r := range s {
		letter := r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
		if !letter && (i == 0 || !(r >= '0' && r <= '9' || r == '-' || r == '_')) {
			return false
		}
	}
	return s != ""
}

// escaped is a text as XML takes it, characters that XML has no place for as
// U+FFFD.
func escaped(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // a buffer takes everything
	return b.String()
}

// num is a coordinate to a tenth, without needless zeros.
func num(v float64) string {
	s := strconv.FormatFloat(v, 'f', 1, 64)
	s = strings.TrimSuffix(s, ".0")
	if s == "-0" {
		return "0"
	}
	return s
}
