package validate

import (
	"fmt"
	"math"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// arithmeticRules are what counts alone settle.
func arithmeticRules() []draftRule {
	return []draftRule{
		{Rule{"S01", "arithmetic", "Fronts, back and sleeves do not make the yoke", Stop}, sectionsMakeYoke},
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

// A sum is a total with the words for it: "fronts 21 + 21 + back 42".
type sum struct {
	total int
	terms []string
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
		s.terms = append(s.terms, fmt.Sprintf("%s %d", spoken(part), n))
	}
	return s
}

func (s sum) String() string { return strings.Join(s.terms, " + ") + fmt.Sprintf(" = %d", s.total) }

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
	c.report(e, Finding{Subject: "yoke", Found: sizing.Text(counted(end, "stitches")), Expected: sizing.Text(s.String()), By: sizing.Text(counted(abs(s.total-end), "stitches")),
		Fix: sizing.Text(recount("stitches", end, s.total) + " in the yoke, or change the sections")})
}

func bodyAfterSplit(c *checker) {
	body, e, ok := c.d.count("split", "body")
	s := c.sum(append(c.fronts(), "back", "underarm", "underarm")...)
	if !ok || !s.whole || s.total == body {
		return
	}
	fix := recount("stitches", body, s.total)
	if under, _, _ := c.d.count("split", "underarm"); body == s.total-under {
		fix += ": both underarms count"
	}
	c.report(e, Finding{Subject: "body", Found: sizing.Text(counted(body, "stitches")), Expected: sizing.Text(s.String()), By: sizing.Text(counted(abs(s.total-body), "stitches")), Fix: sizing.Text(fix)})
}

func sleeveAfterSplit(c *checker) {
	sleeve, e, ok := c.d.count("split", "sleeve")
	if !ok {
		return
	}
	for _, side := range []string{"sleeve_left", "sleeve_right"} {
		if s := c.sum(side, "underarm"); s.whole && s.total != sleeve {
			c.report(e, Finding{Subject: side, Found: sizing.Text(counted(sleeve, "stitches")), Expected: sizing.Text(s.String()), By: sizing.Text(counted(abs(s.total-sleeve), "stitches")),
				Fix: sizing.Text(recount("stitches", sleeve, s.total))})
			return
		}
	}
}

func leftAndRight(c *checker) {
	for _, pair := range [][2]string{{"front_left", "front_right"}, {"sleeve_left", "sleeve_right"}} {
		l, e, hasLeft := c.d.count("split", pair[0])
		r, _, hasRight := c.d.count("split", pair[1])
		if hasLeft && hasRight && l != r {
			c.report(e, Finding{Subject: pair[0], Found: sizing.Text(counted(l, "stitches")), Expected: sizing.Text(fmt.Sprintf("as %s, %d", spoken(pair[1]), r)),
				By: sizing.Text(counted(abs(l-r), "stitches")), Fix: sizing.Text(recount("stitches", l, r) + ", or say in the note why they differ")})
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
			c.report(s.last, Finding{Subject: part, Found: sizing.Text("the split has no " + spoken(part)), Expected: sizing.Text(strings.Join(names, ", ")),
				Fix: sizing.Text(fmt.Sprintf("add a row split,%s,…,stitches", part))})
		}
	}
}

func multiples(c *checker) {
	for _, e := range c.d.all("multiple") {
		n, at, ok := c.d.count("finished", e.Part)
		if !ok {
			c.report(e, Finding{Severity: Warn, Subject: e.Part, Found: sizing.Text(fmt.Sprintf("has the multiple %s and no count", e.Multiple)),
				Fix: sizing.Text(fmt.Sprintf("add a row finished,%s with its stitches or rows", e.Part))})
			continue
		}
		if e.Multiple.Has(n) {
			continue
		}
		below, above, err := e.Multiple.Neighbours(float64(n))
		if err != nil {
			c.report(at, Finding{Subject: e.Part, Found: sizing.Text(counted(n, at.Unit)), Expected: sizing.Text("a count of " + e.Multiple.String()), By: sizing.Text(err.Error())})
			continue
		}
		f := Finding{Subject: e.Part, Found: sizing.Text(counted(n, at.Unit)), Expected: sizing.Text("a count of " + e.Multiple.String()),
			By: sizing.Text(counted(min(above-n, n-below), at.Unit)), Fix: sizing.Text(recount(at.Unit, n, above))}
		if below > 0 {
			f.Fix = sizing.Text(f.Fix.String() + ", or " + recount(at.Unit, n, below))
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
		exact := g.Stitches(e.Cm)
		gives := g.WidthCm(n)
		if at.Unit == "rows" {
			exact, gives = g.Rows(e.Cm), g.HeightCm(n)
		}
		if math.Abs(exact-float64(n)) <= 0.5+1e-9 {
			continue
		}
		m := c.d.multiple(e.Part)
		if m.Has(n) && m.Repeat > 1 && math.Abs(exact-float64(n)) <= float64(m.Repeat)/2 {
			c.report(at, Finding{Severity: Note, Subject: e.Part, Found: sizing.Text(fmt.Sprintf("%s give %s", counted(n, at.Unit), cm(gives))),
				Expected: sizing.Text(fmt.Sprintf("%s (%s)", cm(e.Cm), about(exact, at.Unit))), By: sizing.Text(cm(math.Abs(gives - e.Cm))),
				Fix: sizing.Text(fmt.Sprintf("that is the nearest of %s: write %s", m, cm(gives)))})
			continue
		}
		f := Finding{Subject: e.Part, Found: sizing.Text(fmt.Sprintf("%s give %s at this gauge", counted(n, at.Unit), cm(gives))),
			Expected: sizing.Text(fmt.Sprintf("%s, as the draft says beside it (%s)", cm(e.Cm), about(exact, at.Unit))),
			By:       sizing.Text(about(math.Abs(exact-float64(n)), at.Unit))}
		if to, err := m.Count(exact, stitch.Nearest); err == nil {
			f.Fix = sizing.Text(recount(at.Unit, n, to) + fmt.Sprintf(", or write %s", cm(gives)))
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
				c.report(e, Finding{Subject: pair.part, Found: sizing.Text(fmt.Sprintf("%s in the %s", counted(n, "stitches"), pair.field)), Expected: sizing.Text(fmt.Sprintf("%d, as finished %s", m, spoken(pair.part))),
					By: sizing.Text(counted(abs(n-m), "stitches")), Fix: sizing.Text(recount("stitches", n, m) + ", or change the finished part")})
			}
			continue
		}
		if size, ok := c.d.get("finished", pair.part); ok && pair.part != "neck" {
			exact := c.d.Gauge.Stitches(size.Cm)
			if math.Abs(exact-float64(n)) > max(0.5, float64(c.d.multiple(pair.part).Repeat)/2)+1e-9 {
				c.report(e, Finding{Subject: pair.part, Found: sizing.Text(fmt.Sprintf("%s in the %s, %s", counted(n, "stitches"), pair.field, cm(c.d.Gauge.WidthCm(n)))),
					Expected: sizing.Text(fmt.Sprintf("%s, as finished %s", cm(size.Cm), spoken(pair.part))), By: sizing.Text(about(math.Abs(exact-float64(n)), "stitches")),
					Fix: sizing.Text(recount("stitches", n, int(math.Round(exact))))})
			}
		}
	}
}

func legSplit(c *checker) {
	bridge, _, ok := c.d.count("split", "bridge")
	hip, _, hasHip := c.d.count("finished", "hip")
	leg, e, hasLeg := c.d.count("finished", "thigh")
	if !ok || !hasHip || !hasLeg {
		return
	}
	s, err := stitch.SplitLegs(hip, bridge)
	if err != nil {
		c.report(e, Finding{Subject: "hip", Found: sizing.Text(counted(hip, "stitches")), Expected: sizing.Text("a count that halves into two legs"), By: sizing.Text("1 stitch"),
			Fix: sizing.Text(recount("stitches", hip, hip+1))})
		return
	}
	if s.Leg != leg {
		c.report(e, Finding{Subject: "thigh", Found: sizing.Text(counted(leg, "stitches")), Expected: sizing.Text(fmt.Sprintf("half the hip %d + bridge %d = %d", hip/2, bridge, s.Leg)),
			By: sizing.Text(counted(abs(leg-s.Leg), "stitches")), Fix: sizing.Text(recount("stitches", leg, s.Leg))})
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
		end, _, hasEnd := c.d.count("end", t.name)
		if !hasFrom || !hasRounds || !hasEnd {
			continue
		}
		if left := from - 2*rounds; left != end {
			fix := fmt.Sprintf("end on %d", left)
			if (from-end)%2 == 0 && from >= end {
				fix = recount("rounds", rounds, (from-end)/2)
			} else {
				fix += fmt.Sprintf(": %d and %d are not both even or both odd", from, end)
			}
			c.report(e, Finding{Subject: t.name, Found: sizing.Text(fmt.Sprintf("%d − 2 × %d = %d stitches", from, rounds, left)),
				Expected: sizing.Text(counted(end, "stitches")), By: sizing.Text(counted(abs(left-end), "stitches")), Fix: sizing.Text(fix)})
		}
	}
}

func abs(n int) int { return max(n, -n) }
