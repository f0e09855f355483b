package schematic

import "math"

type point struct{ x, y float64 }

func (p point) plus(q point) point        { return point{p.x + q.x, p.y + q.y} }
func (p point) minus(q point) point       { return point{p.x - q.x, p.y - q.y} }
func (p point) times(k float64) point     { return point{p.x * k, p.y * k} }
func (p point) mirrored() point           { return point{-p.x, p.y} }
func (p point) long() float64             { return math.Hypot(p.x, p.y) }
func between(a, b point, t float64) point { return a.plus(b.minus(a).times(t)) }

// A path is a run of lines and curves.
type path struct {
	from     point
	segments []segment
	closed   bool
}

// A segment goes on to a point, straight or bent by two points (a cubic curve).
type segment struct {
	c1, c2, to point
	straight   bool
}

func start(x, y float64) *path { return &path{from: point{x, y}} }

func (p *path) last() point {
	if n := len(p.segments); n > 0 {
		return p.segments[n-1].to
	}
	return p.from
}

func (p *path) line(points ...point) *path {
	for _, to := range points {
		p.segments = append(p.segments, segment{to: to, straight: true})
	}
	return p
}

func (p *path) curve(c1, c2, to point) *path {
	p.segments = append(p.segments, segment{c1: c1, c2: c2, to: to})
	return p
}

// corner bends to a point as an ellipse does whose sides meet in the corner.
func (p *path) corner(corner, to point) *path {
	const round = 0.5523
	return p.curve(between(p.last(), corner, round), between(to, corner, round), to)
}

// smooth goes through points down or up the garment without a kink, and between
// two points never wider or narrower than they are.
func (p *path) smooth(points ...point) *path {
	all := append([]point{p.last()}, points...)
	slope := make([]float64, len(all)) // of x by y
	for i := 1; i+1 < len(all); i++ {
		before, after := steepness(all[i-1], all[i]), steepness(all[i], all[i+1])
		if before*after > 0 {
			slope[i] = 2 * before * after / (before + after)
		}
	}
	slope[0], slope[len(all)-1] = steepness(all[0], all[1]), steepness(all[len(all)-2], all[len(all)-1])
	for i := 1; i < len(all); i++ {
		a, b := all[i-1], all[i]
		dy := (b.y - a.y) / 3
		p.curve(point{a.x + slope[i-1]*dy, a.y + dy}, point{b.x - slope[i]*dy, b.y - dy}, b)
	}
	return p
}

func steepness(a, b point) float64 {
	if a.y == b.y {
		return 0
	}
	return (b.x - a.x) / (b.y - a.y)
}

// reversed is the same path the other way.
func (p *path) reversed() *path {
	out := &path{from: p.last(), closed: p.closed}
	for i := len(p.segments) - 1; i >= 0; i-- {
		s := p.segments[i]
		to := p.from
		if i > 0 {
			to = p.segments[i-1].to
		}
		out.segments = append(out.segments, segment{s.c2, s.c1, to, s.straight})
	}
	return out
}

// mirrored is the path on the other side.
func (p *path) mirrored() *path { return p.moved(point.mirrored) }

// moved is the path with every point moved.
func (p *path) moved(to func(point) point) *path {
	out := &path{from: to(p.from), closed: p.closed}
	for _, s := range p.segments {
		out.segments = append(out.segments, segment{to(s.c1), to(s.c2), to(s.to), s.straight})
	}
	return out
}

// whole is the path and the other side of it, closed; it begins and ends on the
// middle.
func (p *path) whole() *path {
	other := p.reversed().mirrored()
	return &path{from: p.from, segments: append(p.segments, other.segments...), closed: true}
}

// points are the corners of the path, its curves cut into short lines.
func (p *path) points() []point {
	const pieces = 16
	out := []point{p.from}
	a := p.from
	for _, s := range p.segments {
		if s.straight {
			out = append(out, s.to)
		} else {
			for i := 1; i <= pieces; i++ {
				t := float64(i) / pieces
				u := 1 - t
				out = append(out, a.times(u*u*u).plus(s.c1.times(3*u*u*t)).plus(s.c2.times(3*u*t*t)).plus(s.to.times(t*t*t)))
			}
		}
		a = s.to
	}
	if p.closed && a != p.from {
		out = append(out, p.from)
	}
	return out
}

func straight(points ...point) *path {
	return start(points[0].x, points[0].y).line(points[1:]...)
}

// long is how long the path is.
func (p *path) long() float64 {
	cm := 0.0
	all := p.points()
	for i := 1; i < len(all); i++ {
		cm += all[i].minus(all[i-1]).long()
	}
	return cm
}

// circle is a round path.
func circle(at point, r float64) *path {
	p := start(at.x, at.y-r)
	p.corner(point{at.x + r, at.y - r}, point{at.x + r, at.y}).corner(point{at.x + r, at.y + r}, point{at.x, at.y + r})
	p.corner(point{at.x - r, at.y + r}, point{at.x - r, at.y}).corner(point{at.x - r, at.y - r}, point{at.x, at.y - r})
	p.closed = true
	return p
}
