package schematic

import "math"

// rib fills a strip between two ends with ribbing: lines that run from one edge
// of it to the other.
func (d *drawer) rib(a0, a1, b0, b1 point) {
	d.draw("edge", straight(a0, a1))
	const apart = 0.9 // cm
	n := int(math.Max(2, a1.minus(a0).long()/apart))
	for i := 1; i < n; i++ {
		t := float64(i) / float64(n)
		d.draw("rib", straight(between(a0, a1, t), between(b0, b1, t)))
	}
}

// ribBoth is a ribbed strip and its like on the other side.
func (d *drawer) ribBoth(a0, a1, b0, b1 point) {
	d.rib(a0, a1, b0, b1)
	d.rib(a0.mirrored(), a1.mirrored(), b0.mirrored(), b1.mirrored())
}

// cuffDepth is how deep the ribbing is that ends a length.
func (d *drawer) cuffDepth(long float64) float64 {
	return math.Min(d.Trade.Cuff, long*d.Trade.CuffMost)
}

// tapered is a sleeve or a leg: wide at its top, across from inner to outer, and
// long along its middle to a cuff. It returns the corners of its end.
type tapered struct {
	inner, outer       point // of the top
	innerEnd, outerEnd point
	innerCuff          point // where the ribbing begins
	outerCuff          point
	along              point
}

func (d *drawer) taper(inner, outer point, cuff, long float64) tapered {
	t := tapered{inner: inner, outer: outer}
	across := outer.minus(inner)
	wide := across.long()
	across = across.times(1 / wide)
	t.along = point{-across.y, across.x}
	if t.along.y < 0 {
		t.along = t.along.times(-1)
	}
	end := between(inner, outer, 0.5).plus(t.along.times(long))
	t.innerEnd, t.outerEnd = end.minus(across.times(cuff/2)), end.plus(across.times(cuff/2))
	deep := d.cuffDepth(long)
	above := math.Min(wide, cuff/d.Trade.RibShare) / 2
	start := end.minus(t.along.times(deep))
	t.innerCuff, t.outerCuff = start.minus(across.times(above)), start.plus(across.times(above))
	return t
}

// cuffs draws the ribbing at the ends.
func (d *drawer) cuffs(t tapered) {
	d.ribBoth(t.innerCuff, t.outerCuff, t.innerEnd, t.outerEnd)
}

// opening draws what closes a front between two heights.
func (d *drawer) opening(top, bottom float64) {
	edge := d.Trade.Edge
	if d.Closure == "buttons" {
		d.draw("edge", straight(point{-edge, top}, point{-edge, bottom}))
		d.draw("edge", straight(point{edge, top}, point{edge, bottom}, point{-edge, bottom}))
		n := math.Max(1, math.Round((bottom-top-2*d.Trade.ButtonEnd)/d.Trade.ButtonSpacing))
		for i := range int(n) + 1 {
			d.draw("edge", circle(point{0, top + d.Trade.ButtonEnd + (bottom-top-2*d.Trade.ButtonEnd)*float64(i)/n}, 0.7))
		}
		return
	}
	gap := d.Trade.ZipperGap / 2
	for _, x := range []float64{gap, gap + edge} {
		d.drawBoth("edge", straight(point{x, top}, point{x, bottom}))
	}
	teeth := start(-gap*0.5, top)
	for y, side := top+0.6, 1.0; y < bottom; y, side = y+0.6, -side {
		teeth.line(point{side * gap * 0.5, y})
	}
	d.draw("rib", teeth)
	d.draw("edge", straight(point{-gap - edge, bottom}, point{gap + edge, bottom}))
}
