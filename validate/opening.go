package validate

import (
	"fmt"
	"math"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// openingRules are about getting in and out.
func openingRules() []draftRule {
	return []draftRule{
		{Rule{"G01", "opening", "The head does not pass the neck", Stop}, headThroughNeck},
		{Rule{"G02", "opening", "The hand does not pass the cuff", Stop}, handThroughCuff},
		{Rule{"G03", "opening", "The foot does not pass the ankle", Stop}, footThroughAnkle},
		{Rule{"G04", "opening", "The waist does not pass the hips or the chest", Stop}, hipsThroughWaist},
		{Rule{"G05", "opening", "The zipper does not suit its opening", Warn}, zipperLength},
		{Rule{"G06", "opening", "The button band does not suit its opening", Warn}, bandLength},
		{Rule{"G07", "opening", "A one-piece has no opening long enough to step in", Stop}, stepIn},
		{Rule{"G08", "opening", "A child of that age cannot undo it alone for the toilet", Warn}, toiletAlone},
	}
}

// mostStretch is the most that an edge is hoped to stretch where nobody has
// measured it (1.3 to 1.8 times, from memory; the one published figure is 1.7).
const mostStretch = 1.8

// toiletYears is the age from which a child is taken to go alone: common
// practice.
const toiletYears = 2.5

// passes reports an edge that does not stretch over a girth of the body. slit
// is the length of an opening beside it.
func (c *checker) passes(part, measurement, name string, slit float64) {
	edge, e, ok := c.d.size(part)
	over, known := c.body(measurement)
	if !ok || !known {
		return
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
	if o.Passes() {
		return
	}
	f := Finding{Subject: part, Expected: sizing.Text(fmt.Sprintf("%s round the %s", cm(over), name))}
	l, _ := c.want.Line(part)
	widen := c.change(l, o.NeededCm(), stitch.Up)
	f.Found = sizing.Text(fmt.Sprintf("%s at rest", cm(edge)))
	if slit > 0 {
		f.Found = sizing.Text(f.Found.String() + fmt.Sprintf(" and an opening of %s", cm(slit)))
	}
	switch {
	case !measured && o.NeededStretch() <= mostStretch:
		f.Severity = Warn
		f.By = sizing.Text(fmt.Sprintf("must stretch %.2f times", math.Ceil(o.NeededStretch()*100)/100))
		f.Fix = sizing.Text(fmt.Sprintf("measure on the swatch how far it stretches and enter it in a row stretch,%s; else %s", part, widen))
	case measured:
		f.Found = sizing.Text(f.Found.String() + fmt.Sprintf(", %s stretched", cm(edge*o.Stretch)))
		f.By = sizing.Text(cm(o.OverCm-edge*o.Stretch) + " short")
		f.Fix = sizing.Text(widen)
	default:
		f.By = sizing.Text(fmt.Sprintf("must stretch %.2f times; edges reach %.1f at most (from memory)", o.NeededStretch(), mostStretch))
		f.Fix = sizing.Text(widen)
	}
	if part == "neck" && !f.Fix.IsZero() {
		f.Fix = sizing.Text(f.Fix.String() + ", or plan an opening")
	}
	c.report(e, f)
}

func headThroughNeck(c *checker) {
	slit := 0.0
	for _, place := range []string{"front", "back", "shoulder"} {
		if v, _, ok := c.d.opening(place); ok {
			slit = max(slit, v)
		}
	}
	c.passes("neck", "head", "head", slit)
}

func handThroughCuff(c *checker) { c.passes("cuff", "hand", "hand", 0) }

func footThroughAnkle(c *checker) { c.passes("ankle", "foot", "foot; the heel takes more still", 0) }

func hipsThroughWaist(c *checker) {
	switch c.d.Garment.Group {
	case "lower":
		c.passes("waist", "hip", "hips", 0)
	case "upper":
		slit := 0.0
		if v, _, ok := c.d.opening("front"); ok {
			slit = v
		} else if v, _, ok := c.d.opening("back"); ok {
			slit = v
		}
		c.passes("waist", "chest", "chest", slit)
	}
}

func (c *checker) closures(kind string, f func(e *Entry, open float64)) {
	for _, e := range c.d.all(kind) {
		open, _, ok := c.d.opening(e.Part)
		if !ok {
			c.report(e, Finding{Subject: kind, Found: sizing.Text(fmt.Sprintf("a %s of %s for an opening that the draft has not", spoken(kind), cm(e.Cm))),
				Fix: sizing.Text(fmt.Sprintf("add a row opening,%s with its length", e.Part))})
			continue
		}
		f(e, open)
	}
}

// A zipper is matched to the edge; what is less than this longer or shorter
// lies in the tape.
const (
	zipperSlackCm = 0.6
	zipperHandCm  = 3 // closed by hand below it
)

func zipperLength(c *checker) {
	c.closures("zipper", func(e *Entry, open float64) {
		inches := e.Cm / sizing.CmPerInch
		f := Finding{Subject: "zipper", Found: sizing.Text(fmt.Sprintf("%s (%s in) in an opening of %s", cm(e.Cm), sizing.FormatQuarters(inches), cm(open))),
			Expected: sizing.Text("the length of the opening, washed and unstretched, or a little shorter")}
		advice := c.stockedZipper(open)
		switch {
		case e.Cm > open+zipperSlackCm:
			f.By, f.Fix = sizing.Text(cm(e.Cm-open)+" too long: it folds at the chin"), sizing.Text(advice+c.rowsFor(e.Cm-open))
		case e.Cm < open-zipperHandCm-zipperSlackCm:
			f.By, f.Fix = sizing.Text(cm(open-e.Cm)+" too short"), sizing.Text(advice)
		case e.Cm < open-zipperSlackCm:
			f.Severity = Note
			f.By, f.Fix = sizing.Text(cm(open-e.Cm)+" shorter"), sizing.Text("close the rest by hand at the lower end, or cover it with a flap at the chin")
		default:
			return
		}
		c.report(e, f)
	})
}

func (c *checker) rowsFor(cm float64) string {
	if c.d.Gauge == (stitch.Gauge{}) {
		return ""
	}
	return fmt.Sprintf(", or add %s to the opening", counted(int(math.Ceil(c.d.Gauge.Rows(cm))), "rows"))
}

// stockedZipper names the stocked zipper for an opening.
func (c *checker) stockedZipper(open float64) string {
	g := c.d.Gauge
	if g == (stitch.Gauge{}) {
		g = stitch.Gauge{StitchesPer10Cm: 10, RowsPer10Cm: 10} // only the length is asked for
	}
	z, err := stitch.FitZipper(g, open, nil)
	if err != nil {
		return "close it with buttons, or shorten a zipper at its top"
	}
	return fmt.Sprintf("take the %s in zipper (%s) and close the %s left by hand", sizing.FormatQuarters(z.LengthIn), cm(z.LengthCm), cm(z.DifferCm))
}

func bandLength(c *checker) {
	c.closures("buttonband", func(e *Entry, open float64) {
		if off := math.Abs(e.Cm - open); off > max(1, 0.03*open) {
			c.report(e, Finding{Subject: "buttonband", Found: sizing.Text(fmt.Sprintf("%s on an edge of %s", cm(e.Cm), cm(open))), Expected: sizing.Text("the length of the edge"),
				By: sizing.Text(cm(off) + " off: the front pulls up or hangs"), Fix: sizing.Text(fmt.Sprintf("make the band %s", cm(open)))})
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
	found := fmt.Sprintf("neck of %s and no opening", cm(neck*stretch))
	if open > 0 {
		found = fmt.Sprintf("neck of %s and both sides of %s at the %s: %s", cm(neck*stretch), cm(open), place, cm(pass))
	}
	c.report(e, Finding{Subject: "opening", Found: sizing.Text(found), Expected: sizing.Text(fmt.Sprintf("more than the hips, %s, that step in through it", cm(hip))),
		By: sizing.Text(cm(hip-pass) + " short"), Fix: sizing.Text(fmt.Sprintf("make the opening at least %s long", cm(open+(hip-pass)/2)))})
}

func toiletAlone(c *checker) {
	if !c.isOnePiece() || c.d.Spec.Nappy {
		return
	}
	age, from, ok := c.d.AgeYears()
	if !ok {
		c.report(nil, Finding{Severity: Note, Subject: "opening", Found: sizing.Text("the wearer's age is not given, so it was not asked whether the child can undo it alone"),
			Fix: sizing.Text("add a row age")})
		return
	}
	if age < toiletYears {
		return
	}
	who := fmt.Sprintf("a child of %s (%s)", ageWords(age), from)
	f := Finding{Subject: "opening", Source: "common-practice"}
	seat, _, hasSeat := c.d.opening("seat")
	front, _, e := c.longestOpening("front")
	back, _, backEntry := c.longestOpening("back", "shoulder")
	waist, _, hasWaist := c.d.size("body_length")
	switch {
	case front == 0 && !hasSeat:
		f.Found = sizing.Text("no opening that a child can reach")
		if back > 0 {
			e = backEntry
			f.Found = sizing.Text("opens only where a child cannot reach")
		}
		f.Expected = sizing.Text(who + " undoes it alone at the front")
		f.Fix = sizing.Text("open the front from the neck to below the waist, with a zipper that has a large pull")
	case front > 0 && hasWaist && !hasSeat && front+neckDropCm < waist:
		f.Found = sizing.Text(fmt.Sprintf("front opening of %s ends above the waist", cm(front)))
		f.Expected = sizing.Text(who + " slips out of it down to the knees")
		f.By = sizing.Text(cm(waist-neckDropCm-front) + " short of the waist")
		f.Fix = sizing.Text(fmt.Sprintf("make the opening longer than %s, or add one at the seat", cm(waist-neckDropCm)))
	case age < 4 && len(c.d.all("buttonband")) > 0 && len(c.d.all("zipper")) == 0 && seat == 0:
		f.Severity = Note
		e = c.d.all("buttonband")[0]
		f.Found = sizing.Text("closes with buttons")
		f.Expected = sizing.Text(who + " is quicker with a zipper or poppers")
		f.Fix = sizing.Text("let the child try the buttons on the swatch")
	default:
		return
	}
	c.report(e, f)
}

// neckDropCm is how much lower the neck is at the front than at the nape:
// common practice, as in the table of lengths.
const neckDropCm = 5
