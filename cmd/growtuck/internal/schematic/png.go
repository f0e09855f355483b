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
	ink    = color.RGBA{0xB5, 0x54, 0x1A, 0xff}
	faint  = color.RGBA{0xD9, 0xB4, 0x9C, 0xff}
)

// capitals are so high in letters' heights.
const capitals = 0.8

// PNG draws the figure as large as it goes into a picture of at most so many
// pixels, with the labels of parts; a part without a label has no line. Labels
// are written in capitals, figures and . and /.
func (f Figure) PNG(most image.Point, labels map[string]string) ([]byte, error) {
	if err := f.err(); err != nil {
		return nil, err
	}
	letter := f.letter() // cm
	wide := func(text string) float64 { return measure(text, capitals) + 0.1 }
	marks := f.place(labels, letter, wide)
	all := f.drawn(marks)
	margin := letter * 0.8
	scale := math.Min(float64(most.X)/(all.x1-all.x0+2*margin), float64(most.Y)/(all.y1-all.y0+2*margin))
	wideAll, high := int((all.x1-all.x0+2*margin)*scale+0.5), int((all.y1-all.y0+2*margin)*scale+0.5)
	to := func(p point) point { return point{p.x - all.x0 + margin, p.y - all.y0 + margin}.times(scale) }
	c := newCanvas(min(max(wideAll, 1), most.X), min(max(high, 1), most.Y))
	size := letter * scale
	stroke := math.Max(1.2, size/9)
	for _, s := range f.shapes {
		p := s.moved(to).points()
		c.fill(p, fabric)
		c.path(p, stroke, edge)
	}
	for _, e := range f.edges {
		c.path(e.moved(to).points(), stroke*0.7, edge)
	}
	for _, m := range marks {
		for _, l := range m.leads {
			c.line(to(l[0]), to(l[1]), stroke*0.4, faint)
		}
		for _, l := range append(m.lines, m.ticks...) {
			c.line(to(l[0]), to(l[1]), stroke*0.7, ink)
		}
	}
	for _, m := range marks {
		at := to(point{m.box.x0 + letter*0.05, (m.box.y0 + m.box.y1 - letter*capitals) / 2})
		c.write(m.text, at, size*capitals, stroke*0.8, ink)
	}
	var out bytes.Buffer
	err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&out, c.img)
	return out.Bytes(), err
}

// drawn is the smallest box that holds everything that is drawn.
func (f Figure) drawn(marks []mark) box {
	b := f.box()
	for _, m := range marks {
		b = b.with(point{m.box.x0, m.box.y0}).with(point{m.box.x1, m.box.y1})
		for _, l := range append(append(m.lines, m.ticks...), m.leads...) {
			b = b.with(l[0]).with(l[1])
		}
	}
	return b
}
