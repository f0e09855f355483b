package validate

import (
	"math"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// arithmeticRules are what counts alone settle.
func arithmeticRules() []draftRule {
	return []draftRule{
		{Rule{"S01", "arithmetic", "Fronts, back and sleeves do not add up to the yoke", Stop}, sectionsMakeYoke},
		{Rule{"S02", "arithmetic", "The body after the split is not fronts, back and both underarms", Stop}, bodyAfterSplit},
		{Rule{"S03", "arithmetic", "The sleeve after the split is not its part of the yoke and an underarm", Stop}, sleeveAfterSplit},
		{Rule{"S04", "arithmetic", "Left and right differ", Warn}, leftAndRight},
		{Rule{"S05", "arithmetic", "A section is missing from the split", Stop}, sectionsMissing},
		{Rule{"S06", "arithmetic", "A count is not of its multiple", Stop}, multiples},
		{Rule{"S07", "arithmetic", "A count and a size of the same part disagree by more than half a stitch", Stop}, countsAndSizes},
		{Rule{"S08", "arithmetic", "A section and the part it becomes have different counts", Stop}, sectionsAndParts},
		{Rule{"S09", "arithmetic", "The leg is not half the hip and the bridge", Stop}, legSplit},
		{Rule{"S10", "arithmetic", "Decreases do not lead from the first count to the last", Stop}, decreases},
	}
}

// A sum is a total with its terms: fronts 21 + 21 + back 42.
type sum struct {
	total int
	terms []sizing.Fact
	last  *Entry
	whole bool // nothing was missing
}

func (c *checker) sum(parts ...string) sum {
	s := sum{whole: true}
	for _, part := range parts {
		n, e, ok := c.d.count("split", part)
		if !ok {
			s.whole = false
			continue
		}
		s.total += n
		s.last = e
		s.terms = append(s.terms, fact("sum.term", part, n))
	}
	return s
}

func (s sum) fact() sizing.Fact { return fact("sum", s.terms, s.total) }

// fronts are the sections of the front: two where it opens.
func (c *checker) fronts() []string {
	if _, _, ok := c.d.count("split", "front"); ok {
		return []string{"front"}
	}
	return []string{"front_left", "front_right"}
}

// yokeEnd is the count at the split: as given, or as the increases make it.
func (c *checker) yokeEnd() (int, *Entry, bool) {
	if n, e, ok := c.d.count("yoke", "end"); ok {
		return n, e, ok
	}
	start, e, ok := c.d.count("yoke", "start")
	if gain, _, known := c.gained(); ok && known {
		return start + gain, e, true
	}
	return 0, nil, false
}

func sectionsMakeYoke(c *checker) {
	end, e, ok := c.yokeEnd()
	s := c.sum(append(c.fronts(), "back", "sleeve_left", "sleeve_right")...)
	if !ok || !s.whole || s.total == end {
		return
	}
	c.report(e, Finding{Subject: "yoke", Found: counted(end, "stitches"), Expected: s.fact(), By: counted(abs(s.total-end), "stitches"),
		Fix: fact("fix.in-yoke", Edit{"yoke", "end", end, s.total, "stitches"})})
}

func bodyAfterSplit(c *checker) {
	body, e, ok := c.d.count("split", "body")
	s := c.sum(append(c.fronts(), "back", "underarm", "underarm")...)
	if !ok || !s.whole || s.total == body {
		return
	}
	fix := do(recount(e, body, s.total))
	if under, _, _ := c.d.count("split", "underarm"); body == s.total-under {
		fix = fact("fix.both-underarms", recount(e, body, s.total))
	}
	c.report(e, Finding{Subject: "body", Found: counted(body, "stitches"), Expected: s.fact(), By: counted(abs(s.total-body), "stitches"), Fix: fix})
}

func sleeveAfterSplit(c *checker) {
	sleeve, e, ok := c.d.count("split", "sleeve")
	if !ok {
		return
	}
	for _, side := range []string{"sleeve_left", "sleeve_right"} {
		if s := c.sum(side, "underarm"); s.whole && s.total != sleeve {
			c.report(e, Finding{Subject: side, Found: counted(sleeve, "stitches"), Expected: s.fact(), By: counted(abs(s.total-sleeve), "stitches"),
				Fix: do(recount(e, sleeve, s.total))})
			return
		}
	}
}

func leftAndRight(c *checker) {
	for _, pair := range [][2]string{{"front_left", "front_right"}, {"sleeve_left", "sleeve_right"}} {
		l, e, hasLeft := c.d.count("split", pair[0])
		r, _, hasRight := c.d.count("split", pair[1])
		if hasLeft && hasRight && l != r {
			c.report(e, Finding{Subject: pair[0], Found: counted(l, "stitches"), Expected: fact("split.as", pair[1], r),
				By: counted(abs(l-r), "stitches"), Fix: fact("fix.or-note", recount(e, l, r))})
		}
	}
}

func sectionsMissing(c *checker) {
	names := append(c.fronts(), "back", "sleeve_left", "sleeve_right", "underarm", "body", "sleeve")
	s := c.sum(names...)
	if s.last == nil || s.whole || c.d.Garment.Group == "lower" {
		return
	}
	for _, part := range names {
		if _, _, ok := c.d.count("split", part); !ok {
			c.report(s.last, Finding{Subject: part, Found: fact("split.missing", part), Expected: fact("split.sections", names),
				Fix: fact("fix.add-count", "split", part, "stitches")})
		}
	}
}

func multiples(c *checker) {
	for _, e := range c.d.all("multiple") {
		n, at, ok := c.d.count("finished", e.Part)
		if !ok {
			c.report(e, Finding{Severity: Warn, Subject: e.Part, Found: fact("multiple.no-count", e.Multiple.String()),
				Fix: fact("fix.add-finished-count", e.Part)})
			continue
		}
		if e.Multiple.Has(n) {
			continue
		}
		below, above, _ := e.Multiple.Neighbours(float64(n)) // both were read
		f := Finding{Subject: e.Part, Found: counted(n, at.Unit), Expected: fact("multiple.count", e.Multiple.String()),
			By: counted(min(above-n, n-below), at.Unit), Fix: do(recount(at, n, above))}
		if below > 0 {
			f.Fix = fact("fix.or", recount(at, n, above), recount(at, n, below))
		}
		c.report(at, f)
	}
}

func countsAndSizes(c *checker) {
	for _, e := range c.d.all("finished") {
		n, at, ok := c.d.count("finished", e.Part)
		if !ok || e.counted() {
			continue
		}
		g := c.d.gaugeOf(e.Part)
		exact := g.Stitches(e.Cm - c.d.edges(e.Part))
		gives := g.WidthCm(n) + c.d.edges(e.Part)
		if at.Unit == "rows" {
			exact, gives = g.Rows(e.Cm), g.HeightCm(n)
		}
		if math.Abs(exact-float64(n)) <= 0.5+1e-9 {
			continue
		}
		m, rewrite := c.d.multiple(e.Part), Edit{"finished", e.Part, cm(e.Cm), cm(gives), "cm"}
		if m.Has(n) && m.Repeat > 1 && math.Abs(exact-float64(n)) <= float64(m.Repeat)/2 {
			c.report(at, Finding{Severity: Note, Subject: e.Part, Found: fact("count.gives", counted(n, at.Unit), cm(gives)),
				Expected: fact("size.as-count", cm(e.Cm), about(exact, at.Unit)), By: length(math.Abs(gives - e.Cm)),
				Fix: fact("fix.nearest-multiple", m.String(), rewrite)})
			continue
		}
		f := Finding{Subject: e.Part, Found: fact("count.gives-at-gauge", counted(n, at.Unit), cm(gives)),
			Expected: fact("size.beside-count", cm(e.Cm), about(exact, at.Unit)), By: about(math.Abs(exact-float64(n)), at.Unit)}
		if to, err := m.Count(exact, stitch.Nearest); err == nil {
			f.Fix = fact("fix.or-write", recount(at, n, to), rewrite)
		}
		c.report(at, f)
	}
}

func sectionsAndParts(c *checker) {
	for _, pair := range []struct{ field, name, part string }{
		{"split", "body", "chest"}, {"split", "sleeve", "upper_arm"}, {"yoke", "start", "neck"},
	} {
		n, e, ok := c.d.count(pair.field, pair.name)
		if !ok {
			continue
		}
		if m, _, ok := c.d.count("finished", pair.part); ok && pair.part == "neck" && c.d.gaugeOf("neck") != c.d.Gauge {
			continue // ribbing, joined with a change of count
		} else if ok {
			if n != m {
				c.report(e, Finding{Subject: pair.part, Found: fact("section.count", counted(n, "stitches"), pair.field),
					Expected: fact("section.finished", m, pair.part),
					By:       counted(abs(n-m), "stitches"), Fix: fact("fix.or-part", recount(e, n, m))})
			}
			continue
		}
		if size, ok := c.d.get("finished", pair.part); ok && pair.part != "neck" {
			exact := c.d.Gauge.Stitches(size.Cm - c.d.edges(pair.part))
			if math.Abs(exact-float64(n)) > float64(c.d.multiple(pair.part).Repeat)/2+1e-9 {
				c.report(e, Finding{Subject: pair.part, Found: fact("section.size", counted(n, "stitches"), pair.field, cm(c.d.Gauge.WidthCm(n))),
					Expected: fact("section.finished", cm(size.Cm), pair.part), By: about(math.Abs(exact-float64(n)), "stitches"),
					Fix: do(recount(e, n, int(math.Round(exact))))})
			}
		}
	}
}

func legSplit(c *checker) {
	bridge, _, ok := c.d.count("split", "bridge")
	hip, at, hasHip := c.d.count("finished", "hip")
	leg, e, hasLeg := c.d.count("finished", "thigh")
	if !ok || !hasHip || !hasLeg {
		return
	}
	s, err := stitch.SplitLegs(hip, bridge)
	if err != nil {
		c.report(e, Finding{Subject: "hip", Found: counted(hip, "stitches"), Expected: fact("legs.even"), By: counted(1, "stitches"),
			Fix: do(recount(at, hip, hip+1))})
		return
	}
	if s.Leg != leg {
		c.report(e, Finding{Subject: "thigh", Found: counted(leg, "stitches"), Expected: fact("legs.half", hip/2, bridge, s.Leg),
			By: counted(abs(leg-s.Leg), "stitches"), Fix: do(recount(e, leg, s.Leg))})
	}
}

// tapers are the parts that narrow: from and to are finished parts, length the
// part that has the rows.
var tapers = []struct{ name, from, to, length string }{
	{"sleeve", "upper_arm", "cuff", "sleeve_length"},
	{"leg", "thigh", "ankle", "inside_leg"},
}

func decreases(c *checker) {
	for _, t := range tapers {
		from, _, hasFrom := c.d.count("finished", t.from)
		rounds, e, hasRounds := c.d.count("decrease", t.name)
		end, at, hasEnd := c.d.count("end", t.name)
		if !hasFrom || !hasRounds || !hasEnd {
			continue
		}
		if left := from - 2*rounds; left != end {
			fix := fact("fix.end-on", recount(at, end, left), from, end)
			if (from-end)%2 == 0 && from >= end {
				fix = do(recount(e, rounds, (from-end)/2))
			}
			c.report(e, Finding{Subject: t.name, Found: fact("decrease.sum", from, rounds, left),
				Expected: counted(end, "stitches"), By: counted(abs(left-end), "stitches"), Fix: fix})
		}
	}
}

func abs(n int) int { return max(n, -n) }
