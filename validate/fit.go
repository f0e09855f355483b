package validate

import (
	"math"
	"slices"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// fitRules compare finished sizes with body, ease and growth room.
func fitRules() []draftRule {
	return []draftRule{
		{Rule{"F01", "fit", "A part is too small to wear", Stop}, tooSmall},
		{Rule{"F02", "fit", "A part has another fit class than the draft says", Warn}, otherClass},
		{Rule{"F03", "fit", "A part has less or more ease than any fit", Warn}, outsideEase},
		{Rule{"F04", "fit", "A length is not what the child, the options and the growth room ask for", Warn}, offLength},
		{Rule{"F05", "fit", "A size is so far off that a unit or a digit must be wrong", Stop}, slip},
		{Rule{"F06", "fit", "A mitten or sock is shorter than what it covers", Stop}, shorterThanBody},
	}
}

// fitted calls f for the finished sizes that can be compared with the body,
// except those that F05 reports.
func (c *checker) fitted(f func(l sizing.Line, size float64, e *Entry)) {
	for _, l := range c.want.Lines {
		if size, e, ok := c.d.size(l.Part.Part); ok && !c.isSlip(l, size) {
			f(l, size, e)
		}
	}
}

// plausible returns the finished size of a part, but not one that F05 reports:
// findings that follow from it would be noise.
func (c *checker) plausible(part string) (float64, *Entry, bool) {
	size, e, ok := c.d.size(part)
	if l, known := c.want.Line(part); ok && known && c.isSlip(l, size) {
		return 0, nil, false
	}
	return size, e, ok
}

// isSlip reports whether a size is so far from the reference's that a unit or a
// digit must be wrong.
func (c *checker) isSlip(l sizing.Line, size float64) bool {
	return size < c.ref.Practice("slip_low").Share()*l.Finished ||
		size > max(c.ref.Practice("slip_high").Share()*l.Finished, l.Finished+c.ref.Practice("slip_over").Value)
}

// base is the line's size without ease.
func base(l sizing.Line) float64 {
	b := l.Body.Value
	if l.Share.Cm != 0 {
		b *= l.Share.Cm / 100
	}
	for _, a := range l.Adjust {
		b += a.Cm
	}
	return b
}

// hasClasses reports whether a part's ease depends on the fit.
func (c *checker) hasClasses(l sizing.Line) bool { return c.classes[l.Part.Part] }

func among(l sizing.Line, parts ...string) bool { return slices.Contains(parts, l.Part.Part) }

// Parts that have their own rules: those in proportion.go, in onepiece.go,
// and F06 where they are too short.
func isHood(l sizing.Line) bool    { return among(l, "hood_round", "hood_height") }
func isTrunk(l sizing.Line) bool   { return among(l, "trunk", "rise", "front_opening") }
func mustCover(l sizing.Line) bool { return among(l, "hand_length", "foot_length") }

func (c *checker) isOnePiece() bool { return c.d.Garment.Group == "one-piece" }

// outside is how far ease is outside low to high.
func outside(ease, low, high float64) float64 { return max(low-ease, ease-high, 0) }

func tooSmall(c *checker) {
	c.fitted(func(l sizing.Line, size float64, e *Entry) {
		if isHood(l) {
			return
		}
		least, source := math.Inf(-1), sourceOf(l)
		ofGirth := c.ref.Practice("least_of_girth")
		if c.hasClasses(l) {
			t, _ := c.tight.Line(l.Part.Part) // of the same parts
			least = base(t) + t.EaseLow
		} else if l.Part.Dimension != "length" {
			least, source = min(ofGirth.Share()*l.Body.Value, base(l)+l.EaseLow), sourceOf(l, ofGirth)
		}
		least -= 0.05 // sizes are written to the millimetre
		if size >= least || size >= least-c.step(l)/2 {
			return
		}
		c.report(e, Finding{Subject: l.Part.Part,
			Found: fact("fit.on-body", cm(size), cm(l.Body.Value)), Expected: fact("fit.least", cm(least+0.05), c.d.Spec.Fact()),
			By: fact("by.short", cm(least+0.05-size)), Fix: do(c.change(l, l.Finished, stitch.Up)), Source: source})
	})
}

func otherClass(c *checker) {
	c.fitted(func(l sizing.Line, size float64, e *Entry) {
		bare, _ := c.withoutNappy.Line(l.Part.Part)
		if !c.hasClasses(l) {
			return
		}
		ease := size - base(l)
		nappy := l.Finished - bare.Finished
		off := outside(ease, l.EaseLow, max(l.EaseHigh, c.legNeeds(l)-base(l)))
		huge := c.ref.Practice("huge_ease")
		if math.IsInf(l.EaseHigh, 1) {
			off = max(off, ease-l.EaseLow-huge.Value)
		}
		if off <= c.step(l)+0.1 {
			return
		}
		has, _ := c.ref.FitOf(c.d.Garment.ID, l.Part.Measurement, l.Body.Value, ease-nappy, c.d.Spec.Layer)
		f := Finding{Subject: l.Part.Part,
			Found:    fact("fit.other-class", l.Part.Part, cm(ease), string(has), string(c.d.Spec.Fit)),
			Expected: fact("fit.ease-for", span(l.EaseLow, l.EaseHigh), span(base(l)+l.EaseLow, base(l)+l.EaseHigh), c.d.Spec.Fact()),
			By:       fact("by.outside", cm(off)), Fix: do(c.change(l, l.Finished, stitch.Nearest)), Source: sourceOf(l)}
		switch {
		case has == c.d.Spec.Fit && ease > l.EaseLow+huge.Value:
			f.Source = sourceOf(l, huge)
			f.Found = fact("fit.beyond-classes", l.Part.Part, cm(ease))
		case has == c.d.Spec.Fit:
			// The classes leave gaps between them.
			f.Severity = Note
			f.Found = fact("fit.between-classes", l.Part.Part, cm(ease), string(has))
		}
		c.report(e, f)
	})
}

func outsideEase(c *checker) {
	c.fitted(func(l sizing.Line, size float64, e *Entry) {
		if l.Part.Dimension == "length" || l.Share.Cm != 0 || c.hasClasses(l) || isHood(l) {
			return
		}
		ease := size - base(l)
		off := outside(ease, l.EaseLow, l.EaseHigh)
		if off <= max(c.step(l), 0.5) || size < c.ref.Practice("least_of_girth").Share()*l.Body.Value {
			return // F01 reports sizes that are far too small
		}
		c.report(e, Finding{Subject: l.Part.Part,
			Found:    fact("fit.ease-over-body", cm(size), cm(ease), cm(l.Body.Value)),
			Expected: fact("fit.ease", span(l.EaseLow, l.EaseHigh), span(base(l)+l.EaseLow, base(l)+l.EaseHigh)),
			By:       fact("by.outside", cm(off)), Fix: do(c.change(l, l.Finished, stitch.Nearest)), Source: sourceOf(l)})
	})
}

func offLength(c *checker) {
	c.fitted(func(l sizing.Line, size float64, e *Entry) {
		if l.Part.Dimension != "length" || c.hasClasses(l) || isHood(l) || c.isOnePiece() && isTrunk(l) {
			return
		}
		low, high := base(l)+l.EaseLow, base(l)+l.EaseHigh
		if mustCover(l) && size < l.Body.Value && l.Share.Cm == 0 {
			return // F06
		}
		off := outside(size, low, high)
		slack, share := c.ref.Practice("length_slack"), c.ref.Practice("length_slack_share")
		if off <= max(slack.Value, share.Share()*l.Finished, c.step(l)) {
			return
		}
		if size < low {
			off = -off
		}
		c.report(e, Finding{Subject: l.Part.Part, Found: length(size), Expected: fact("range", span(low, high)),
			By: fact("by.longer", cm(off)), Fix: fact("fix.or-extra", c.change(l, l.Finished, stitch.Nearest)), Source: sourceOf(l, slack, share)})
	})
}

func slip(c *checker) {
	for _, l := range c.want.Lines {
		size, e, ok := c.d.size(l.Part.Part)
		if !ok || !c.isSlip(l, size) {
			continue
		}
		right := c.change(l, l.Finished, stitch.Nearest)
		fix := do(right)
		inUnit := func(unit string, v float64) Edit { return Edit{"finished", l.Part.Part, cm(size), cm(v), unit} }
		near := func(v float64) bool { return math.Abs(v/l.Finished-1) < 0.15 }
		switch {
		case e.counted():
			fix = fact("fix.count-again", right)
		case near(size * sizing.CmPerInch):
			fix = fact("fix.unit-in", size, inUnit("in", size*sizing.CmPerInch))
		case near(size / sizing.CmPerInch):
			fix = fact("fix.unit-cm", size/sizing.CmPerInch, inUnit("cm", size/sizing.CmPerInch))
		case near(size/10) || near(size*10):
			fix = fact("fix.point", right)
		case near(size * 2):
			fix = fact("fix.laid-flat", right)
		}
		c.report(e, Finding{Subject: l.Part.Part, Found: length(size), Expected: fact("fit.about", cm(l.Finished)),
			By: fact("by.times", size/l.Finished), Fix: fix, Source: sourceOf(l, c.ref.Practice("slip_low"))})
	}
}

func shorterThanBody(c *checker) {
	c.fitted(func(l sizing.Line, size float64, e *Entry) {
		if !mustCover(l) || l.Share.Cm != 0 || size >= l.Body.Value-0.05 {
			return
		}
		c.report(e, Finding{Subject: l.Part.Part, Found: length(size), Expected: fact("fit.body-own", cm(l.Body.Value)),
			By: fact("by.short", cm(l.Body.Value-size)), Fix: do(c.change(l, l.Finished, stitch.Up)), Source: sourceOf(l)})
	})
}

// sourceOf names the sources that a line rests on, and those of the figures of
// the trade that it was judged by.
func sourceOf(l sizing.Line, figures ...sizing.Practice) string {
	ids := slices.Clone(l.Body.Sources)
	for _, a := range append(slices.Clone(l.Ease), l.Adjust...) {
		ids = append(ids, a.Source)
	}
	for _, p := range figures {
		ids = append(ids, p.Source)
	}
	ids = slices.DeleteFunc(ids, func(id string) bool { return id == "" })
	slices.Sort(ids)
	return strings.Join(slices.Compact(ids), ", ")
}

// sources names the sources of figures of the trade.
func sources(figures ...sizing.Practice) string { return sourceOf(sizing.Line{}, figures...) }
