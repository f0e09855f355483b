package validate

import (
	"fmt"
	"slices"
	"strings"

	"growtuck/sizing"
)

// cautionRules are cautions for the care of the child. They are notes, with the
// rule's name and ages, and never a verdict: what they do not name is not
// thereby safe. What was not read but recalled says so.
func cautionRules() []draftRule {
	return []draftRule{
		{Rule{"C01", "caution", "Cords and drawstrings at hood, head and neck", Note}, neckCords},
		{Rule{"C02", "caution", "Cords and drawstrings at waist, hem and sleeves", Note}, waistCords},
		{Rule{"C03", "caution", "Small parts and a child under 3 years", Note}, smallParts},
		{Rule{"C04", "caution", "Tails, hems and cords that trail or trip", Note}, trailing},
		{Rule{"C05", "caution", "Hoods and masks that hide sight or traffic", Note}, hiddenSight},
		{Rule{"C06", "caution", "Sleepwear and fire", Note}, sleepwear},
		{Rule{"C07", "caution", "Bulky layers under a car-seat harness", Note}, carSeat},
		{Rule{"C08", "caution", "The zipper's end at the chin", Note}, zipperAtChin},
		{Rule{"C09", "caution", "Hoods and caps in an infant's sleep", Note}, hoodedSleep},
		{Rule{"C10", "caution", "Being seen at dusk", Note}, seenAtDusk},
		{Rule{"C11", "caution", "Parts on the head of a dress-up garment, and fire", Note}, headParts},
	}
}

const localLaw = "; the law where it is worn and the current edition govern"

var (
	headZones = []string{"hood", "face", "neck", "brim"}
	cordKinds = []string{"cord", "drawstring", "tie", "toggle"}
	tinyKinds = []string{"button", "popper", "bead", "eye", "bell"}
	longKinds = []string{"tail", "wing", "fringe", "cord", "tie"}
)

// ageBelow reports whether the wearer may be under an age, and the words for
// it.
func (c *checker) ageBelow(years float64) (bool, string) {
	age, from, ok := c.d.AgeYears()
	if !ok {
		return true, "age not given"
	}
	return age < years, ageWords(age) + ", " + from
}

func article(noun string) string {
	if strings.ContainsRune("aeio", rune(noun[0])) {
		return "an " + noun
	}
	return "a " + noun
}

// ageWords is an age as it is said: in months under two years.
func ageWords(years float64) string {
	if years < 2 {
		return fmt.Sprintf("%.0f months", years*12)
	}
	return number(years) + " years"
}

func (c *checker) fastened(kinds []string, f func(e *Entry)) {
	for _, e := range c.d.Entries() {
		if slices.Contains(kinds, e.Field) {
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

func neckCords(c *checker) {
	below, who := c.ageBelow(14)
	if !below {
		return
	}
	young, _ := c.ageBelow(7)
	if h, ok := c.body("height"); ok && h <= 134 {
		young = true
	}
	expected := "EN 14682, under 7 years or up to 134 cm: none at hood, head or neck, nor ties behind the neck; ASTM F1816 and 16 CFR 1120, outerwear of sizes 2T to 12: no drawstring at hood or neck"
	if !young {
		expected = "EN 14682, 7 to 14 years: no drawstring with free ends at hood, head or neck; ASTM F1816 and 16 CFR 1120, outerwear of sizes 2T to 12: none there"
	}
	if g := c.d.Garment.Group; g == "head" || g == "hand" || g == "foot" {
		expected = "hats, gloves and scarves are outside EN 14682; its zones are advised for them all the same: nothing long at head or neck"
	}
	c.fastened(cordKinds, func(e *Entry) {
		if slices.Contains(headZones, e.Part) {
			c.report(e, Finding{Subject: e.Field, Found: sizing.Text(fmt.Sprintf("%s of %s at the %s (%s)", article(e.Field), cm(e.Cm), e.Part, who)), Expected: sizing.Text(expected),
				Fix: sizing.Text("fit the hood or neck by shaping, ribbing or buttons instead" + localLaw), Source: "EN 14682; ASTM F1816-18; 16 CFR 1120"})
		}
	})
}

func waistCords(c *checker) {
	below, who := c.ageBelow(14)
	if !below {
		return
	}
	c.fastened(cordKinds, func(e *Entry) {
		switch {
		case slices.Contains(headZones, e.Part):
			return
		case e.Field == "toggle":
			c.report(e, Finding{Subject: e.Field, Found: sizing.Text(fmt.Sprintf("a toggle at the %s (%s)", e.Part, who)),
				Expected: sizing.Text("EN 14682, to 14 years, and ASTM F1816, sizes 2T to 16: no toggles or knots at free ends"),
				Fix:      sizing.Text("leave it off" + localLaw), Source: "EN 14682; ASTM F1816-18"})
			return
		case e.Part == "back":
			c.report(e, Finding{Subject: e.Field, Found: sizing.Text(fmt.Sprintf("%s at the back (%s)", article(e.Field), who)), Expected: sizing.Text("EN 14682 (edition of 2007), to 14 years: none comes out or is tied at the back"),
				Fix: sizing.Text("close it at the front or side" + localLaw), Source: "EN 14682"})
			return
		}
		if e.Cm <= 7.5 {
			return
		}
		found := fmt.Sprintf("%s of %s at the %s (%s)", article(e.Field), cm(e.Cm), e.Part, who)
		c.report(e, Finding{Subject: e.Field, Found: sizing.Text(found),
			Expected: sizing.Text("ASTM F1816 and 16 CFR 1120, sizes 2T to 16: at most 7.5 cm (3 in) out of the channel at full width, stitched at the middle; EN 14682 (edition of 2007), to 14 years: at most 14 cm, and not below the hem"),
			By:       sizing.Text(cm(e.Cm-7.5) + " over the shorter figure"), Fix: sizing.Text("use ribbing or elastic, or shorten it" + localLaw), Source: "EN 14682; ASTM F1816-18; 16 CFR 1120"})
	})
}

func smallParts(c *checker) {
	below, who := c.ageBelow(3)
	if !below {
		return
	}
	c.fastened(tinyKinds, func(e *Entry) {
		c.report(e, Finding{Subject: e.Field, Found: sizing.Text(fmt.Sprintf("%s of %s at the %s (%s)", article(e.Field), cm(e.Cm), e.Part, who)),
			Expected: sizing.Text("under 3 years a part that comes off can choke: a caution, not a ban. 16 CFR 1501 is for toys (its cylinder is 31.7 mm wide, from memory) and leaves out clothing and its buttons; toy-like ornaments may not share that"),
			Fix:      sizing.Text("embroider or crochet it instead, or sew it through a backing and test it by pulling" + localLaw), Source: "16 CFR 1501.3(d); CEN/TR 16792:2014"})
	})
}

// zoneHeight is about how high above the floor a zone is.
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

// floorCm is what a hanging part should be clear of the floor by: a judgement.
const floorCm = 5

func trailing(c *checker) {
	c.fastened(longKinds, func(e *Entry) {
		up, known := c.zoneHeight(e.Part)
		switch {
		case known && e.Cm > up-floorCm:
			c.report(e, Finding{Subject: e.Field, Found: sizing.Text(fmt.Sprintf("%s of %s at the %s, about %s above the floor", article(e.Field), cm(e.Cm), e.Part, cm(up))),
				Expected: sizing.Text("clear of the floor, on stairs too (common practice)"), By: sizing.Text(cm(e.Cm-up+floorCm) + " too long"),
				Fix: sizing.Text(fmt.Sprintf("make it shorter than %s, and detachable where it can catch", cm(max(0, up*2/3)))), Source: "common-practice"})
		case e.Field == "tail" && e.Cm >= 20:
			c.report(e, Finding{Subject: e.Field, Found: sizing.Text(fmt.Sprintf("a tail of %s at the %s", cm(e.Cm), e.Part)),
				Expected: sizing.Text("one that comes off when it catches in a door, a vehicle or an escalator (common practice)"),
				Fix:      sizing.Text("fasten it with poppers or a seam that gives way"), Source: "common-practice"})
		}
	})
	leg, e, given := c.d.size("inside_leg")
	l, ok := c.want.Line("inside_leg")
	if given && ok && leg > l.Body.Value+5 && !slices.Contains(c.d.Spec.Options, "fold-back-cuffs") {
		c.report(e, Finding{Subject: "inside_leg", Found: sizing.Text(fmt.Sprintf("%s on an inside leg of %s", cm(leg), cm(l.Body.Value))), Expected: sizing.Text("a leg that does not reach under the foot (common practice)"),
			By: sizing.Text(cm(leg - l.Body.Value)), Fix: sizing.Text("work a ribbed cuff that holds it above the foot, or fold it and sew the fold down"), Source: "common-practice"})
	}
}

func hiddenSight(c *checker) {
	if c.hooded() {
		c.report(nil, Finding{Subject: "hood", Found: sizing.Text("a hood"), Expected: sizing.Text("the face clear with the hood up and the head turned, sight to both sides, and traffic heard (common practice)"),
			Fix: sizing.Text("try it on: the hood turns with the head; a stuffed top must not push it over the eyes"), Source: "common-practice"})
	}
	c.fastened([]string{"mask", "ear", "fringe", "eye"}, func(e *Entry) {
		if e.Field == "mask" || e.Part == "face" {
			c.report(e, Finding{Subject: e.Field, Found: sizing.Text(fmt.Sprintf("%s of %s at the %s", article(e.Field), cm(e.Cm), e.Part)), Expected: sizing.Text("nothing over nose, mouth or eyes (common practice)"),
				Fix: sizing.Text("move it up on the forehead"), Source: "common-practice"})
		}
	})
}

func sleepwear(c *checker) {
	if !c.d.has("wear", "sleep") {
		return
	}
	if below, who := c.ageBelow(15); below {
		c.report(c.first("wear"), Finding{Subject: "wear", Found: sizing.Text("meant for sleep (" + who + ")"),
			Expected: sizing.Text("16 CFR 1615 (over 9 months to size 6X) and 1616 (sizes 7 to 14): the fabric passes a fire test, or the garment is tight-fitting to the rule's own measurements; loungewear counts"),
			Fix:      sizing.Text("ask an accredited laboratory before it is sold or given for the night" + localLaw), Source: "16 CFR 1615, 1616"})
	}
}

func (c *checker) first(field string) *Entry {
	if all := c.d.all(field); len(all) > 0 {
		return all[0]
	}
	return nil
}

func carSeat(c *checker) {
	upper := c.d.Garment.Group == "upper" || c.isOnePiece()
	if !upper || c.d.Spec.Layer != "winter" && !c.d.has("wear", "car") {
		return
	}
	if below, who := c.ageBelow(12); below {
		c.report(c.first("layer"), Finding{Subject: "layer", Found: sizing.Text(fmt.Sprintf("%s (%s)", c.d.Spec.Describe(), who)),
			Expected: sizing.Text("American Academy of Pediatrics, NHTSA: no bulky coat or suit under the harness of a car seat"),
			Fix:      sizing.Text("in the car a thin layer, and a blanket over the buckled harness; questions to a certified child-passenger technician"), Source: "AAP; NHTSA"})
	}
}

func zipperAtChin(c *checker) {
	if c.d.has("guard", "yes") {
		return
	}
	for _, e := range c.d.all("zipper") {
		if e.Part == "front" {
			c.report(e, Finding{Subject: "zipper", Found: sizing.Text("a front zipper with no guard at the chin"), Expected: sizing.Text("fabric over its end and behind it, and no pull long enough to catch (common practice)"),
				Fix: sizing.Text("work a facing behind the zipper and a fold over its top; stop it short of the chin; then add a row guard,chin,yes"), Source: "common-practice; CEN/TR 16792:2014 names the hazard"})
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
	c.report(nil, Finding{Subject: "hood", Found: sizing.Text(fmt.Sprintf("the head is covered (%s)", who)), Expected: sizing.Text("American Academy of Pediatrics 2022: no overheating and no head covering in an infant's sleep; general advice for toddlers: no hood"),
		Fix: sizing.Text("for waking hours out of doors, with someone by; take it off on coming indoors"), Source: "AAP 2022, doi 10.1542/peds.2022-057990"})
}

func seenAtDusk(c *checker) {
	if !c.d.has("colour", "dark") || c.d.has("reflector", "yes") || c.d.Spec.Layer != "winter" && !c.d.has("wear", "outdoor") {
		return
	}
	c.report(c.first("colour"), Finding{Subject: "colour", Found: sizing.Text("dark, worn out of doors"), Expected: sizing.Text("EN 17353:2020 (in place of EN 1150): a light or reflecting part on dark outerwear"),
		Fix: sizing.Text("work reflecting yarn or tape into limbs and trunk; nothing that hangs on a cord"), Source: "EN 17353:2020"})
}

func headParts(c *checker) {
	if !c.d.has("wear", "dress-up") {
		return
	}
	c.fastened([]string{"ear", "fringe", "pompom", "tail", "mask"}, func(e *Entry) {
		if !slices.Contains(headZones, e.Part) {
			return
		}
		size := "under 50 mm"
		if e.Cm >= 5 {
			size = "50 mm or more"
		}
		c.report(e, Finding{Subject: e.Field, Found: sizing.Text(fmt.Sprintf("%s that stands out %s at the %s", article(e.Field), cm(e.Cm), e.Part)),
			Expected: sizing.Text(fmt.Sprintf("EN 71-2:2020 has rules for parts worn on the head that stand out %s, and for masks and hoods of dress-up clothes", size)),
			Fix:      sizing.Text("keep it from flames and candles" + localLaw), Source: "EN 71-2:2020"})
	})
}
