package schematic

import (
	"slices"
	"strings"
)

// A Panel is a figure with the words for its measurements, by part.
type Panel struct {
	Figure  Figure
	Caption string            // over the sizes of the key, such as "2 (4, 6)"; may be empty
	Letters map[string]string // those of the tables
	Labels  map[string]string // on the line, behind the letter: "66", "26 1/4"
	Names   map[string]string // "chest, all round"; the part's own id where there is none
	Sizes   map[string]string // with the unit: "66 cm"; the label where there is none
	Order   []string          // of parts in words and in the key; that of drawing where it is empty
}

// A KeyRow is a line of the key.
type KeyRow struct{ Part, Letter, Name, Size string }

// Key is what the letters of the figure stand for.
func (p Panel) Key() []KeyRow {
	var rows []KeyRow
	for _, part := range p.parts() {
		rows = append(rows, KeyRow{part, p.Letters[part], p.name(part), p.size(part)})
	}
	return rows
}

// texts are what stands on the lines.
func (p Panel) texts() map[string]string {
	all := make(map[string]string)
	for _, part := range p.Figure.Parts() {
		if text := strings.TrimSpace(p.Letters[part] + " " + p.Labels[part]); text != "" {
			all[part] = text
		}
	}
	return all
}

// wide is how wide a text on a line is, its letter in bold.
func (p Panel) wide(text string) float64 { return textWidth(text, true) + 0.1 }

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

// parts are those with a line, in their order.
func (p Panel) parts() []string {
	drawn, texts := p.Figure.Parts(), p.texts()
	var all []string
	for _, part := range append(slices.Clone(p.Order), drawn...) {
		if texts[part] != "" && slices.Contains(drawn, part) && !slices.Contains(all, part) {
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
