package schematic

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// inks are the colours of the classes on white paper; what is filled has two.
var inks = map[string]color.RGBA{
	"fabric": {0x2D, 0x3B, 0x44, 0xff}, "edge": {0x2D, 0x3B, 0x44, 0xff}, "outline": {0x2D, 0x3B, 0x44, 0xff}, "rib": {0x5A, 0x6B, 0x76, 0xff}, "fold": {0x2D, 0x3B, 0x44, 0xff},
	"ghost": {0x56, 0x71, 0x7F, 0xff}, "line": {0x8A, 0x3F, 0x14, 0xff}, "lead": {0x8A, 0x3F, 0x14, 0xff}, "label": {0x8A, 0x3F, 0x14, 0xff}, "tape": {0x8A, 0x3F, 0x14, 0xff},
	"words": {0x22, 0x22, 0x22, 0xff}, "skin": {0x3B, 0x4A, 0x54, 0xff},
	"hair": {0x3B, 0x4A, 0x54, 0xff}, "wear": {0x3B, 0x4A, 0x54, 0xff}, "face": {0x3B, 0x4A, 0x54, 0xff}, "seen": {0x8A, 0x3F, 0x14, 0xff}, "hidden": {0x8A, 0x3F, 0x14, 0xff},
	"tag": {0x8A, 0x3F, 0x14, 0xff}, "number": {0x6E, 0x2F, 0x0C, 0xff},
}

var fills = map[string]color.RGBA{"fabric": {0xE9, 0xE2, 0xD3, 0xff}, "paper": {0xff, 0xff, 0xff, 0xff}, "skin": {0xF6, 0xF1, 0xE7, 0xff}, "hair": {0xC9, 0xBF, 0xAE, 0xff}, "wear": {0xD5, 0xDD, 0xE2, 0xff}, "tag": {0xff, 0xff, 0xff, 0xff}}

// Err says why the panel cannot be drawn, nil where it can.
func (p Panel) Err() error { return p.Figure.err() }

// PNG draws the panel as large as it goes into a picture of at most so many
// pixels.
func (p Panel) PNG(most image.Point, o SVGOptions) ([]byte, error) {
	if err := p.Figure.err(); err != nil {
		return nil, err
	}
	if o.Unit == "" {
		o.Unit = "cm"
	}
	return newSheet(p, o).scene.png(most)
}

// png draws the scene.
func (s *scene) png(most image.Point) ([]byte, error) {
	scale := math.Min(float64(most.X)/s.wide, float64(most.Y)/s.high)
	size := image.Rect(0, 0, min(max(1, int(s.wide*scale+0.5)), most.X), min(max(1, int(s.high*scale+0.5)), most.Y))
	c := canvas{img: image.NewRGBA(size), ras: vector.NewRasterizer(size.Dx(), size.Dy()), scale: scale}
	draw.Draw(c.img, size, image.White, image.Point{}, draw.Src)
	for _, i := range s.items {
		if i.path == nil {
			c.text(i)
			continue
		}
		points := i.path.moved(func(p point) point { return p.times(scale) }).points()
		if i.fill {
			c.area(points, fills[i.class])
		}
		if i.width > 0 {
			c.stroke(points, math.Max(i.width*scale, 0.7), i.dash, inks[i.class])
		}
	}
	var out bytes.Buffer
	err := png.Encode(&out, indexed(c.img))
	return out.Bytes(), err
}

// A canvas takes areas, lines and texts in pixels, with smooth edges.
type canvas struct {
	img   *image.RGBA
	ras   *vector.Rasterizer
	scale float64
}

// area colours the inside of a polygon.
func (c canvas) area(p []point, ink color.RGBA) { c.ink([][]point{p}, ink) }

// stroke draws a line, so many pixels wide.
func (c canvas) stroke(p []point, wide float64, dashed bool, ink color.RGBA) {
	pieces := [][]point{p}
	if dashed {
		pieces = dashes(p, 3*c.scale, 3.5*c.scale)
	}
	var bars [][]point
	for _, p := range pieces {
		for i := 1; i < len(p); i++ {
			bars = append(bars, bar(p[i-1], p[i], wide/2))
		}
	}
	c.ink(bars, ink)
}

// maxTile is as wide and high as is filled at once: what is larger, the rasterizer fills
// by sums of floating point, whose last digits are not the same on every kind of machine.
const maxTile = 512

// ink colours what lies in any of some polygons, on the part of the picture that
// they reach.
func (c canvas) ink(polygons [][]point, ink color.RGBA) {
	b := emptyBox()
	for _, p := range polygons {
		for _, q := range p {
			b = b.with(q)
		}
	}
	all := image.Rect(int(math.Floor(b.x0)), int(math.Floor(b.y0)), int(math.Ceil(b.x1))+1, int(math.Ceil(b.y1))+1).Intersect(c.img.Rect)
	for y := all.Min.Y; y < all.Max.Y; y += maxTile {
		for x := all.Min.X; x < all.Max.X; x += maxTile {
			c.inkTile(polygons, ink, image.Rect(x, y, x+maxTile, y+maxTile).Intersect(all))
		}
	}
}

func (c canvas) inkTile(polygons [][]point, ink color.RGBA, at image.Rectangle) {
	c.ras.Reset(at.Dx(), at.Dy())
	move := point{float64(at.Min.X), float64(at.Min.Y)}
	for _, p := range polygons {
		for i, q := range p {
			q = q.minus(move)
			if i == 0 {
				c.ras.MoveTo(float32(q.x), float32(q.y))
			} else {
				c.ras.LineTo(float32(q.x), float32(q.y))
			}
		}
		c.ras.ClosePath()
	}
	c.ras.Draw(c.img, at, image.NewUniform(ink), image.Point{})
}

// bar is a line with round ends, of which all go round the same way.
func bar(a, b point, r float64) []point {
	along := point{1, 0}
	if long := b.minus(a).long(); long > 0 {
		along = b.minus(a).times(1 / long)
	}
	p := make([]point, 0, 20)
	for i := range 10 {
		angle := math.Pi * (0.5 + float64(i)/9)
		p = append(p, a.plus(turned(along, angle).times(r)))
	}
	for i := range 10 {
		angle := math.Pi * (1.5 + float64(i)/9)
		p = append(p, b.plus(turned(along, angle).times(r)))
	}
	return p
}

func turned(p point, angle float64) point {
	sin, cos := math.Sincos(angle)
	return point{p.x*cos - p.y*sin, p.x*sin + p.y*cos}
}

// dashes cuts a line into pieces.
func dashes(p []point, on, off float64) [][]point {
	var out [][]point
	piece, left, drawing := []point{p[0]}, on, true
	for i := 1; i < len(p); {
		a, b := piece[len(piece)-1], p[i]
		long := b.minus(a).long()
		if long <= left {
			piece, left = append(piece, b), left-long
			i++
			continue
		}
		cut := between(a, b, left/long)
		if drawing {
			out = append(out, append(piece, cut))
		}
		piece, drawing = []point{cut}, !drawing
		left = off
		if drawing {
			left = on
		}
	}
	if drawing && len(piece) > 1 {
		out = append(out, piece)
	}
	return out
}

// text sets a text, its letter in bold.
func (c canvas) text(i item) {
	all := typefaces()
	ink := image.NewUniform(inks[i.class])
	d := font.Drawer{Dst: c.img, Src: ink, Dot: fixed.Point26_6{X: fixed.Int26_6(i.left() * c.scale * 64), Y: fixed.Int26_6(i.at.y * c.scale * 64)}}
	set := func(t typeface, text string) {
		d.Face = t.face(i.size * c.scale)
		d.DrawString(text)
	}
	if i.letter != "" {
		set(all.bold, i.letter+" ")
	}
	if i.bold {
		set(all.bold, i.text)
	} else {
		set(all.regular, i.text)
	}
}
