package schematic

import "math"

// A Figure is a garment lying flat, in cm; x goes right from the middle of the
// front, y down from the nape, the waist or the crown.
type Figure struct {
	shapes [][]point
	edges  [][]point // lines on the fabric: openings, the face's edge
	dims   []Dim
}

type point struct{ x, y float64 }

// A Dim is a line along which a part of the garment is measured.
type Dim struct {
	Part string
	a, b point
}

// Of draws a garment of a group from its parts' finished sizes in cm. Parts
// that are not known are drawn in proportion, without a label.
func Of(group string, cm map[string]float64) Figure {
	d := drawer{cm: cm}
	switch group {
	case "upper":
		d.upper()
	case "one-piece":
		d.onePiece()
	case "lower":
		d.lower(0)
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
		out = append(out, d.Part)
	}
	return out
}

type drawer struct {
	cm map[string]float64
	f  Figure
}

// of is the size of a part, or what is usual beside others.
func (d *drawer) of(part string, usual float64) float64 {
	if v := d.cm[part]; v > 0 && !math.IsInf(v, 0) {
		return v
	}
	return usual
}

func (d *drawer) has(part string) bool { return d.cm[part] > 0 }

func (d *drawer) shape(p ...point) { d.f.shapes = append(d.f.shapes, p) }

func (d *drawer) dim(part string, a, b point) {
	if d.has(part) {
		d.f.dims = append(d.f.dims, Dim{part, a, b})
	}
}

// mirrored is the shape on the other side.
func mirrored(p []point) []point {
	out := make([]point, len(p))
	for i, q := range p {
		out[i] = point{-q.x, q.y}
	}
	return out
}

func (d *drawer) both(p ...point) {
	d.shape(p...)
	d.shape(mirrored(p)...)
}

// top draws body and sleeves down to the length given, to a half width there.
func (d *drawer) top(length, bottom float64) {
	chest := d.of("chest", 60)
	half := chest / 4
	neck := d.of("neck", chest*0.42) * 0.18
	shoulder := math.Min(d.of("cross_back", half*1.7)/2, half)
	drop := chest * 0.035
	arm := d.of("armhole_depth", chest*0.24) + drop
	deep := chest * 0.08
	if d.has("sleeve_length") {
		const cos, sin = 0.643, 0.766 // 50 degrees down
		l, cuff, wide := d.of("sleeve_length", half*1.6), d.of("cuff", chest*0.2)/2, d.of("upper_arm", chest*0.36)/2
		under := point{half, arm}
		end := point{under.x + cos*l, under.y + sin*l}
		outer := point{end.x + sin*cuff, end.y - cos*cuff}
		d.both(point{shoulder, drop}, under, end, outer)
		off := chest * 0.035
		d.dim("sleeve_length", point{under.x - sin*off + cos*off, under.y + cos*off + sin*off}, point{end.x - sin*off, end.y + cos*off})
		d.dim("cuff", point{end.x + cos*off, end.y + sin*off}, point{outer.x + cos*off, outer.y + sin*off})
		at := l * 0.18
		d.dim("upper_arm", point{under.x + cos*at, under.y + sin*at}, point{under.x + cos*at + sin*wide*0.95, under.y + sin*at - cos*wide*0.95})
	}
	d.shape(point{-neck, 0}, point{-shoulder, drop}, point{-half, arm}, point{-bottom, length}, point{bottom, length}, point{half, arm},
		point{shoulder, drop}, point{neck, 0}, point{neck * 0.6, deep * 0.8}, point{0, deep}, point{-neck * 0.6, deep * 0.8})
	d.dim("cross_back", point{-shoulder, drop + (arm-drop)*0.55}, point{shoulder, drop + (arm-drop)*0.55})
	d.dim("chest", point{-half, arm + chest*0.05}, point{half, arm + chest*0.05})
	d.dim("armhole_depth", point{-shoulder * 0.72, drop}, point{-shoulder * 0.72, arm})
	d.dim("body_length", point{-half * 0.38, 0}, point{-half * 0.38, d.of("body_length", length)})
	if !d.has("hood_height") {
		d.dim("neck", point{-neck, -chest * 0.04}, point{neck, -chest * 0.04})
	}
	if d.has("front_opening") {
		top := point{0, deep}
		bottom := point{0, math.Min(deep+d.of("front_opening", length), d.of("trunk", length)+chest*0.1)}
		if !d.has("rise") {
			bottom.y = length
		}
		d.f.edges = append(d.f.edges, []point{top, bottom})
		d.dim("front_opening", point{half * 0.4, top.y}, point{half * 0.4, bottom.y})
	}
}

func (d *drawer) upper() {
	chest := d.of("chest", 60)
	length := d.of("body_length", chest*0.6)
	if !d.has("skirt_length") {
		d.top(length, chest/4)
		return
	}
	waist, hip, skirt := d.of("waist", chest*0.9)/4, d.of("skirt_hip", chest*1.1)/4, d.of("skirt_length", length)
	d.top(length, waist)
	hem := hip * 1.3
	d.shape(point{-waist, length}, point{-hip, length + skirt*0.35}, point{-hem, length + skirt}, point{hem, length + skirt}, point{hip, length + skirt*0.35}, point{waist, length})
	d.dim("waist", point{-waist, length}, point{waist, length})
	d.dim("skirt_hip", point{-hip, length + skirt*0.35}, point{hip, length + skirt*0.35})
	d.dim("skirt_length", point{hip * 0.5, length}, point{hip * 0.5, length + skirt})
}

func (d *drawer) onePiece() {
	chest := d.of("chest", 60)
	length := d.of("body_length", chest*0.5)
	if d.has("hood_height") {
		d.hood(chest)
	}
	d.lower(length)
	d.top(length, d.of("waist", chest*0.95)/4)
}

func (d *drawer) hood(chest float64) {
	high, half := d.of("hood_height", chest*0.45), d.of("hood_round", chest*0.8)/4
	neck := d.of("neck", chest*0.42) * 0.2
	d.shape(point{-neck, chest * 0.02}, point{-half * 0.9, -high * 0.25}, point{-half, -high * 0.6}, point{-half * 0.7, -high * 0.9}, point{0, -high},
		point{half * 0.7, -high * 0.9}, point{half, -high * 0.6}, point{half * 0.9, -high * 0.25}, point{neck, chest * 0.02})
	var face []point
	for i := 0; i <= 24; i++ {
		a := float64(i) / 24 * 2 * math.Pi
		face = append(face, point{half * 0.6 * math.Cos(a), -high*0.5 + high*0.36*math.Sin(a)})
	}
	d.f.edges = append(d.f.edges, face)
	d.dim("hood_round", point{-half, -high * 0.6}, point{half, -high * 0.6})
	d.dim("hood_height", point{half * 1.2, 0}, point{half * 1.2, -high})
	d.dim("neck", point{-neck * 0.9, chest * 0.015}, point{neck * 0.9, chest * 0.015})
}

// lower draws seat and legs from the waist down.
func (d *drawer) lower(waistAt float64) {
	chest := d.of("chest", 60)
	hip := d.of("hip", chest) / 4
	waist := d.of("waist", hip*4) / 4
	rise := d.of("rise", hip*1.3)
	leg := d.of("inside_leg", hip*3)
	hipAt, crotch := waistAt+rise*0.6, waistAt+rise
	thigh := math.Min(d.of("thigh", hip*2)/2, hip*1.02)
	calf, ankle := d.of("calf", thigh*1.4)/2, d.of("ankle", thigh)/2
	middle := func(share float64) float64 { return thigh/2 + share*hip*0.16 + hip*0.03 }
	side := func(y, wide, share float64) (in, out point) {
		return point{middle(share) - wide/2, y}, point{middle(share) + wide/2, y}
	}
	_, t1 := side(crotch+leg*0.06, thigh, 0.06)
	k0, k1 := side(crotch+leg*0.55, calf, 0.55)
	a0, a1 := side(crotch+leg, ankle, 1)
	d.both(point{0, waistAt}, point{waist, waistAt}, point{hip, hipAt}, t1, k1, a1, a0, k0, point{0, crotch})
	d.dim("waist", point{-waist, waistAt}, point{waist, waistAt})
	d.dim("hip", point{-hip, hipAt}, point{hip, hipAt})
	d.dim("rise", point{-hip * 0.62, waistAt}, point{-hip * 0.62, crotch})
	d.dim("trunk", point{hip * 0.78, chest * 0.04}, point{hip * 0.78, crotch})
	h0, h1 := side(crotch+leg*0.1, thigh*0.96, 0.1)
	d.dim("thigh", h0, h1)
	d.dim("calf", k0, k1)
	d.dim("ankle", point{a0.x, a0.y + hip*0.12}, point{a1.x, a1.y + hip*0.12})
	d.dim("inside_leg", point{0, crotch}, point{0, crotch + leg})
}

func (d *drawer) hat() {
	half, high := d.of("brim", 46)/4, d.of("hat_height", 19)
	dome := []point{{-half, high}}
	for i := 0; i <= 24; i++ {
		a := math.Pi - float64(i)/24*math.Pi
		dome = append(dome, point{half * math.Cos(a), high*0.62 - high*0.62*math.Sin(a)})
	}
	d.shape(append(dome, point{half, high})...)
	d.f.edges = append(d.f.edges, []point{{-half, high * 0.86}, {half, high * 0.86}})
	d.dim("brim", point{-half, high * 1.08}, point{half, high * 1.08})
	d.dim("hat_height", point{half * 1.15, 0}, point{half * 1.15, high})
}

func (d *drawer) mitten() {
	half, long := d.of("hand", 14)/4, d.of("hand_length", 12)
	cuff, thumb := d.of("cuff", 12)/4, d.of("thumb_length", long*0.32)
	deep := long * 0.4
	start := long * 0.62 // of the thumb
	d.shape(point{half * 0.8, start}, point{half + thumb*0.45, start - thumb*0.75}, point{half + thumb*0.45 + half*0.5, start - thumb*0.55}, point{half, start + half*0.7})
	var hand []point
	for i := 0; i <= 24; i++ {
		a := math.Pi - float64(i)/24*math.Pi
		hand = append(hand, point{half * math.Cos(a), half - half*math.Sin(a)})
	}
	d.shape(append(hand, point{half, long * 0.9}, point{cuff, long}, point{cuff, long + deep}, point{-cuff, long + deep}, point{-cuff, long}, point{-half, long * 0.9})...)
	d.f.edges = append(d.f.edges, []point{{-cuff, long}, {cuff, long}})
	d.dim("hand", point{-half, long * 0.45}, point{half, long * 0.45})
	d.dim("hand_length", point{-half * 1.25, 0}, point{-half * 1.25, long})
	d.dim("thumb_length", point{half * 1.15, start}, point{half*1.15 + thumb*0.45, start - thumb*0.85})
	d.dim("cuff", point{-cuff, long + deep*1.15}, point{cuff, long + deep*1.15})
}

func (d *drawer) sock() {
	ankle, foot := d.of("ankle", 17)/2, d.of("foot", 15)/2
	long, high := d.of("foot_length", 15), d.of("leg_height", 12)
	d.shape(point{0, 0}, point{ankle, 0}, point{ankle, high}, point{long - foot*0.4, high + foot*0.1}, point{long, high + foot*0.5}, point{long - foot*0.2, high + foot}, point{foot * 0.3, high + foot}, point{0, high + foot*0.6})
	d.f.edges = append(d.f.edges, []point{{0, high * 0.3}, {ankle, high * 0.3}})
	d.dim("ankle", point{0, high * 0.7}, point{ankle, high * 0.7})
	d.dim("leg_height", point{-ankle * 0.2, 0}, point{-ankle * 0.2, high + foot})
	d.dim("foot", point{long * 0.62, high + foot*0.05}, point{long * 0.62, high + foot})
	d.dim("foot_length", point{0, high + foot*1.2}, point{long, high + foot*1.2})
}
