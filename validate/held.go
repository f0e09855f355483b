package validate

import (
	"math"

	"growtuck/sizing"
)

// roomRules are about room to grow: how it is held, and what it covers.
func roomRules() []draftRule {
	return []draftRule{
		{Rule{"F07", "fit", "A length with its room held is not what the child needs now", Warn}, wornLength},
		{Rule{"F08", "fit", "A tuck lies where it catches, or gapes", Stop}, tuckPlace},
		{Rule{"F09", "fit", "What the room to grow covers", Note}, roomCovers},
	}
}

// held is what is folded away of a part, or worked on later, in cm.
func (d *Draft) held(part string) float64 {
	e, ok := d.get("held", part)
	if !ok {
		return 0
	}
	return e.Cm
}

// wornLength compares what is left of a length while its room is held with what the child
// needs without that room. A front follows what it is open along; the waist of a one-piece
// stands where it is: a tuck below it holds the room of the whole trunk.
func wornLength(c *checker) {
	c.fitted(func(l sizing.Line, size float64, _ *Entry) {
		e, ok := c.d.get("held", l.Part.Part)
		if !ok || among(l, "front_opening") || c.isOnePiece() && among(l, "rise") {
			return
		}
		room := l.RoomCm()
		worn, low, high := size-e.Cm, base(l)+l.EaseLow-room, base(l)+l.EaseHigh-room
		off := outside(worn, low, high)
		slack, share := c.ref.Practice("length_slack"), c.ref.Practice("length_slack_share")
		if off <= max(slack.Value, share.Share()*(l.Finished-room), 2*c.step(l)) {
			return
		}
		if worn < low {
			off = -off
		}
		c.report(e, Finding{Subject: l.Part.Part, Found: fact("room.worn", cm(worn), cm(e.Cm), cm(size)), Expected: fact("room.needs", span(low, high)),
			By: fact("by.longer", cm(off)), Fix: fact("fix.hold", Edit{"held", l.Part.Part, cm(e.Cm), cm(max(0.1, size-l.Finished+room)), "cm"}), Source: sourceOf(l, slack, share)})
	})
}

// tuckPlace holds each tuck's distances from what is below and above it against the least
// that the trade leaves.
func tuckPlace(c *checker) {
	for _, e := range c.d.all("tuck_above") {
		size, _, ok := c.plausible(e.Part)
		if !ok {
			continue
		}
		low, high := c.ref.Practice("tuck_from_edge"), c.ref.Practice("tuck_from_join")
		if e.Part == "trunk" || e.Part == "rise" {
			low, high = c.ref.Practice("tuck_from_crotch"), sizing.Practice{}
		}
		f := Finding{Subject: e.Part, Found: fact("tuck.above", cm(e.Cm), cm(size))}
		open, _, opens := c.d.opening("front")
		top := size - e.Cm - c.d.heldEach(e.Part) // of the part above the tuck
		switch slack := c.step(sizing.Line{}) + roundingCm; {
		case c.d.Garment.Opening == "front" && e.Part == "body_length":
			f.Expected, f.Fix = fact("tuck.no-opening"), fact("fix.hold-otherwise")
		case e.Cm < low.Value-slack:
			f.Severity = Warn
			f.Expected, f.By, f.Source = fact("tuck.least-below", cm(low.Value)), fact("by.low", cm(low.Value-e.Cm)), sources(low)
			f.Fix = fact("fix.move-tuck", Edit{"tuck_above", e.Part, cm(e.Cm), cm(low.Value), "cm"})
		case e.Part == "trunk" && opens && top < open+c.ref.Practice("neck_drop").Value/2: // half: the child's own may be less
			f.Expected = fact("tuck.below-opening", cm(open))
			f.Fix = fact("fix.tuck-below-opening")
		case top < high.Value-slack:
			f.Severity = Warn
			f.Expected, f.By, f.Source = fact("tuck.least-above", cm(high.Value)), fact("by.high-up", cm(high.Value-top)), sources(high)
			f.Fix = fact("fix.move-tuck", Edit{"tuck_above", e.Part, cm(e.Cm), cm(max(0.1, e.Cm-high.Value+top)), "cm"})
		default:
			continue
		}
		c.report(e, f)
	}
}

// heldEach is what one of a part's tucks holds.
func (d *Draft) heldEach(part string) float64 {
	n := 0
	for _, e := range d.all("tuck_above") {
		if e.Part == part {
			n++
		}
	}
	return d.held(part) / math.Max(1, float64(n))
}

// roomCovers says of each length with room to grow up to which measurement of the child it
// serves, held and let down.
func roomCovers(c *checker) {
	var covers []sizing.Fact
	c.fitted(func(l sizing.Line, size float64, _ *Entry) {
		room := l.RoomCm()
		if room <= 0 || !among(l, "sleeve_length", "body_length", "skirt_length", "rise", "inside_leg", "trunk", "hand_length", "foot_length", "leg_height", "strap_length") ||
			c.isOnePiece() && among(l, "rise", "body_length") {
			return
		}
		up := l.Body.Value + l.OfBody(l.GrownCm()+size-l.Finished+room) // the measurement that it is right for
		if held := c.d.held(l.Part.Part); held > 0 {
			covers = append(covers, fact("room.held", l.Part.Part, cm(size-held), cm(size), l.Body.Measurement.Name, cm(up-l.OfBody(held)), cm(up)))
		} else {
			covers = append(covers, fact("room.not-held", l.Part.Part, cm(size), l.Body.Measurement.Name, cm(up)))
		}
	})
	if len(covers) == 0 {
		return
	}
	f := Finding{Subject: "growth", Found: fact("room.covers", covers)}
	if c.first("held") != nil {
		at := c.ref.Practice("let_down_at")
		f.Expected, f.Source = fact("room.let-down", at.Share()), sources(at)
	}
	c.report(c.first("growth"), f)
}
