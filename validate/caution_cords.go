package validate

import (
	"slices"

	"growtuck/sizing"
)

// isAccessory reports what is outside the scope of the standard for cords: hats,
// gloves, socks.
func (c *checker) isAccessory() bool {
	return slices.Contains([]string{"head", "hand", "foot"}, c.d.Garment.Group)
}

// isUpper reports what covers the trunk, as the rule of the United States has it.
func (c *checker) isUpper() bool { return c.d.Garment.Group == "upper" || c.isOnePiece() }

func neckCords(c *checker) {
	below, who := c.ageUpTo(enYears)
	if !below {
		return
	}
	young, _ := c.ageBelow(enYoungYears)
	if h, ok := c.body("height"); ok && h <= enYoungCm {
		young = true
	}
	expected := fact("care.neck-young", cm(enYoungCm))
	if !young {
		expected = fact("care.neck-older")
	}
	if c.isAccessory() {
		expected = fact("care.neck-accessory")
	}
	c.fastened(cords, func(e *Entry) {
		if slices.Contains(headZones, e.Part) {
			c.report(e, Finding{Subject: e.Field, Found: fastening(e, who),
				Expected: expected, Fix: fact("fix.neck-by-shape"), Source: cordSources})
		}
	})
}

// otherCords goes by the place: what hangs at the ends of limbs is held wholly
// inside, at the back nothing is tied, elsewhere there is a longest free end.
func otherCords(c *checker) {
	inUS, who := c.ageUpTo(usYears)
	inEN, _ := c.ageUpTo(enYears)
	if !inUS {
		return
	}
	c.fastened(cords, func(e *Entry) {
		if slices.Contains(headZones, e.Part) {
			return
		}
		f := Finding{Subject: e.Field, Found: fastening(e, who), Fix: fact("fix.leave-off"), Source: cordSources}
		switch {
		case c.isAccessory():
			if !inEN {
				return
			}
			f.Expected, f.Source = fact("care.accessory-string"), "common-practice; EN 14682:2014 leaves these out"
		case e.Field == "toggle":
			f.Expected = fact("care.toggle")
		case !inEN:
			f = c.freeEnd(e, f, false)
		case e.Part == "back":
			f.Expected, f.Fix, f.Source = fact("care.back-tie"), fact("fix.close-elsewhere"), "EN 14682:2014"
		case slices.Contains(limbEnds, e.Part):
			f.Expected, f.Source = fact("care.limb-end"), "EN 14682:2014"
		case e.Part == "hem" && c.hemBelowCrotch():
			f.Expected, f.Source = fact("care.hem-cord"), "EN 14682:2014"
		default:
			f = c.freeEnd(e, f, true)
		}
		if !f.Expected.IsZero() {
			c.report(e, f)
		}
	})
}

// limbEnds are the zones where a cord catches in doors, wheels and stairs.
var limbEnds = []string{"sleeve", "cuff", "hand", "leg", "ankle", "foot"}

// freeEnd holds a free end against the longest that the texts leave for it: of a
// drawstring, or of a sash.
func (c *checker) freeEnd(e *Entry, f Finding, inEN bool) Finding {
	var most float64
	switch {
	case e.Field == "tie" && inEN:
		most, f.Expected, f.Source = enSashCm, fact("care.sash", cm(enSashCm)), "EN 14682:2014, from memory"
	case c.isUpper() && inEN:
		most, f.Expected = usFreeCordCm, fact("care.waist-cord", cm(usFreeCordCm), cm(enFreeCordCm))
	case c.isUpper():
		most, f.Expected, f.Source = usFreeCordCm, fact("care.waist-cord-us", cm(usFreeCordCm)), "ASTM F1816-18; 16 CFR 1120"
	case inEN:
		most, f.Expected, f.Source = enFreeCordCm, fact("care.waist-cord-en", cm(enFreeCordCm)), "EN 14682:2014"
	}
	if e.Cm <= most || f.Expected.IsZero() {
		return Finding{}
	}
	f.By, f.Fix = fact("by.over-shorter", cm(e.Cm-most)), fact("fix.ribbing")
	return f
}

// hemBelowCrotch reports a hem that hangs below the crotch.
func (c *checker) hemBelowCrotch() bool {
	length, _, ok := c.d.size("skirt_length")
	rise, known := c.body("rise")
	return c.isOnePiece() || c.d.Garment.Group == "lower" || ok && known && length > rise
}

func smallParts(c *checker) {
	below, who := c.ageBelow(smallPartYears)
	if !below {
		return
	}
	c.fastened(slices.Concat(fasteners, ornaments), func(e *Entry) {
		if e.Cm >= smallPartCm {
			return
		}
		c.report(e, Finding{Subject: e.Field, Found: fastening(e, who),
			Expected: fact("care.small-part"), Fix: fact("fix.embroider"), Source: "16 CFR 1501.3(d), 1501.4; CEN/TR 16792:2014"})
	})
}

// strands are floats of yarn inside a garment. In what covers the hands and feet of
// a small child any loose strand is named, whether the draft has one or not.
func strands(c *checker) {
	below, who := c.ageUpTo(enYears)
	if !below {
		return
	}
	most := c.ref.Practice("float_most")
	source := practiceWith(most) + "; CEN/TR 16792:2014 names the hazard"
	given := false
	c.fastened([]string{"float"}, func(e *Entry) {
		given = true
		if e.Cm > most.Value {
			c.report(e, Finding{Subject: e.Field, Found: fastening(e, who), Expected: fact("care.float", cm(most.Value)),
				By: fact("by.too-long", cm(e.Cm-most.Value)), Fix: fact("fix.catch-float"), Source: source})
		}
	})
	small, _ := c.ageBelow(smallPartYears)
	if g := c.d.Garment.Group; !given && small && (g == "hand" || g == "foot") {
		c.report(nil, Finding{Subject: "float", Found: fact("care.inside", who), Expected: fact("care.float", cm(most.Value)),
			Fix: fact("fix.catch-float"), Source: source})
	}
}

// zipperBelow is about a zipper that ends near the crotch.
func zipperBelow(c *checker) {
	below, who := c.ageUpTo(enYears)
	if !below || c.d.Child.Sex == sizing.Girl {
		return
	}
	for _, e := range c.d.all("zipper") {
		waist, _, known := c.d.size("body_length")
		open, _, _ := c.d.opening(e.Part)
		low := e.Part == "seat" || c.d.Garment.Group == "lower"
		if e.Part == "front" && c.isOnePiece() {
			low = !known || max(open, e.Cm)+c.ref.Practice("neck_drop").Value > waist
		}
		if low {
			c.report(e, Finding{Subject: "zipper", Found: fastening(e, who), Expected: fact("care.zipper-below"),
				Fix: fact("fix.stop-above"), Source: "common-practice; CEN/TR 16792:2014 names the hazard"})
		}
	}
}
