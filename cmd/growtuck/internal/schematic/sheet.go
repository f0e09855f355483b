package schematic

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// fontSize is the height of letters in the units of the view box.
const fontSize = 14

const (
	margin      = fontSize * 0.8
	headingSize = fontSize * 1.3
	noteSize    = fontSize * 0.85
	noteStep    = noteSize * 1.35
	keyStep     = fontSize * 1.5
	creditSize  = fontSize * 0.7
	creditStep  = creditSize * 1.5
)

// A sheet is the layout of a drawing, in units of the view box.
type sheet struct {
	scene
	o      SVGOptions
	panel  Panel
	marks  []mark
	scale  float64 // units to a cm
	origin point   // of the figure's own
	top    float64 // of the figure
	foot   float64 // of it
	keyAt  point
}

// to is the place of a point of the figure on the sheet.
func (s *sheet) to(q point) point { return s.origin.plus(q.times(s.scale)) }

// footNotes say how the drawing is to be read.
func (p Panel) footNotes() []string {
	notes := []string{"Lying flat, to scale. A line with rounded ends goes all round: it is drawn as half of that."}
	if len(p.Figure.ghost) > 0 {
		notes = append(notes, "Dashed under it: the child’s body, girths halved too.")
	}
	return notes
}

func newSheet(p Panel, o SVGOptions) *sheet {
	s := &sheet{o: o, panel: p}
	letter := p.Figure.letter()
	s.scale = fontSize / letter
	s.marks = p.Figure.place(p.texts(), letter, func(text string) float64 { return p.wide(text) })
	b := p.Figure.drawn(s.marks)
	s.top = margin
	if words := s.headings(); len(words) > 0 {
		s.top += headingSize*1.5 + noteStep*float64(len(words)-1)
	}
	s.origin = point{margin - b.x0*s.scale, s.top - b.y0*s.scale}
	s.wide, s.foot = margin+(b.x1-b.x0)*s.scale, s.top+(b.y1-b.y0)*s.scale
	s.high = s.foot
	s.placeKey()
	s.draw()
	s.wide += margin
	s.high += margin * 0.6
	s.title, s.names = s.o.Title, make(map[string]string)
	if s.title == "" {
		s.title = "A garment’s measurements"
	}
	s.desc = strings.Join(append(p.footNotes(), p.words()+"."), " ")
	if o.Note != "" {
		s.desc = o.Note + ". " + s.desc
	}
	for _, part := range p.parts() {
		s.names[part] = p.name(part) + ": " + p.size(part)
	}
	if !o.Inline {
		s.items = append([]item{{class: "paper", path: straight(point{}, point{s.wide, 0}, point{s.wide, s.high}, point{0, s.high}, point{}), fill: true}}, s.items...)
	}
	return s
}

// headings are the lines over a drawing that is a file of its own.
func (s *sheet) headings() []string {
	if s.o.Inline || s.o.Title == "" && s.o.Note == "" {
		return nil
	}
	lines := []string{s.o.Title}
	if s.o.Note != "" {
		lines = append(lines, wrapped(s.o.Note, 46)...)
	}
	return lines
}

// wrapped breaks a text into lines of so many letters' heights.
func wrapped(text string, most float64) []string {
	var lines []string
	at := ""
	for _, word := range strings.Fields(text) {
		if at != "" && textWidth(at+" "+word, false) > most {
			lines, at = append(lines, at), word
			continue
		}
		at = strings.TrimSpace(at + " " + word)
	}
	return append(lines, at)
}

// placeKey puts the key beside the figure, or below one that is wide.
func (s *sheet) placeKey() {
	if !s.o.Key {
		return
	}
	name, size := s.keyColumns()
	wide := fontSize*1.6 + name + fontSize + size
	high := keyStep * float64(len(s.panel.Key())+s.keyHead())
	if s.foot-s.top >= high*0.75 && s.wide <= 40*fontSize {
		s.keyAt = point{s.wide + margin*2, s.top + fontSize}
		s.wide += margin*2 + wide
		s.high = math.Max(s.high, s.keyAt.y+high)
		return
	}
	s.keyAt = point{margin, s.foot + fontSize*5.4}
	s.high = s.keyAt.y + high - keyStep*0.5
	s.wide = math.Max(s.wide, margin+wide)
}

func (s *sheet) keyHead() int {
	if s.panel.Caption != "" {
		return 1
	}
	return 0
}

// keyColumns are how wide names and sizes of the key are.
func (s *sheet) keyColumns() (name, size float64) {
	for _, r := range s.panel.Key() {
		name, size = math.Max(name, textWidth(r.Name, false)*noteSize), math.Max(size, textWidth(r.Size, false)*noteSize)
	}
	return name, math.Max(size, textWidth(s.panel.Caption, false)*noteSize)
}

// draw lays everything out.
func (s *sheet) draw() {
	y := margin
	for i, line := range s.headings() {
		if i == 0 {
			s.add(item{class: "words", text: line, at: point{margin, y + headingSize*0.8}, size: headingSize, bold: true})
			y += headingSize * 1.5
			continue
		}
		s.words(line, point{margin, y + noteSize*0.5}, noteSize)
		y += noteStep
	}
	s.figure()
	s.key()
	s.tapeAndNotes()
}

var lineWidths = map[string]float64{"rib": 0.6, "fold": 0.9, "edge": 1.1, "outline": 1.7}

func (s *sheet) figure() {
	f := s.panel.Figure
	for _, shape := range f.shapes {
		s.add(item{class: "fabric", path: shape.moved(s.to), fill: true})
	}
	for _, kind := range []string{"rib", "fold", "edge", "outline"} {
		for _, l := range f.lines {
			if l.kind == kind {
				s.add(item{class: kind, path: l.path.moved(s.to), width: lineWidths[kind], dash: kind == "fold"})
			}
		}
	}
	for _, g := range f.ghost {
		s.add(item{class: "ghost", path: g.moved(s.to), width: 1.3, dash: true})
	}
	for _, m := range s.marks {
		for _, l := range m.leads {
			s.add(item{class: "lead", part: m.part, path: straight(s.to(l[0]), s.to(l[1])), width: 0.7, dash: true})
		}
		for _, l := range m.lines {
			s.add(item{class: "line", part: m.part, path: straight(s.to(l[0]), s.to(l[1])), width: 1.4})
		}
		for _, e := range m.ends {
			s.add(item{class: "line", part: m.part, path: e.moved(s.to), width: 1.4})
		}
		middle := s.to(point{(m.box.x0 + m.box.x1) / 2, (m.box.y0 + m.box.y1) / 2})
		s.add(item{class: "label", part: m.part, letter: s.panel.Letters[m.part], text: s.panel.Labels[m.part], at: middle.plus(point{0, fontSize * 0.36}), size: fontSize, anchor: "middle"})
	}
}

func (s *sheet) key() {
	if !s.o.Key {
		return
	}
	name, size := s.keyColumns()
	y, right := s.keyAt.y, s.keyAt.x+fontSize*1.6+name+fontSize+size
	text := func(t string, x float64, anchor string, bold bool) {
		s.add(item{class: "words", text: t, at: point{x, y}, size: noteSize, anchor: anchor, bold: bold})
	}
	if s.panel.Caption != "" {
		text(s.panel.Caption, right, "end", true)
		y += keyStep
	}
	for _, r := range s.panel.Key() {
		text(r.Letter, s.keyAt.x, "", true)
		text(r.Name, s.keyAt.x+fontSize*1.6, "", false)
		text(r.Size, right, "end", false)
		y += keyStep
	}
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
	i := slices.IndexFunc(steps, func(n int) bool { return float64(n)*unit >= fontSize*4 })
	if i < 0 {
		i = len(steps) - 1
	}
	n := steps[i]
	every := max(1, n/10)
	return tape{float64(n) * unit, float64(every) * unit, fmt.Sprintf("%d %s", n, s.o.Unit)}
}

// tapeAndNotes draws a piece of measuring tape, as long as it says, and what else
// stands at the foot.
func (s *sheet) tapeAndNotes() {
	t := s.tape()
	high := fontSize * 0.7
	x, y := margin, s.foot+fontSize*0.9
	s.stroke("tape", 1, straight(point{x, y}, point{x + t.long, y}, point{x + t.long, y + high}, point{x, y + high}, point{x, y}))
	n := int(math.Round(t.long / t.step))
	for i := 1; i < n; i++ {
		long := high * 0.4
		if 2*i == n {
			long = high * 0.7
		}
		at := point{x + t.step*float64(i), y}
		s.stroke("tape", 1, straight(at, at.plus(point{0, long})))
	}
	s.add(item{class: "tape", text: t.text, at: point{x + t.long + fontSize*0.5, y + high*0.5 + noteSize*0.36}, size: noteSize})
	s.wide = math.Max(s.wide, x+t.long+textWidth(t.text, false)*noteSize+fontSize)
	y += high + fontSize*0.6
	if s.o.Inline {
		s.high = math.Max(s.high, y)
		return
	}
	for _, note := range s.panel.footNotes() {
		for _, l := range wrapped(note, math.Max(30, (s.wide-margin)/noteSize)) {
			y += noteStep
			s.words(l, point{margin, y - noteStep*0.3}, noteSize)
			s.wide = math.Max(s.wide, margin+textWidth(l, false)*noteSize)
		}
	}
	s.high = math.Max(s.high, y)
	for _, c := range s.o.Credits {
		s.high += creditStep
		s.words(c, point{margin, s.high}, creditSize)
		s.wide = math.Max(s.wide, margin+textWidth(c, false)*creditSize)
	}
	for _, h := range s.headings() {
		s.wide = math.Max(s.wide, margin+textWidth(h, false)*noteSize)
	}
	s.wide = math.Max(s.wide, margin+textWidth(s.o.Title, true)*headingSize)
}
