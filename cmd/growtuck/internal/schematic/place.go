package schematic

import (
	"math"
	"slices"
)

// A mark is a measurement made ready to be drawn, in the figure's cm.
type mark struct {
	part  string
	lines [][2]point // the line, open where a label is
	ticks [][2]point // across its ends
	leads [][2]point // thin, from its ends to the garment
	text  string
	box   box // of the text
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
		if long := b.minus(a).long(); long > 0 {
			n := point{(b.y - a.y) / long, (a.x - b.x) / long}.times(letter * 0.3)
			m.ticks = [][2]point{{a.minus(n), a.plus(n)}, {b.minus(n), b.plus(n)}}
		}
		if d.leads {
			m.leads = append(f.outside(d.fromA, a), f.outside(d.fromB, b)...)
		}
		marks = append(marks, m)
	}
	var boxes []box
	drawn := f.obstacles()
	for i := range marks {
		marks[i].box = room(marks, i, drawn, boxes, letter, wide(marks[i].text)*letter)
		boxes = append(boxes, marks[i].box)
	}
	for i := range marks {
		m := &marks[i]
		for _, b := range boxes {
			b = box{b.x0 - letter*0.2, b.y0 - letter*0.1, b.x1 + letter*0.2, b.y1 + letter*0.1}
			m.lines, m.leads, m.ticks = around(m.lines, b), around(m.leads, b), around(m.ticks, b)
		}
	}
	return marks
}

// An obstacle is a line that a label should avoid, and how strongly.
type obstacle struct {
	points []point
	cost   float64
}

func (f Figure) obstacles() []obstacle {
	var all []obstacle
	for _, e := range f.edges {
		all = append(all, obstacle{e.points(), 4})
	}
	for _, s := range f.shapes {
		all = append(all, obstacle{s.points(), 2})
	}
	return all
}

// room finds the place for a label: the best of those on its line and beside it.
func room(marks []mark, i int, drawn []obstacle, taken []box, letter, wide float64) box {
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
	best, lowest := box{}, math.Inf(1)
	try := func(p point, cost float64) {
		c := at(p)
		for _, o := range taken {
			if c.meets(box{o.x0 - letter*0.3, o.y0 - letter*0.15, o.x1 + letter*0.3, o.y1 + letter*0.15}) {
				cost += 1000
			}
		}
		for j, m := range marks {
			if j != i && (anyCrosses(m.lines, c) || anyCrosses(m.leads, c)) {
				cost += 3
			}
		}
		for _, o := range drawn {
			if cost < lowest && meetsAny(o.points, c) {
				cost += o.cost
			}
		}
		if cost < lowest {
			best, lowest = c, cost
		}
	}
	fits := long > 2*reach(along)+letter*0.5
	for _, t := range []float64{0.5, 0.42, 0.58, 0.35, 0.65, 0.28, 0.72, 0.2, 0.8, 0.12, 0.88} {
		if fits && math.Min(t, 1-t)*long > reach(along)+letter*0.2 {
			try(between(a, b, t), math.Abs(t-0.5)*6)
		}
	}
	for _, step := range []float64{0, 1.3, 2.6, 4, 6, 9} {
		far := reach(normal) + letter*(0.35+step)
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
