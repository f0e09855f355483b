package schematic

import "math"

func (d *drawer) hat() {
	d.f.small = true
	half, high := d.of("brim", 46)/4, d.of("hat_height", 19)
	d.shape(start(0, 0).corner(point{half, 0}, point{half, high * 0.62}).line(point{half, high}, point{0, high}).whole())
	d.edge(straight(point{-half, high * 0.84}, point{half, high * 0.84}))
	d.beside("brim", point{-half, high}, point{half, high}, point{0, 1.3})
	d.down("hat_height", 1, 0, high)
}

func (d *drawer) mitten() {
	d.f.small = true
	half, long := d.of("hand", 14)/4, d.of("hand_length", 12)
	cuff, thumb := d.of("cuff", 12)/4, d.of("thumb_length", long*0.32)
	deep := long * 0.4            // of the cuff
	const up = 60 * math.Pi / 180 // of the thumb, from level
	along := point{math.Cos(up), -math.Sin(up)}
	across := point{math.Sin(up), math.Cos(up)}
	wide := math.Min(half*0.85, thumb*0.8)
	root := point{half, long * 0.55}
	tip := root.plus(along.times(thumb))
	p := start(-cuff, long+deep).line(point{-cuff, long})
	p.curve(point{-half, long * 0.92}, point{-half, long * 0.85}, point{-half, long * 0.75}).line(point{-half, half})
	p.corner(point{-half, 0}, point{0, 0}).corner(point{half, 0}, point{half, math.Min(half, root.y)}).line(root)
	p.line(root.plus(along.times(thumb - wide/2)))
	p.corner(tip, tip.plus(across.times(wide/2))).corner(tip.plus(across.times(wide)), root.plus(along.times(thumb-wide/2)).plus(across.times(wide)))
	p.curve(root.plus(across.times(wide)), point{half, long * 0.9}, point{cuff, long})
	p.line(point{cuff, long + deep}, point{-cuff, long + deep})
	d.shape(p)
	d.edge(straight(point{-cuff, long}, point{cuff, long}))
	d.dim("hand", point{-half, long * 0.45}, point{half, long * 0.45})
	d.down("hand_length", 1, 0, long)
	side := across.times(wide)
	d.column("thumb_length", root.plus(side), tip.plus(side), across.times(1.7), root.plus(side), tip.plus(across.times(wide/2)))
	d.beside("cuff", point{-cuff, long + deep}, point{cuff, long + deep}, point{0, 1.3})
}

// sock draws a sock from its side: the sole below, the toe to the right.
func (d *drawer) sock() {
	d.f.small = true
	ankle, foot := d.of("ankle", 17)/2, d.of("foot", 15)/2
	long, high := d.of("foot_length", 15), d.of("leg_height", 12)
	sole := high + foot
	bend := math.Min(foot*0.5, high*0.4)
	instep := math.Min(ankle+bend, long*0.9)
	toe := math.Max(long-foot*0.55, instep)
	p := start(0, 0).line(point{ankle, 0}, point{ankle, high - bend}).corner(point{ankle, high}, point{instep, high})
	p.line(point{toe, high}).corner(point{long, high}, point{long, high + foot*0.55}).corner(point{long, sole}, point{toe, sole})
	p.line(point{foot * 0.5, sole}).corner(point{0, sole}, point{0, sole - foot*0.5})
	d.shape(p)
	d.edge(straight(point{0, high * 0.3}, point{ankle, high * 0.3}))
	d.dim("ankle", point{0, high * 0.6}, point{ankle, high * 0.6})
	x := (instep + toe) / 2
	d.dim("foot", point{x, high}, point{x, sole})
	d.down("leg_height", 1, 0, high)
	d.beside("foot_length", point{0, sole}, point{long, sole}, point{0, 1.3})
}
