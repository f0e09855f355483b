package workbook

import (
	"fmt"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

// Columns of the sheet of counts.
const (
	countPart = iota + 1
	countUnit
	countFinished
	countGauge
	countRepeat
	countEdge
	countExact
	countWhole
	countGives
	countOff
	countPlanned
	countEdges
)

// counts lays out stitches and rows from the gauge and the finished lengths.
func (l *layout) counts() *sheet {
	s := &sheet{name: countsName, widths: []float64{42, 11, 11, 12, 10, 10, 13, 12, 11, 11, 14, 12}, freeze: 1, pages: 1}
	s.heading("Counts", "Stitches and rows for each finished length, "+unitNote+". A count is the nearest of repeat × n + edge stitches; a girth is never less than the body plus the least ease of the fit. Edges of a front or a hood, and its zipper, are taken off before the fabric is counted. "+
		"Beside them are the counts of the plan, at the gauge it was made with: where parts join, counts must match, so they may differ by a few.")
	s.head = s.header("part", "count of", "finished", "to 10 cm", "repeat", "edge stitches", "not rounded", "count", "gives", "more or less", "planned, when made", "of it edges, cm")
	for i, line := range l.lines() {
		row := s.add(l.countRow(i, line, s.next())...)
		s.names = append(s.names, name{"repeat_" + line.Part.Part, fixed(countRepeat, row)}, name{"edge_" + line.Part.Part, fixed(countEdge, row)})
	}
	last := s.next() - 1
	for _, c := range []int{countFinished, countGives, countOff} {
		s.conds = append(s.conds, lengths(area(c, countsFirst, c, last), stInches))
	}
	for _, c := range []int{countRepeat, countEdge} {
		s.lists = append(s.lists, list{cells: area(c, countsFirst, c, last), low: map[int]float64{countRepeat: 1, countEdge: -1999}[c], high: 2000, hint: "whole stitches"})
	}
	return s
}

// gaugeOf is the gauge that a part is counted at, and the name of its cell.
func (l *layout) gaugeOf(i int) (per10 float64, name, unit string) {
	g, prefix := l.Plan.How.Gauge, ""
	if p, ok := l.planned(i); ok && p.Ribbed {
		prefix = "rib_"
		if l.Plan.How.Rib != nil {
			g = *l.Plan.How.Rib
		}
	}
	if isLength(l.lines()[i].Part) {
		return g.RowsPer10Cm, prefix + "rows_per_10", "rows"
	}
	return g.StitchesPer10Cm, prefix + "stitches_per_10", "stitches"
}

func (l *layout) countRow(i int, line sizing.Line, row int) []cell {
	at := func(col int) string { return fixed(col, row) }
	ease := func(col int) string { return on(easeName, fixed(col, easeFirst+i)) }
	per10, name, unit := l.gaugeOf(i)
	multiple := stitch.Plain
	planned := styled("", stText)
	if p, ok := l.planned(i); ok {
		multiple = p.Multiple
		if multiple.Repeat == 0 {
			multiple = stitch.Plain
		}
		if p.Count > 0 {
			planned = count(p.Count)
		}
	}
	edges, edgesCm := l.edges(i)
	exact := (line.Finished - edgesCm) * per10 / 10
	n := wholeCount(line.Finished-edgesCm, l.leastOf(i, line)-edgesCm, per10, multiple)
	// The nearest count of the multiple, a half rounded up as in the engine: a little
	// is added so that rounding errors of division do not turn a half down.
	nearest := fmt.Sprintf("(%s+%s*ROUND((%s-%s+0.0000000005)/%s,0))", at(countEdge), at(countRepeat), at(countExact), at(countEdge), at(countRepeat))
	least := fmt.Sprintf("IF(%s>0,%s,%s+%s)", at(countEdge), at(countEdge), at(countRepeat), at(countEdge))
	nearest = fmt.Sprintf("IF(%s<%s,%s,%s)", nearest, least, least, nearest)
	whole := fmt.Sprintf("IF(%s<(%s-%s)*%s/10-0.000000001,%s+%s,%s)", nearest, ease(easeLeast), at(countEdges), at(countGauge), nearest, at(countRepeat), nearest)
	gives := float64(n)*10/per10 + edgesCm
	return []cell{
		text(line.Part.Name), text(unit),
		calc(ease(easeFinished), l.finished(line), stLength),
		calc(name, per10, stGauge),
		cell{value: max(multiple.Repeat, 1), style: stInputCount}, cell{value: multiple.Edge, style: stInputCount},
		calc(fmt.Sprintf("(%s-%s)*%s/10", ease(easeCm), at(countEdges), at(countGauge)), exact, stGauge),
		calc(whole, n, stInt),
		calc(fmt.Sprintf("(%s*10/%s+%s)%s", at(countWhole), at(countGauge), at(countEdges), perUnit), l.inUnit(gives), stSum),
		calc(fmt.Sprintf("%s-%s", at(countGives), at(countFinished)), l.inUnit(gives)-l.finished(line), stOff),
		planned, edges,
	}
}

// edges is the cell of what edges and closure add to a part, in cm, and its
// value; it follows the gauge, the craft and the closure.
func (l *layout) edges(i int) (cell, float64) {
	p, ok := l.planned(i)
	if !ok || p.EdgesCm == 0 {
		return number(0, stGauge), 0
	}
	depth, gap := l.Reference.Practice("edge_depth").Value, l.Reference.Practice("zipper_gap").Value
	rows, least := fmt.Sprintf("ROUND(%s*rows_per_10/10,0)", literal(depth)), `IF(in_craft="knit",2,1)`
	formula := fmt.Sprintf("2*IF(%s<%s,%s,%s)*10/rows_per_10", rows, least, least, rows)
	zipperFits := l.Plan.Zipper != nil || l.Plan.How.Closure != plan.Zip
	if p.Line.Part.Part != "hood_round" && zipperFits {
		formula += fmt.Sprintf(`+IF(in_closure="zipper",%s,0)`, literal(gap))
	}
	return calc(formula, p.EdgesCm, stGauge), p.EdgesCm
}

// wholeCount is the engine's count for a length of fabric.
func wholeCount(cm, leastCm, per10 float64, m stitch.Multiple) int {
	n, err := m.AtLeast(cm*per10/10, max(leastCm, 0)*per10/10)
	if err != nil {
		return 0
	}
	return n
}
