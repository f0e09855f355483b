package schematic

import "math"

// neckline goes from the middle of the front to the shoulder's neck end, for a
// neck half as wide.
func neckline(half, deep float64) *path {
	return start(0, deep).corner(point{half, deep}, point{half, 0})
}

// backNeck goes across the back of the neck.
func backNeck(half float64) *path {
	return start(-half, 0).curve(point{-half * 0.5, half * 0.25}, point{half * 0.5, half * 0.25}, point{half, 0})
}

// neckHalf is half as wide as a neck opens whose edge goes round as far as it
// measures, and is so deep in front.
func neckHalf(round, deep, most float64) float64 {
	low, high := most*0.05, most
	for range 40 {
		half := (low + high) / 2
		if 2*neckline(half, deep).long()+backNeck(half).long() < round {
			low = half
		} else {
			high = half
		}
	}
	return low
}

// collar draws the back of the neck, the band round it, and measures the edge.
func (d *drawer) collar(t torso) {
	back, right := backNeck(t.neck), neckline(t.neck, t.deep)
	front := right.mirrored().reversed()
	front.segments = append(front.segments, right.segments...)
	d.draw("edge", back)
	d.draw("outline", front)
	if d.has("neck") {
		d.is("neck edge", straight(point{0, 0}, point{front.long() + back.long(), 0}), d.Cm["neck"])
	}
	if d.has("hood_height") {
		return
	}
	// The band lies inside its edge, so much shorter as it draws in.
	band := math.Min(d.Trade.Band*0.8, t.neck*0.4)
	k := 1 - band/t.neck
	in := func(p point) point { return point{p.x * k, p.y*k - band*0.35} }
	inner, innerBack := front.moved(in), back.moved(in)
	d.draw("edge", inner)
	d.draw("edge", innerBack)
	outer, ends := front.points(), inner.points()
	for i := 2; i+2 < len(ends); i += 3 {
		d.draw("rib", straight(outer[i], ends[i]))
	}
	d.measure(dim{part: "neck", a: point{-t.neck, 0}, b: point{t.neck, 0}, half: true, off: point{0, -1.3}, leads: true, fromA: point{-t.neck, 0}, fromB: point{t.neck, 0}})
}
