package schematic

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"growtuck/sizing/plan"
)

// A Garment is what is drawn: the parts' finished sizes in cm, girths in full,
// and how the garment is made. Parts that are left out are drawn in proportion,
// without a line. The zero value of everything else is what is usual.
type Garment struct {
	Group string // of the garments: upper, lower, one-piece, head, hand, foot
	Front bool   // it opens down the front
	Cm    map[string]float64
	Body  map[string]float64 // the child's measurements, drawn under it; may be empty

	Construction plan.Construction
	Closure      plan.Closure
	Hood         plan.Hood
	Folds        []Fold // room to grow that is held
	Trade        Trade
}

// Trade are the figures of the trade that a drawing goes by, in cm and shares.
type Trade struct {
	Hem, Cuff, Band, Edge, ZipperGap float64 // depths
	NeckDrop                         float64 // of the front neck below the nape
	ButtonSpacing, ButtonEnd         float64
	Strap                            float64 // width, cm
	HemMost, CuffMost                float64 // of the length that they end
	RibShare                         float64
	HipShare, SkirtHipShare          float64 // of the way from waist to crotch, or down a skirt
	CalfShare                        float64 // of the way down the leg
	HoodCrown, HoodCrownShare        float64 // its height in cm, and the stitches it takes away
	HoodIncrease                     float64
}

// A Figure is a garment lying flat, in cm; x goes right from the middle of the
// front, y down from the nape, the waist or the crown.
type Figure struct {
	shapes []*path
	lines  []line // on the fabric
	ghost  []*path
	dims   []dim
	edges  []edgeLength
	small  bool // drawn smaller beside its letters: a hat, a mitten, a sock
	faults []string
}

// A line is drawn on the fabric.
type line struct {
	path *path
	kind string // outline, edge, fold or rib: the end of its class
}

// A dim is a line along which a part of the garment is measured.
type dim struct {
	part string
	a, b point
	half bool // the line is half of what goes all round
	// off moves the line away from the garment, in heights of a letter;
	// thin lines then go from each of the ends to fromA and fromB.
	off          point
	leads        bool
	fromA, fromB point
}

// An edgeLength is an edge of the outline, and what the measurements say that it
// is long.
type edgeLength struct {
	name     string
	cm, want float64
}

// The sizes that a part may have, in cm.
const (
	least = 0.1
	most  = 400
)

// Of draws a garment. The figure of a group that there is not is empty. Where a
// size is not between 0.1 and 400 cm, SVG and PNG return an error that names it.
func Of(g Garment) Figure {
	d := drawer{Garment: g}
	for part, v := range g.Cm {
		if !(v >= least && v <= most) {
			d.f.faults = append(d.f.faults, fmt.Sprintf("%s: %g cm cannot be drawn; want from %g to %d cm", part, v, least, most))
		}
	}
	if len(d.f.faults) > 0 {
		slices.Sort(d.f.faults)
		return d.f
	}
	d.Trade = d.Trade.orUsual()
	switch {
	case g.Group == "upper" && !d.has("chest") && d.has("hem"):
		d.poncho()
		return d.f
	case g.Group == "head" && d.has("hood_height"):
		d.balaclava()
		return d.f
	case g.Group == "foot" && !d.has("foot") && d.has("calf"):
		d.legWarmer()
		return d.f
	}
	switch g.Group {
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

// orUsual fills in what is not given, for a drawing without tables.
func (t Trade) orUsual() Trade {
	if t.Hem > 0 {
		return t
	}
	return Trade{Strap: 3, Hem: 4, Cuff: 4, Band: 2.5, Edge: 1, ZipperGap: 1, NeckDrop: 5, ButtonSpacing: 6, ButtonEnd: 1.5, HemMost: 0.25, CuffMost: 1.0 / 3, RibShare: 0.9,
		HipShare: 2.0 / 3, SkirtHipShare: 1.0 / 3, CalfShare: 0.6, HoodCrown: 10, HoodCrownShare: 0.25, HoodIncrease: 4}
}

// Parts are the parts that the figure has a line for, in the order of drawing.
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
	for _, s := range slices.Concat(f.shapes, f.ghost) {
		o := boxOf(s)
		b = b.with(point{o.x0, o.y0}).with(point{o.x1, o.y1})
	}
	if b.x0 > b.x1 {
		return box{0, 0, 1, 1}
	}
	return b
}

// letter is the height of letters that suits the figure, in cm: so many go
// across it that it is legible on a phone.
func (f Figure) letter() float64 {
	b := f.box()
	across, down := 23.0, 34.0
	if f.small {
		across, down = 14, 18
	}
	return math.Max((b.x1-b.x0)/across, (b.y1-b.y0)/down)
}

// A box is a rectangle.
type box struct{ x0, y0, x1, y1 float64 }

func emptyBox() box {
	return box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
}

func (b box) with(p point) box {
	return box{math.Min(b.x0, p.x), math.Min(b.y0, p.y), math.Max(b.x1, p.x), math.Max(b.y1, p.y)}
}

func boxOf(p *path) box {
	b := emptyBox()
	for _, q := range p.points() {
		b = b.with(q)
	}
	return b
}

func (b box) meets(o box) bool { return b.x0 < o.x1 && o.x0 < b.x1 && b.y0 < o.y1 && o.y0 < b.y1 }

type drawer struct {
	Garment
	f Figure
}

// of is the size of a part, or what is usual beside others.
func (d *drawer) of(part string, usual float64) float64 {
	if v, ok := d.Cm[part]; ok {
		return v
	}
	return usual
}

func (d *drawer) has(part string) bool {
	_, ok := d.Cm[part]
	return ok
}

// shape draws a piece of fabric with its outline.
func (d *drawer) shape(p *path) {
	p.closed = true
	d.f.shapes = append(d.f.shapes, p)
	d.f.lines = append(d.f.lines, line{p, "outline"})
}

func (d *drawer) both(p *path) {
	d.shape(p)
	d.shape(p.mirrored())
}

// draw draws a line on the fabric; drawBoth on both sides.
func (d *drawer) draw(kind string, p *path) { d.f.lines = append(d.f.lines, line{p, kind}) }

func (d *drawer) drawBoth(kind string, p *path) {
	d.draw(kind, p)
	d.draw(kind, p.mirrored())
}

// is says how long an edge of the outline is to be.
func (d *drawer) is(name string, p *path, want float64) {
	d.f.edges = append(d.f.edges, edgeLength{name, p.long(), want})
}

// measure adds a line along which a part is measured.
func (d *drawer) measure(m dim) {
	if d.has(m.part) {
		d.f.dims = append(d.f.dims, m)
	}
}

// across measures half a girth on the garment, along a length of it.
func (d *drawer) across(part string, a, b point) { d.measure(dim{part: part, a: a, b: b, half: true}) }
func (d *drawer) along(part string, a, b point)  { d.measure(dim{part: part, a: a, b: b}) }

// beside measures half a girth along a line that is moved off the garment by so
// many letters.
func (d *drawer) beside(part string, a, b, off point) {
	d.measure(dim{part: part, a: a, b: b, off: off, half: true, leads: true, fromA: a, fromB: b})
}

// column measures a length along a line beside the garment, with thin lines to
// the points that it is measured between.
func (d *drawer) column(part string, a, b, off, fromA, fromB point) {
	d.measure(dim{part: part, a: a, b: b, off: off, leads: true, fromA: fromA, fromB: fromB})
}

// down is a length beside the garment on its left, in the first column or the
// second, between two heights.
func (d *drawer) down(part string, column int, y0, y1 float64) {
	x := d.f.box().x0
	d.column(part, point{x, y0}, point{x, y1}, point{-1.9 - 2.8*float64(column-1), 0}, point{0, y0}, point{0, y1})
}
