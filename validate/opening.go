package validate

import (
	"math"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// openingRules are about getting in and out.
func openingRules() []draftRule {
	return []draftRule{
		{Rule{"G01", "opening", "The neck opening is too small for the head", Stop}, headThroughNeck},
		{Rule{"G02", "opening", "The cuff is too small for the hand", Stop}, handThroughCuff},
		{Rule{"G03", "opening", "The ankle is too small for the foot", Stop}, footThroughAnkle},
		{Rule{"G04", "opening", "The waist is too small for the hips or the chest", Stop}, hipsThroughWaist},
		{Rule{"G05", "opening", "The zipper does not fit its opening", Warn}, zipperLength},
		{Rule{"G06", "opening", "The button band does not fit its opening", Warn}, bandLength},
		{Rule{"G07", "opening", "A one-piece has no opening long enough to step in through", Stop}, stepIn},
		{Rule{"G08", "opening", "A child of that age cannot undo it alone for the toilet", Warn}, toiletAlone},
		{Rule{"G09", "opening", "An opening is longer than the body that it is cut into", Warn}, openingWithin},
	}
}

// roundingCm is what a length may lose when a plan writes it into a draft with
// three decimals: a slit of just the length that is needed is long enough.
const roundingCm = 0.0005

// tooTight reports an edge that does not stretch over a girth of the body. slit
// is the length of an opening beside it.
func (c *checker) tooTight(part, measurement string, slit float64) {
	edge, e, ok := c.d.size(part)
	over, known := c.body(measurement)
	if !ok || !known {
		return
	}
	var figures []sizing.Practice
	if p, larger := c.ref.Passage(part); larger {
		over = p.Cm(over)
		figures = append(figures, p.Times)
	}
	if l, ok := c.want.Line(measurement); ok && part == "waist" {
		over += l.NappyCm() // it is pulled on over the nappy
	}
	// The slit opens by both its sides; what is left is for the edge to stretch.
	o := stitch.Opening{EdgeCm: edge, Stretch: 1, OverCm: over - 2*slit}
	if o.OverCm <= 0 {
		return
	}
	stretch, measured := c.d.get("stretch", part)
	if measured {
		o.Stretch = stretch.Number
	}
	rounded := o
	if slit > 0 {
		rounded.OverCm -= 2 * roundingCm
	}
	if rounded.Passes() {
		return
	}
	l, _ := c.want.Line(part)
	widen := c.change(l, o.NeededCm(), stitch.Up)
	f := Finding{Subject: part, Found: fact("edge.at-rest", cm(edge)), Expected: fact("over."+measurement, cm(over)), Fix: do(widen), Source: sources(figures...)}
	if slit > 0 {
		f.Found = fact("edge.and-opening", cm(edge), cm(slit))
	}
	most := c.ref.Practice("most_stretch")
	if !measured {
		f.Source = sources(append(figures, most)...)
	}
	switch {
	case !measured && o.NeededStretch() <= most.Value:
		f.Severity = Warn
		f.By = fact("by.must-stretch", math.Ceil(o.NeededStretch()*100)/100)
		f.Fix = fact("fix.measure-stretch", part, widen)
	case measured:
		f.Found = fact("edge.stretched", f.Found, cm(edge*o.Stretch))
		f.By = fact("by.short", cm(o.OverCm-edge*o.Stretch))
	default:
		f.By = fact("by.beyond-stretch", o.NeededStretch(), most.Value)
	}
	if part == "neck" {
		f.Fix = fact("fix.or-opening", f.Fix)
	}
	c.report(e, f)
}

func headThroughNeck(c *checker) {
	slit, _, _ := c.longestOpening("front", "back", "shoulder")
	c.tooTight("neck", "head", slit)
}

func handThroughCuff(c *checker) { c.tooTight("cuff", "hand", 0) }

func footThroughAnkle(c *checker) { c.tooTight("ankle", "foot", 0) }

func hipsThroughWaist(c *checker) {
	switch c.d.Garment.Group {
	case "lower":
		c.tooTight("waist", "hip", 0)
	case "upper":
		slit := 0.0
		if v, _, ok := c.d.opening("front"); ok {
			slit = v
		} else if v, _, ok := c.d.opening("back"); ok {
			slit = v
		}
		c.tooTight("waist", "chest", slit)
	}
}

func (c *checker) closures(kind string, f func(e *Entry, open float64)) {
	for _, e := range c.d.all(kind) {
		open, _, ok := c.d.opening(e.Part)
		if !ok {
			c.report(e, Finding{Subject: kind, Found: fact("closure.no-opening", kind, cm(e.Cm)), Fix: fact("fix.add-opening", e.Part)})
			continue
		}
		f(e, open)
	}
}

func zipperLength(c *checker) {
	slack, byHand := c.ref.Practice("zipper_slack"), c.ref.Practice("zipper_by_hand")
	c.closures("zipper", func(e *Entry, open float64) {
		f := Finding{Subject: "zipper", Found: fact("zipper.in-opening", cm(e.Cm), cm(open)), Expected: fact("zipper.length"),
			Fix: c.stockedZipper(e, open, slack.Value, byHand.Value), Source: sources(slack, byHand)}
		switch {
		case e.Cm > open+slack.Value:
			f.By = fact("by.zipper-long", cm(e.Cm-open))
			if c.d.Gauge != (stitch.Gauge{}) {
				f.Fix = fact("fix.or-opening-rows", f.Fix, int(math.Ceil(c.d.Gauge.Rows(e.Cm-open))))
			}
		case e.Cm < open-byHand.Value-slack.Value:
			f.By = fact("by.too-short", cm(open-e.Cm))
		case e.Cm < open-slack.Value:
			f.Severity = Note
			f.By, f.Fix = fact("by.longer", cm(e.Cm-open)), fact("fix.close-rest")
		default:
			return
		}
		c.report(e, f)
	})
}

// stockedZipper names the stocked zipper for an opening, in place of the one of the row: the
// longest that lies in it, with what is to be done about what is left.
func (c *checker) stockedZipper(e *Entry, open, slackCm, byHandCm float64) sizing.Fact {
	g := c.d.Gauge
	if g == (stitch.Gauge{}) {
		g = stitch.Gauge{StitchesPer10Cm: 10, RowsPer10Cm: 10} // only the length is asked for
	}
	var stock []float64
	for _, p := range c.ref.PracticeList("stocked_zipper_") {
		stock = append(stock, p.Value)
	}
	z, err := stitch.FitZipper(g, open+slackCm, stock, 0, 0) // advice about the rest is not needed
	if err != nil {
		return fact("fix.no-zipper")
	}
	edit, left := Edit{e.Field, e.Part, cm(e.Cm), cm(z.LengthCm), "cm"}, open-z.LengthCm
	switch {
	case left <= slackCm:
		return fact("fix.take-zipper", cm(z.LengthCm), edit)
	case left <= byHandCm+slackCm:
		return fact("fix.take-and-close", cm(z.LengthCm), cm(left), edit)
	}
	return fact("fix.take-and-shorten", cm(z.LengthCm), cm(left), edit)
}

func bandLength(c *checker) {
	slack, share := c.ref.Practice("button_band_slack"), c.ref.Practice("button_band_slack_share")
	c.closures("buttonband", func(e *Entry, open float64) {
		if off := math.Abs(e.Cm - open); off > max(slack.Value, share.Share()*open) {
			c.report(e, Finding{Subject: "buttonband", Found: fact("band.on-edge", cm(e.Cm), cm(open)), Expected: fact("band.length"),
				By: fact("by.band", cm(off)), Fix: fact("fix.band", Edit{e.Field, e.Part, cm(e.Cm), cm(open), "cm"}), Source: sources(slack, share)})
		}
	})
}

// longestOpening returns the longest opening of the draft and its place.
func (c *checker) longestOpening(places ...string) (cm float64, place string, e *Entry) {
	for _, p := range places {
		if v, entry, ok := c.d.opening(p); ok && v > cm {
			cm, place, e = v, p, entry
		}
	}
	return cm, place, e
}

func stepIn(c *checker) {
	if !c.isOnePiece() {
		return
	}
	neck, e, ok := c.d.size("neck")
	hip, known := c.body("hip")
	if !ok || !known {
		return
	}
	open, place, entry := c.longestOpening("front", "back", "shoulder")
	if entry != nil {
		e = entry
	}
	stretch := 1.0
	if s, ok := c.d.get("stretch", "neck"); ok {
		stretch = s.Number
	}
	pass := stitch.FrontOpening{LengthCm: open}.PassCm(neck * stretch)
	if pass >= hip {
		return
	}
	found := fact("opening.none", cm(neck*stretch))
	if open > 0 {
		found = fact("opening.passes", cm(neck*stretch), cm(open), place, cm(pass))
	}
	c.report(e, Finding{Subject: "opening", Found: found, Expected: fact("opening.hips", cm(hip)),
		By: fact("by.short", cm(hip-pass)), Fix: fact("fix.opening-least", cm(open+(hip-pass)/2))})
}

func toiletAlone(c *checker) {
	if !c.isOnePiece() || c.d.Spec.Nappy {
		return
	}
	age, from, ok := c.d.AgeYears()
	if !ok {
		c.report(nil, Finding{Severity: Note, Subject: "opening", Found: fact("toilet.no-age"), Fix: fact("fix.add-age")})
		return
	}
	toilet, buttons, drop := c.ref.Practice("toilet_age"), c.ref.Practice("button_age"), c.ref.Practice("neck_drop").Value
	if age < toilet.Value {
		return
	}
	f := Finding{Subject: "opening", Source: sources(toilet)}
	seat, _, hasSeat := c.d.opening("seat")
	front, _, e := c.longestOpening("front")
	back, _, backEntry := c.longestOpening("back", "shoulder")
	waist, _, hasWaist := c.d.size("body_length")
	switch {
	case front == 0 && !hasSeat:
		f.Found = fact("toilet.no-opening")
		if back > 0 {
			e = backEntry
			f.Found = fact("toilet.out-of-reach")
		}
		f.Expected = fact("toilet.at-front", age, from)
		f.Fix = fact("fix.open-front")
	case front > 0 && hasWaist && !hasSeat && front+drop < waist:
		f.Found = fact("toilet.above-waist", cm(front))
		f.Expected = fact("toilet.slips-out", age, from)
		f.By = fact("by.short-of-waist", cm(waist-drop-front))
		f.Fix = fact("fix.longer-or-seat", cm(waist-drop))
	case age < buttons.Value && len(c.d.all("buttonband")) > 0 && len(c.d.all("zipper")) == 0 && seat == 0:
		f.Severity, f.Source = Note, sources(toilet, buttons)
		e = c.d.all("buttonband")[0]
		f.Found = fact("toilet.buttons")
		f.Expected = fact("toilet.quicker", age, from)
		f.Fix = fact("fix.try-buttons")
	default:
		return
	}
	c.report(e, f)
}

func openingWithin(c *checker) {
	most, _, ok := c.d.size("body_length")
	if !ok {
		return
	}
	if rise, _, ok := c.d.size("rise"); ok && c.isOnePiece() {
		most += rise
	}
	for _, place := range []string{"front", "back"} {
		if e, ok := c.d.get("opening", place); ok && e.Cm > most+roundingCm {
			c.report(e, Finding{Subject: "opening", Found: fact("opening.long", cm(e.Cm)), Expected: fact("opening.within", cm(most)), By: fact("by.too-long", cm(e.Cm-most)), Fix: fact("fix.opening-shorter")})
		}
	}
}
