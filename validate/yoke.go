package validate

import (
	"fmt"
	"math"
	"strconv"

	"growtuck/sizing/stitch"
)

// yokeRules are about the increases of a yoke.
func yokeRules() []draftRule {
	return []draftRule{
		{Rule{"S11", "arithmetic", "Start and increases do not make the yoke", Stop}, increasesMakeYoke},
		{Rule{"S12", "arithmetic", "The increase rows are not all accounted for", Stop}, increaseRows},
		{Rule{"S13", "arithmetic", "The increases make the yoke cup or ruffle", Warn}, flatYoke},
		{Rule{"S14", "arithmetic", "A yoke or a taper is given in part, and was not checked", Warn}, givenInPart},
	}
}

// gained is what all increases add: the rows that are listed, or rounds times
// the increases of a round.
func (c *checker) gained() (int, string, bool) {
	if rows := c.d.all("increase"); len(rows) > 0 {
		total := 0
		for _, e := range rows {
			total += e.Count
		}
		return total, fmt.Sprintf("%d in %d increase rows", total, len(rows)), true
	}
	rounds, _, ok := c.d.count("yoke_rounds", "")
	per, _, known := c.d.count("yoke", "per_round")
	if !ok || !known {
		return 0, "", false
	}
	return rounds * per, fmt.Sprintf("%d rounds × %d", rounds, per), true
}

func increasesMakeYoke(c *checker) {
	start, _, hasStart := c.d.count("yoke", "start")
	end, e, hasEnd := c.d.count("yoke", "end")
	gain, words, ok := c.gained()
	if !hasStart || !hasEnd || !ok || start+gain == end {
		return
	}
	f := Finding{Subject: "yoke", Found: counted(end, "stitches"), Expected: fmt.Sprintf("%d + %s = %d", start, words, start+gain),
		By: counted(abs(start+gain-end), "stitches"), Fix: recount("stitches", end, start+gain)}
	if per, _, ok := c.d.count("yoke", "per_round"); ok && per > 0 && end > start && (end-start)%per == 0 && len(c.d.all("increase")) == 0 {
		rounds, _, _ := c.d.count("yoke_rounds", "")
		f.Fix += "; or " + recount("rounds", rounds, (end-start)/per)
	}
	c.report(e, f)
}

func increaseRows(c *checker) {
	rows, at, hasRows := c.d.count("yoke_rows", "")
	rounds, e, hasRounds := c.d.count("yoke_rounds", "")
	listed := c.d.all("increase")
	if hasRows && hasRounds && rounds > rows {
		c.report(e, Finding{Subject: "yoke", Found: counted(rounds, "rounds") + " that increase", Expected: "at most the " + counted(rows, "rows") + " of the yoke",
			By: counted(rounds-rows, "rounds"), Fix: recount("rounds", rounds, rows) + ", with more increases in each, or work more rows"})
	}
	if len(listed) == 0 {
		return
	}
	if hasRounds && rounds != len(listed) {
		c.report(e, Finding{Subject: "yoke", Found: counted(rounds, "rounds") + " that increase", Expected: fmt.Sprintf("the %d that are listed", len(listed)),
			By: counted(abs(rounds-len(listed)), "rounds"), Fix: "list every increase row, or correct the number of them"})
	}
	per, _, hasPer := c.d.count("yoke", "per_round")
	for _, r := range listed {
		n, err := strconv.Atoi(r.Part)
		if err != nil {
			continue // the reader has refused it
		}
		if hasRows && n > rows {
			c.report(r, Finding{Subject: "row " + r.Part, Found: "increases after the yoke has ended", Expected: "a row of 1 to " + strconv.Itoa(rows),
				By: counted(n-rows, "rows"), Fix: "move it up, or correct the rows of the yoke"})
		}
		if hasPer && r.Count != per {
			c.report(r, Finding{Subject: "row " + r.Part, Found: counted(r.Count, "stitches") + " gained", Expected: counted(per, "stitches") + ", as in every increase round",
				By: counted(abs(r.Count-per), "stitches"), Fix: recount("stitches", r.Count, per)})
		}
	}
	if depth, e, ok := c.d.count("finished", "armhole_depth"); ok && hasRows && rows > 2*depth {
		c.report(at, Finding{Severity: Warn, Subject: "yoke", Found: counted(rows, "rows"), Expected: fmt.Sprintf("about the armhole's %d rows (line %d)", depth, e.Line),
			By: counted(rows-depth, "rows"), Fix: "count the rows of the yoke again"})
	}
}

// tubeShare is the share of flat increases below which a yoke is more a tube
// than a yoke: it falls off the shoulder line for more than nine tenths of its
// depth. A judgement.
const tubeShare = 0.35

// flatYoke names how a yoke in rounds lies. It should fall over the shoulder,
// so it cups a little; it must not ruffle, nor be a tube.
func flatYoke(c *checker) {
	rows, _, hasRows := c.d.count("yoke_rows", "")
	gain, words, ok := c.gained()
	if !ok || c.d.Gauge == (stitch.Gauge{}) {
		return
	}
	if k, ok := c.d.get("construction", ""); ok && k.Value != "circular" && k.Value != "raglan" {
		return
	}
	if rounds, _, ok := c.d.count("yoke_rounds", ""); !hasRows && ok {
		rows = rounds // every row increases
	}
	if rows == 0 {
		return
	}
	per := float64(gain) / float64(rows)
	lie, err := stitch.CheckCircle(c.d.Gauge, per)
	if err != nil {
		return
	}
	_, e, _ := c.yokeEnd()
	flat := int(math.Round(lie.Flat * float64(rows)))
	f := Finding{Subject: "yoke", Found: fmt.Sprintf("%s over %s: %s a row", words, counted(rows, "rows"), number(per)),
		Expected: fmt.Sprintf("%s a row to lie flat (2π × row height %s ÷ stitch width %s)", number(lie.Flat),
			millimetres(c.d.Gauge.RowHeightCm()), millimetres(c.d.Gauge.StitchWidthCm())), By: percent(math.Abs(lie.Deviation))}
	switch {
	case lie.Lie() == stitch.Ruffles:
		f.Found += ", so the yoke ruffles"
		f.By += " too many"
		f.Fix = fmt.Sprintf("gain at most %d stitches over these rows, or work %d rows", flat, int(math.Ceil(float64(gain)/lie.Flat)))
	case per < tubeShare*lie.Flat:
		f.Found += ", so the yoke cups into a tube"
		f.By += " too few"
		f.Fix = fmt.Sprintf("gain %d stitches or more over these rows, or work at most %d rows", int(math.Ceil(tubeShare*float64(flat))), int(float64(gain)/(tubeShare*lie.Flat)))
	case lie.Lie() == stitch.Cups:
		f.Severity = Note
		f.Found += ", so the yoke cups"
		f.By = fmt.Sprintf("its edge drops %s of its depth", percent(lie.FallShare()))
		f.Fix = "wanted over a sloping shoulder; try it on"
	default:
		return
	}
	c.report(e, f)
}

func millimetres(cm float64) string { return number(cm*10) + " mm" }

func givenInPart(c *checker) {
	type row struct{ field, part string }
	missing := func(subject string, rows []row) {
		var last *Entry
		var without []row
		for _, r := range rows {
			if _, e, ok := c.d.count(r.field, r.part); ok {
				last = e
			} else {
				without = append(without, r)
			}
		}
		if last == nil {
			return
		}
		for _, r := range without {
			c.report(last, Finding{Subject: subject, Found: fmt.Sprintf("has no row %s,%s, so its counts were not checked", r.field, r.part),
				Fix: fmt.Sprintf("add a row %s,%s", r.field, r.part)})
		}
	}
	yoke := []row{{"yoke", "start"}, {"yoke", "end"}}
	if len(c.d.all("increase")) == 0 {
		yoke = append(yoke, row{"yoke", "per_round"}, row{"yoke_rounds", ""})
	}
	missing("yoke", yoke)
	if end, e, ok := c.d.count("yoke", "end"); ok && len(c.d.all("split")) == 0 {
		c.report(e, Finding{Subject: "split", Found: fmt.Sprintf("the yoke has no split, so nothing says what becomes of its %s", counted(end, "stitches")),
			Fix: "add rows split for fronts, back, sleeves and underarm, and for the body and the sleeve they make"})
	}
	for _, t := range tapers {
		missing(t.name, []row{{"decrease", t.name}, {"end", t.name}})
	}
}
