package validate

import (
	"math"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// proportionRules compare the parts of a draft with each other.
func proportionRules() []draftRule {
	return []draftRule{
		{Rule{"P01", "proportion", "Two parts are in the wrong order of size", Warn}, partOrder},
		{Rule{"P02", "proportion", "The sleeve top does not fit the armhole", Warn}, sleeveInArmhole},
		{Rule{"P03", "proportion", "A sleeve or leg tapers more steeply than its rows allow", Stop}, steepTaper},
		{Rule{"P04", "proportion", "Sleeve and half the back do not reach from the neck to the wrist", Warn}, neckToWrist},
		{Rule{"P05", "proportion", "The hood is too low, or hangs over the eyes", Stop}, hoodHeight},
		{Rule{"P06", "proportion", "The hood does not go round the head", Stop}, hoodRound},
		{Rule{"P07", "proportion", "Both legs together are narrower than the hip they come from", Warn}, legsOfHip},
		{Rule{"P08", "proportion", "The yoke is divided in an unusual way", Note}, yokeShares},
		{Rule{"P09", "proportion", "The garment is longer than the child", Warn}, wholeHeight},
		{Rule{"P10", "proportion", "The bridge between the legs is too small", Warn}, smallBridge},
		{Rule{"P11", "proportion", "The edges of a front or a hood are not counted in its girths", Warn}, edgesCounted},
	}
}

// orders are parts of which the first is at least as large as the second, less
// the slack in cm; factor multiplies the second.
func (c *checker) orders() []order {
	back := c.ref.Practice("cross_back_slack")
	return []order{
		{large: "chest", small: "neck", factor: 1},
		{"chest", "cross_back", 2, back},
		{large: "chest", small: "upper_arm", factor: 2},
		{large: "upper_arm", small: "cuff", factor: 1},
		{large: "hip", small: "waist", factor: 1},
		{large: "hip", small: "chest", factor: 1},
		{large: "hip", small: "thigh", factor: 1},
		{large: "thigh", small: "calf", factor: 1},
		{large: "calf", small: "ankle", factor: 1},
		{large: "trunk", small: "body_length", factor: 1},
		{large: "body_length", small: "armhole_depth", factor: 1},
		{large: "hand_length", small: "thumb_length", factor: 1},
	}
}

type order struct {
	large, small string
	factor       float64
	slack        sizing.Practice
}

func partOrder(c *checker) {
	construction, _ := c.d.get("construction", "")
	for _, o := range c.orders() {
		if o.small == "upper_arm" && construction != nil && construction.Value == "drop-shoulder" {
			continue // its sleeve goes round the armhole, however wide the body
		}
		large, e, hasLarge := c.d.size(o.large)
		small, _, hasSmall := c.d.size(o.small)
		if !hasLarge || !hasSmall || large >= o.factor*small-o.slack.Value-roundingCm {
			continue
		}
		l, ok := c.want.Line(o.large)
		f := Finding{Subject: o.large, Found: fact("order.found", cm(large), o.small, cm(small)),
			Expected: fact("order.least", o.large, cm(o.factor*small)), By: length(o.factor*small - large), Source: sources(o.slack)}
		if ok {
			f.Fix = fact("fix.parts-exchanged", c.change(l, max(l.Finished, o.factor*small), stitch.Up))
		}
		c.report(e, f)
	}
}

// sleeveInArmhole compares the sleeve top with the depth of the armhole: a drop
// shoulder's sleeve goes all round a straight armhole, others are narrower.
func sleeveInArmhole(c *checker) {
	top, e, hasTop := c.plausible("upper_arm")
	depth, _, hasDepth := c.plausible("armhole_depth")
	l, ok := c.want.Line("upper_arm")
	if !hasTop || !hasDepth || !ok {
		return
	}
	least, most, slack := c.ref.Practice("sleeve_top_low"), c.ref.Practice("sleeve_top_high"), c.ref.Practice("drop_sleeve_slack")
	low, high, source := least.Value*depth, most.Value*depth, sources(least, most)
	if k, ok := c.d.get("construction", ""); ok && k.Value == "drop-shoulder" {
		low, high, source = 2*depth*(1-slack.Share()), 2*depth*(1+slack.Share()), sources(slack)
	}
	if off := outside(top, low, high); off > c.step(l) {
		c.report(e, Finding{Subject: "upper_arm", Found: fact("sleeve.on-armhole", cm(top), cm(depth)), Expected: fact("range", span(low, high)),
			By: fact("by.outside", cm(off)), Fix: fact("fix.or-armhole", c.change(l, min(max(top, low), high), stitch.Nearest)), Source: source})
	}
}

// wide is a part's width in stitches of the fabric, whatever it is counted in.
func (c *checker) wide(part string) (float64, bool) {
	if n, _, ok := c.d.count("finished", part); ok && c.d.gaugeOf(part) == c.d.Gauge {
		return float64(n), true
	}
	size, _, ok := c.plausible(part)
	return c.d.Gauge.Stitches(size), ok
}

// steepTaper reports sides that go in further than their length allows, where
// they do so more often than every second row: in tall stitches a decrease a row
// is gentle.
func steepTaper(c *checker) {
	if c.d.Gauge == (stitch.Gauge{}) {
		return
	}
	steepest := c.ref.Practice("steepest_taper")
	for _, t := range tapers {
		from, hasFrom := c.wide(t.from)
		to, hasTo := c.wide(t.to)
		if n, _, ok := c.d.count("end", t.name); ok {
			to, hasTo = float64(n), true
		}
		length, e, hasLength := c.plausible(t.length)
		if !hasFrom || !hasTo || !hasLength || from <= to {
			continue
		}
		rounds := int(math.Ceil((from - to) / 2))
		if n, _, ok := c.d.count("decrease", t.name); ok {
			rounds = n
		}
		rows := int(math.Round(c.d.Gauge.Rows(length)))
		f := Finding{Subject: t.name, Found: fact("taper.rounds", rounds, rows), Expected: fact("taper.slope")}
		switch {
		case rounds > rows:
			f.By, f.Fix = fact("by.rows-missing", rounds-rows), fact("fix.taper-longer")
		case 2*rounds > rows && float64(rounds)*c.d.Gauge.StitchWidthCm() > steepest.Share()*length:
			f.Severity, f.Source = Warn, sources(steepest)
			f.By, f.Fix = fact("by.one-every", float64(rows)/float64(rounds)), fact("fix.taper-less")
		default:
			continue
		}
		c.report(e, f)
	}
}

// neckToWrist adds up what reaches from the nape to the wrist: half the back,
// the shoulder down to the underarm, the sleeve below it. The middle piece is
// the body's own, deeper by as much as the armhole is.
func neckToWrist(c *checker) {
	back, _, hasBack := c.plausible("cross_back")
	sleeve, e, hasSleeve := c.plausible("sleeve_length")
	depth, _, hasDepth := c.plausible("armhole_depth")
	reach, known := c.body("neck_to_wrist")
	l, ok := c.want.Line("sleeve_length")
	b, okBack := c.want.Line("cross_back")
	a, okDepth := c.want.Line("armhole_depth")
	if !hasBack || !hasSleeve || !hasDepth || !known || !ok || !okBack || !okDepth {
		return
	}
	extra := l.Finished - l.Body.Value // growth, folded cuffs
	middle := reach - b.Body.Value/2 - l.Body.Value
	got := back/2 + middle + (depth - a.Body.Value) + sleeve
	// A looser fit drops the shoulder and deepens the armhole; the sleeve of the
	// reference is not shortened for it.
	looser := (b.Finished-b.Body.Value)/2 + a.Finished - a.Body.Value
	low, high := reach+extra, reach+extra+looser
	slack := c.ref.Practice("reach_slack")
	if off := outside(got, low, high); off > slack.Value {
		c.report(e, Finding{Subject: "sleeve_length", Found: fact("reach.found", cm(back/2), cm(middle+depth-a.Body.Value), cm(sleeve), cm(got)),
			Expected: fact("reach.expected", span(low, high)), By: length(off),
			Fix: do(c.change(l, sleeve+min(max(got, low), high)-got, stitch.Nearest)), Source: sourceOf(l, slack)})
	}
}

func hoodHeight(c *checker) {
	l, ok := c.want.Line("hood_height")
	size, e, given := c.plausible("hood_height")
	if !ok || !given {
		return
	}
	low, high := l.Body.Value+l.EaseLow, l.Body.Value+l.EaseHigh
	f := Finding{Subject: "hood_height", Found: length(size), Expected: fact("hood.height", span(low, high)),
		Fix: do(c.change(l, l.Finished, stitch.Nearest)), Source: sourceOf(l)}
	switch {
	case size < l.Body.Value-0.05:
		f.By = fact("by.under-head", cm(l.Body.Value-size))
	case size < low-max(c.step(l), 0.5):
		f.Severity, f.By = Warn, fact("by.low", cm(low-size))
	case size > high+max(c.step(l), 0.5):
		f.Severity, f.By = Warn, fact("by.high", cm(size-high))
	default:
		return
	}
	c.report(e, f)
}

func hoodRound(c *checker) {
	l, ok := c.want.Line("hood_round")
	size, e, given := c.plausible("hood_round")
	if !ok || !given {
		return
	}
	head, least, wide := l.Body.Value, c.ref.Practice("hood_least"), c.ref.Practice("hood_wide")
	low, high := least.Share()*head, wide.Share()*head
	f := Finding{Subject: "hood_round", Found: fact("hood.found", cm(size)), Expected: fact("hood.round", span(low, high), cm(head)),
		Fix: do(c.change(l, l.Finished, stitch.Nearest)), Source: sourceOf(l, least, wide)}
	switch {
	case size < low-roundingCm:
		f.By = fact("by.face-free", least.Share())
	case size > high+roundingCm:
		f.Severity, f.By = Note, fact("by.over-face", cm(size-high))
	default:
		return
	}
	c.report(e, f)
}

// yokeShares compares a yoke with usual shares of sleeves and back.
func yokeShares(c *checker) {
	sleeve, e, hasSleeve := c.d.count("split", "sleeve_left")
	back, _, hasBack := c.d.count("split", "back")
	s := c.sum(append(c.fronts(), "back", "sleeve_left", "sleeve_right")...)
	if !hasSleeve || !hasBack || !s.whole || s.total == 0 {
		return
	}
	for _, part := range []struct {
		name      string
		n         int
		low, high sizing.Practice
	}{
		{"sleeve", sleeve, c.ref.Practice("yoke_sleeve_low"), c.ref.Practice("yoke_sleeve_high")},
		{"back", back, c.ref.Practice("yoke_back_low"), c.ref.Practice("yoke_back_high")},
	} {
		share, low, high := float64(part.n)/float64(s.total), part.low.Share(), part.high.Share()
		if share < low || share > high {
			c.report(e, Finding{Subject: part.name, Found: fact("yoke.share", part.n, share),
				Expected: fact("yoke.shares", low, high), Fix: fact("fix.yoke-level"), Source: sources(part.low, part.high)})
		}
	}
}

func wholeHeight(c *checker) {
	trunk, _, hasTrunk := c.plausible("trunk")
	leg, e, hasLeg := c.plausible("inside_leg")
	height, known := c.body("height")
	l, ok := c.want.Line("inside_leg")
	if !hasTrunk || !hasLeg || !known || !ok {
		return
	}
	meant := sizing.TotalCm(l.Adjust) // folded cuffs, growth room
	if t, ok := c.want.Line("trunk"); ok {
		meant += sizing.TotalCm(t.Adjust)
	}
	if off := trunk + leg - meant - height; off > 0 {
		c.report(e, Finding{Subject: "inside_leg", Found: fact("height.sum", cm(trunk), cm(leg), cm(trunk+leg)),
			Expected: fact("height.most", cm(height)),
			By:       length(off), Fix: do(c.change(l, min(l.Finished, leg-off), stitch.Nearest))})
	}
}
