package validate

import (
	"slices"
	"strconv"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// inFaultyRows proposes changes of the rows for which the draft cannot be used.
func (s *search) inFaultyRows() {
	for _, f := range s.now.faults {
		i := slices.IndexFunc(s.rows, func(p placed) bool { return p.line == f.Line })
		if i < 0 {
			s.inChild()
			continue
		}
		p := s.rows[i]
		cost := float64(costRemedy + 1)
		for _, q := range s.rows {
			if q.line != p.line && q.Field == p.Field && q.Part == p.Part {
				s.add("row-doubled", costDoubled, RowEdit{Line: q.line, From: q.Row})
				cost = costDoubled
			}
		}
		s.add(map[bool]string{true: "row-doubled", false: "row-too-many"}[cost == costDoubled], cost, RowEdit{Line: p.line, From: p.Row})
		var fields []string
		for _, f := range draftFields() {
			fields = append(fields, f.Name)
		}
		s.everywhere(p, fields, func(r *Row) *string { return &r.Field })
		if field, ok := fieldNamed(draftFields(), p.Field); ok {
			s.inFaultyRow(field, p)
		}
	}
	s.secondGauge()
}

// everywhere proposes the nearest of the known words for a cell, in every row that is
// spelt like this one.
func (s *search) everywhere(p placed, known []string, cell func(*Row) *string) {
	word := *cell(&p.Row)
	near := sizing.Nearest(word, known)
	for _, to := range known {
		cost := float64(costWord)
		switch {
		case to == word:
			continue
		case to == near || transposed(word, to):
			cost = costTogether
		case len(known) > mostWords:
			continue
		}
		var edits []RowEdit
		for _, q := range s.rows {
			if *cell(&q.Row) == word {
				edits = append(edits, q.with(func(r *Row) { *cell(r) = to }))
			}
		}
		s.add("misspelt", cost, edits...)
	}
}

// mostWords is the longest list of which any word may have been meant.
const mostWords = 20

// transposed reports whether two letters beside each other make the difference.
func transposed(a, b string) bool {
	for i := range max(0, len(a)-1) {
		if a[:i]+a[i+1:i+2]+a[i:i+1]+a[i+2:] == b {
			return true
		}
	}
	return false
}

// inChild proposes slips in what is said of the child, where it cannot be one.
func (s *search) inChild() {
	for _, p := range s.rows {
		if f, ok := fieldNamed(draftFields(), p.Field); ok && (p.Field == "body" || p.Field == "age") {
			s.inCells(p, f)
		}
	}
}

func (s *search) inFaultyRow(f Field, p placed) {
	known := f.Parts
	if f.part == garmentPart || f.part == ownGauge {
		known = s.parts()
	}
	s.everywhere(p, known, func(r *Row) *string { return &r.Part })
	s.renamed(f, p, costDigit)
	if p.Part != "" {
		s.add("part", costDigit, p.with(func(r *Row) { r.Part = "" }))
	}
	s.otherUnits(p, append(slices.Clone(f.Units), ""))
	if near := sizing.Nearest(p.Value, f.Words); near != "" {
		s.set(p, "misspelt", costUnit, near)
	}
	for _, w := range f.Words {
		s.set(p, "other-word", costWord, w)
	}
	if len(f.Words) == 0 {
		for _, v := range textVariants(p.Value) {
			s.set(p, v.kind, v.cost, v.text)
		}
	}
}

// secondGauge proposes the gauge that was left out: the one by which the parts come
// out as expected, in whole stitches or rows.
func (s *search) secondGauge() {
	for _, g := range []struct{ there, missing string }{{"stitch_gauge", "row_gauge"}, {"row_gauge", "stitch_gauge"}} {
		i := slices.IndexFunc(s.rows, func(p placed) bool { return p.Field == g.there && p.Part == "" })
		without := !slices.ContainsFunc(s.rows, func(p placed) bool { return p.Field == g.missing && p.Part == "" })
		if i < 0 || !without {
			continue
		}
		for n := 5; n <= 60; n++ {
			s.missing(costMissing, Row{Field: g.missing, Value: strconv.Itoa(n), Unit: s.rows[i].Unit})
		}
	}
}

// forgotten proposes rows that were left out, with what the others say of them.
func (s *search) forgotten() {
	c := s.now.checker
	for _, f := range s.now.findings {
		switch f.Rule {
		case "D03":
			s.finishedPart(f.Subject)
		case "S05":
			s.section(f.Subject)
		}
	}
	s.yokeRows()
	s.closed()
	for _, t := range tapers {
		from, _, ok := c.d.count("finished", t.from)
		end, _, hasEnd := c.d.count("end", t.name)
		rounds, _, hasRounds := c.d.count("decrease", t.name)
		switch {
		case ok && hasEnd && !hasRounds && (from-end)%2 == 0:
			s.counted("decrease", t.name, (from-end)/2, "rounds")
		case ok && hasRounds && !hasEnd:
			s.counted("end", t.name, from-2*rounds, "stitches")
		}
	}
	for _, l := range c.want.Lines {
		size, _, ok := c.d.size(l.Part.Part)
		if _, has := c.d.get("extra", l.Part.Part); ok && !has {
			s.missing(costRemedy+2, Row{Field: "extra", Part: l.Part.Part, Value: sizing.FormatExact(round(size-l.Finished, 1)), Unit: "cm"})
		}
	}
	for _, e := range c.d.all("edges") {
		for _, part := range c.edgedParts() {
			if _, has := c.d.get("edges", part); !has {
				s.missing(costMissing, Row{Field: "edges", Part: part, Value: e.Value, Unit: e.Unit})
			}
		}
	}
}

// closed proposes a closure as long as its opening, and the opening that is left out
// as long as what closes it.
func (s *search) closed() {
	c := s.now.checker
	for _, p := range s.rows {
		if p.Field != "zipper" && p.Field != "buttonband" {
			continue
		}
		if open, _, ok := c.d.opening(p.Part); ok {
			s.set(p, "other-value", costRemedy, sizing.FormatExact(round(open/cmIn(p.Unit), 1)))
			continue
		}
		e, _ := c.d.get(p.Field, p.Part)
		if _, ok := c.want.Line("front_opening"); ok && p.Part == "front" {
			s.counted("finished", "front_opening", int(c.d.Gauge.Rows(e.Cm)+0.5), "rows")
		} else {
			s.missing(costMissing, Row{Field: "opening", Part: p.Part, Value: p.Value, Unit: p.Unit})
		}
	}
}

func (s *search) counted(field, part string, n int, unit string) {
	if n > 0 {
		s.missing(costMissing, Row{Field: field, Part: part, Value: strconv.Itoa(n), Unit: unit})
	}
}

// finishedPart proposes the size of a part: what it is made of, or the reference's,
// counted where the draft has counts.
func (s *search) finishedPart(part string) {
	c := s.now.checker
	for _, of := range []struct{ field, name, part string }{{"split", "body", "chest"}, {"split", "sleeve", "upper_arm"}, {"yoke", "start", "neck"}} {
		if n, _, ok := c.d.count(of.field, of.name); ok && of.part == part {
			s.counted("finished", part, n, "stitches")
		}
	}
	if hip, _, ok := c.d.count("finished", "hip"); ok && part == "thigh" {
		bridge, _, _ := c.d.count("split", "bridge")
		s.counted("finished", part, hip/2+bridge, "stitches")
	}
	l, ok := c.want.Line(part)
	if !ok {
		return
	}
	s.missing(costMissing+1, Row{Field: "finished", Part: part, Value: sizing.FormatExact(round(l.Finished, 1)), Unit: "cm"})
	unit, fit := "stitches", c.d.gaugeOf(part).FitWidth
	if l.Part.Dimension == "length" {
		unit, fit = "rows", c.d.gaugeOf(part).FitHeight
	}
	if fitted, err := fit(l.Finished-c.d.edges(part), c.d.multiple(part), stitch.Nearest); err == nil && slices.ContainsFunc(c.d.all("finished"), func(e *Entry) bool { return e.Unit == unit }) {
		s.counted("finished", part, fitted.Count, unit)
	}
}

// section proposes a section of the split from those that are there.
func (s *search) section(part string) {
	c := s.now.checker
	n := func(part string) int { n, _, _ := c.d.count("split", part); return n }
	end, _, _ := c.yokeEnd()
	total := n("back") + n("sleeve_left") + n("sleeve_right")
	for _, f := range c.fronts() {
		total += n(f)
	}
	fronts := total - n("back") - n("sleeve_left") - n("sleeve_right")
	var all []int
	switch part {
	case "underarm":
		all = []int{n("sleeve") - n("sleeve_left"), (n("body") - fronts - n("back")) / 2}
	case "body":
		all = []int{fronts + n("back") + 2*n("underarm")}
	case "sleeve":
		all = []int{n("sleeve_left") + n("underarm")}
	default:
		all = []int{end - total, n("body") - fronts - n("back") - 2*n("underarm"), n("sleeve") - n("underarm")}
	}
	for _, v := range all {
		s.counted("split", part, v, "stitches")
	}
}

// yokeRows proposes what is missing of a yoke: a count, or a row of increases.
func (s *search) yokeRows() {
	c := s.now.checker
	start, _, hasStart := c.d.count("yoke", "start")
	end, _, hasEnd := c.d.count("yoke", "end")
	gain, _, known := c.gained()
	listed := c.d.all("increase")
	per, _, hasPer := c.d.count("yoke", "per_round")
	rounds, _, hasRounds := c.d.count("yoke_rounds", "")
	if known && hasEnd && !hasStart {
		s.counted("yoke", "start", end-gain, "stitches")
	}
	if known && hasStart && !hasEnd {
		s.counted("yoke", "end", start+gain, "stitches")
	}
	if hasStart && hasEnd && !hasPer && hasRounds && rounds > 0 {
		s.counted("yoke", "per_round", (end-start)/rounds, "stitches")
	}
	if hasStart && hasEnd && !hasRounds && hasPer && per > 0 {
		s.counted("yoke_rounds", "", (end-start)/per, "rounds")
	}
	if !hasStart || !hasEnd || len(listed) < 2 || end-start == gain {
		return
	}
	s.oneIncrease(end - start - gain)
	if end-start < gain {
		return
	}
	// A row of increases is missing: in the middle of each gap, and at the ends.
	var at []int
	for _, e := range listed {
		if n, err := strconv.Atoi(e.Part); err == nil {
			at = append(at, n)
		}
	}
	slices.Sort(at)
	for i := range at[1:] {
		gap := at[i+1] - at[i]
		for _, row := range []int{at[i] + gap/2, at[i] + (gap+1)/2} {
			if row > at[i] && row < at[i+1] {
				s.missingIncrease(float64(row-at[i]), medianGap(at), row, end-start-gain)
			}
		}
	}
	s.missingIncrease(medianGap(at), medianGap(at), at[0]-int(medianGap(at)), end-start-gain)
	s.missingIncrease(medianGap(at), medianGap(at), at[len(at)-1]+int(medianGap(at)), end-start-gain)
}

// oneIncrease proposes that one row of increases is off by what the yoke is.
func (s *search) oneIncrease(off int) {
	counts := make(map[string]int)
	for _, p := range s.rows {
		if p.Field == "increase" {
			counts[p.Value]++
		}
	}
	for _, p := range s.rows {
		n, err := strconv.Atoi(p.Value)
		if p.Field != "increase" || err != nil || n+off < 1 {
			continue
		}
		to, cost := strconv.Itoa(n+off), float64(costRemedy)
		if counts[to] > counts[p.Value] {
			cost = costExchanged // as in the other rows
		}
		s.set(p, "other-value", cost, to)
		for _, v := range numberVariants(p.Value) {
			if v.text == to {
				s.set(p, v.kind, v.cost+cost-costRemedy, to)
			}
		}
	}
}

// missingIncrease proposes a row of increases, the likelier the closer it stands to
// the one before as the others do.
func (s *search) missingIncrease(gap, usual float64, row, gains int) {
	if row < 1 || gains < 1 {
		return
	}
	s.missing(costMissing+0.3*max(gap-usual, usual-gap), Row{Field: "increase", Part: strconv.Itoa(row), Value: strconv.Itoa(gains), Unit: "stitches"})
}

// medianGap is the usual distance of increase rows.
func medianGap(rows []int) float64 {
	var gaps []int
	for i := range rows[1:] {
		gaps = append(gaps, rows[i+1]-rows[i])
	}
	slices.Sort(gaps)
	return float64(gaps[len(gaps)/2])
}
