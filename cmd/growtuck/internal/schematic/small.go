package schematic

import "math"

func (d *drawer) hat() {
	d.f.small = true
	half, high := d.of("brim", 46)/4, d.of("hat_height", 19)
	if head := d.Body["head"] / 4; head > 0 {
		// The head is as wide as half its girth, as the hat is; the chin is cut off.
		p := start(0, high*0.04).corner(point{head, high * 0.04}, point{head, high * 0.62}).line(point{head, high})
		d.underBoth(p.curve(point{head, high * 1.1}, point{head * 0.95, high * 1.2}, point{head * 0.8, high * 1.3}))
	}
	p := start(0, 0).corner(point{half, 0}, point{half, high * 0.62}).line(point{half, high}, point{0, high})
	d.shape(p.whole())
	band := high - math.Min(d.Trade.Hem, high*d.Trade.HemMost)
	d.rib(point{-half, band}, point{half, band}, point{-half, high}, point{half, high})
	d.is("brim", straight(point{-half, high}, point{half, high}), d.of("brim", half*4)/2)
	d.is("crown to brim", straight(point{0, 0}, point{0, high}), high)
	d.beside("brim", point{-half, high}, point{half, high}, point{0, 1})
	d.down("hat_height", 1, 0, high)
}

// A hand is a mitten, or the hand in it.
type hand struct {
	outline          *path
	half, long, cuff float64
	deep, tip        float64 // of the cuff; from the root of the thumb
	root, side, end  point   // of the thumb
	across           point
}

func (d *drawer) handOf(deep float64) hand {
	h := hand{half: d.of("hand", 14) / 4, long: d.of("hand_length", 12), cuff: d.of("cuff", 12) / 4, deep: deep}
	half, long, cuff := h.half, h.long, h.cuff
	h.tip = d.of("thumb_length", long*0.32)
	const up = 62 * math.Pi / 180 // of the thumb, from level
	along := point{math.Cos(up), -math.Sin(up)}
	h.across = point{math.Sin(up), math.Cos(up)}
	wide := math.Min(half*0.85, h.tip*0.8)
	h.root = point{half, long * 0.58}
	h.end = h.root.plus(along.times(h.tip))
	h.side = h.across.times(wide)
	p := start(-cuff, long+deep).line(point{-cuff, long})
	p.curve(point{-half, long * 0.92}, point{-half, long * 0.85}, point{-half, long * 0.75}).line(point{-half, half})
	p.corner(point{-half, 0}, point{0, 0}).corner(point{half, 0}, point{half, math.Min(half, h.root.y)}).line(h.root)
	bend := h.root.plus(along.times(math.Max(0, h.tip-wide/2)))
	p.line(bend)
	p.corner(h.end, h.end.plus(h.across.times(wide/2))).corner(h.end.plus(h.side), bend.plus(h.side))
	p.curve(h.root.plus(h.side), point{half, long * 0.92}, point{cuff, long})
	h.outline = p.line(point{cuff, long + deep}, point{-cuff, long + deep})
	return h
}

func (d *drawer) mitten() {
	d.f.small = true
	long := d.of("hand_length", 12)
	h := d.handOf(math.Min(d.Trade.Cuff, long*0.5))
	if s := d.skin(); s.has("hand") && s.has("hand_length") {
		child := s.handOf(h.deep)
		d.under(child.outline.moved(func(p point) point { return point{p.x, p.y + h.long - child.long} }))
	}
	d.shape(h.outline)
	a, b := point{-h.cuff, h.long}, point{h.cuff, h.long}
	down := point{0, h.deep}
	d.rib(a, b, a.plus(down), b.plus(down))
	d.is("end of the cuff", straight(a.plus(down), b.plus(down)), d.of("cuff", h.cuff*4)/2)
	d.is("top of cuff to tip", straight(point{0, 0}, point{0, h.long}), long)
	d.is("thumb", straight(h.root, h.end), h.tip)
	d.across("hand", point{-h.half, h.long * 0.42}, point{h.half, h.long * 0.42})
	d.down("hand_length", 1, 0, h.long)
	d.column("thumb_length", h.root.plus(h.side), h.end.plus(h.side), h.across.times(1.2), h.root.plus(h.side), h.end.plus(h.side.times(0.5)))
	d.beside("cuff", a.plus(down), b.plus(down), point{0, 1})
}

// A footed is a sock, or the foot in it, from its side: the sole below, the toe to
// the right.
type footed struct {
	outline                 *path
	ankle, foot, long, high float64
	instep, toe, sole       float64
}

func (d *drawer) footOf() footed {
	f := footed{ankle: d.of("ankle", 17) / 2, foot: d.of("foot", 15) / 2, long: d.of("foot_length", 15), high: d.of("leg_height", 12)}
	f.sole = f.high + f.foot
	bend := math.Min(f.foot*0.5, f.high*0.4)
	f.instep = math.Min(f.ankle+bend, f.long*0.9)
	f.toe = math.Max(f.long-f.foot*0.55, f.instep)
	p := start(0, 0).line(point{f.ankle, 0}, point{f.ankle, f.high - bend}).corner(point{f.ankle, f.high}, point{f.instep, f.high})
	p.line(point{f.toe, f.high}).corner(point{f.long, f.high}, point{f.long, f.high + f.foot*0.55}).corner(point{f.long, f.sole}, point{f.toe, f.sole})
	f.outline = p.line(point{f.foot * 0.5, f.sole}).corner(point{0, f.sole}, point{0, f.sole - f.foot*0.5}).line(point{0, 0})
	return f
}

func (d *drawer) sock() {
	d.f.small = true
	f := d.footOf()
	if s := d.skin(); s.has("foot") && s.has("foot_length") && s.has("ankle") {
		s.Cm["leg_height"] = f.high
		child := s.footOf()
		d.under(child.outline.moved(func(p point) point { return point{p.x, p.y + f.sole - child.sole} }))
	}
	d.shape(f.outline)
	cuff := math.Min(d.Trade.Cuff, f.high*d.Trade.CuffMost)
	d.rib(point{0, cuff}, point{f.ankle, cuff}, point{0, 0}, point{f.ankle, 0})
	// Heel and toe are worked on their own.
	heel := math.Min(f.foot*0.75, f.long*0.4)
	d.draw("fold", straight(point{0, f.sole - heel}, point{heel * 0.8, f.sole - heel*0.45}, point{heel, f.sole}))
	d.draw("edge", straight(point{f.toe, f.high}, point{f.toe, f.sole}))
	d.is("top of the sock", straight(point{0, 0}, point{f.ankle, 0}), d.of("ankle", f.ankle*2)/2)
	d.is("back of the leg, to the turn of the heel", straight(point{0, 0}, point{0, f.high}), f.high)
	d.is("heel to toe", straight(point{0, f.sole}, point{f.long, f.sole}), f.long)
	d.across("ankle", point{0, f.high * 0.5}, point{f.ankle, f.high * 0.5})
	x := (f.instep + f.toe) / 2
	d.across("foot", point{x, f.high}, point{x, f.sole})
	d.down("leg_height", 1, 0, f.high)
	d.column("foot_length", point{0, f.sole}, point{f.long, f.sole}, point{0, 1}, point{0, f.sole}, point{f.long, f.sole})
}
