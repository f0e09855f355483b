package validate

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// collect finds the slips that may have been made.
func (s *search) collect() {
	if s.now.checker == nil {
		s.inFaultyRows()
		s.wholeDraft()
		return
	}
	s.suspect()
	s.remedies()
	for _, p := range s.suspects {
		f, _ := fieldNamed(draftFields(), p.Field) // it was read as one
		s.inCells(p, f)
	}
	s.exchanged()
	s.wholeDraft()
	s.gauges()
	s.forgotten()
}

// add keeps a candidate; of the same change the cheapest.
func (s *search) add(kind string, cost float64, edits ...RowEdit) {
	id := fmt.Sprint(edits)
	i, known := s.places[id]
	switch {
	case !known:
		s.places[id] = len(s.found)
		s.found = append(s.found, candidate{kind, edits, cost})
	case cost < s.found[i].cost:
		s.found[i].kind, s.found[i].cost = kind, cost
	}
}

// set proposes another value of a row.
func (s *search) set(p placed, kind string, cost float64, value string) {
	if value != p.Value {
		s.add(kind, cost, p.with(func(r *Row) { r.Value = value }))
	}
}

// with is the change of a row.
func (p placed) with(change func(r *Row)) RowEdit {
	to := p.Row
	change(&to)
	return RowEdit{Line: p.line, From: p.Row, To: to}
}

// missing proposes a row that was forgotten. It goes after the last of its field.
func (s *search) missing(cost float64, r Row) {
	after := s.rows[len(s.rows)-1].line
	for _, p := range s.rows {
		if p.Field == r.Field {
			after = p.line
		}
	}
	s.add("row-forgotten", cost, RowEdit{Line: after, To: r})
}

// suspect finds the rows without which some of the findings are gone.
func (s *search) suspect() {
	type doubt struct {
		row  placed
		gone int
	}
	var all []doubt
	for i, p := range s.rows {
		o := s.check(slices.Concat(s.rows[:i], s.rows[i+1:]))
		gone := len(s.now.gone(o, func(f, g Finding) bool { return f.sameMatter(g) && f.Found.ID == g.Found.ID }))
		if o.checker == nil {
			gone = 1 // a draft needs the row: it may be wrong all the same
		}
		if gone > 0 {
			all = append(all, doubt{p, gone})
		}
	}
	slices.SortStableFunc(all, func(a, b doubt) int { return cmp.Compare(b.gone, a.gone) })
	for _, d := range all {
		s.suspects = append(s.suspects, d.row)
	}
}

// remedies are what the rules ask for, where it is an edit.
func (s *search) remedies() {
	for _, f := range s.now.findings {
		if !f.counts() {
			continue
		}
		edits := f.Edits()
		if f.Fix.ID == "fix.set-both" {
			s.add("other-value", costRemedy, s.rowEdits(s.rows, edits)...)
			continue
		}
		for _, e := range s.rowEdits(s.rows, edits) {
			s.add("other-value", costRemedy, e)
			if e.From == (Row{}) {
				continue
			}
			// A slip of the hand that the rule asks for is the likelier.
			for _, v := range numberVariants(e.From.Value) {
				if v.text == e.To.Value && e.From.Unit == e.To.Unit {
					s.add(v.kind, v.cost-bonusOfRemedy, e)
				}
			}
		}
	}
	c := s.now.checker
	for _, l := range c.want.Lines {
		e, ok := c.d.get("finished", l.Part.Part)
		if n, counted, has := c.d.count("finished", l.Part.Part); has {
			e, ok = counted, n > 0
		}
		if ok && slices.ContainsFunc(s.suspects, func(p placed) bool { return p.line == e.Line }) {
			if r, ok := rowEdit(s.rows, c.change(l, l.Finished, stitch.Nearest)); ok && r.From.Unit == e.Unit {
				s.add("other-value", costRemedy, r)
			}
		}
	}
}

// inCells proposes what one slip of the hand in a row makes of it.
func (s *search) inCells(p placed, f Field) {
	s.otherUnits(p, f.Units)
	switch f.kind {
	case countValue, numberValue, lengthValue, changeValue, sizeValue, gaugeValue, bodyValue, ageValue:
		for _, v := range numberVariants(p.Value) {
			s.set(p, v.kind, v.cost, v.text)
		}
		s.byDifferences(p)
	case wordValue, yesValue:
		for _, w := range f.Words {
			s.set(p, "other-word", costWord, w)
		}
	}
	s.renamed(f, p, costWord)
	if slices.Contains([]string{"option", "extra", "ease", "growth", "nappy", "lengthened"}, p.Field) {
		s.add("row-too-many", costRemedy, RowEdit{Line: p.line, From: p.Row})
	}
}

// otherUnits proposes that a row is in another unit.
func (s *search) otherUnits(p placed, units []string) {
	isCount := func(unit string) bool { return unit == "stitches" || unit == "rows" }
	for _, unit := range units {
		cost := costUnit
		switch {
		case unit == p.Unit:
			continue
		case unit == "mm" || p.Unit == "mm":
			cost = costMissing
		case isCount(unit) != isCount(p.Unit):
			cost = costPoint
		}
		s.add("unit", cost, p.with(func(r *Row) { r.Unit = unit }))
	}
}

// byDifferences proposes counts that are off by what findings are off, or by half
// of it, where it is of two sides.
func (s *search) byDifferences(p placed) {
	n, err := strconv.Atoi(p.Value)
	if err != nil {
		return
	}
	for _, f := range s.now.findings {
		off, ok := f.offByCount()
		if !ok || !f.counts() {
			continue
		}
		for _, to := range []int{n + off, n - off, n + off/2, n - off/2} {
			if to > 0 {
				s.set(p, "other-value", costRemedy, strconv.Itoa(to))
			}
		}
	}
}

// offByCount is the count that a finding is off by.
func (f Finding) offByCount() (int, bool) {
	if len(f.By.Args) != 1 {
		return 0, false
	}
	n, ok := f.By.Args[0].(int)
	return n, ok
}

// renamed proposes another part for a row, of those that have none.
func (s *search) renamed(f Field, p placed, cost float64) {
	var known []string
	switch f.part {
	case wordPart:
		known = f.Parts
	case garmentPart, ownGauge:
		known = s.parts()
	case bodyPart:
		if near := sizing.Nearest(p.Part, s.measurements()); near != "" {
			known = []string{near}
		}
	}
	for _, part := range known {
		taken := slices.ContainsFunc(s.rows, func(q placed) bool { return q.Field == p.Field && q.Part == part && q.Unit == p.Unit })
		if part == p.Part || taken && !f.Many {
			continue
		}
		s.add("part", cost, p.with(func(r *Row) { r.Part = part }))
	}
}

// parts are the parts of the draft's garment.
func (s *search) parts() []string {
	for _, p := range s.rows {
		if p.Field != "garment" {
			continue
		}
		parts, err := s.ref.Parts(p.Value)
		if err != nil {
			return nil
		}
		var names []string
		for _, part := range parts {
			names = append(names, part.Part)
		}
		return names
	}
	return nil
}

func (s *search) measurements() []string {
	var ids []string
	for _, m := range s.ref.Measurements() {
		ids = append(ids, m.ID)
	}
	return ids
}

// exchanged proposes that the values of two rows changed places.
func (s *search) exchanged() {
	for i, p := range s.suspects {
		for _, q := range s.suspects[i+1:] {
			if p.Unit == q.Unit && p.Value != q.Value && p.Unit != "" {
				s.add("values-exchanged", costTogether+costExchanged/2, p.with(func(r *Row) { r.Value = q.Value }), q.with(func(r *Row) { r.Value = p.Value }))
			}
		}
	}
}
