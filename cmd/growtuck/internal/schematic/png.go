package schematic

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
)

var (
	fabric = color.RGBA{0xE3, 0xEC, 0xF2, 0xff}
	edge   = color.RGBA{0x2F, 0x48, 0x58, 0xff}
	mark   = color.RGBA{0xB5, 0x54, 0x1A, 0xff}
	white  = color.RGBA{0xff, 0xff, 0xff, 0xff}
)

// PNG draws the figure as large as it goes into a picture of at most so many
// pixels, with the labels of parts; a part without a label has no line.
func (f Figure) PNG(most image.Point, labels map[string]string) ([]byte, error) {
	low, far := f.bounds()
	letter := float64(min(most.X, most.Y)) / 48
	margin := letter * 2.4
	scale := math.Min((float64(most.X)-2*margin)/math.Max(far.x-low.x, 1), (float64(most.Y)-2*margin)/math.Max(far.y-low.y, 1))
	wide, high := int((far.x-low.x)*scale+2*margin), int((far.y-low.y)*scale+2*margin)
	to := func(p point) point { return point{(p.x-low.x)*scale + margin, (p.y-low.y)*scale + margin} }
	all := func(p []point) []point {
		out := make([]point, len(p))
		for i, q := range p {
			out[i] = to(q)
		}
		return out
	}
	c := newCanvas(wide, high)
	stroke := math.Max(1.5, letter/9)
	for _, s := range f.shapes {
		p := all(s)
		c.fill(p, fabric)
		c.path(append(p, p[0]), stroke, edge)
	}
	for _, e := range f.edges {
		c.path(all(e), stroke, edge)
	}
	for _, d := range f.dims {
		if labels[d.Part] != "" {
			c.dim(to(d.a), to(d.b), stroke*0.75, letter)
		}
	}
	taken := []box{}
	for _, d := range f.dims {
		if label := labels[d.Part]; label != "" {
			taken = append(taken, c.label(label, to(d.a), to(d.b), letter, stroke, taken))
		}
	}
	var out bytes.Buffer
	err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&out, c.img)
	return out.Bytes(), err
}

// bounds are the corners of everything that is drawn.
func (f Figure) bounds() (low, far point) {
	low, far = point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	add := func(p point) {
		low = point{math.Min(low.x, p.x), math.Min(low.y, p.y)}
		far = point{math.Max(far.x, p.x), math.Max(far.y, p.y)}
	}
	for _, s := range f.shapes {
		for _, p := range s {
			add(p)
		}
	}
	for _, d := range f.dims {
		add(d.a)
		add(d.b)
	}
	if math.IsInf(low.x, 1) {
		return point{}, point{1, 1}
	}
	return low, far
}

// dim draws the line of a measurement with a stroke across each end.
func (c canvas) dim(a, b point, wide, tick float64) {
	c.line(a, b, wide, mark)
	length := math.Hypot(b.x-a.x, b.y-a.y)
	if length == 0 {
		return
	}
	nx, ny := (b.y-a.y)/length*tick*0.35, -(b.x-a.x)/length*tick*0.35
	for _, p := range []point{a, b} {
		c.line(point{p.x - nx, p.y - ny}, point{p.x + nx, p.y + ny}, wide, mark)
	}
}

type box struct{ x0, y0, x1, y1 float64 }

func (b box) meets(o box) bool { return b.x0 < o.x1 && o.x0 < b.x1 && b.y0 < o.y1 && o.y0 < b.y1 }

// label writes on a line, at the middle or, where that is taken, beside it.
func (c canvas) label(text string, a, b point, high, stroke float64, taken []box) box {
	w := measure(text, high)
	pad := high * 0.35
	var at box
	for _, t := range []float64{0.5, 0.35, 0.65, 0.22, 0.78, 0.1, 0.9} {
		x, y := a.x+(b.x-a.x)*t, a.y+(b.y-a.y)*t
		at = box{x - w/2 - pad, y - high/2 - pad, x + w/2 + pad, y + high/2 + pad}
		free := true
		for _, o := range taken {
			free = free && !at.meets(o)
		}
		if free {
			break
		}
	}
	c.fill([]point{{at.x0, at.y0}, {at.x1, at.y0}, {at.x1, at.y1}, {at.x0, at.y1}}, white)
	c.path([]point{{at.x0, at.y0}, {at.x1, at.y0}, {at.x1, at.y1}, {at.x0, at.y1}, {at.x0, at.y0}}, stroke*0.5, mark)
	c.write(text, point{at.x0 + pad, at.y0 + pad}, high, stroke*0.95, mark)
	return at
}
