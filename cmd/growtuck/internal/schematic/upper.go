package schematic

import "math"

// A torso is the outline of the upper body, of which the right half is drawn.
type torso struct {
	half     float64 // of the chest lying flat
	neck     float64 // half as wide as the neck opens
	deep     float64 // of the front neck
	shoulder point   // its tip
	under    point   // the underarm
}

func (d *drawer) torso() torso {
	chest := d.of("chest", 60)
	t := torso{half: chest / 4, neck: d.of("neck", chest*0.42) * 0.18, deep: chest * 0.08}
	drop := chest * 0.035
	t.shoulder = point{math.Min(d.of("cross_back", chest*0.42)/2, t.half), drop}
	t.neck = math.Min(t.neck, t.shoulder.x*0.8)
	t.under = point{t.half, drop + d.of("armhole_depth", chest*0.24)}
	return t
}

// neckline goes from the middle of the front to the shoulder's neck end.
func (t torso) neckline() *path {
	return start(0, t.deep).corner(point{t.neck, t.deep}, point{t.neck, 0})
}

// armhole goes from the shoulder's tip to the underarm.
func (t torso) armhole(p *path) *path {
	down := t.under.y - t.shoulder.y
	return p.curve(point{t.shoulder.x, t.shoulder.y + down*0.62}, point{t.shoulder.x + (t.half-t.shoulder.x)*0.25, t.under.y}, t.under)
}

// outline is the right half from the front neck to the underarm.
func (t torso) outline() *path {
	return t.armhole(t.neckline().line(t.shoulder))
}

// sleeves draws both sleeves and measures the right one.
func (d *drawer) sleeves(t torso) {
	if !d.has("sleeve_length") {
		return
	}
	const down = 58 * math.Pi / 180 // from level
	along := point{math.Cos(down), math.Sin(down)}
	across := point{along.y, -along.x}
	long := d.of("sleeve_length", 0)
	wide, cuff := d.of("upper_arm", t.half*1.4)/2, d.of("cuff", t.half*0.8)/2
	end := t.under.plus(along.times(long))
	top, outer := t.under.plus(across.times(wide)), end.plus(across.times(cuff))
	cap := top.minus(t.shoulder)
	p := start(t.shoulder.x, t.shoulder.y)
	p.curve(t.shoulder.plus(point{cap.x * 0.5, cap.y * 0.35}), top.minus(along.times(cap.long()*0.3)), top)
	p.line(outer, end, t.under)
	back := t.armhole(start(t.shoulder.x, t.shoulder.y)).reversed()
	p.segments = append(p.segments, back.segments...)
	d.both(p)
	rib := 0.86
	d.edge(straight(between(t.under, end, rib), between(top, outer, rib)))
	d.edge(straight(between(t.under, end, rib).mirrored(), between(top, outer, rib).mirrored()))
	far := math.Max(wide, cuff)
	d.dim("upper_arm", t.under, top)
	d.column("sleeve_length", t.under.plus(across.times(far)), end.plus(across.times(far)), across.times(1.3), top, outer)
	d.beside("cuff", end, outer, along.times(1.3))
}

func straight(a, b point) *path { return start(a.x, a.y).line(b) }

// body measures what lies between the neck and the underarm.
func (d *drawer) body(t torso) {
	at := t.shoulder.y + (t.under.y-t.shoulder.y)*0.5
	d.dim("cross_back", point{-t.shoulder.x, at}, point{t.shoulder.x, at})
	d.dim("chest", point{-t.half, t.under.y}, point{t.half, t.under.y})
	x := -(t.neck + t.shoulder.x) / 2
	d.dim("armhole_depth", point{x, t.shoulder.y}, point{x, t.under.y})
}

// opening draws the opening down the front, to a height at the most.
func (d *drawer) opening(t torso, most float64) {
	if !d.has("front_opening") {
		return
	}
	top := point{0, t.deep}
	bottom := point{0, math.Min(t.deep+d.of("front_opening", 0), most)}
	d.edge(straight(top, bottom))
	if beside := d.of(frontEdge, 0); beside > 0 {
		d.edge(straight(point{-beside, top.y}, point{-beside, bottom.y}))
		d.edge(straight(point{beside, top.y}, point{beside, bottom.y}))
	}
	x := t.half * 0.42
	d.dim("front_opening", point{x, top.y}, point{x, bottom.y})
}

// collar draws the back of the neck and measures across it.
func (d *drawer) collar(t torso) {
	d.edge(start(-t.neck, 0).curve(point{-t.neck * 0.5, t.deep * 0.3}, point{t.neck * 0.5, t.deep * 0.3}, point{t.neck, 0}))
	d.beside("neck", point{-t.neck, 0}, point{t.neck, 0}, point{0, -1.3})
}

func (d *drawer) upper() {
	chest := d.of("chest", 60)
	t := d.torso()
	long := math.Max(d.of("body_length", chest*0.6), t.under.y*1.02)
	if d.has("skirt_length") {
		d.dress(t, long)
		return
	}
	d.shape(t.outline().line(point{t.half, long}, point{0, long}).whole())
	d.sleeves(t)
	d.collar(t)
	d.body(t)
	d.opening(t, long)
	d.down("body_length", 1, 0, d.of("body_length", long))
}

func (d *drawer) dress(t torso, long float64) {
	chest := d.of("chest", 60)
	waist, hip, skirt := d.of("waist", chest*0.9)/4, d.of("skirt_hip", chest*1.1)/4, d.of("skirt_length", long)
	hipAt, hem := long+skirt*0.35, long+skirt
	wide := math.Max(hip, waist) * 1.3
	low := hem + skirt*0.03 // in the middle, as a skirt hangs
	d.shape(t.outline().smooth(point{waist, long}).smooth(point{hip, hipAt}, point{wide, hem}).
		curve(point{wide * 0.6, low}, point{wide * 0.3, low}, point{0, low}).whole())
	d.sleeves(t)
	d.collar(t)
	d.body(t)
	d.dim("waist", point{-waist, long}, point{waist, long})
	d.dim("skirt_hip", point{-hip, hipAt}, point{hip, hipAt})
	d.opening(t, hem)
	d.down("body_length", 1, 0, long)
	d.down("skirt_length", 1, long, hem)
}
