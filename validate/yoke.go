package validate

import (
	"fmt"
	"math"
	"strconv"

	"growtuck/sizing"
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
	f := Finding{Subject: "yoke", Found: sizing.Text(counted(end, "stitches")), Expected: sizing.Text(fmt.Sprintf("%d + %s = %d", start, words, start+gain)),
		By: sizing.Text(counted(abs(start+gain-end), "stitches")), Fix: sizing.Text(recount("stitches", end, start+gain))}
	if per, _, ok := c.d.count("yoke", "per_round"); ok && per > 0 && end > start && (end-start)%per == 0 && len(c.d.all("increase")) == 0 {
		rounds, _, _ := c.d.count("yoke_rounds", "")
		f.Fix = sizing.Text(f.Fix.String() + "; or " + recount("rounds", rounds, (end-start)/per))
	}
	c.report(e, f)
}

func increaseRows(c *checker) {
	rows, at, hasRows := c.d.count("yoke_rows", "")
	rounds, e, hasRounds := c.d.count("yoke_rounds", "")
	listed := c.d.all("increase")
	if hasRows && hasRounds && rounds > rows {
		c.report(e, Finding{Subject: "yoke", Found: sizing.Text(counted(rounds, "rounds") + " that increase"), Expected: sizing.Text("at most the " + counted(rows, "rows") + " of the yoke"),
			By: sizing.Text(counted(rounds-rows, "rounds")), Fix: sizing.Text(recount("rounds", rounds, rows) + ", with more increases in each, or work more rows")})
	}
	if len(listed) == 0 {
		return
	}
	if hasRounds && rounds != len(listed) {
		c.report(e, Finding{Subject: "yoke", Found: sizing.Text(counted(rounds, "rounds") + " that increase"), Expected: sizing.Text(fmt.Sprintf("the %d that are listed", len(listed))),
			By: sizing.Text(counted(abs(rounds-len(listed)), "rounds")), Fix: sizing.Text("list every increase row, or correct the number of them")})
	}
	per, _, hasPer := c.d.count("yoke", "per_round")
	for _, r := range listed {
		n, err := strconv.Atoi(r.Part)
		if err != nil {
			continue // the reader has refused it
		}
		if hasRows && n > rows {
			c.report(r, Finding{Subject: "row " + r.Part, Found: sizing.Text("increases after the yoke has ended"), Expected: sizing.Text("a row of 1 to " + strconv.Itoa(rows)),
				By: sizing.Text(counted(n-rows, "rows")), Fix: sizing.Text("move it up, or correct the rows of the yoke")})
		}
		if hasPer && r.Count != per {
			c.report(r, Finding{Subject: "row " + r.Part, Found: sizing.Text(counted(r.Count, "stitches") + " gained"), Expected: sizing.Text(counted(per, "stitches") + ", as in every increase round"),
				By: sizing.Text(counted(abs(r.Count-per), "stitches")), Fix: sizing.Text(recount("stitches", r.Count, per))})
		}
	}
	if depth, e, ok := c.d.count("finished", "armhole_depth"); ok && hasRows && rows > 2*depth {
		c.report(at, Finding{Severity: Warn, Subject: "yoke", Found: sizing.Text(counted(rows, "rows")), Expected: sizing.Text(fmt.Sprintf("about the armhole's %d rows (line %d)", depth, e.Line)),
			By: sizing.Text(counted(rows-depth, "rows")), Fix: sizing.Text("count the rows of the yoke again")})
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
	f := Finding{Subject: "yoke", Found: sizing.Text(fmt.Sprintf("%s over %s: %s a row", words, counted(rows, "rows"), number(per))),
		Expected: sizing.Text(fmt.Sprintf("%s a row to lie flat (2π × row height %s ÷ stitch width %s)", number(lie.Flat),
			millimetres(c.d.Gauge.RowHeightCm()), millimetres(c.d.Gauge.StitchWidthCm()))), By: sizing.Text(percent(math.Abs(lie.Deviation)))}
	switch {
	case lie.Lie() == stitch.Ruffles:
		f.Found = sizing.Text(f.Found.String() + ", so the yoke ruffles")
		f.By = sizing.Text(f.By.String() + " too many")
		f.Fix = sizing.Text(fmt.Sprintf("gain at most %d stitches over these rows, or work %d rows", flat, int(math.Ceil(float64(gain)/lie.Flat))))
	case per < tubeShare*lie.Flat:
		f.Found = sizing.Text(f.Found.String() + ", so the yoke cups into a tube")
		f.By = sizing.Text(f.By.String() + " too few")
		f.Fix = sizing.Text(fmt.Sprintf("gain %d stitches or more over these rows, or work at most %d rows", int(math.Ceil(tubeShare*float64(flat))), int(float64(gain)/(tubeShare*lie.Flat))))
	case lie.Lie() == stitch.Cups:
		f.Severity = Note
		f.Found = sizing.Text(f.Found.String() + ", so the yoke cups")
		f.By = sizing.Text(fmt.Sprintf("its edge drops %s of its depth", percent(lie.FallShare())))
		f.Fix = sizing.Text("wanted over a sloping shoulder; try it on")
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
			c.report(last, Finding{Subject: subject, Found: sizing.Text(fmt.Sprintf("has no row %s,%s, so its counts were not checked", r.field, r.part)),
				Fix: sizing.Text(fmt.Sprintf("add a row %s,%s", r.field, r.part))})
		}
	}
	yoke := []row{{"yoke", "start"}, {"yoke", "end"}}
	if len(c.d.all("increase")) == 0 {
		yoke = append(yoke, row{"yoke", "per_round"}, row{"yoke_rounds", ""})
	}
	missing("yoke", yoke)
	if end, e, ok := c.d.count("yoke", "end"); ok && len(c.d.all("split")) == 0 {
		c.report(e, Finding{Subject: "split", Found: sizing.Text(fmt.Sprintf("the yoke has no split, so nothing says what becomes of its %s", counted(end, "stitches"))),
			Fix: sizing.Text("add rows split for fronts, back, sleeves and underarm, and for the body and the sleeve they make")})
	}
	for _, t := range tapers {
		missing(t.name, []row{{"decrease", t.name}, {"end", t.name}})
	}
}
