package validate

import (
	"math"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// onePieceRules are about the trunk of a one-piece: the loop through the crotch
// decides whether it can be worn.
func onePieceRules() []draftRule {
	return []draftRule{
		{Rule{"O01", "one-piece", "The trunk, nape to crotch, does not fit the body with its ease", Stop}, trunkLength},
		{Rule{"O02", "one-piece", "The rise does not fit the body with its ease", Stop}, riseLength},
		{Rule{"O03", "one-piece", "Nape to waist and rise do not add up to the trunk", Warn}, trunkParts},
		{Rule{"O04", "one-piece", "The body was lengthened and the opening was not, or the other way round", Warn}, openingFollowsBody},
		{Rule{"O05", "one-piece", "A change of the torso was not made in trunk loop, opening and zipper too", Warn}, changeCarried},
		{Rule{"O06", "one-piece", "Legs and body are of different sizes", Warn}, sameBlend},
	}
}

// vertical checks a length along the trunk: too short is a stop, too long a
// warning.
func (c *checker) vertical(part string) {
	l, ok := c.want.Line(part)
	size, e, given := c.plausible(part)
	if !c.isOnePiece() || !ok || !given {
		return
	}
	low, high := base(l)+l.EaseLow, base(l)+l.EaseHigh
	slack, hangs := max(c.step(l)/2, 0.3), c.ref.Practice("trunk_slack")
	f := Finding{Subject: part, Found: length(size), Expected: fact("trunk.expected", span(low, high), cm(l.Body.Value), span(l.EaseLow, l.EaseHigh)),
		Fix: do(c.change(l, l.Finished, stitch.Nearest)), Source: sourceOf(l)}
	switch {
	case size < low-slack:
		f.By = fact("by.short-"+part, cm(low-size))
		if size >= l.Body.Value {
			f.Severity = Warn
		}
	case size > high+hangs.Value:
		f.Severity, f.Source = Warn, sourceOf(l, hangs)
		f.By = fact("by.crotch-hangs", cm(size-high))
	case size > high+slack+c.step(l):
		f.Severity = Note
		f.By = fact("by.long", cm(size-high))
	default:
		return
	}
	c.report(e, f)
}

func trunkLength(c *checker) { c.vertical("trunk") }

func riseLength(c *checker) { c.vertical("rise") }

// torso is the drafted and the expected length from nape to crotch.
func (c *checker) torso() (size, want float64, e *Entry, ok bool) {
	for _, part := range []string{"body_length", "rise"} {
		v, entry, given := c.plausible(part)
		l, known := c.want.Line(part)
		if !given || !known {
			return 0, 0, nil, false
		}
		if e == nil {
			e = entry
		}
		size += v
		want += l.Finished
	}
	return size, want, e, c.isOnePiece()
}

func trunkParts(c *checker) {
	size, _, _, ok := c.torso()
	trunk, e, given := c.plausible("trunk")
	if !ok || !given {
		return
	}
	l, _ := c.want.Line("trunk")
	slack := c.ref.Practice("trunk_parts_slack")
	if off := size - trunk; math.Abs(off) > max(slack.Value, c.step(l)) {
		c.report(e, Finding{Subject: "trunk", Found: length(trunk), Expected: fact("trunk.sum", cm(size)),
			By: length(math.Abs(off)), Fix: fact("fix.or-waist-and-rise", c.change(l, size, stitch.Nearest)), Source: sources(slack)})
	}
}

func openingFollowsBody(c *checker) {
	size, want, _, ok := c.torso()
	open, e, given := c.plausible("front_opening")
	l, known := c.want.Line("front_opening")
	if !ok || !given || !known || c.placket(open, l) {
		return
	}
	body, front := size-want, open-l.Finished
	off := body - front
	follow := c.ref.Practice("opening_follow")
	if math.Abs(off) <= max(follow.Value, c.step(l)) {
		return
	}
	c.report(e, Finding{Subject: "front_opening", Found: fact("opening.grown", cm(body), cm(front)), Expected: fact("opening.as-torso"),
		By: length(math.Abs(off)), Fix: fact("fix.or-body", c.change(l, open+off, stitch.Nearest)), Source: sources(follow)})
}

// placket reports an opening over a part of the front, which does not grow with
// the body.
func (c *checker) placket(open float64, l sizing.Line) bool {
	return open < c.ref.Practice("partial_opening").Share()*l.Finished
}

func changeCarried(c *checker) {
	d := c.d
	added := func(part string) (float64, *Entry, bool) {
		e, ok := d.get("lengthened", part)
		if !ok {
			return 0, nil, false
		}
		return e.Cm, e, true
	}
	body, e, changed := added("body")
	if rise, r, ok := added("rise"); ok {
		body += rise
		if !changed {
			e = r
		}
		changed = true
	}
	if !changed && len(d.all("lengthened")) > 0 {
		e = d.all("lengthened")[0]
	}
	if e == nil || !c.isOnePiece() {
		return
	}
	check := func(part string, times float64) {
		got, at, ok := added(part)
		if !ok && (part == "trunk_loop" || part == "zipper" && len(d.all("zipper")) == 0) {
			return
		}
		if at == nil {
			at = e
		}
		want := times * body
		if math.Abs(got-want) <= 0.5 {
			return
		}
		c.report(at, Finding{Subject: part, Found: fact("torso.grown", cm(body), part, cm(got)),
			Expected: fact("torso.carry-"+part, part, cm(want)), By: length(math.Abs(got - want)), Fix: fact("fix.lengthen", part, cm(want-got))})
	}
	check("trunk_loop", 2) // it runs over front and back
	if open, _, ok := d.size("front_opening"); ok {
		if l, known := c.want.Line("front_opening"); !known || !c.placket(open, l) {
			check("front_opening", 1)
			check("zipper", 1)
		}
	}
}

func sameBlend(c *checker) {
	size, want, _, ok := c.torso()
	leg, e, given := c.plausible("inside_leg")
	l, known := c.want.Line("inside_leg")
	if !ok || !given || !known {
		return
	}
	body, legs := size/want-1, leg/l.Finished-1
	oneSize := c.ref.Practice("one_size_share")
	if l.Share.Cm > 0 && l.Share.Cm < 50 {
		return // a short leg: a row more or less is more than a size
	}
	if off := legs - body; math.Abs(off) > oneSize.Share() {
		to := l.Finished * (1 + body)
		c.report(e, Finding{Subject: "inside_leg",
			Found: fact("legs.against-trunk", legs, body), Expected: fact("legs.same-lengths"), By: fact("by.apart", math.Abs(off)),
			Fix: fact("fix.or-trunk", c.change(l, to, stitch.Nearest)), Source: sourceOf(l, oneSize)})
	}
}
