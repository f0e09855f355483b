package schematic

import (
	"math"
	"slices"

	"growtuck/sizing/plan"
)

// A torso is the outline of the upper body, of which the right half is drawn.
type torso struct {
	half     float64 // of the chest lying flat
	neck     float64 // half as wide as the neck opens
	deep     float64 // of the front neck
	shoulder point   // its tip
	under    point   // the underarm
	sleeves  bool
}

func (d *drawer) torso() torso {
	chest := d.of("chest", 60)
	t := torso{half: chest / 4, sleeves: d.has("sleeve_length")}
	t.under = point{t.half, d.of("armhole_depth", chest*0.24)}
	switch {
	case !t.sleeves:
		t.shoulder = point{math.Min(d.of("cross_back", chest*0.42)/2, t.half), 0}
	case d.Construction == plan.DropShoulder:
		t.shoulder = point{t.half, 0}
	default:
		t.shoulder = point{t.half * 0.86, t.under.y * 0.2}
	}
	t.deep = math.Min(d.Trade.NeckDrop, t.under.y*0.6)
	t.neck = neckHalf(d.of("neck", chest*0.42), t.deep, t.shoulder.x*0.8)
	return t
}

// armhole goes from the shoulder's tip to the underarm: straight, and out in its
// last third.
func (t torso) armhole(p *path) *path {
	down := t.under.y - t.shoulder.y
	p.line(point{t.shoulder.x, t.shoulder.y + down*0.6})
	return p.corner(point{t.shoulder.x, t.under.y}, t.under)
}

// outline is the right half from the front neck to the underarm.
func (d *drawer) outline(t torso) *path {
	p := neckline(t.neck, t.deep)
	switch {
	case !t.sleeves, d.Construction == plan.DropShoulder:
		p.line(t.shoulder)
		if !t.sleeves {
			return t.armhole(p)
		}
		return p.line(t.under)
	}
	if d.Construction == plan.Raglan {
		front := p.points()
		return straight(front[:len(front)*3/4+1]...).line(t.under)
	}
	return p.line(t.under)
}

// round reports a round yoke, from which body and sleeves grow without a seam.
func (d *drawer) round(t torso) bool {
	return t.sleeves && d.Construction != plan.Raglan && d.Construction != plan.DropShoulder
}

// trunk draws the body, of which the right half begins at the front of the neck.
func (d *drawer) trunk(t torso, right *path) {
	if !d.round(t) {
		d.shape(right.whole())
		return
	}
	below := start(t.under.x, t.under.y)
	i := slices.IndexFunc(right.segments, func(s segment) bool { return s.to == t.under })
	below.segments = append(below.segments, right.segments[i+1:]...)
	d.drawBoth("outline", below)
	d.f.shapes = append(d.f.shapes, right.whole())
}

// sleeves draws both sleeves, and how they meet the body, and measures the right
// one.
func (d *drawer) sleeves(t torso) {
	if !t.sleeves {
		d.armbands(t)
		return
	}
	s, _ := d.sleeve(t)
	long, wide, cuff := d.of("sleeve_length", 0), s.outer.minus(s.inner).long(), s.outerEnd.minus(s.innerEnd).long()
	if d.Construction == plan.DropShoulder {
		d.both(straight(s.outer, s.outerCuff, s.outerEnd, s.innerEnd, s.innerCuff, s.inner))
	} else {
		d.yokeSleeve(t, s)
	}
	d.cuffs(s)
	slant := math.Hypot(long, (wide-cuff)/2)
	d.is("sleeve top", straight(s.outer, s.outerCuff, s.outerEnd), slant)
	d.is("underarm seam of the sleeve", straight(s.inner, s.innerCuff, s.innerEnd), slant)
	d.is("end of the sleeve", straight(s.innerEnd, s.outerEnd), cuff)
	off := s.outer.minus(s.inner).times(1 / (2 * wide))
	d.across("upper_arm", s.inner, s.outer)
	top := between(s.inner, s.outer, 0.5).plus(off.times(wide * 2))
	from := s.outer
	d.column("sleeve_length", top, top.plus(s.along.times(long)), off.times(1.6), from, s.outerEnd)
	d.beside("cuff", s.innerEnd, s.outerEnd, s.along.times(1))
}

// sleeve is the right sleeve, and where its top comes from: the neck or, of a drop
// shoulder, the side of the body along which it is picked up and lies straight out.
func (d *drawer) sleeve(t torso) (tapered, point) {
	long, cuff, wide := d.of("sleeve_length", 0), d.of("cuff", t.half*0.8)/2, d.of("upper_arm", t.half*1.4)/2
	if d.Construction == plan.DropShoulder {
		top := point{t.half, 0}
		return d.taper(point{t.half, wide}, top, cuff, long), top
	}
	const down = 57 * math.Pi / 180 // from level
	across := point{math.Sin(down), -math.Cos(down)}
	return d.taper(t.under, t.under.plus(across.times(wide)), cuff, long), point{t.neck, 0}
}

// yokeSleeve draws a sleeve with its share of the yoke, and the yoke's lines.
func (d *drawer) yokeSleeve(t torso, s tapered) {
	top := point{t.neck, 0}
	p := start(top.x, top.y)
	reach := s.outer.minus(top)
	neck := neckline(t.neck, t.deep).points()
	if d.Construction == plan.Raglan {
		// Straight from the neck to the sleeve, as a raglan falls.
		p.curve(between(top, s.outer, 0.4).plus(point{0, -0.4}), s.outer.minus(s.along.times(2)), s.outer)
		p.line(s.outerCuff, s.outerEnd, s.innerEnd, s.innerCuff, s.inner)
		p.line(neck[len(neck)*3/4:]...)
		d.both(p)
		return
	}
	p.curve(top.plus(point{reach.x * 0.55, reach.y * 0.08}), s.outer.minus(s.along.times(reach.long()*0.35)), s.outer)
	shoulder := p.points()
	p.line(s.outerCuff, s.outerEnd, s.innerEnd, s.innerCuff, s.inner)
	// Yoke, body and sleeve are one fabric: no line goes up to the neck.
	d.drawBoth("outline", p)
	filled := &path{from: p.from, segments: p.segments, closed: true}
	d.f.shapes = append(d.f.shapes, filled, filled.mirrored())
	d.rings(t, s, shoulder)
}

// rings are the end of a round yoke, through both underarms, and two of its rounds:
// as far from the neck at the sleeve as at the front.
func (d *drawer) rings(t torso, s tapered, top []point) {
	neck := neckline(t.neck, t.deep).points()
	corner := neck[len(neck)/2]
	low := point{0, t.under.y + 0.04*t.half}
	for _, share := range []float64{1, 0.66, 0.33} {
		kind := "edge"
		if share < 1 {
			kind = "fold"
		}
		a, b := between(point{0, t.deep}, low, share), between(corner, t.under, share)
		end := top[int(share*float64(len(top)-1))]
		out := b.plus(point{(b.x - a.x) * 0.2, -(t.under.y - t.deep) * 0.12})
		p := start(a.x, a.y).curve(point{a.x + (b.x-a.x)*0.55, a.y}, b.minus(out.minus(b).times(1.2)), b)
		p.curve(out, end.plus(s.inner.minus(s.outer).times(0.25*share)), end)
		d.drawBoth(kind, p)
	}
}

// armbands are the ribbing round an armhole.
func (d *drawer) armbands(t torso) {
	band := math.Min(d.Trade.Band*0.8, (t.half-t.shoulder.x)*0.8+0.6)
	edge := t.armhole(start(t.shoulder.x, t.shoulder.y))
	out := edge.moved(func(p point) point {
		return point{p.x + band*(1-0.35*(p.x-t.shoulder.x)/math.Max(0.1, t.half-t.shoulder.x)), p.y - band*0.45*(p.x-t.shoulder.x)/math.Max(0.1, t.half-t.shoulder.x)}
	})
	strip := &path{from: edge.from, segments: append([]segment(nil), edge.segments...)}
	back := out.reversed()
	strip.line(back.from)
	strip.segments = append(strip.segments, back.segments...)
	d.both(strip)
	a, b := edge.points(), out.points()
	for i := 1; i+1 < len(a); i += 2 {
		d.drawBoth("rib", straight(a[i], b[i]))
	}
}

// body measures what lies between the neck and the underarm.
func (d *drawer) body(t torso) {
	across := d.of("cross_back", 0) / 2
	if t.sleeves && d.Construction == plan.DropShoulder {
		delete(d.Cm, "cross_back") // which no edge of it has
	}
	at := t.under.y * 0.62
	d.along("cross_back", point{-across, at}, point{across, at})
	d.across("chest", point{-t.half, t.under.y}, point{t.half, t.under.y})
	x := -(t.neck + t.half) / 2
	d.along("armhole_depth", point{x, 0}, point{x, t.under.y})
}

// opens draws the opening down the front, to a height at the most, and measures it.
func (d *drawer) opens(t torso, most float64) {
	if !d.has("front_opening") {
		return
	}
	long := d.of("front_opening", 0)
	bottom := math.Min(t.deep+long, most)
	d.opening(t.deep, bottom)
	d.is("front opening", straight(point{0, t.deep}, point{0, bottom}), long)
	x := t.half * 0.4
	d.along("front_opening", point{x, t.deep}, point{x, t.deep + long})
}

func (d *drawer) upper() {
	chest := d.of("chest", 60)
	t := d.torso()
	long := math.Max(d.of("body_length", chest*0.6), t.under.y*1.02)
	d.ghostUpper(t, long)
	if d.has("skirt_length") {
		d.dress(t, long)
		return
	}
	d.trunk(t, d.outline(t).line(point{t.half, long}, point{0, long}))
	d.is("side seam", straight(t.under, point{t.half, long}), d.of("body_length", long)-t.under.y)
	d.is("hem", straight(point{-t.half, long}, point{t.half, long}), chest/2)
	hem := long - math.Min(d.Trade.Hem, long*d.Trade.HemMost)
	d.rib(point{-t.half, hem}, point{t.half, hem}, point{-t.half, long}, point{t.half, long})
	d.sleeves(t)
	d.collar(t)
	d.body(t)
	d.opens(t, long)
	d.down("body_length", 1, 0, d.of("body_length", long))
}

func (d *drawer) dress(t torso, long float64) {
	chest := d.of("chest", 60)
	waist, hip, skirt := d.of("waist", chest*0.9)/4, d.of("skirt_hip", chest*1.1)/4, d.of("skirt_length", long)
	hipAt, hem := long+skirt*d.Trade.SkirtHipShare, long+skirt
	if rise, ok := d.Body["rise"]; ok {
		hipAt = long + math.Min(rise*d.Trade.HipShare, skirt*0.8)
	}
	d.trunk(t, d.outline(t).smooth(point{waist, long}).smooth(point{hip, hipAt}).line(point{hip, hem}, point{0, hem}))
	d.is("side of the bodice", start(t.under.x, t.under.y).smooth(point{waist, long}), math.Hypot(d.of("body_length", long)-t.under.y, waist-t.half))
	d.is("side of the skirt", start(waist, long).smooth(point{hip, hipAt}).line(point{hip, hem}), math.Hypot(hipAt-long, hip-waist)+hem-hipAt)
	d.is("hem", straight(point{-hip, hem}, point{hip, hem}), d.of("skirt_hip", hip*4)/2)
	d.sleeves(t)
	d.collar(t)
	d.body(t)
	d.draw("edge", straight(point{-waist, long}, point{waist, long}))
	d.across("waist", point{-waist, long}, point{waist, long})
	d.across("skirt_hip", point{-hip, hipAt}, point{hip, hipAt})
	d.opens(t, hem)
	d.down("body_length", 1, 0, long)
	d.down("skirt_length", 1, long, hem)
}
