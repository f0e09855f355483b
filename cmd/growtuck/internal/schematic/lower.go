package schematic

import "math"

// legs are the right half from the waist down.
type legs struct {
	waist, hip, thigh, calf, ankle [2]point // the ends across
	crotch                         point
}

func (d *drawer) legs(waistAt float64) legs {
	hip := d.of("hip", d.of("chest", 60)) / 4
	waist := d.of("waist", hip*4) / 4
	rise, leg := d.of("rise", hip*1.3), d.of("inside_leg", hip*3)
	thigh := d.of("thigh", hip*2) / 2
	ankle := d.of("ankle", thigh) / 2
	calf, spread := d.of("calf", math.Max(thigh*1.4, thigh+ankle))/2, 0.16
	if !d.has("calf") && ankle > calf*0.9 { // a short leg ends above it
		spread = 0.04
	}
	hipAt, crotch := waistAt+rise*0.6, waistAt+rise
	across := func(share, wide float64) [2]point {
		middle := thigh/2 + hip*(0.03+spread*share)
		y := crotch + leg*share
		return [2]point{{math.Max(middle-wide/2, 0), y}, {math.Max(middle+wide/2, wide), y}}
	}
	return legs{
		waist: [2]point{{-waist, waistAt}, {waist, waistAt}}, hip: [2]point{{-hip, hipAt}, {hip, hipAt}},
		thigh: across(0.12, thigh), calf: across(0.55, calf), ankle: across(1, ankle), crotch: point{0, crotch},
	}
}

// outline goes on from the waist to the crotch.
func (l legs) outline(p *path) *path {
	p.smooth(l.hip[1], l.thigh[1], l.calf[1], l.ankle[1])
	p.line(l.ankle[0])
	return p.smooth(l.calf[0], l.crotch)
}

// measureLegs measures hip and right leg, and lengths beside it.
func (d *drawer) measureLegs(l legs) {
	rib := func(side func(point) point) {
		d.edge(straight(side(between(l.calf[0], l.ankle[0], 0.8)), side(between(l.calf[1], l.ankle[1], 0.8))))
	}
	rib(func(p point) point { return p })
	rib(point.mirrored)
	d.dim("hip", l.hip[0], l.hip[1])
	d.dim("thigh", l.thigh[0], l.thigh[1])
	d.dim("calf", l.calf[0], l.calf[1])
	d.beside("ankle", l.ankle[0], l.ankle[1], point{0, 1.3})
	d.down("rise", 1, l.waist[1].y, l.crotch.y)
	d.down("inside_leg", 1, l.crotch.y, l.ankle[0].y)
	if n := len(d.f.dims); d.has("inside_leg") {
		d.f.dims[n-1].fromB.x = -l.ankle[1].x
	}
}

func (d *drawer) trousers() {
	l := d.legs(0)
	d.shape(l.outline(start(0, 0).line(l.waist[1])).whole())
	band := l.hip[1].y * 0.25
	d.edge(straight(point{-l.waist[1].x, band}, point{l.waist[1].x, band}))
	d.edge(straight(point{0, band}, l.crotch))
	d.beside("waist", l.waist[0], l.waist[1], point{0, -1.3})
	d.measureLegs(l)
}

func (d *drawer) onePiece() {
	t := d.torso()
	long := math.Max(d.of("body_length", t.half*2), t.under.y*1.02)
	l := d.legs(long)
	p := t.outline().smooth(l.waist[1])
	d.shape(l.outline(p).whole())
	d.sleeves(t)
	if d.has("hood_height") {
		d.hood(t)
	} else {
		d.collar(t)
	}
	d.body(t)
	d.opening(t, l.crotch.y)
	d.dim("waist", l.waist[0], l.waist[1])
	d.down("body_length", 1, 0, d.of("body_length", long))
	d.measureLegs(l)
	d.down("trunk", 2, 0, d.of("trunk", l.crotch.y))
}

func (d *drawer) hood(t torso) {
	high := d.of("hood_height", t.half*1.8)
	half := math.Max(d.of("hood_round", t.half*3.2)/4, t.neck*1.05)
	p := t.neckline()
	p.curve(point{t.neck * 1.1, -high * 0.12}, point{half, -high * 0.2}, point{half, -high * 0.52})
	p.corner(point{half, -high}, point{0, -high})
	d.shape(p.whole())
	face := start(0, -high*0.2).corner(point{half * 0.6, -high * 0.2}, point{half * 0.6, -high * 0.54}).
		corner(point{half * 0.6, -high * 0.88}, point{0, -high * 0.88}).whole()
	d.edge(face)
	d.dim("hood_round", point{-half, -high * 0.54}, point{half, -high * 0.54})
	d.dim("neck", point{-t.neck, 0}, point{t.neck, 0})
	d.column("hood_height", point{half, -high}, point{half, 0}, point{1.9, 0}, point{0, -high}, point{0, 0})
}
