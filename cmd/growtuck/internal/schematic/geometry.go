package schematic

import "math"

// meeting is how far along a–b it crosses c–d.
func meeting(a, b, c, d point) (float64, bool) {
	u, v, w := b.minus(a), d.minus(c), c.minus(a)
	cross := u.x*v.y - u.y*v.x
	if cross == 0 {
		return 0, false
	}
	t, s := (w.x*v.y-w.y*v.x)/cross, (w.x*u.y-w.y*u.x)/cross
	return t, t >= 0 && t <= 1 && s >= 0 && s <= 1
}

// within reports whether a point lies in a polygon.
func within(p []point, at point) bool {
	in := false
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if (a.y <= at.y) != (b.y <= at.y) && at.x < a.x+(at.y-a.y)/(b.y-a.y)*(b.x-a.x) {
			in = !in
		}
	}
	return in
}

// inBox is where a line goes into a box and out of it, from 0 to 1.
func inBox(l [2]point, b box) (in, out float64, ok bool) {
	in, out = 0, 1
	d := l[1].minus(l[0])
	for _, side := range [4][2]float64{{-d.x, l[0].x - b.x0}, {d.x, b.x1 - l[0].x}, {-d.y, l[0].y - b.y0}, {d.y, b.y1 - l[0].y}} {
		p, q := side[0], side[1]
		switch {
		case p == 0 && q < 0:
			return 0, 0, false
		case p < 0:
			in = math.Max(in, q/p)
		case p > 0:
			out = math.Min(out, q/p)
		}
	}
	return in, out, in < out
}

func anyCrosses(lines [][2]point, b box) bool {
	for _, l := range lines {
		if _, _, ok := inBox(l, b); ok {
			return true
		}
	}
	return false
}

func meetsAny(points []point, b box) bool {
	for i := 1; i < len(points); i++ {
		if _, _, ok := inBox([2]point{points[i-1], points[i]}, b); ok {
			return true
		}
	}
	return false
}
