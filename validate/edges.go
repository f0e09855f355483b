package validate

import (
	"math"

	"growtuck/sizing"
)

// edgesCounted reports a girth across a front opening, or of a hood, that is
// counted in stitches of the fabric alone: the edges and the zipper add to it.
// The edges of one front are as wide at the chest as at the neck.
func edgesCounted(c *checker) {
	depth, gap := c.ref.Practice("edge_depth"), c.ref.Practice("zipper_gap")
	front := 2 * depth.Value
	figures := []sizing.Practice{depth}
	if len(c.d.all("zipper")) > 0 {
		front += gap.Value
		figures = append(figures, gap)
	}
	var first *Entry
	for _, part := range c.edgedParts() {
		usual := front
		if part == "hood_round" {
			usual = 2 * depth.Value
		}
		n, at, counted := c.d.count("finished", part)
		e, given := c.d.get("edges", part)
		switch {
		case counted && !given:
			c.report(at, Finding{Subject: part, Found: fact("edges.none", n), Expected: fact("edges.usual", cm(usual)),
				Fix: fact("fix.add-edges", part, cm(usual), Edit{Field: "edges", Part: part, To: cm(usual), Unit: "cm"}), Source: sources(figures...)})
		case given && (e.Cm > edgesFar*usual || e.Cm < usual/edgesFar/2):
			c.report(e, Finding{Subject: part, Found: fact("edges.given", cm(e.Cm)), Expected: fact("edges.usual", cm(usual)), Source: sources(figures...)})
		case given && part != "hood_round" && first == nil:
			first = e
		case given && part != "hood_round" && math.Abs(e.Cm-first.Cm) > 2*roundingCm:
			c.report(e, Finding{Subject: part, Found: fact("edges.given", cm(e.Cm)), Expected: fact("edges.same", first.Part, cm(first.Cm)),
				By: length(math.Abs(e.Cm - first.Cm)), Fix: do(Edit{"edges", part, cm(e.Cm), cm(first.Cm), "cm"}), Source: sources(figures...)})
		}
	}
}

// edgesFar is by how many times edges may be wider than usual, as of fronts that are
// buttoned over each other; half as many, narrower.
const edgesFar = 4

// edgedParts are the girths that the edges of the garment add to.
func (c *checker) edgedParts() []string {
	if c.d.Garment.Opening != "front" {
		return nil
	}
	parts := []string{"chest", "neck"}
	open, _, hasOpen := c.d.opening("front")
	waist, _, hasWaist := c.d.size("body_length")
	_, _, skirted := c.d.size("skirt_length")
	if (c.isOnePiece() || skirted) && hasOpen && hasWaist && open+c.ref.Practice("neck_drop").Value > waist {
		parts = append(parts, "waist")
		if skirted {
			parts = append(parts, "skirt_hip")
		}
	}
	return append(parts, "hood_round")
}
