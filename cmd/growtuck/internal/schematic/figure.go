package schematic

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// A Figure is a garment lying flat, in cm; x goes right from the middle of the
// front, y down from the nape, the waist or the crown.
type Figure struct {
	shapes []*path
	edges  []*path // lines on the fabric: openings, ribbing, the face's edge
	dims   []dim
	small  bool // drawn smaller beside its letters: a hat, a mitten, a sock
	faults []string
}

// A dim is a line along which a part of the garment is measured.
type dim struct {
	part string
	a, b point
	// off moves the line away from the garment, in heights of a letter;
	// thin lines then go from each of the ends to fromA and fromB.
	off          point
	leads        bool
	fromA, fromB point
}

// The sizes that a part may have, in cm.
const (
	least = 0.1
	most  = 400
)

// Of draws a garment of a group from its parts' finished sizes in cm, girths
// in full. Groups are those of the garments: upper, lower, one-piece, head,
// hand and foot; the figure of another is empty. Parts that are left out are
// drawn in proportion, without a label. Where a size is not between 0.1 and 400
// cm, SVG and PNG return an error that names it.
func Of(group string, cm map[string]float64) Figure {
	d := drawer{cm: cm}
	for part, v := range cm {
		if !(v >= least && v <= most) {
			d.f.faults = append(d.f.faults, fmt.Sprintf("%s: %g cm cannot be drawn; want from %g to %d cm", part, v, least, most))
		}
	}
	if len(d.f.faults) > 0 {
		slices.Sort(d.f.faults)
		return d.f
	}
	switch {
	case group == "upper" && !d.has("chest") && d.has("hem"):
		d.poncho()
		return d.f
	case group == "head" && d.has("hood_height"):
		d.balaclava()
		return d.f
	case group == "foot" && !d.has("foot") && d.has("calf"):
		d.legWarmer()
		return d.f
	}
	switch group {
	case "upper":
		d.upper()
	case "one-piece":
		d.onePiece()
	case "lower":
		d.trousers()
	case "head":
		d.hat()
	case "hand":
		d.mitten()
	case "foot":
		d.sock()
	}
	return d.f
}

// Parts are the parts that the figure labels, in the order of drawing.
func (f Figure) Parts() []string {
	var out []string
	for _, d := range f.dims {
		out = append(out, d.part)
	}
	return out
}

func (f Figure) err() error {
	if len(f.faults) == 0 {
		return nil
	}
	return fmt.Errorf("schematic: %s", strings.Join(f.faults, "; "))
}

// box is the smallest that holds the garment, without the measurements.
func (f Figure) box() box {
	b := emptyBox()
	for _, s := range f.shapes {
		for _, p := range s.points() {
			b = b.with(p)
		}
	}
	if b.x0 > b.x1 {
		return box{0, 0, 1, 1}
	}
	return b
}

// letter is the height of letters that suits the figure, in cm.
func (f Figure) letter() float64 {
	b := f.box()
	share := 50.0
	if f.small {
		share = 20
	}
	return math.Max(b.x1-b.x0, b.y1-b.y0) / share
}

// A box is a rectangle.
type box struct{ x0, y0, x1, y1 float64 }

func emptyBox() box {
	return box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
}

func (b box) with(p point) box {
	return box{math.Min(b.x0, p.x), math.Min(b.y0, p.y), math.Max(b.x1, p.x), math.Max(b.y1, p.y)}
}

func (b box) meets(o box) bool { return b.x0 < o.x1 && o.x0 < b.x1 && b.y0 < o.y1 && o.y0 < b.y1 }

type drawer struct {
	cm map[string]float64
	f  Figure
}

// of is the size of a part, or what is usual beside others.
func (d *drawer) of(part string, usual float64) float64 {
	if v, ok := d.cm[part]; ok {
		return v
	}
	return usual
}

func (d *drawer) has(part string) bool {
	_, ok := d.cm[part]
	return ok
}

func (d *drawer) shape(p *path) {
	p.closed = true
	d.f.shapes = append(d.f.shapes, p)
}

func (d *drawer) both(p *path) {
	d.shape(p)
	d.shape(p.mirrored())
}

func (d *drawer) edge(p *path) { d.f.edges = append(d.f.edges, p) }

// dim measures along a line on the garment.
func (d *drawer) dim(part string, a, b point) {
	if d.has(part) {
		d.f.dims = append(d.f.dims, dim{part: part, a: a, b: b})
	}
}

// beside measures along a line that is moved off the garment by so many
// letters.
func (d *drawer) beside(part string, a, b, off point) {
	d.column(part, a, b, off, a, b)
}

// column measures along a line beside the garment, with thin lines to the
// points that it is measured between.
func (d *drawer) column(part string, a, b, off, fromA, fromB point) {
	if d.has(part) {
		d.f.dims = append(d.f.dims, dim{part: part, a: a, b: b, off: off, leads: true, fromA: fromA, fromB: fromB})
	}
}

// down is a length beside the garment on its left, in the first column or the
// second, between two heights.
func (d *drawer) down(part string, column int, y0, y1 float64) {
	x := d.f.box().x0
	d.column(part, point{x, y0}, point{x, y1}, point{-1.9 - 3.4*float64(column-1), 0}, point{0, y0}, point{0, y1})
}
