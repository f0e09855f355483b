package validate

import (
	"math"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

// mostEase is the most ease either way, in cm and roughly the same in inches.
const mostEase, mostEaseInches = 20, 8

// An easeGroup is rows of ease that differ in the fit or in the layer alone.
type easeGroup struct{ rule, garment, layer, measurement string }

// checkEase checks ranges, and that ease grows with fit and with layer.
func (ts *tableSet) checkEase() {
	fits, layers := make(map[easeGroup][]data.Ease), make(map[easeGroup][]data.Ease)
	var fitOrder, layerOrder []easeGroup
	for _, e := range ts.t.Ease {
		ts.checkEaseRow(e)
		switch {
		case e.Rule == "fit" && e.Fit != "any":
			g := easeGroup{e.Rule, e.Garment, e.Layer, e.Measurement}
			if fits[g] == nil {
				fitOrder = append(fitOrder, g)
			}
			fits[g] = append(fits[g], e)
		case e.Rule == "layer" || e.Rule == "least":
			g := easeGroup{e.Rule, e.Garment, "", e.Measurement}
			if layers[g] == nil {
				layerOrder = append(layerOrder, g)
			}
			layers[g] = append(layers[g], e)
		}
	}
	for _, g := range fitOrder {
		ts.checkEaseOrder(fits[g], sizing.Words(sizing.Fits), func(e data.Ease) string { return e.Fit }, len(sizing.Fits))
	}
	for _, g := range layerOrder {
		want := 2
		if g.rule == "least" {
			want = 0
		}
		ts.checkEaseOrder(layers[g], sizing.Words(sizing.Layers)[1:], func(e data.Ease) string { return e.Layer }, want)
	}
}

func (ts *tableSet) easeAt(e data.Ease) rowAt {
	return rowAt{ts: ts, rule: "R42", table: "ease.csv", line: e.Line, subject: strings.Join([]string{e.Rule, e.Garment, e.Fit, e.Layer, e.Measurement}, " ")}
}

// checkEaseRow checks a row by itself.
func (ts *tableSet) checkEaseRow(e data.Ease) {
	at := ts.easeAt(e)
	if e.High != nil && (e.Use > *e.High || e.Low > *e.High) {
		at.suspect("high", sizing.NewFact("rows.low-use-high", e.Low, e.Use, *e.High), sizing.NewFact("rows.in-that-order"))
	}
	if e.High == nil && e.Fit != "oversized" {
		at.suspect("high", sizing.NewFact("rows.no-upper-end"), sizing.NewFact("rows.upper-end"))
	}
	most := max(math.Abs(e.Low), math.Abs(e.Use))
	if e.Unit == "cm" && most > mostEase || e.Unit == "in" && most > mostEaseInches {
		at.suspect("use", value(e.Use, e.Unit), sizing.NewFact("rows.at-most-either-way", sizing.Length(mostEase)))
	}
	if e.High == nil && e.Use > e.Low+5 {
		at.suspect("use", sizing.NewFact("rows.use-from", amount(e.Use, e.Unit), e.Low), sizing.NewFact("rows.near-low", 5))
	}
	if e.Rule != "fit" && (e.Low < 0 || e.Use < 0) {
		at.suspect("low", sizing.NewFact("rows.for-clothes", amount(e.Low, e.Unit)), sizing.NewFact("rows.not-negative"))
	}
	if (e.Rule == "fit") != (e.Layer == "skin") || e.Rule != "fit" && e.Fit != "any" {
		at.suspect("layer", sizing.NewFact("rows.rule-fit-layer", e.Rule, e.Fit, e.Layer), sizing.NewFact("rows.fit-over-skin"))
	}
}

// checkEaseOrder checks that rows that differ in one thing alone are all there
// and grow in its order.
func (ts *tableSet) checkEaseOrder(rows []data.Ease, order []string, of func(data.Ease) string, want int) {
	slices.SortStableFunc(rows, func(a, b data.Ease) int { return slices.Index(order, of(a)) - slices.Index(order, of(b)) })
	if len(rows) < want {
		ts.easeAt(rows[0]).suspect("measurement", sizing.NewFact("rows.rows", len(rows)), sizing.NewFact("rows.rows-wanted", want, order))
	}
	for i, e := range rows[1:] {
		at, below := ts.easeAt(e), rows[i]
		switch {
		case e.Unit != below.Unit:
			at.suspect("unit", sizing.NewFact("rows.unit-beside", e.Unit, below.Unit), sizing.NewFact("rows.one-unit-for-all"))
		case e.Use < below.Use || e.Rule == "fit" && e.Use == below.Use:
			at.suspect("use", value(e.Use, e.Unit), sizing.NewFact("rows.more-than", below.Use, of(below)))
		case e.Low < below.Low:
			at.suspect("low", sizing.NewFact("rows.from", amount(e.Low, e.Unit)), sizing.NewFact("rows.no-less-than", below.Low, of(below)))
		}
	}
}
