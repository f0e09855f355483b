package schematic

// partOf is the part of a garment that would lie close to a measurement.
var partOf = map[string]string{
	"chest": "chest", "neck": "neck", "armhole_depth": "armhole_depth", "cross_back": "cross_back", "upper_arm": "upper_arm", "wrist": "cuff", "arm_to_underarm": "sleeve_length",
	"waist": "waist", "hip": "hip", "thigh": "thigh", "calf": "calf", "ankle": "ankle", "rise": "rise", "inside_leg": "inside_leg", "nape_to_waist": "body_length",
	"hand": "hand", "hand_length": "hand_length", "foot": "foot", "foot_length": "foot_length",
}

// skin draws the child as if it were a garment without any ease: the same outline,
// from the measurements of the body.
func (d *drawer) skin() *drawer {
	out := &drawer{Garment: Garment{Cm: make(map[string]float64), Construction: d.Construction, Trade: d.Trade}}
	for m, part := range partOf {
		if v, ok := d.Body[m]; ok {
			out.Cm[part] = v
		}
	}
	out.Trade.RibShare, out.Trade.Cuff, out.Trade.CuffMost = 1, 1, 0.1
	return out
}

func (d *drawer) under(p *path) { d.f.ghost = append(d.f.ghost, p) }

func (d *drawer) underBoth(p *path) {
	d.under(p)
	d.under(p.mirrored())
}

// ghostUpper draws the child's upper body down to a height, and its arms with
// their hands.
func (d *drawer) ghostUpper(t torso, low float64) {
	s := d.skin()
	if !s.has("chest") || !s.has("armhole_depth") {
		return
	}
	if t.sleeves {
		s.Cm["sleeve_length"] = s.of("sleeve_length", t.half*1.6)
	} else {
		delete(s.Cm, "sleeve_length")
	}
	s.Trade.NeckDrop = 3
	b := s.torso()
	neck := straight(point{b.neck, -3}, point{b.neck, -0.5}).curve(point{b.neck, 0}, point{b.neck, 0}, point{b.neck + 0.5, 0.3})
	d.underBoth(neck)
	if !d.has("hood_height") {
		head := d.Body["head"]
		if head > 0 {
			d.underBoth(start(0, -1.2).curve(point{head * 0.09, -1.2}, point{head * 0.15, -head * 0.09}, point{head * 0.16, -head * 0.16}))
		}
	}
	long := s.of("body_length", low*0.8)
	side := start(b.under.x, b.under.y).smooth(point{s.of("waist", b.half*4) / 4, long})
	if rise := s.of("rise", 0); rise > 0 && low > long && d.Group == "upper" {
		side.smooth(point{s.of("hip", b.half*4) / 4, long + rise*d.Trade.HipShare})
	}
	d.underBoth(side)
	if t.sleeves {
		d.underBoth(s.arm(b))
	} else {
		d.underBoth(straight(point{b.neck, 0}, b.shoulder))
	}
}

// arm goes from the neck over the hand to the armpit.
func (d *drawer) arm(t torso) *path {
	s, top := d.sleeve(t)
	hand := s.along.times(d.of("hand_length", 11) * 1.2)
	p := start(top.x, top.y)
	if top != s.outer {
		p.line(between(top, s.outer, 0.3)).curve(between(top, s.outer, 0.8), s.outer.minus(s.along.times(2)), s.outer)
	}
	p.line(s.outerEnd).curve(s.outerEnd.plus(hand), s.innerEnd.plus(hand), s.innerEnd)
	return p.line(s.inner)
}

// ghostLegs draws the child's hips, legs and feet.
func (d *drawer) ghostLegs(l legs) {
	s := d.skin()
	if !s.has("hip") || !s.has("inside_leg") {
		return
	}
	waistAt := l.waist[1].y
	if long, ok := s.Cm["body_length"]; ok && d.Group == "one-piece" {
		waistAt = long
	}
	b := s.legs(waistAt)
	side := start(b.waist[1].x, b.waist[1].y).smooth(b.hip[1]).line(b.top[1]).smooth(b.calf[1], b.leg.outerEnd)
	d.underBoth(side)
	in := start(b.top[0].x, b.top[0].y)
	if b.top[0].x < 0 {
		in = start(0, b.crotch.y)
	}
	d.underBoth(in.smooth(b.calf[0], b.leg.innerEnd))
	foot := s.of("foot", 16) / 4
	a, e := b.leg.innerEnd, b.leg.outerEnd
	d.underBoth(start(a.x, a.y).curve(a.plus(b.leg.along.times(foot*1.3)), e.plus(b.leg.along.times(foot*1.3)).plus(point{foot * 0.7, 0}), e))
}
