package validate

import (
	"slices"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

func sleepwear(c *checker) {
	if !c.d.has("wear", "sleep") {
		return
	}
	below, who := c.ageUpTo(sleepYears)
	if !below {
		return
	}
	f := Finding{Subject: "wear", Found: fact("care.for-sleep", who), Expected: fact("care.sleepwear"), Fix: fact("fix.laboratory"),
		Source: "16 CFR 1615, 1616; EN 14878; Nightwear (Safety) Regulations 1985"}
	if infant, _ := c.ageUpTo(infantYears); infant {
		f.Expected = fact("care.sleepwear-infant", cm(infantSuitCm), cm(infantPieceCm))
	}
	c.report(c.first("wear"), f)
}

// carSeat is about what is worn on the trunk and may be bulky under a harness: by
// what it is worn over, by what for, or by how thick the fabric is.
func carSeat(c *checker) {
	if !c.isUpper() || !c.d.has("wear", "car") && !c.bulky() {
		return
	}
	if below, who := c.ageBelow(12); below {
		c.report(c.first("layer"), Finding{Subject: "layer", Found: fact("care.worn-by", sizing.Spec{Fit: c.d.Spec.Fit, Layer: c.d.Spec.Layer}.Fact(), who),
			Expected: fact("care.car-seat"), Fix: fact("fix.thin-layer"), Source: "American Academy of Pediatrics; NHTSA"})
	}
}

// bulkyClass is the class of yarn from which a fabric is called bulky.
const bulkyClass = 5

func (c *checker) bulky() bool {
	switch {
	case c.d.Spec.Layer == "winter" || c.isOnePiece() && c.d.Spec.Layer == "indoor":
		return true
	case c.d.Spec.Layer == "indoor" && (c.hooded() || c.d.has("wear", "outdoor") || slices.Contains([]string{"loose", "oversized"}, string(c.d.Spec.Fit))):
		return true
	}
	if yarn, ok := c.d.get("yarn", ""); ok {
		return yarn.Number >= bulkyClass
	}
	class, known := c.ref.YarnClass(bulkyClass)
	if !known || c.d.Gauge == (stitch.Gauge{}) {
		return false
	}
	thick := class.KnitHigh
	if craft, ok := c.d.get("craft", ""); ok && craft.Value == "crochet" {
		thick = class.CrochetHigh
	}
	per4In, _ := c.d.Gauge.Per4In()
	return thick != nil && per4In <= *thick
}
