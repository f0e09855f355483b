package schematic

import (
	"math"
	"slices"
)

// A mark is a measurement made ready to be drawn, in the figure's cm.
type mark struct {
	part     string
	lines    [][2]point // the line, open where a label is
	ends     []*path    // across its ends: straight, or round where the line is half of a girth
	endBoxes []box
	leads    [][2]point // thin, from its ends to the garment
	text     string
	box      box // of the text
}

// place decides where the labels are: on the middle of their lines or else
// near it, where they cover no other label and as few lines as may be. Letters
// are letter cm high; wide is how wide a text is in letters' heights. Parts
// without a label are left out.
func (f Figure) place(labels map[string]string, letter float64, wide func(string) float64) []mark {
	var marks []mark
	for _, d := range f.dims {
		if labels[d.part] == "" {
			continue
		}
		m := mark{part: d.part, text: labels[d.part]}
		off := d.off.times(letter)
		a, b := d.a.plus(off), d.b.plus(off)
		m.lines = [][2]point{{a, b}}
		m.ends = ends(a, b, letter*0.32, d.half)
		for _, e := range m.ends {
			m.endBoxes = append(m.endBoxes, boxOf(e))
		}
		if d.leads {
			m.leads = append(f.outside(d.fromA, a), f.outside(d.fromB, b)...)
		}
		marks = append(marks, m)
	}
	var boxes []box
	drawn := f.obstacles()
	var shapes [][]point
	for _, s := range f.shapes {
		shapes = append(shapes, s.points())
	}
	for i := range marks {
		marks[i].box = room(marks, i, drawn, shapes, boxes, letter, wide(marks[i].text)*letter)
		boxes = append(boxes, marks[i].box)
	}
	for i := range marks {
		m := &marks[i]
		for _, b := range boxes {
			b = box{b.x0 - letter*0.2, b.y0 - letter*0.1, b.x1 + letter*0.2, b.y1 + letter*0.1}
			m.lines, m.leads = around(m.lines, b), around(m.leads, b)
		}
	}
	return marks
}

// ends are the ends of a line from a to b: a stroke across, or half a ring where
// the line goes on round the back.
func ends(a, b point, r float64, half bool) []*path {
	long := b.minus(a).long()
	if long == 0 {
		return nil
	}
	along := b.minus(a).times(1 / long)
	n := point{along.y, -along.x}.times(r)
	if !half {
		return []*path{straight(a.minus(n), a.plus(n)), straight(b.minus(n), b.plus(n))}
	}
	ring := func(end, in point) *path {
		p := start(end.x+n.x+in.x, end.y+n.y+in.y)
		p.corner(end.plus(n), end)
		return p.corner(end.minus(n), end.minus(n).plus(in))
	}
	return []*path{ring(a, along.times(r)), ring(b, along.times(-r))}
}

// An obstacle is a line that a label should avoid, and how strongly.
type obstacle struct {
	points []point
	box    box
	cost   float64
	of     int // pieces of one line, which costs once
}

// obstacles cuts lines into pieces, each with the box that it lies in.
func (f Figure) obstacles() []obstacle {
	const piece = 6
	var all []obstacle
	lines := 0
	add := func(p *path, cost float64) {
		lines++
		points := p.points()
		for i := 0; i+1 < len(points); i += piece {
			o := obstacle{points: points[i:min(i+piece+1, len(points))], box: emptyBox(), cost: cost, of: lines}
			for _, q := range o.points {
				o.box = o.box.with(q)
			}
			all = append(all, o)
		}
	}
	for _, l := range f.lines {
		switch l.kind {
		case "rib":
		case "outline":
			add(l.path, 7)
		default:
			add(l.path, 5)
		}
	}
	for _, g := range f.ghost {
		add(g, 1)
	}
	return all
}

// room finds the place for a label: the best of those on its line and beside it.
func room(marks []mark, i int, drawn []obstacle, shapes [][]point, taken []box, letter, wide float64) box {
	a, b := marks[i].lines[0][0], marks[i].lines[0][1]
	high := letter * 1.1
	at := func(p point) box { return box{p.x - wide/2, p.y - high/2, p.x + wide/2, p.y + high/2} }
	along := b.minus(a)
	long := along.long()
	if long > 0 {
		along = along.times(1 / long)
	}
	normal := point{along.y, -along.x}
	// How far a box reaches along a direction from its middle.
	reach := func(v point) float64 { return (math.Abs(v.x)*wide + math.Abs(v.y)*high) / 2 }
	// On another piece of the garment than its line a label seems to be of that.
	shapes = slices.DeleteFunc(slices.Clone(shapes), func(s []point) bool { return within(s, between(a, b, 0.5)) })
	best, lowest := box{}, math.Inf(1)
	try := func(p point, cost float64) {
		if cost >= lowest {
			return
		}
		c := at(p)
		if slices.ContainsFunc(shapes, func(s []point) bool { return within(s, p) }) {
			cost += 8
		}
		for _, o := range taken {
			if c.meets(box{o.x0 - letter*0.3, o.y0 - letter*0.15, o.x1 + letter*0.3, o.y1 + letter*0.15}) {
				cost += 1000
			}
		}
		for j, m := range marks {
			if j != i && (anyCrosses(m.lines, c) || anyCrosses(m.leads, c)) {
				cost += 3
			}
			for _, e := range m.endBoxes {
				if e.meets(c) {
					cost += 2
				}
			}
		}
		met := 0
		for _, o := range drawn {
			if cost < lowest && o.of != met && o.box.meets(c) && meetsAny(o.points, c) {
				cost, met = cost+o.cost, o.of
			}
		}
		if cost < lowest {
			best, lowest = c, cost
		}
	}
	fits := long > 2*reach(along)+letter*1.2
	for _, t := range []float64{0.5, 0.42, 0.58, 0.35, 0.65, 0.28, 0.72, 0.2, 0.8, 0.12, 0.88} {
		if fits && math.Min(t, 1-t)*long > reach(along)+letter*0.2 {
			try(between(a, b, t), math.Abs(t-0.5)*6)
		}
	}
	for _, step := range []float64{0, 1.3, 2.6, 4, 6, 9} {
		far := reach(normal) + letter*(0.5+step)
		for _, t := range []float64{0.5, 0.25, 0.75} {
			cost := 6 + step*4 + math.Abs(t-0.5)
			try(between(a, b, t).minus(normal.times(far)), cost)
			try(between(a, b, t).plus(normal.times(far)), cost+0.5)
		}
		end := reach(along) + letter*(0.5+step)
		try(b.plus(along.times(end)), 6.5+step*4)
		try(a.minus(along.times(end)), 7+step*4)
	}
	return best
}

// outside are the pieces of a line that lie off the garment.
func (f Figure) outside(a, b point) [][2]point {
	cuts := []float64{0, 1}
	var shapes [][]point
	for _, s := range f.shapes {
		p := s.points()
		shapes = append(shapes, p)
		for i := 1; i < len(p); i++ {
			if t, ok := meeting(a, b, p[i-1], p[i]); ok {
				cuts = append(cuts, t)
			}
		}
	}
	slices.Sort(cuts)
	var out [][2]point
	for i := 1; i < len(cuts); i++ {
		if (cuts[i]-cuts[i-1])*b.minus(a).long() < 1e-6 {
			continue
		}
		inside := false
		for _, p := range shapes {
			// Along a hem counts as inside, so look a little up and down.
			at := between(a, b, (cuts[i-1]+cuts[i])/2)
			inside = inside || within(p, at.plus(point{0, 1e-6})) || within(p, at.minus(point{0, 1e-6}))
		}
		if !inside {
			out = append(out, [2]point{between(a, b, cuts[i-1]), between(a, b, cuts[i])})
		}
	}
	return out
}

// around leaves out of lines what lies in a box.
func around(lines [][2]point, b box) [][2]point {
	var out [][2]point
	for _, l := range lines {
		in, far, ok := inBox(l, b)
		if !ok {
			out = append(out, l)
			continue
		}
		if in > 0 {
			out = append(out, [2]point{l[0], between(l[0], l[1], in)})
		}
		if far < 1 {
			out = append(out, [2]point{between(l[0], l[1], far), l[1]})
		}
	}
	return out
}

// drawn is the smallest box that holds everything that is drawn.
func (f Figure) drawn(marks []mark) box {
	b := f.box()
	for _, m := range marks {
		b = b.with(point{m.box.x0, m.box.y0}).with(point{m.box.x1, m.box.y1})
		for _, l := range append(m.lines, m.leads...) {
			b = b.with(l[0]).with(l[1])
		}
		for _, e := range m.ends {
			for _, p := range e.points() {
				b = b.with(p)
			}
		}
	}
	return b
}
