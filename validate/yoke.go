package validate

import (
	"math"
	"strconv"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// yokeRules are about the increases of a yoke.
func yokeRules() []draftRule {
	return []draftRule{
		{Rule{"S11", "arithmetic", "Start and increases do not add up to the yoke", Stop}, increasesMakeYoke},
		{Rule{"S12", "arithmetic", "The increase rows are not all accounted for", Stop}, increaseRows},
		{Rule{"S13", "arithmetic", "The increases make the yoke cup or ruffle", Warn}, flatYoke},
		{Rule{"S14", "arithmetic", "A yoke or a taper is incomplete and was not checked", Warn}, givenInPart},
		{Rule{"S15", "arithmetic", "The rows of the yoke do not make the armhole", Warn}, yokeMakesArmhole},
	}
}

// gained is what all increases add: the rows that are listed, or rounds times
// the increases of a round; the fact says which.
func (c *checker) gained() (int, sizing.Fact, bool) {
	if rows := c.d.all("increase"); len(rows) > 0 {
		total := 0
		for _, e := range rows {
			total += e.Count
		}
		return total, fact("yoke.listed", total, len(rows)), true
	}
	rounds, _, ok := c.d.count("yoke_rounds", "")
	per, _, known := c.d.count("yoke", "per_round")
	if !ok || !known {
		return 0, sizing.Fact{}, false
	}
	return rounds * per, fact("yoke.rounds", rounds, per), true
}

func increasesMakeYoke(c *checker) {
	start, _, hasStart := c.d.count("yoke", "start")
	end, e, hasEnd := c.d.count("yoke", "end")
	gain, how, ok := c.gained()
	if !hasStart || !hasEnd || !ok || start+gain == end {
		return
	}
	f := Finding{Subject: "yoke", Found: counted(end, "stitches"), Expected: fact("yoke.sum", start, how, start+gain),
		By: counted(abs(start+gain-end), "stitches"), Fix: do(recount(e, end, start+gain))}
	if per, _, ok := c.d.count("yoke", "per_round"); ok && per > 0 && end > start && (end-start)%per == 0 && len(c.d.all("increase")) == 0 {
		rounds, at, _ := c.d.count("yoke_rounds", "")
		f.Fix = fact("fix.or-else", recount(e, end, start+gain), recount(at, rounds, (end-start)/per))
	}
	c.report(e, f)
}

func increaseRows(c *checker) {
	rows, _, hasRows := c.d.count("yoke_rows", "")
	rounds, e, hasRounds := c.d.count("yoke_rounds", "")
	listed := c.d.all("increase")
	if hasRows && hasRounds && rounds > rows {
		c.report(e, Finding{Subject: "yoke", Found: fact("yoke.increase-rounds", rounds), Expected: fact("yoke.at-most-rows", rows),
			By: counted(rounds-rows, "rounds"), Fix: fact("fix.more-in-each", recount(e, rounds, rows))})
	}
	if len(listed) == 0 {
		return
	}
	if hasRounds && rounds != len(listed) {
		c.report(e, Finding{Subject: "yoke", Found: fact("yoke.increase-rounds", rounds), Expected: fact("yoke.rounds-listed", len(listed)),
			By: counted(abs(rounds-len(listed)), "rounds"), Fix: fact("fix.list-increases")})
	}
	per, _, hasPer := c.d.count("yoke", "per_round")
	for _, r := range listed {
		n, err := strconv.Atoi(r.Part)
		if err != nil {
			continue // the reader has refused it
		}
		if hasRows && n > rows {
			c.report(r, Finding{Subject: "row " + r.Part, Found: fact("yoke.increase-late"), Expected: fact("yoke.row-up-to", rows),
				By: counted(n-rows, "rows"), Fix: fact("fix.move-up")})
		}
		if hasPer && r.Count != per {
			c.report(r, Finding{Subject: "row " + r.Part, Found: fact("yoke.gained", r.Count), Expected: fact("yoke.per-round", per),
				By: counted(abs(r.Count-per), "stitches"), Fix: do(recount(r, r.Count, per))})
		}
	}
}

// A yokeDepth is how deep a yoke is by its rows, and the armhole that it is to make:
// alone, or with half the underarm, which turns down into the side.
type yokeDepth struct {
	rows                   *Entry
	cm, withUnderarm, hole float64
}

// off is how far the yoke is from the armhole, below 0 where it is too shallow.
func (y yokeDepth) off() float64 { return max(y.cm-y.hole, 0) + min(y.withUnderarm-y.hole, 0) }

// yokeDepth compares the yoke with the armhole of the draft, or of the reference.
func (c *checker) yokeDepth() (y yokeDepth, ok bool) {
	rows, e, ok := c.d.count("yoke_rows", "")
	if !ok {
		return y, false
	}
	underarm, _, _ := c.d.count("split", "underarm")
	y = yokeDepth{rows: e, cm: c.d.Gauge.HeightCm(rows)}
	y.withUnderarm = stitch.ArmholeDepthCm(y.cm, c.d.Gauge.WidthCm(underarm))
	if y.hole, _, ok = c.plausible("armhole_depth"); !ok {
		l, known := c.want.Line("armhole_depth")
		y.hole, ok = l.Finished, known
	}
	return y, ok
}

func yokeMakesArmhole(c *checker) {
	y, ok := c.yokeDepth()
	slack, share := c.ref.Practice("length_slack"), c.ref.Practice("length_slack_share")
	off := y.off()
	if !ok || math.Abs(off) <= max(slack.Value, share.Share()*y.hole, c.d.Gauge.RowHeightCm()) {
		return
	}
	n := y.rows.Count
	f := Finding{Subject: "yoke_rows", Found: fact("yoke.makes", n, cm(y.cm), cm(y.withUnderarm)), Expected: fact("yoke.armhole", cm(y.hole)),
		By: fact("by.longer", cm(off)), Fix: fact("fix.count-yoke"), Source: sources(slack, share)}
	if to := n - int(math.Round(c.d.Gauge.Rows(off))); to > 0 {
		f.Fix = fact("fix.count-yoke-rows", recount(y.rows, n, to))
	}
	c.report(y.rows, f)
}

// flatYoke names how a yoke in rounds lies. It should fall over the shoulder,
// so it cups a little; it must not ruffle and must not be a tube.
func flatYoke(c *checker) {
	rows, _, hasRows := c.d.count("yoke_rows", "")
	gain, how, ok := c.gained()
	if !ok {
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
	tolerance, tube := c.ref.Practice("flat_tolerance"), c.ref.Practice("yoke_tube_share")
	found := func(id string) sizing.Fact { return fact(id, how, rows, per) }
	f := Finding{Subject: "yoke",
		Expected: fact("yoke.flat", lie.Flat, cm(c.d.Gauge.RowHeightCm()), cm(c.d.Gauge.StitchWidthCm())), Source: sources(tolerance)}
	switch {
	case lie.Deviation > tolerance.Share():
		f.Found, f.By = found("yoke.ruffles"), fact("by.too-many", math.Abs(lie.Deviation))
		f.Fix = fact("fix.gain-less", flat, int(math.Ceil(float64(gain)/lie.Flat)))
	case per < tube.Share()*lie.Flat:
		f.Source = sources(tube)
		f.Found, f.By = found("yoke.tube"), fact("by.too-few", math.Abs(lie.Deviation))
		f.Fix = fact("fix.gain-more", int(math.Ceil(tube.Share()*float64(flat))), int(float64(gain)/(tube.Share()*lie.Flat)))
	case lie.Deviation < -tolerance.Share():
		f.Severity = Note
		f.Found, f.By = found("yoke.cups"), fact("by.edge-drops", lie.FallShare())
		f.Fix = fact("fix.try-yoke")
	default:
		return
	}
	c.report(e, f)
}

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
			c.report(last, Finding{Subject: subject, Found: fact("row.missing", r.field, r.part), Fix: fact("fix.add-row", r.field, r.part)})
		}
	}
	yoke := []row{{"yoke", "start"}, {"yoke", "end"}}
	if len(c.d.all("increase")) == 0 {
		yoke = append(yoke, row{"yoke", "per_round"}, row{"yoke_rounds", ""})
	}
	missing("yoke", yoke)
	if end, e, ok := c.d.count("yoke", "end"); ok && len(c.d.all("split")) == 0 {
		c.report(e, Finding{Subject: "split", Found: fact("yoke.no-split", end), Fix: fact("fix.add-split")})
	}
	for _, t := range tapers {
		missing(t.name, []row{{"decrease", t.name}, {"end", t.name}})
	}
}
