package sizing

import (
	"math"
	"slices"
)

// A figure is one of a body's while it is made.
type figure struct {
	Figure
	known   bool // the body has it
	run     *Run // what its median was read on, if that
	place   Place
	from    []string // ids of what it was made to agree with, if it was
	fromOwn bool     // which the child has
	// believed is what an own measurement is taken as where it is added up with
	// others; 0 for its value.
	believed float64
}

// part is what the figure counts in a sum.
func (f *figure) part() float64 {
	if f.believed > 0 {
		return f.believed
	}
	return f.Value
}

// own reports whether the figure is the child's own, or follows from one.
func (f *figure) own() bool { return f.Provenance == Measured || f.fromOwn }

// follow sets the figure to what others determine, and moves its range along.
func (f *figure) follow(v float64, from []string, own bool) {
	if f.Spread != NoSpread { // rounding must not leave the value out of its range
		f.Low, f.High = min(f.Low+v-f.Value, v), max(f.High+v-f.Value, v)
	}
	f.Value, f.Provenance, f.from, f.fromOwn = v, Derived, from, own
}

// An identity is a measurement that is the sum of others on every body.
type identity struct {
	whole string
	parts []string
}

var identities = []identity{
	{"back_waist_length", []string{"nape_to_waist"}},
	{"trunk", []string{"nape_to_waist", "rise"}},
	{"height", []string{"crown_to_throat", "suprasternale_height"}},
}

// A sum is a measurement that others add up to. Measurements are numbered in
// the order of their table.
type sum struct {
	whole   int
	ids     []string // of the whole, and of the parts
	parts   []int
	taken   []int // what a tape takes each part as
	factors []float64
}

// sums are what the figures of a body must agree with.
type sums struct {
	identities []sum // hold on every body
	derived    []sum // by which the default chart derives a column
}

func (ref *Reference) buildSums() {
	for _, id := range identities {
		if s, ok := ref.newSum(id.whole, id.parts); ok {
			ref.sums.identities = append(ref.sums.identities, s)
		}
	}
	for i, d := range ref.tables.Derivations {
		terms, m := ref.formulas[i], ref.measurements[d.Measurement]
		if d.Chart != defaultChart || Scale(d.Scale) != Years || m == nil || m.Relation != "" || len(terms) < 2 {
			continue
		}
		var parts []string
		for _, t := range terms {
			if t.chart == defaultChart {
				parts = append(parts, t.measurement)
			}
		}
		if s, ok := ref.newSum(d.Measurement, parts); ok && len(parts) == len(terms) {
			for k, t := range terms {
				s.factors[k] = t.factor
			}
			ref.sums.derived = append(ref.sums.derived, s)
		}
	}
}

// newSum reports false where a measurement is not in the tables.
func (ref *Reference) newSum(whole string, parts []string) (s sum, ok bool) {
	s.ids = append([]string{whole}, parts...)
	for i, id := range s.ids {
		m, known := ref.order[id]
		if !known {
			return sum{}, false
		}
		if i == 0 {
			s.whole = m
			continue
		}
		s.parts, s.taken, s.factors = append(s.parts, m), append(s.taken, ref.order[takenAs(id)]), append(s.factors, 1)
	}
	return s, true
}

// known reports whether a body has the whole and all its parts.
func (s *sum) known(figures []figure) bool {
	all := figures[s.whole].known
	for _, p := range s.parts {
		all = all && figures[p].known
	}
	return all
}

// total is the sum of the parts.
func (s *sum) total(figures []figure) float64 {
	total := 0.0
	for i, p := range s.parts {
		total += s.factors[i] * figures[p].part()
	}
	return total
}

// agree makes figures agree with each other where the child was measured. A
// whole that was not measured becomes the sum of its parts; the parts that were
// not measured share what a measured whole leaves for them, in proportion. What
// the default chart derives as a sum of others is worked out again.
func (s *sums) agree(figures []figure) {
	for range 2 { // what one changes may be part of the one before
		for i := range s.identities {
			if id := &s.identities[i]; id.known(figures) {
				id.settle(figures)
			}
		}
	}
	for i := range s.derived {
		d := &s.derived[i]
		target := &figures[d.whole]
		if slices.ContainsFunc(d.parts, func(p int) bool { return !figures[p].known }) || target.own() {
			continue
		}
		if total := d.total(figures); total > 0 && (!target.known || math.Abs(total-target.Value) > 1e-6) {
			target.known = true
			target.follow(total, d.ids[1:], false)
		}
	}
}

func (s *sum) settle(figures []figure) {
	whole, total, open := &figures[s.whole], s.total(figures), 0.0 // open: of the parts not measured
	for _, p := range s.parts {
		if !figures[p].own() {
			open += figures[p].Value
		}
	}
	switch {
	case !whole.own() && open < total:
		whole.follow(total, s.ids[1:], false)
	case whole.own() && open > 0 && whole.Value > total-open:
		factor := (whole.Value - (total - open)) / open
		if math.Abs(factor-1) < 1e-6 {
			return // they agree already
		}
		for _, p := range s.parts {
			if f := &figures[p]; !f.own() {
				f.follow(f.Value*factor, s.ids[:1], true)
			}
		}
	}
}

// needs adds to wanted, a flag for each measurement, what their agreeing rests
// on: the parts of what is derived; all of an identity of which a part is
// wanted, or the whole where a part may have been taken or follow what was.
func (s *sums) needs(wanted, taken []bool) {
	anyOf := func(parts []int, set []bool) bool {
		return slices.ContainsFunc(parts, func(p int) bool { return set[p] })
	}
	moved := slices.Clone(taken) // and what follows from those
	for range s.identities {
		for _, id := range s.identities {
			moved[id.whole] = moved[id.whole] || anyOf(id.parts, moved)
			for _, p := range id.parts {
				moved[p] = moved[p] || taken[id.whole]
			}
		}
	}
	for changed := true; changed; {
		changed = false
		add := func(m int) { changed, wanted[m] = changed || !wanted[m], true }
		for _, id := range s.identities {
			if anyOf(id.parts, wanted) || wanted[id.whole] && anyOf(id.parts, moved) {
				add(id.whole)
				for _, p := range id.parts {
					add(p)
				}
			}
		}
		for _, d := range s.derived {
			if wanted[d.whole] {
				for _, p := range d.parts {
					add(p)
				}
			}
		}
	}
}
