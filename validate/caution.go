package validate

import (
	"math"
	"slices"

	"growtuck/sizing"
)

// cautionRules are cautions for the care of the child. They are notes, with the
// rule's name and ages, and never a verdict: what they do not name is not
// thereby safe. Figures from memory are marked as such.
func cautionRules() []draftRule {
	return []draftRule{
		{Rule{"C01", "caution", "Cords and drawstrings at hood, head and neck", Note}, neckCords},
		{Rule{"C02", "caution", "Cords and drawstrings elsewhere: waist, hem, cuffs, ankles, mittens", Note}, otherCords},
		{Rule{"C03", "caution", "Small parts and a child under 3 years", Note}, smallParts},
		{Rule{"C04", "caution", "Tails, hems and cords that trail or trip", Note}, trailing},
		{Rule{"C05", "caution", "Hoods and masks that block the view or the sound of traffic", Note}, hiddenSight},
		{Rule{"C06", "caution", "Sleepwear and fire", Note}, sleepwear},
		{Rule{"C07", "caution", "Bulky layers under a car-seat harness", Note}, carSeat},
		{Rule{"C08", "caution", "The zipper's end at the chin", Note}, zipperAtChin},
		{Rule{"C09", "caution", "Hoods and caps in an infant's sleep", Note}, hoodedSleep},
		{Rule{"C10", "caution", "Being seen at dusk", Note}, seenAtDusk},
		{Rule{"C11", "caution", "Parts that stand out at the head or trail, and fire", Note}, headParts},
		{Rule{"C12", "caution", "Strands inside that can wind round fingers or toes", Note}, strands},
		{Rule{"C13", "caution", "The zipper's lower end", Note}, zipperBelow},
	}
}

var (
	headZones = []string{"hood", "face", "neck", "brim"}
	cords     = []string{"cord", "drawstring", "tie", "toggle"}
	fasteners = []string{"button", "popper", "bead", "eye", "bell"}
	ornaments = []string{"pompom", "toggle", "ear"}
	hanging   = []string{"tail", "wing", "fringe", "ear", "pompom", "cord", "tie"}
)

// ageBelow reports whether the wearer may be under an age, and the age.
func (c *checker) ageBelow(years float64) (bool, sizing.Fact) {
	age, from, ok := c.d.AgeYears()
	if !ok {
		return true, fact("age.not-given")
	}
	return age < years, fact("age", age, from)
}

// ageUpTo reports whether the wearer may be of an age at most.
func (c *checker) ageUpTo(years float64) (bool, sizing.Fact) {
	return c.ageBelow(math.Nextafter(years, math.Inf(1)))
}

func (c *checker) fastened(fields []string, f func(e *Entry)) {
	for _, e := range c.d.Entries() {
		if slices.Contains(fields, e.Field) {
			f(e)
		}
	}
}

func (c *checker) hooded() bool {
	_, ok := c.want.Line("hood_round")
	if !ok {
		_, _, ok = c.d.size("hood_round")
	}
	return ok
}

// fastening is something of a length or size that is fastened to a garment, and
// who wears it.
func fastening(e *Entry, who sizing.Fact) sizing.Fact {
	return fact("care.fastened", e.Field, cm(e.Cm), e.Part, who)
}

// Figures of the standards that the cautions name: EN 14682:2014 with figures of its
// edition of 2007 where marked, ASTM F1816-18 with 16 CFR 1120, 16 CFR 1501 and 1615,
// EN 71-2:2020.
const (
	enYears        = 14   // EN 14682: to this age
	enYoungYears   = 7    // EN 14682: under it a child is young
	enYoungCm      = 134  // EN 14682: up to this height too
	usYears        = 16   // ASTM F1816: sizes to 16, whose wearers are up to so old
	usFreeCordCm   = 7.5  // ASTM F1816: 3 in out of the channel
	enFreeCordCm   = 14   // EN 14682, edition of 2007
	enSashCm       = 36   // EN 14682, from memory
	largePartCm    = 5    // EN 71-2
	smallPartCm    = 5.7  // 16 CFR 1501: depth of the cylinder that a small part fits into, from memory
	smallPartYears = 3    // 16 CFR 1501: under it
	sleepYears     = 14   // 16 CFR 1616: sizes to 14
	infantYears    = 0.75 // 16 CFR 1615.1(c): sizes to 9 months
	infantSuitCm   = 64.8 // 16 CFR 1615.1(c): longest one-piece of an infant
	infantPieceCm  = 40   // 16 CFR 1615.1(c): longest piece of two
)

const cordSources = "EN 14682:2014; ASTM F1816-18; 16 CFR 1120"

// zoneHeight is roughly the height of a zone above the floor.
func (c *checker) zoneHeight(zone string) (float64, bool) {
	id := ""
	switch zone {
	case "hood", "face", "neck", "brim":
		id = "suprasternale_height"
	case "front", "back", "chest", "waist":
		id = "waist_height"
	case "seat", "hem":
		id = "inside_leg"
	case "leg":
		id = "knee_height"
	default:
		return 0, false
	}
	return c.body(id)
}

// practiceWith names common practice, and the sources of the figures by which it
// was judged.
func practiceWith(figures ...sizing.Practice) string {
	return sourceOf(sizing.Line{Body: sizing.Reading{Sources: []string{"common-practice"}}}, figures...)
}

func trailing(c *checker) {
	long, over := c.ref.Practice("long_tail"), c.ref.Practice("leg_over_foot")
	c.fastened(hanging, func(e *Entry) {
		up, known := c.zoneHeight(e.Part)
		most, by := c.mostHanging(up)
		switch {
		case known && e.Cm > most:
			c.report(e, Finding{Subject: e.Field, Found: fact("care.above-floor", e.Field, cm(e.Cm), e.Part, cm(up)),
				Expected: fact("care.clear-of-floor", cm(most)), By: fact("by.too-long", cm(e.Cm-most)), Fix: fact("fix.shorter-than", cm(most)), Source: by})
		case e.Field == "tail" && e.Cm >= long.Value:
			c.report(e, Finding{Subject: e.Field, Found: fact("care.size-at", e.Field, cm(e.Cm), e.Part),
				Expected: fact("care.comes-off"), Fix: fact("fix.poppers"), Source: practiceWith(long)})
		}
	})
	c.hem()
	leg, e, given := c.d.size("inside_leg")
	l, ok := c.want.Line("inside_leg")
	if given && ok && leg > l.Body.Value+over.Value && !slices.Contains(c.d.Spec.Options, "fold-back-cuffs") {
		c.report(e, Finding{Subject: "inside_leg", Found: fact("care.long-leg", cm(leg), cm(l.Body.Value)), Expected: fact("care.leg-clear"),
			By: length(leg - l.Body.Value), Fix: fact("fix.ribbed-cuff"), Source: practiceWith(over)})
	}
}

// mostHanging is the most that may hang from a height above the floor, and the
// sources: it is clear of the floor, and of the stair behind a child who goes down.
func (c *checker) mostHanging(up float64) (most float64, by string) {
	clear, stair := c.ref.Practice("floor_clear"), c.ref.Practice("stair_rise")
	return max(0, up-max(stair.Value, clear.Value)), practiceWith(clear, stair)
}

// hem holds the length of a skirt against the same as what hangs from the waist.
func (c *checker) hem() {
	skirt, e, given := c.d.size("skirt_length")
	rise, ok := c.body("rise")
	leg, ok2 := c.body("inside_leg")
	if !given || !ok || !ok2 {
		return
	}
	if most, by := c.mostHanging(rise + leg); skirt > most {
		c.report(e, Finding{Subject: "skirt_length", Found: fact("care.above-floor", "skirt", cm(skirt), "waist", cm(rise+leg)),
			Expected: fact("care.clear-of-floor", cm(most)), By: fact("by.too-long", cm(skirt-most)), Fix: fact("fix.shorter-hem", cm(most)), Source: by})
	}
}

func hiddenSight(c *checker) {
	if c.hooded() {
		c.report(nil, Finding{Subject: "hood", Found: fact("care.hood"),
			Expected: fact("care.sight"), Fix: fact("fix.try-hood"), Source: "common-practice"})
	}
	c.fastened([]string{"mask", "ear", "fringe", "eye"}, func(e *Entry) {
		if e.Field == "mask" || e.Part == "face" {
			c.report(e, Finding{Subject: e.Field, Found: fact("care.size-at", e.Field, cm(e.Cm), e.Part),
				Expected: fact("care.face-clear"), Fix: fact("fix.forehead"), Source: "common-practice"})
		}
	})
}

func (c *checker) first(field string) *Entry {
	if all := c.d.all(field); len(all) > 0 {
		return all[0]
	}
	return nil
}

func zipperAtChin(c *checker) {
	if c.d.has("guard", "yes") {
		return
	}
	for _, e := range c.d.all("zipper") {
		if e.Part == "front" {
			c.report(e, Finding{Subject: "zipper", Found: fact("care.no-guard"), Expected: fact("care.guard"),
				Fix: fact("fix.facing", Edit{Field: "guard", Part: "chin", To: "yes"}), Source: "common-practice; CEN/TR 16792:2014 names the hazard"})
		}
	}
}

func hoodedSleep(c *checker) {
	infant, who := c.ageBelow(1)
	_, _, known := c.d.AgeYears()
	infant = infant && known
	small, _ := c.ageBelow(3)
	if !c.hooded() && c.d.Garment.Group != "head" || !infant && !(small && c.d.has("wear", "sleep")) {
		return
	}
	c.report(nil, Finding{Subject: "hood", Found: fact("care.head-covered", who),
		Expected: fact("care.infant-sleep"), Fix: fact("fix.waking-hours"), Source: "AAP 2022, doi 10.1542/peds.2022-057990"})
}

func seenAtDusk(c *checker) {
	if !c.d.has("colour", "dark") || c.d.has("reflector", "yes") || c.d.Spec.Layer != "winter" && !c.d.has("wear", "outdoor") {
		return
	}
	c.report(c.first("colour"), Finding{Subject: "colour", Found: fact("care.dark"),
		Expected: fact("care.reflecting"), Fix: fact("fix.reflecting"), Source: "EN 17353:2020"})
}

func headParts(c *checker) {
	dressUp, long := c.d.has("wear", "dress-up"), c.ref.Practice("long_tail")
	c.fastened([]string{"ear", "fringe", "pompom", "tail", "wing", "mask"}, func(e *Entry) {
		if !slices.Contains(headZones, e.Part) {
			if slices.Contains(hanging, e.Field) && e.Cm >= long.Value {
				c.report(e, Finding{Subject: e.Field, Found: fact("care.size-at", e.Field, cm(e.Cm), e.Part),
					Expected: fact("care.trails-near-fire"), Fix: fact("fix.from-flames"), Source: practiceWith(long) + "; 16 CFR 1610, from memory"})
			}
			return
		}
		if !dressUp && e.Field == "pompom" {
			return
		}
		expected, source := fact("care.head-part-small"), "EN 71-2:2020"
		switch {
		case !dressUp:
			expected, source = fact("care.head-part-any"), "EN 71-2:2020; 16 CFR 1610"
		case e.Cm >= largePartCm:
			expected = fact("care.head-part-large")
		}
		c.report(e, Finding{Subject: e.Field, Found: fact("care.stands-out", e.Field, cm(e.Cm), e.Part),
			Expected: expected, Fix: fact("fix.from-flames"), Source: source})
	})
}

// Caution reports whether a rule is a caution for the care of the child.
func Caution(code string) bool {
	return slices.ContainsFunc(cautionRules(), func(r draftRule) bool { return r.Code == code })
}
