package schematic

import (
	"math"

	"growtuck/sizing/plan"
)

// legs are the right half from the waist down. The bridge between the legs makes
// each of them wider than half the hips: lying flat they spread, and where they
// still overlap the bridge lies between them.
type legs struct {
	waist, hip [2]point // the ends across
	crotch     point
	top        [2]point // of the leg, at the middle and at the side
	leg        tapered
	calf       [2]point
}

// spread is how far the legs lie apart at most, from upright.
const spread = 13 * math.Pi / 180

func (d *drawer) legs(waistAt float64) legs {
	hip := d.of("hip", d.of("chest", 60)) / 4
	waist := d.of("waist", hip*4) / 4
	rise, long := d.of("rise", hip*1.3), d.of("inside_leg", hip*3)
	thigh := d.of("thigh", hip*2) / 2
	ankle := d.of("ankle", thigh) / 2
	calf := d.of("calf", 2*(thigh+(ankle-thigh)*d.Trade.CalfShare)) / 2 // straight where it is not known, or the leg is short
	l := legs{crotch: point{0, waistAt + rise}}
	hipAt := waistAt + rise*d.Trade.HipShare
	l.waist = [2]point{{-waist, waistAt}, {waist, waistAt}}
	l.hip = [2]point{{-hip, hipAt}, {hip, hipAt}}
	turn := math.Min(spread, math.Acos(math.Min(1, hip/thigh)))
	across := point{math.Cos(turn), -math.Sin(turn)}
	// The side is straight from the hips to where the leg turns out.
	side := point{hip, l.crotch.y - hip*math.Tan(turn)}
	side.y = math.Max(side.y, hipAt+0.01)
	l.top = [2]point{side.minus(across.times(thigh)), side}
	l.leg = d.taper(l.top[0], l.top[1], ankle, long)
	middle := between(l.top[0], l.top[1], 0.5).plus(l.leg.along.times(long * d.Trade.CalfShare))
	l.calf = [2]point{middle.minus(across.times(calf / 2)), middle.plus(across.times(calf / 2))}
	return l
}

// down goes on from the side of the leg's top round its end to the middle.
func (l legs) down(p *path) *path {
	t := l.leg
	p.smooth(l.calf[1], t.outerCuff).line(t.outerEnd, t.innerEnd, t.innerCuff)
	return p.smooth(l.calf[0], l.top[0])
}

// drawLegs draws body and legs below a path that has come to the waist, and
// measures them.
func (d *drawer) drawLegs(upper *path, l legs) {
	body := upper.smooth(l.hip[1]).line(l.top[1])
	if l.top[0].x > 0 { // legs that do not meet
		body.line(point{l.top[0].x, l.top[0].y}, point{0, l.crotch.y})
	} else {
		body.line(l.crotch)
	}
	if t := d.torso(); d.Group == "one-piece" {
		d.trunk(t, body)
	} else {
		d.shape(body.whole())
	}
	d.both(l.down(start(l.top[1].x, l.top[1].y)))
	d.bridge(l)
	d.cuffs(l.leg)
	calfDown := l.calf[0].minus(l.leg.inner).long()
	d.folds(plan.LegRoom, [2]point{l.leg.innerEnd, l.leg.outerEnd}, l.calf, d.of("inside_leg", calfDown)*(1-d.Trade.CalfShare), true)
	if d.Group == "one-piece" {
		d.folds(plan.BodyRoom, [2]point{{-l.top[1].x, l.crotch.y}, {l.top[1].x, l.crotch.y}}, l.hip, l.crotch.y-l.hip[1].y, false)
	}
	long := d.of("inside_leg", l.leg.innerEnd.minus(l.leg.inner).long())
	inner := start(l.leg.innerEnd.x, l.leg.innerEnd.y).line(l.leg.innerCuff).smooth(l.calf[0], l.top[0])
	slant := math.Hypot(long, (l.top[1].minus(l.top[0]).long()-l.leg.outerEnd.minus(l.leg.innerEnd).long())/2)
	d.is("inseam", inner, slant)
	d.is("outside of the leg", start(l.top[1].x, l.top[1].y).smooth(l.calf[1], l.leg.outerCuff).line(l.leg.outerEnd), slant)
	d.is("end of the leg", straight(l.leg.innerEnd, l.leg.outerEnd), d.of("ankle", 2*l.leg.outerEnd.minus(l.leg.innerEnd).long())/2)
	d.is("top of the leg", straight(l.top[0], l.top[1]), d.of("thigh", 2*l.top[1].minus(l.top[0]).long())/2)
	d.is("side, waist to leg", start(l.waist[1].x, l.waist[1].y).smooth(l.hip[1]).line(l.top[1]), l.hip[1].minus(l.waist[1]).long()+l.top[1].y-l.hip[1].y)
	d.across("hip", l.hip[0], l.hip[1])
	d.across("thigh", l.top[0], l.top[1])
	d.across("calf", l.calf[0], l.calf[1])
	d.beside("ankle", l.leg.innerEnd, l.leg.outerEnd, l.leg.along.times(1))
	d.down("rise", 1, l.waist[1].y, l.crotch.y)
	// Between the legs, on the left one, where there is room.
	a := between(l.top[0], l.top[1], 0.5).mirrored()
	along := l.leg.along.mirrored()
	across := l.top[1].minus(l.top[0])
	across = across.times(1 / across.long()).mirrored()
	from := a.minus(across.times(l.top[1].minus(l.top[0]).long() / 2))
	d.column("inside_leg", from, from.plus(along.times(long)), across.times(-1.4), from, l.leg.innerEnd.mirrored())
}

// bridge draws the stitches between the legs: what of a leg's top goes over the
// middle.
func (d *drawer) bridge(l legs) {
	if l.top[0].x >= 0 {
		return
	}
	in := l.down(start(l.top[1].x, l.top[1].y)).points()
	// Where the inside of the leg comes back over the middle.
	low := l.top[0]
	for i := len(in) - 1; i > 0; i-- {
		if in[i].x >= 0 {
			low = between(in[i+1], in[i], in[i+1].x/(in[i+1].x-in[i].x))
			break
		}
	}
	p := straight(l.crotch, l.top[0], low)
	d.drawBoth("edge", p)
	for i := 1; i < 6; i++ {
		t := float64(i) / 6
		a := between(l.crotch, l.top[0], math.Min(1, 2*t))
		if t > 0.5 {
			a = between(l.top[0], low, 2*t-1)
		}
		d.draw("rib", straight(a, a.mirrored()))
	}
}

func (d *drawer) trousers() {
	l := d.legs(0)
	d.ghostLegs(l)
	band := math.Min(d.Trade.Hem, l.crotch.y*d.Trade.HemMost)
	waist := l.waist[1]
	d.drawLegs(start(0, 0).line(waist, point{waist.x, band}), l)
	d.rib(point{-waist.x, band}, point{waist.x, band}, l.waist[0], waist)
	d.folds(plan.RiseRoom, [2]point{{-l.hip[1].x, l.crotch.y}, {l.hip[1].x, l.crotch.y}}, l.waist, l.crotch.y, false)
	d.is("waist edge", straight(l.waist[0], l.waist[1]), d.of("waist", waist.x*4)/2)
	d.beside("waist", l.waist[0], l.waist[1], point{0, -1.1})
	if d.has("strap_length") {
		d.strap()
	}
}

// strap is one strap, flat above the waist.
func (d *drawer) strap() {
	half, low := d.of("strap_length", 1)/2, -3*d.Trade.Strap
	high := low - d.Trade.Strap
	p := start(-half, low).line(point{half, low}, point{half, high}, point{-half, high}, point{-half, low})
	d.shape(p)
	d.is("strap", straight(point{-half, low}, point{half, low}), 2*half)
	d.along("strap_length", point{-half, (low + high) / 2}, point{half, (low + high) / 2})
}

func (d *drawer) onePiece() {
	t := d.torso()
	long := math.Max(d.of("body_length", t.half*2), t.under.y*1.02)
	l := d.legs(long)
	d.ghostUpper(t, l.crotch.y)
	d.ghostLegs(l)
	d.drawLegs(d.outline(t).smooth(l.waist[1]), l)
	d.is("side, underarm to waist", start(t.under.x, t.under.y).smooth(l.waist[1]), math.Hypot(long-t.under.y, l.waist[1].x-t.half))
	d.sleeves(t)
	d.collar(t)
	if d.has("hood_height") {
		d.hood(t)
	}
	d.body(t)
	d.opens(t, l.crotch.y)
	d.across("waist", l.waist[0], l.waist[1])
	d.down("body_length", 1, 0, d.of("body_length", long))
	d.down("trunk", 2, 0, d.of("trunk", l.crotch.y))
}
