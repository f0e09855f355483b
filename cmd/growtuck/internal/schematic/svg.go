package schematic

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// A Panel is a figure with the words for its measurements, by part.
type Panel struct {
	Figure  Figure
	Caption string            // below the figure, such as "size 4"; may be empty
	Labels  map[string]string // short, on the line: "66", "26 1/4"; without one a part has no line
	Names   map[string]string // "chest, all round"; the part's own id where there is none
	Sizes   map[string]string // with the unit: "66 cm"; the label where there is none
	Order   []string          // of parts in words and in the key; that of drawing where it is empty
}

// SVGOptions say how a drawing is written as SVG.
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
	// PREFIX-title, PREFIX-desc and PREFIX-PART, and with several panels
	// PREFIX-1-PART, PREFIX-2-PART and so on.
	Prefix string
	// Unit is that of the tape at the foot: "cm" or "in"; cm where it is empty.
	Unit string
	// Inline leaves out what a drawing within a page takes from the page: <style>,
	// paper, heading, credits, and its width and height. Everything is drawn in
	// currentColor by presentation attributes; no inline style is used. Put Style
	// into the page's style sheet for the colours of a stand-alone drawing.
	Inline bool
	// Key lists the measurements beside the figures, by letters.
	Key bool
}

// Style is the style sheet of a stand-alone drawing. Its classes are
//
//	schematic            the <svg>
//	schematic-fabric     the garment's outlines, filled
//	schematic-edge       lines on the fabric
//	schematic-measure    a measurement, a <g> with its part as data-part
//	schematic-line       within it: the line and its ends
//	schematic-lead       within it: thin lines to the garment
//	schematic-label      within it: the text
//	schematic-tape       the scale
//	schematic-paper      the background of a stand-alone drawing
//	schematic-words      heading, captions and key of one
const Style = `.schematic{color:#3b4a54}
.schematic-paper{color:#fdfbf6}
.schematic-fabric{fill:#e9e2d3;fill-opacity:1}
.schematic-measure,.schematic-tape{color:#9c4a1c}
@media (prefers-color-scheme:dark){
.schematic{color:#d5dbdf}
.schematic-paper{color:#20262b}
.schematic-fabric{fill:#333c43}
.schematic-measure,.schematic-tape{color:#f0ad7f}
}
@media print{
.schematic{color:#222}
.schematic-paper{color:#fff}
.schematic-fabric{fill:#f4f1ea}
.schematic-measure,.schematic-tape{color:#8a3f14}
}
`

// fontSize is the height of letters in the units of the view box.
const fontSize = 14

// WriteSVG writes panels side by side, on one scale, as one SVG document. The
// same panels give the same bytes. It returns an error where a panel's sizes
// cannot be drawn, the prefix is not an id, or w fails.
func WriteSVG(w io.Writer, panels []Panel, o SVGOptions) error {
	if len(panels) == 0 {
		return errors.New("schematic: nothing to draw; want at least one panel")
	}
	for _, p := range panels {
		if err := p.Figure.err(); err != nil {
			return err
		}
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
	newSheet(panels, o).write(out)
	return out.Flush()
}

// SVG writes the figure of a panel alone.
func (p Panel) SVG(w io.Writer, o SVGOptions) error { return WriteSVG(w, []Panel{p}, o) }

func isID(s string) bool {
	for i, r := range s {
		letter := r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
		if !letter && (i == 0 || !(r >= '0' && r <= '9' || r == '-' || r == '_')) {
			return false
		}
	}
	return s != ""
}

func (p Panel) name(part string) string {
	if n := p.Names[part]; n != "" {
		return n
	}
	return part
}

func (p Panel) size(part string) string {
	if s := p.Sizes[part]; s != "" {
		return s
	}
	return p.Labels[part]
}

// parts are those with a label, in their order.
func (p Panel) parts() []string {
	drawn := p.Figure.Parts()
	var all []string
	for _, part := range append(slices.Clone(p.Order), drawn...) {
		if p.Labels[part] != "" && slices.Contains(drawn, part) && !slices.Contains(all, part) {
			all = append(all, part)
		}
	}
	return all
}

// words are every measurement in words.
func (p Panel) words() string {
	var all []string
	for _, part := range p.parts() {
		all = append(all, p.name(part)+": "+p.size(part))
	}
	return strings.Join(all, "; ")
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

func at(p point) string { return num(p.x) + " " + num(p.y) }

// data is a path as the d attribute has it.
func (p *path) data() string {
	var b strings.Builder
	b.WriteString("M" + at(p.from))
	for _, s := range p.segments {
		if s.straight {
			b.WriteString("L" + at(s.to))
		} else {
			b.WriteString("C" + at(s.c1) + " " + at(s.c2) + " " + at(s.to))
		}
	}
	if p.closed {
		b.WriteString("Z")
	}
	return b.String()
}

func linesData(lines [][2]point, to func(point) point) string {
	var b strings.Builder
	for _, l := range lines {
		b.WriteString("M" + at(to(l[0])) + "L" + at(to(l[1])))
	}
	return b.String()
}

// svgWidth is how wide a text is in letters' heights, rather more than less,
// in common sans serif fonts.
func svgWidth(text string) float64 {
	w := 0.0
	for _, r := range text {
		switch {
		case r == '.' || r == ' ' || r == ',' || r == '/' || r == 'i' || r == 'l' || r == ':' || r == '-':
			w += 0.36
		case r >= '0' && r <= '9' || r >= 'a' && r <= 'z':
			w += 0.62
		case r < 0x250:
			w += 0.78
		default:
			w += 1.05
		}
	}
	return w
}
