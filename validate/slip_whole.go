package validate

import (
	"math"
	"slices"
	"strconv"

	"growtuck/sizing"
)

// gauges proposes slips of both gauges together, and the gauge that the counts
// were made for.
func (s *search) gauges() {
	at := func(field string) (placed, bool) {
		i := slices.IndexFunc(s.rows, func(p placed) bool { return p.Field == field && p.Part == "" })
		if i < 0 {
			return placed{}, false
		}
		return s.rows[i], true
	}
	st, hasStitches := at("stitch_gauge")
	rows, hasRows := at("row_gauge")
	if !hasStitches || !hasRows {
		return
	}
	s.add("gauges-exchanged", costTogether, st.with(func(r *Row) { r.Value, r.Unit = rows.Value, rows.Unit }), rows.with(func(r *Row) { r.Value, r.Unit = st.Value, st.Unit }))
	for _, unit := range []string{"10 cm", "4 in"} {
		both := func(r *Row) { r.Unit = unit }
		if st.Unit != unit || rows.Unit != unit {
			s.add("unit", costTogether, st.with(both), rows.with(both))
		}
	}
	perInch := func(r *Row) { r.Value = timesInch(r.Value, r.Unit) }
	s.add("gauge-per-inch", costPoint, st.with(perInch), rows.with(perInch))
	var both []RowEdit
	for _, g := range []struct {
		p    placed
		unit string
	}{{st, "stitches"}, {rows, "rows"}} {
		if meant, ok := s.now.checker.gaugeMeant(g.unit); ok {
			if g.p.Unit == "4 in" {
				meant *= 1.016
			}
			whole := int(math.Round(meant))
			for n := max(1, whole-2); n <= whole+2; n++ {
				s.set(g.p, "other-value", costRemedy, strconv.Itoa(n))
			}
			s.set(g.p, "other-value", costRemedy+1, sizing.FormatExact(math.Round(2*meant)/2))
			both = append(both, g.p.with(func(r *Row) { r.Value = strconv.Itoa(whole) }))
		}
		s.add("gauge-per-inch", costPoint, g.p.with(perInch))
		for _, v := range numberVariants(g.p.Value) {
			s.set(g.p, v.kind, v.cost, v.text)
		}
	}
	if len(both) == 2 {
		s.add("other-value", costRemedy+1, both...)
	}
}

// timesInch is a gauge of one inch over the width of the unit.
func timesInch(value, unit string) string {
	l, err := sizing.ParseLength(value, "cm")
	if err != nil {
		return value
	}
	if unit == "4 in" {
		return sizing.FormatExact(round(float64(l)*4, 1))
	}
	return sizing.FormatExact(math.Round(2*float64(l)*10/sizing.CmPerInch) / 2)
}

// wholeDraft proposes other words for what is made and for whom.
func (s *search) wholeDraft() {
	has := func(field string) (placed, bool) {
		i := slices.IndexFunc(s.rows, func(p placed) bool { return p.Field == field })
		if i < 0 {
			return placed{}, false
		}
		return s.rows[i], true
	}
	offer := func(field string, words []string, cost float64, whereMissing bool) {
		p, ok := has(field)
		for _, w := range words {
			switch {
			case ok && sizing.Nearest(p.Value, words) == w:
				s.set(p, "other-word", costUnit, w)
			case ok:
				s.set(p, "other-word", cost, w)
			case whereMissing:
				s.missing(cost, Row{Field: field, Value: w})
			}
		}
	}
	var garments []string
	for _, g := range s.ref.Garments() {
		garments = append(garments, g.ID)
	}
	offer("garment", garments, costRemedy, true)
	offer("fit", sizing.Words(sizing.Fits), costWord, true)
	offer("layer", sizing.Words(sizing.Layers), costWord, true)
	for _, field := range []string{"stitch", "craft", "construction", "sex", "nappy"} {
		f, _ := fieldNamed(draftFields(), field)
		offer(field, f.Words, costWord, field == "nappy")
	}
	s.growth(has)
	if g, ok := has("garment"); ok {
		options, err := s.ref.GarmentOptions(g.Value)
		if err == nil {
			for _, o := range options {
				s.missing(costRemedy, Row{Field: "option", Value: o})
			}
		}
	}
	s.sizes(has)
}

func (s *search) growth(has func(string) (placed, bool)) {
	p, ok := has("growth")
	for _, n := range []string{"0", "1", "2", "3", "4"} {
		if ok {
			s.set(p, "other-word", costDigit, n)
		} else if n != "0" {
			s.missing(costRemedy, Row{Field: "growth", Value: n, Unit: "seasons"})
		}
	}
}

// sizes proposes other sizes of the chart.
func (s *search) sizes(has func(string) (placed, bool)) {
	id := sizing.DefaultChart
	if p, ok := has("chart"); ok {
		id = p.Value
	}
	chart, err := s.ref.Chart(id)
	if err != nil {
		return
	}
	var known []string
	for _, run := range chart.Runs() {
		for _, m := range run.Sizes {
			if !slices.Contains(known, m.Size) {
				known = append(known, m.Size)
			}
		}
	}
	none := true
	for _, field := range []string{"size", "widths", "lengths"} {
		p, ok := has(field)
		if !ok {
			continue
		}
		none = false
		for _, v := range numberVariants(p.Value) {
			if slices.Contains(known, v.text) {
				s.set(p, v.kind, v.cost, v.text)
			}
		}
		for _, size := range known {
			s.set(p, "other-word", costWord, size)
		}
	}
	_, child := has("child")
	_, body := has("body")
	if none && !child && !body {
		for _, size := range known {
			s.missing(costMissing, Row{Field: "size", Value: size})
		}
	}
}
