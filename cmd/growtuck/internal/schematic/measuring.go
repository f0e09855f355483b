package schematic

import (
	"bytes"
	"cmp"
	"fmt"
	"image"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
)

// A Measured is a measurement on the picture of how to measure: its number, and
// the words beside it.
type Measured struct {
	ID, Name, How, Wrong string
	Number               int
}

// A Measuring is a child drawn with the places of the tape.
type Measuring struct {
	Figure   Figured
	Measures []Measured
}

const (
	tagRound = 5.4 // radius of a number's circle
	tagSize  = 8.4
)

// A View is one picture of a figure, as SVG for a page: its tapes are groups with
// the measurement as data-measure. It is small: the page's style sheet has the
// widths and colours of its classes.
type View struct {
	ID, Title string
	SVG       string
	Measures  []string
}

// Views are the pictures of the figure, each of its own.
func (m Measuring) Views() []View {
	var all []View
	for _, p := range postures(m.Figure) {
		s := m.scene()
		b := m.lay(s, p, point{})
		s.moved(point{4 - b.x0, 4 - b.y0})
		s.wide, s.high = b.x1-b.x0+8, b.y1-b.y0+8
		v := View{ID: p.id, Title: p.title, SVG: s.small("Where to measure, " + p.title)}
		for _, t := range p.tapes {
			v.Measures = append(v.Measures, t.id)
		}
		all = append(all, v)
	}
	return all
}

// small writes the scene of a view in few bytes.
func (s *scene) small(title string) string {
	var out strings.Builder
	f := func(format string, args ...any) { fmt.Fprintf(&out, format, args...) }
	f(`<svg class="measuring" viewBox="0 0 %s %s" role="img" aria-label="%s">`, num(s.wide), num(s.high), escaped(title))
	for at := 0; at < len(s.items); {
		n, i := s.alike(at), s.items[at]
		if i.part != "" && s.items[at-1].part != i.part {
			f("\n<g data-measure=\"%s\"><title>%s</title>", escaped(i.part), escaped(s.names[i.part]))
		}
		switch {
		case i.class == "tag":
			f(`<circle cx="%s" cy="%s" r="%s"/>`, num(i.at.x), num(i.at.y), num(tagRound))
		case i.path == nil:
			f(`<text x="%s" y="%s">%s</text>`, num(i.at.x), num(i.at.y), escaped(i.text))
		default:
			var d strings.Builder
			for _, one := range s.items[at : at+n] {
				d.WriteString(one.path.relative())
			}
			class := ` class="m-` + i.class + `"`
			if i.class == "seen" {
				class = ""
			}
			f(`<path%s d="%s"/>`, class, d.String())
		}
		at += n
		if i.part != "" && (at == len(s.items) || s.items[at].part != i.part) {
			f("</g>")
		}
	}
	f("</svg>")
	return out.String()
}

// relative is the path as the d attribute has it in the fewest bytes: each point
// from the one before.
func (p *path) relative() string {
	tenth := func(q point) point { return point{math.Round(q.x*10) / 10, math.Round(q.y*10) / 10} }
	now := tenth(p.from)
	var b strings.Builder
	before := byte('M')
	add := func(kind byte, points ...point) {
		if kind != before {
			b.WriteByte(kind)
		}
		for i, q := range points {
			for j, v := range []float64{q.x - now.x, q.y - now.y} {
				text := strings.TrimPrefix(num(v), "0")
				if text = strings.Replace(text, "-0.", "-.", 1); text == "" {
					text = "0"
				}
				if (i > 0 || j > 0 || kind == before) && text[0] != '-' {
					b.WriteByte(' ')
				}
				b.WriteString(text)
			}
		}
		before = kind
	}
	b.WriteString("M" + num(now.x) + " " + num(now.y))
	for _, s := range p.segments {
		if s.straight {
			add('l', tenth(s.to))
		} else {
			add('c', tenth(s.c1), tenth(s.c2), tenth(s.to))
		}
		now = tenth(s.to)
	}
	if p.closed {
		b.WriteByte('z')
	}
	return b.String()
}

// SVG writes all pictures on one sheet, and beside them the words.
func (m Measuring) SVG(w io.Writer, o SVGOptions) error {
	var out bytes.Buffer
	m.sheet(o).write(&out, cmp.Or(o.Prefix, "measure"), o.Inline)
	_, err := w.Write(out.Bytes())
	return err
}

// PNG draws the sheet as large as it goes into so many pixels.
func (m Measuring) PNG(most image.Point, o SVGOptions) ([]byte, error) { return m.sheet(o).png(most) }

func (m Measuring) scene() *scene {
	s := &scene{names: make(map[string]string)}
	for _, x := range m.Measures {
		s.names[x.ID] = strconv.Itoa(x.Number) + " " + x.Name
	}
	return s
}

// words are the tapes of a posture in words.
func (m Measuring) words(p *posture) string {
	text := ""
	for _, x := range m.Measures {
		if slices.ContainsFunc(p.tapes, func(t laidTape) bool { return t.id == x.ID }) {
			text += fmt.Sprintf("%d %s: %s. ", x.Number, x.Name, x.How)
		}
	}
	return text
}

func (m Measuring) number(id string) int {
	i := slices.IndexFunc(m.Measures, func(x Measured) bool { return x.ID == id })
	if i < 0 {
		return 0
	}
	return m.Measures[i].Number
}

// lay puts a posture on a scene, and returns the box that it takes.
func (m Measuring) lay(s *scene, p *posture, at point) box {
	from := len(s.items)
	move := func(q point) point { return q.plus(at) }
	for _, skin := range p.skin {
		s.add(item{class: "skin", path: skin.moved(move), fill: true, width: 1})
	}
	for _, l := range p.lines {
		path := l.path.moved(move)
		switch l.kind {
		case "hair", "wear":
			path.closed = true
			s.add(item{class: l.kind, path: path, fill: true, width: 0.8})
		default:
			s.add(item{class: "face", path: path, width: 0.8})
		}
	}
	tapes := slices.DeleteFunc(slices.Clone(p.tapes), func(t laidTape) bool { return m.number(t.id) == 0 })
	p.columns(tapes)
	slices.SortStableFunc(tapes, func(a, b laidTape) int { return cmp.Compare(b.beside(), a.beside()) }) // their thin lines lie under the numbers
	for _, t := range tapes {
		for _, h := range t.hidden {
			s.add(item{class: "hidden", part: t.id, path: h.moved(move), width: 0.7, dash: true})
		}
		for _, l := range t.seen {
			s.add(item{class: "seen", part: t.id, path: l.moved(move), width: 1.7})
		}
		tag := move(t.tag)
		s.add(item{class: "tag", part: t.id, path: circle(tag, tagRound), at: tag, fill: true, width: 0.8})
		s.add(item{class: "number", part: t.id, text: strconv.Itoa(m.number(t.id)), at: tag.plus(point{0, tagSize * 0.36}), size: tagSize, anchor: "middle", bold: true})
	}
	b := emptyBox()
	for _, i := range s.items[from:] {
		if i.path != nil {
			o := boxOf(i.path)
			b = b.with(point{o.x0, o.y0}).with(point{o.x1, o.y1})
		}
	}
	return b
}

// columns moves the numbers that stand beside the figure so far apart that each
// has room, and draws lines to them.
func (p *posture) columns(tapes []laidTape) {
	const apart = 2*tagRound + 0.8
	for _, column := range []int{-1, 1} {
		var of []*laidTape
		for i := range tapes {
			if tapes[i].column == column {
				of = append(of, &tapes[i])
			}
		}
		slices.SortStableFunc(of, func(a, b *laidTape) int { return cmp.Compare(a.tag.y, b.tag.y) })
		down, up := make([]float64, len(of)), make([]float64, len(of))
		for i, t := range of {
			down[i] = t.tag.y
			if i > 0 {
				down[i] = math.Max(down[i], down[i-1]+apart)
			}
		}
		for i := len(of) - 1; i >= 0; i-- {
			up[i] = of[i].tag.y
			if i < len(of)-1 {
				up[i] = math.Min(up[i], up[i+1]-apart)
			}
		}
		for i, t := range of { // both are far enough apart, so their middle is
			to := point{float64(column) * (p.reach + tagRound), (down[i] + up[i]) / 2}
			t.hidden = append(t.hidden, straight(t.tag, to))
			t.tag = to
		}
	}
}

// sheet is the sheet of all pictures with their words.
func (m Measuring) sheet(o SVGOptions) *scene {
	s := m.scene()
	s.title = cmp.Or(o.Title, "Where to measure")
	y := 8.0
	if !o.Inline {
		s.add(item{class: "words", text: s.title, at: point{8, y + 14}, size: 16, bold: true})
		y += 26
		if o.Note != "" {
			for _, l := range wrapped(o.Note, 46) {
				s.words(l, point{8, y + 6}, 10)
				y += 14
			}
		}
	}
	all := postures(m.Figure)
	x, low, last := 8.0, 0.0, 0.0 // last: how wide the last one was
	for i, p := range all {
		s.desc += m.words(p)
		top := y
		if i == len(all)-1 { // the foot goes under the hand
			x, top = x-last, y+88
		}
		from := len(s.items)
		b := m.lay(s, p, point{})
		shift := point{x - b.x0, top - b.y0}
		for j := from; j < len(s.items); j++ {
			s.items[j].move(shift)
		}
		x += b.x1 - b.x0 + 12
		last = b.x1 - b.x0 + 12
		low = math.Max(low, top+b.y1-b.y0)
	}
	s.wide, s.high = x, low+10
	if o.Key {
		m.list(s)
	}
	if !o.Inline {
		s.items = append([]item{{class: "paper", path: straight(point{}, point{s.wide, 0}, point{s.wide, s.high}, point{0, s.high}, point{}), fill: true}}, s.items...)
	}
	return s
}

// list puts the words under the pictures, in two columns.
func (m Measuring) list(s *scene) {
	const size, gap = 8.0, 16.0
	wide := (s.wide - 16 - gap) / 2
	type entry struct {
		number string
		lines  []string
	}
	var entries []entry
	total := 0
	for _, x := range m.Measures {
		text := x.Name + ": " + x.How + "."
		if x.Wrong != "" {
			text += " What goes wrong: " + x.Wrong + "."
		}
		e := entry{strconv.Itoa(x.Number), wrapped(text, (wide-16)/size)}
		entries = append(entries, e)
		total += len(e.lines)
	}
	top, x, y, lines := s.high+6, 8.0, s.high+6, 0
	low := y
	for _, e := range entries {
		if x == 8 && lines >= (total+1)/2 {
			x, y = 8+wide+gap, top
		}
		s.add(item{class: "words", text: e.number, at: point{x, y + size}, size: size, bold: true})
		for _, l := range e.lines {
			s.words(l, point{x + 16, y + size}, size)
			y += size * 1.3
			lines++
		}
		y += size * 0.35
		low = math.Max(low, y)
	}
	s.high = low + 8
}
