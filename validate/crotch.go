package validate

import (
	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

func legsOfHip(c *checker) {
	hip, _, hasHip := c.plausible("hip")
	thigh, e, hasThigh := c.plausible("thigh")
	l, ok := c.want.Line("thigh")
	if hasHip && hasThigh && ok && 2*thigh < hip-0.5 {
		c.report(e, Finding{Subject: "thigh", Found: fact("legs.twice", cm(thigh), cm(2*thigh)), Expected: fact("legs.least", cm(hip)),
			By: length(hip - 2*thigh), Fix: do(c.change(l, max(l.Finished, hip/2), stitch.Up))})
	}
}

// legNeeds is what half the hips and the least bridge make of a leg's top, 0 for
// other parts.
func (c *checker) legNeeds(l sizing.Line) float64 {
	hip, _, ok := c.plausible("hip")
	if !ok || l.Part.Part != "thigh" {
		return 0
	}
	return hip/2 + c.d.Spec.BridgeLeastCm(hip, c.ref.Practice) + c.step(l)
}

// smallBridge checks the bridge between the legs: as counted, or what the legs
// have over the hips.
func smallBridge(c *checker) {
	hip, _, hasHip := c.plausible("hip")
	thigh, e, hasThigh := c.plausible("thigh")
	if !hasHip {
		return
	}
	least := c.d.Spec.BridgeLeastCm(hip, c.ref.Practice)
	figures := sources(c.ref.Practice("bridge_least"), c.ref.Practice("bridge_least_length"))
	if n, at, counted := c.d.count("split", "bridge"); counted {
		if wide := c.d.Gauge.WidthCm(n); wide < least-roundingCm {
			to, err := c.d.Gauge.FitWidth(least, stitch.Plain, stitch.Up)
			if err != nil {
				return
			}
			c.report(at, Finding{Subject: "bridge", Found: fact("bridge.counted", n, cm(wide)), Expected: fact("bridge.least", cm(least), wide/hip),
				By: fact("by.short", cm(least-wide)), Fix: fact("fix.bridge", recount(at, n, to.Count)), Source: figures})
		}
		return
	}
	if wide := thigh - hip/2; hasThigh && wide >= 0 && wide < least-roundingCm {
		l, ok := c.want.Line("thigh")
		if !ok {
			return
		}
		c.report(e, Finding{Subject: "bridge", Found: fact("bridge.left", cm(thigh), cm(hip), cm(wide)), Expected: fact("bridge.least", cm(least), wide/hip),
			By: fact("by.short", cm(least-wide)), Fix: do(c.change(l, hip/2+least, stitch.Up)), Source: figures})
	}
}
