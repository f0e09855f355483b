package schematic

import (
	"fmt"
	"io"
	"math"
	"slices"
)

// A sheet is the layout of a drawing, in units of the view box.
type sheet struct {
	o          SVGOptions
	panels     []placed
	key        []keyRow
	keyAt      point
	wide, high float64
	heading    float64 // height of the heading's part
	scale      float64 // units to a cm
	foot       float64 // y of the tape
}

type placed struct {
	Panel
	marks  []mark
	letter map[string]string // of the key, by part
	origin point             // in the view box, of the figure's own
	box    box               // in the view box
}

// to is the place of a point of the figure on the sheet.
func (p placed) to(scale float64) func(point) point {
	return func(q point) point { return p.origin.plus(q.times(scale)) }
}

type keyRow struct {
	letter, name string
	sizes        []string
}

const margin = fontSize * 1.2

func newSheet(panels []Panel, o SVGOptions) *sheet {
	s := &sheet{o: o}
	letter := 0.0 // cm
	for _, p := range panels {
		letter = math.Max(letter, p.Figure.letter())
	}
	s.scale = fontSize / letter
	letters := s.letters(panels)
	words := !o.Inline
	if words && (o.Title != "" || o.Note != "") {
		s.heading = fontSize * 3.8
	}
	x, low, top := margin, 0.0, math.Inf(1)
	var boxes []box
	for _, p := range panels {
		q := placed{Panel: p, letter: letters}
		texts := p.Labels
		if o.Key {
			texts = make(map[string]string)
			for part, label := range p.Labels {
				if label != "" {
					texts[part] = letters[part] + " " + label
				}
			}
		}
		q.marks = p.Figure.place(texts, letter, svgWidth)
		b := p.Figure.drawn(q.marks)
		top, low = math.Min(top, b.y0), math.Max(low, b.y1)
		boxes = append(boxes, b)
		s.panels = append(s.panels, q)
	}
	for i := range s.panels {
		q, b := &s.panels[i], boxes[i]
		w := math.Max((b.x1-b.x0)*s.scale, svgWidth(q.Caption)*fontSize)
		q.origin = point{x - b.x0*s.scale + (w-(b.x1-b.x0)*s.scale)/2, margin + s.heading - top*s.scale}
		q.box = box{x, margin + s.heading, x + w, margin + s.heading + (low-top)*s.scale}
		x += w + margin*2
	}
	x -= margin * 2
	s.high = margin + s.heading + (low-top)*s.scale + fontSize
	if len(panels) > 1 {
		s.high += fontSize * 1.5
	}
	s.foot = s.high
	s.high += fontSize*2.4 + margin
	s.wide = math.Max(x, margin+s.tape().long+svgWidth(s.tape().text)*fontSize+fontSize)
	if o.Key {
		s.placeKey()
	}
	if words {
		s.high += creditStep * float64(len(o.Credits))
		for _, c := range o.Credits {
			s.wide = math.Max(s.wide, margin+svgWidth(c)*creditSize)
		}
		s.wide = math.Max(s.wide, margin+math.Max(svgWidth(o.Title)*headingSize, math.Max(svgWidth(o.Note), svgWidth(footNote)*noteSize/fontSize+s.tape().long/fontSize+svgWidth(s.tape().text)+2)*fontSize))
	}
	s.wide += margin
	return s
}

const (
	headingSize = fontSize * 1.4
	noteSize    = fontSize * 0.9
	creditSize  = fontSize * 0.75
	creditStep  = creditSize * 1.5
	footNote    = "Lying flat, to scale; a girth is drawn as half of it."
)

// letters gives every part of the panels a letter, in their order.
func (s *sheet) letters(panels []Panel) map[string]string {
	all := make(map[string]string)
	for _, p := range panels {
		for _, part := range p.parts() {
			if _, ok := all[part]; ok {
				continue
			}
			all[part] = string(rune('A' + len(s.key)%26))
			row := keyRow{letter: all[part], name: p.name(part)}
			for _, q := range panels {
				row.sizes = append(row.sizes, q.size(part))
			}
			s.key = append(s.key, row)
		}
	}
	return all
}

// nameWide and sizeWide are the columns of the key, in units.
func (s *sheet) nameWide() float64 {
	w := 0.0
	for _, r := range s.key {
		w = math.Max(w, svgWidth(r.name))
	}
	return w * noteSize
}

func (s *sheet) sizeWide() float64 {
	w := 0.0
	for _, r := range s.key {
		for _, z := range r.sizes {
			w = math.Max(w, svgWidth(z))
		}
	}
	for _, p := range s.panels {
		w = math.Max(w, svgWidth(p.Caption))
	}
	return w*noteSize + fontSize
}

const keyStep = fontSize * 1.6

// placeKey puts the key to the right of the figures.
func (s *sheet) placeKey() {
	s.keyAt = point{s.wide + margin*2, margin + s.heading + fontSize}
	s.wide = s.keyAt.x + fontSize*1.5 + s.nameWide() + s.sizeWide()*float64(len(s.panels))
	s.high = math.Max(s.high, s.keyAt.y+keyStep*float64(len(s.key)+1)+margin)
}

// A tape is the scale at the foot of a sheet.
type tape struct {
	long, step float64 // units
	text       string
}

// tape is as many round cm or inches as are easily seen.
func (s *sheet) tape() tape {
	unit := s.scale
	if s.o.Unit == "in" {
		unit *= 2.54
	}
	steps := []int{1, 2, 5, 10, 20, 50, 100}
	i := slices.IndexFunc(steps, func(n int) bool { return float64(n)*unit >= fontSize*5 })
	if i < 0 {
		i = len(steps) - 1
	}
	n := steps[i]
	every := max(1, n/10)
	return tape{float64(n) * unit, float64(every) * unit, fmt.Sprintf("%d %s", n, s.o.Unit)}
}

func (s *sheet) write(w io.Writer) {
	f := func(format string, args ...any) { fmt.Fprintf(w, format, args...) }
	id := s.o.Prefix
	f(`<svg xmlns="http://www.w3.org/2000/svg" class="schematic" viewBox="0 0 %s %s"`, num(s.wide), num(s.high))
	if !s.o.Inline {
		f(` width="%s" height="%s"`, num(s.wide), num(s.high))
	}
	f(` role="img" aria-labelledby="%s-title %s-desc" fill="none" stroke="currentColor" stroke-linecap="round" stroke-linejoin="round" font-family="Helvetica, Arial, sans-serif" font-size="%d">`+"\n", id, id, fontSize)
	f("<title id=\"%s-title\">%s</title>\n<desc id=\"%s-desc\">%s</desc>\n", id, escaped(s.title()), id, escaped(s.description()))
	if !s.o.Inline {
		f("<style>\n%s</style>\n", Style)
		f("<rect class=\"schematic-paper\" width=\"%s\" height=\"%s\" fill=\"currentColor\" stroke=\"none\"/>\n", num(s.wide), num(s.high))
		s.words(f)
	}
	for i, p := range s.panels {
		prefix := id
		if len(s.panels) > 1 {
			prefix = fmt.Sprintf("%s-%d", id, i+1)
		}
		s.panel(f, p, prefix)
	}
	if s.o.Key {
		s.writeKey(f)
	}
	s.writeTape(f)
	f("</svg>\n")
}

func (s *sheet) title() string {
	if s.o.Title == "" {
		return "A garment's measurements"
	}
	return s.o.Title
}

// description says in words all that is drawn.
func (s *sheet) description() string {
	out := footNote
	if s.o.Note != "" {
		out = s.o.Note + ". " + out
	}
	for _, p := range s.panels {
		if p.Caption != "" {
			out += " " + p.Caption + ":"
		}
		out += " " + p.words() + "."
	}
	return out
}

func (s *sheet) words(f func(string, ...any)) {
	const attrs = `class="schematic-words" fill="currentColor" stroke="none"`
	if s.heading > 0 {
		f("<text %s x=\"%s\" y=\"%s\" font-size=\"%s\">%s</text>\n", attrs, num(margin), num(margin+headingSize*0.8), num(headingSize), escaped(s.o.Title))
		f("<text %s x=\"%s\" y=\"%s\" font-size=\"%s\">%s</text>\n", attrs, num(margin), num(margin+headingSize*0.8+fontSize*1.5), num(noteSize), escaped(s.o.Note))
	}
	t := s.tape()
	f("<text %s x=\"%s\" y=\"%s\" font-size=\"%s\">%s</text>\n", attrs, num(margin+t.long+(svgWidth(t.text)+1)*fontSize), num(s.foot+fontSize*1.6), num(noteSize), footNote)
	for i, c := range s.o.Credits {
		y := s.high - margin*0.7 - creditStep*float64(len(s.o.Credits)-1-i)
		f("<text %s x=\"%s\" y=\"%s\" font-size=\"%s\">%s</text>\n", attrs, num(margin), num(y), num(creditSize), escaped(c))
	}
}

func (s *sheet) panel(f func(string, ...any), p placed, prefix string) {
	to := p.to(s.scale)
	f("<g stroke-width=\"1.6\">\n")
	for _, shape := range p.Figure.shapes {
		f("<path class=\"schematic-fabric\" d=\"%s\" fill=\"currentColor\" fill-opacity=\".08\"/>\n", shape.moved(to).data())
	}
	for _, e := range p.Figure.edges {
		f("<path class=\"schematic-edge\" d=\"%s\" stroke-width=\"1\"/>\n", e.moved(to).data())
	}
	f("</g>\n")
	for _, m := range p.marks {
		f("<g id=\"%s-%s\" class=\"schematic-measure\" data-part=\"%s\">\n<title>%s</title>\n", escaped(prefix), escaped(m.part), escaped(m.part), escaped(p.name(m.part)+": "+p.size(m.part)))
		if len(m.leads) > 0 {
			f("<path class=\"schematic-lead\" d=\"%s\" stroke-width=\".8\" stroke-dasharray=\"1 4\"/>\n", linesData(m.leads, to))
		}
		f("<path class=\"schematic-line\" d=\"%s\" stroke-width=\"1.2\"/>\n", linesData(append(slices.Clone(m.lines), m.ticks...), to))
		middle := to(point{(m.box.x0 + m.box.x1) / 2, (m.box.y0 + m.box.y1) / 2})
		text := escaped(m.text)
		if s.o.Key {
			letter := p.letter[m.part]
			text = `<tspan font-weight="bold">` + letter + "</tspan> " + escaped(p.Labels[m.part])
		}
		f("<text class=\"schematic-label\" x=\"%s\" y=\"%s\" text-anchor=\"middle\" fill=\"currentColor\" stroke=\"none\">%s</text>\n</g>\n", num(middle.x), num(middle.y+fontSize*0.36), text)
	}
	b := p.Figure.box()
	if p.Caption != "" && len(s.panels) > 1 {
		f("<text class=\"schematic-words\" x=\"%s\" y=\"%s\" text-anchor=\"middle\" fill=\"currentColor\" stroke=\"none\">%s</text>\n", num(to(point{(b.x0 + b.x1) / 2, 0}).x), num(p.box.y1+fontSize*1.9), escaped(p.Caption))
	}
}

func (s *sheet) writeKey(f func(string, ...any)) {
	f("<g class=\"schematic-words schematic-key\" fill=\"currentColor\" stroke=\"none\" font-size=\"%s\">\n", num(noteSize))
	y := s.keyAt.y
	first := s.keyAt.x + fontSize*1.5 + s.nameWide()
	if len(s.panels) > 1 {
		for i, p := range s.panels {
			f("<text x=\"%s\" y=\"%s\" text-anchor=\"end\">%s</text>\n", num(first+s.sizeWide()*float64(i+1)), num(y), escaped(p.Caption))
		}
		y += keyStep
	}
	for _, r := range s.key {
		f("<text x=\"%s\" y=\"%s\" font-weight=\"bold\">%s</text><text x=\"%s\" y=\"%s\">%s</text>", num(s.keyAt.x), num(y), r.letter, num(s.keyAt.x+fontSize*1.5), num(y), escaped(r.name))
		for i, z := range r.sizes {
			f("<text x=\"%s\" y=\"%s\" text-anchor=\"end\">%s</text>", num(first+s.sizeWide()*float64(i+1)), num(y), escaped(z))
		}
		f("\n")
		y += keyStep
	}
	f("</g>\n")
}

// writeTape draws a piece of measuring tape, as long as it says.
func (s *sheet) writeTape(f func(string, ...any)) {
	t := s.tape()
	high := fontSize * 0.8
	x, y := margin, s.foot+fontSize*0.9
	d := fmt.Sprintf("M%s %sh%sv%sh-%sz", num(x), num(y), num(t.long), num(high), num(t.long))
	n := int(math.Round(t.long / t.step))
	for i := 1; i < n; i++ {
		long := high * 0.4
		if 2*i == n {
			long = high * 0.7
		}
		d += fmt.Sprintf("M%s %sv%s", num(x+t.step*float64(i)), num(y), num(long))
	}
	f("<g class=\"schematic-tape\">\n<path d=\"%s\"/>\n", d)
	f("<text x=\"%s\" y=\"%s\" fill=\"currentColor\" stroke=\"none\" font-size=\"%s\">%s</text>\n</g>\n", num(x+t.long+fontSize*0.5), num(y+high*0.5+noteSize*0.36), num(noteSize), escaped(t.text))
}
