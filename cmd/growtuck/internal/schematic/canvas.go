package schematic

import (
	"image"
	"image/color"
	"math"
	"slices"
)

// A canvas takes lines and areas in pixels, with smooth edges.
type canvas struct{ img *image.RGBA }

func newCanvas(w, h int) canvas {
	c := canvas{image.NewRGBA(image.Rect(0, 0, w, h))}
	for i := range c.img.Pix {
		c.img.Pix[i] = 0xff
	}
	return c
}

// blend lays a colour over a pixel by its share of it.
func (c canvas) blend(x, y int, ink color.RGBA, share float64) {
	if !(image.Point{X: x, Y: y}).In(c.img.Rect) || share <= 0 {
		return
	}
	if share >= 1 {
		p := c.img.Pix[c.img.PixOffset(x, y):]
		p[0], p[1], p[2] = ink.R, ink.G, ink.B
		return
	}
	p := c.img.Pix[c.img.PixOffset(x, y):]
	for i, v := range [3]uint8{ink.R, ink.G, ink.B} {
		p[i] = uint8(float64(p[i])*(1-share) + float64(v)*share + 0.5)
	}
}

// line draws from a to b, wide pixels thick.
func (c canvas) line(a, b point, wide float64, ink color.RGBA) {
	dx, dy := b.x-a.x, b.y-a.y
	length := dx*dx + dy*dy
	reach := wide/2 + 1
	for y := int(math.Floor(math.Min(a.y, b.y) - reach)); y <= int(math.Max(a.y, b.y)+reach); y++ {
		for x := int(math.Floor(math.Min(a.x, b.x) - reach)); x <= int(math.Max(a.x, b.x)+reach); x++ {
			px, py := float64(x)+0.5-a.x, float64(y)+0.5-a.y
			t := 0.0
			if length > 0 {
				t = math.Max(0, math.Min(1, (px*dx+py*dy)/length))
			}
			c.blend(x, y, ink, wide/2+0.5-math.Hypot(px-t*dx, py-t*dy))
		}
	}
}

func (c canvas) path(p []point, wide float64, ink color.RGBA) {
	for i := 1; i < len(p); i++ {
		c.line(p[i-1], p[i], wide, ink)
	}
}

// fill colours the inside of a polygon.
func (c canvas) fill(p []point, ink color.RGBA) {
	const fine = 4 // lines to a pixel
	low, high, left, right := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, q := range p {
		low, high = math.Min(low, q.y), math.Max(high, q.y)
		left, right = math.Min(left, q.x), math.Max(right, q.x)
	}
	width := c.img.Rect.Dx()
	from, to := max(0, int(left)-1), min(width, int(right)+2)
	cover := make([]float64, width)
	var cuts []float64
	for y := max(0, int(math.Floor(low))); y <= min(int(high), c.img.Rect.Dy()-1); y++ {
		clear(cover)
		for sub := range fine {
			at := float64(y) + (float64(sub)+0.5)/fine
			cuts = cuts[:0]
			for i, a := range p {
				b := p[(i+1)%len(p)]
				if (a.y <= at) != (b.y <= at) {
					cuts = append(cuts, a.x+(at-a.y)/(b.y-a.y)*(b.x-a.x))
				}
			}
			slices.Sort(cuts)
			for i := 0; i+1 < len(cuts); i += 2 {
				for x := max(0, int(math.Floor(cuts[i]))); x < min(width, int(math.Ceil(cuts[i+1]))); x++ {
					cover[x] += math.Max(0, math.Min(cuts[i+1], float64(x+1))-math.Max(cuts[i], float64(x))) / fine
				}
			}
		}
		for x := from; x < to; x++ {
			c.blend(x, y, ink, cover[x])
		}
	}
}
