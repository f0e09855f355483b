package validate

import (
	"math"

	"growtuck/sizing/stitch"
)

// gaugeRules are about the swatch and the yarn.
func gaugeRules() []draftRule {
	return []draftRule{
		{Rule{"U01", "gauge", "The gauge is not one that the yarn's weight class is worked to", Warn}, gaugeOfYarn},
		{Rule{"U02", "gauge", "The ratio of rows to stitches is not one that the craft gives", Warn}, rowsToStitches},
		{Rule{"U03", "gauge", "One stitch miscounted in the swatch matters more than the fit allows", Note}, oneStitch},
		{Rule{"U04", "gauge", "The swatch is too small", Warn}, smallSwatch},
	}
}

func gaugeOfYarn(c *checker) {
	yarn, ok := c.d.get("yarn", "")
	craft, known := c.d.get("craft", "")
	e, has := c.d.get("stitch_gauge", "")
	if !ok || !known || !has {
		return
	}
	class, known := c.ref.YarnClass(int(yarn.Number))
	if !known {
		return
	}
	lowest, highest, worked := class.KnitLow, class.KnitHigh, "gauge.knit"
	if craft.Value == "crochet" {
		lowest, highest, worked = class.CrochetLow, class.CrochetHigh, "gauge.crochet"
	}
	if highest == nil {
		return // no figure
	}
	low, high := 0.0, *highest
	if lowest != nil {
		low = *lowest
	}
	got, _ := c.d.Gauge.Per4In()
	if got >= low-0.5 && got <= high+0.5 {
		return
	}
	f := Finding{Subject: "stitch_gauge", Found: fact("gauge.over-4in", got),
		Expected: fact(worked, low, high, int(yarn.Number), class.Title), Source: class.Source, Fix: fact("fix.swatch-or-class")}
	off := low/got - 1
	if got > high {
		off = got/high - 1
	}
	f.By = fact("by.share-outside", off)
	// Makers choose firmer and looser fabrics.
	if off <= c.ref.Practice("gauge_off_yarn").Share() || low == 0 && got < high {
		f.Severity = Note
	}
	c.report(e, f)
}

func rowsToStitches(c *checker) {
	craft, known := c.d.get("craft", "")
	e, has := c.d.get("row_gauge", "")
	if !known || !has {
		return
	}
	least, most := c.ref.Practice("knit_row_low"), c.ref.Practice("knit_row_high")
	worked := craft.Value
	if craft.Value == "crochet" {
		least, most = c.ref.Practice("crochet_row_low"), c.ref.Practice("crochet_row_high")
		if s, said := c.d.get("stitch", ""); said {
			worked = s.Value
		}
		switch worked {
		case "sc":
			least, most = c.ref.Practice("row_height_sc_low"), c.ref.Practice("row_height_sc_high")
		case "hdc":
			least, most = c.ref.Practice("row_height_hdc_low"), c.ref.Practice("row_height_hdc_high")
		case "dc":
			least, most = c.ref.Practice("row_height_dc_low"), c.ref.Practice("row_height_dc_high")
		}
	}
	low, high := least.Value, most.Value
	ratio := c.d.Gauge.RowByStitch()
	if ratio >= low && ratio <= high {
		return
	}
	fix := fact("fix.count-gauge")
	if 1/ratio >= low && 1/ratio <= high {
		fix = fact("fix.gauge-exchanged")
	}
	c.report(e, Finding{Subject: "row_gauge", Found: fact("gauge.ratio", ratio),
		Expected: fact("gauge.ratios", low, high, worked), Fix: fix, Source: sources(least, most)})
}

// swatchStitches are the stitches that were counted.
func (c *checker) swatchStitches() (float64, *Entry, bool) {
	e, ok := c.d.get("stitch_gauge", "")
	if !ok {
		return 0, nil, false
	}
	width := 10.0
	if e.Unit == "4 in" {
		width = stitch.FourInchesCm
	}
	if s, ok := c.d.get("swatch", ""); ok {
		width, e = s.Cm, s
	}
	return c.d.Gauge.Stitches(width), e, true
}

func oneStitch(c *checker) {
	n, e, ok := c.swatchStitches()
	if !ok || n < 1 {
		return
	}
	for _, part := range []string{"chest", "hip", "brim", "hand", "foot"} {
		size, _, given := c.d.size(part)
		l, known := c.want.Line(part)
		if !given || !known {
			continue
		}
		allows := (l.EaseHigh - l.EaseLow) / 2
		if math.IsInf(allows, 0) || allows < c.step(l) {
			allows = c.step(l)
		}
		off := size * stitch.Swatch{Stitches: n}.OneStitchShare()
		if off > allows {
			c.report(e, Finding{Subject: part, Found: fact("gauge.one-stitch", n, part, cm(off)), Expected: fact("gauge.half-range", cm(allows)),
				Fix: fact("fix.count-over", cm(math.Ceil(size/allows*c.d.Gauge.StitchWidthCm())), math.Ceil(size/allows))})
		}
		return
	}
}

func smallSwatch(c *checker) {
	s, ok := c.d.get("swatch", "")
	least := c.ref.Practice("swatch_least")
	if !ok || s.Cm >= least.Value-0.05 {
		return
	}
	c.report(s, Finding{Subject: "swatch", Found: fact("swatch.over", cm(s.Cm)), Expected: fact("swatch.least", cm(least.Value)),
		By: fact("by.short", cm(least.Value-s.Cm)), Fix: fact("fix.larger-swatch"), Source: sources(least)})
}
