package validate

import (
	"strconv"

	"growtuck/data"
	"growtuck/sizing"
)

// checkYarns checks that the weight classes follow each other: all eight are
// there, thicker yarns have fewer stitches, and each class's needles and hooks
// begin where those of the class before end, as the trade prints them.
func (ts *tableSet) checkYarns() {
	const classes = 8
	at := func(y data.Yarn, column string, found, expected sizing.Fact) {
		rowAt{ts: ts, rule: "R47", table: "yarns.csv", line: y.Line, subject: "class " + y.Class}.suspect(column, found, expected)
	}
	yarns := ts.t.Yarns
	for i, y := range yarns {
		if y.Class != strconv.Itoa(i) {
			at(y, "class", sizing.NewFact("rows.nth-class", i+1), sizing.NewFact("rows.class", i))
			return
		}
		for _, r := range []struct {
			column    string
			low, high *float64
		}{
			{"knit_low", y.KnitLow, y.KnitHigh}, {"crochet_low", y.CrochetLow, y.CrochetHigh},
			{"needle_low_mm", y.NeedleLow, y.NeedleHigh}, {"hook_low_mm", y.HookLow, y.HookHigh},
		} {
			if r.low != nil && r.high != nil && *r.low >= *r.high {
				at(y, r.column, sizing.NewFact("rows.from-to", *r.low, *r.high), sizing.NewFact("rows.lower-first"))
			}
		}
		if i == 0 {
			continue
		}
		before := yarns[i-1]
		for _, r := range []struct {
			column     string
			was, is    *float64
			continuing bool // begins where the class before ends
		}{
			{"knit_low", before.KnitLow, y.KnitLow, false}, {"knit_high", before.KnitHigh, y.KnitHigh, false},
			{"crochet_low", before.CrochetLow, y.CrochetLow, false}, {"crochet_high", before.CrochetHigh, y.CrochetHigh, false},
			{"needle_low_mm", before.NeedleHigh, y.NeedleLow, true}, {"hook_low_mm", before.HookHigh, y.HookLow, true},
		} {
			switch {
			case r.was == nil || r.is == nil:
			case r.continuing && *r.is != *r.was:
				at(y, r.column, sizing.NewFact("rows.from-mm", *r.is), sizing.NewFact("rows.mm-class-ends", *r.was, before.Class))
			case !r.continuing && *r.is >= *r.was:
				at(y, r.column, sizing.NewFact("rows.stitches", *r.is), sizing.NewFact("rows.fewer-than-class", *r.was, before.Class))
			}
		}
	}
	if n := len(yarns); n > 0 && n < classes {
		at(yarns[n-1], "class", sizing.NewFact("rows.last"), sizing.NewFact("rows.last-class", classes-1))
	}
}
