package sizing

import (
	"math"
	"slices"
)

// The crotch is what a tape finds worst: a child's own inside leg says how high
// it is only within the tape's unsureness, and is drawn towards what the height
// says. The sitting height and the trunk say it too: each is the inside leg and
// other heights, by the survey's formulas.
const crotchHeight = "inside_leg"

// crotchBy are measurements that place the crotch, the surest first.
var crotchBy = []string{"sitting_height", "trunk"}

// crotchTold is how far, in cm, the crotch may be believed from where the tape
// has it without a word: half of what a tape is read to.
const crotchTold = 0.25

// placeCrotch finds how surely each measurement that was taken places the crotch.
func (b *basis) placeCrotch(ref *Reference) {
	leg := b.rel.find(crotchHeight)
	if leg < 0 {
		return
	}
	unsure := ref.Practice("crotch_tape_spread").Share()
	for i := range b.methods {
		d := &b.methods[i]
		if d.measurement.ID == crotchHeight {
			d.tape = unsure
		}
		if !slices.Contains(crotchBy, d.measurement.ID) || d.Curve == nil || d.approach != bySum {
			continue
		}
		k := slices.IndexFunc(d.terms, func(t sumTerm) bool { return t.v == leg })
		if k < 0 {
			continue
		}
		d.v, d.closeness, d.crotch = leg, 1, k
		height := (b.low + b.high) / 2
		legs, others := b.methods[d.terms[k].m].At(height), 0.0
		for j, t := range d.terms {
			if j != k && t.v >= 0 && b.methods[t.m].Curve != nil {
				others = math.Hypot(others, t.factor*b.methods[t.m].At(height)*b.rel.spread[t.v].at(height))
			}
		}
		d.tape = others / (math.Abs(d.terms[k].factor) * legs)
	}
}

// evidenceOf is the logarithm of a measurement that was taken, as evidence. What
// places the crotch says it as a departure of its own median.
func (e *estimator) evidenceOf(m int) (log float64, ok bool) {
	d := &e.group.methods[m]
	if d.crotch < 0 {
		return math.Log(e.own[m]), true
	}
	if !e.took(e.height) {
		return 0, false
	}
	h := e.own[e.height]
	rest, leg := e.own[m], d.terms[d.crotch]
	for k, t := range d.terms {
		switch {
		case k == d.crotch:
		case t.m == e.height:
			rest -= t.factor * h
		case e.took(t.m):
			rest -= t.factor * e.own[t.m]
		default:
			rest -= t.factor * e.group.methods[t.m].At(h)
		}
	}
	implied, usual := rest/leg.factor, e.group.methods[leg.m].At(h)
	if !(implied > 0 && usual > 0) {
		return 0, false
	}
	return math.Log(d.At(h) * implied / usual), true
}

// believe works out where the crotch is believed to be where the inside leg was
// taken.
func (e *estimator) believe(m int, f *figure) {
	if e.group.methods[m].tape == 0 || e.group.methods[m].crotch >= 0 {
		return
	}
	var b figure
	e.fromMedian(&b, m)
	if b.known {
		f.believed = b.Value
	}
}

// needsCrotch adds to wanted, a flag for each measurement, what standOnCrotch
// rests on. It reports whether it added any.
func (ref *Reference) needsCrotch(wanted, taken []bool) bool {
	trunk, ok := ref.order["trunk"]
	if !ok || !taken[trunk] {
		return false
	}
	added := false
	for i, d := range ref.tables.Derivations {
		terms := ref.formulas[i]
		if d.Chart != surveyChart || d.Measurement != "trunk" ||
			!slices.ContainsFunc(terms, func(t term) bool { return wanted[ref.order[t.measurement]] }) {
			continue
		}
		for _, t := range terms {
			m := ref.order[t.measurement]
			added, wanted[m] = added || !wanted[m], true
		}
	}
	return added
}

// standOnCrotch lets the height of the throat follow from a trunk that was taken
// and the crotch that it ends at.
func (e *estimator) standOnCrotch() {
	for m := range e.group.methods {
		d := &e.group.methods[m]
		if d.measurement.ID != "trunk" || d.crotch < 0 || !e.took(m) {
			continue
		}
		rest, open, factor := e.own[m], -1, 0.0
		for _, t := range d.terms {
			f := &e.figures[t.m]
			switch {
			case !f.known:
				return
			case f.Provenance == Estimated && t.v >= 0 && t.m != d.terms[d.crotch].m:
				open, factor = t.m, t.factor
			default:
				rest -= t.factor * f.part()
			}
		}
		if open >= 0 && rest/factor > 0 {
			e.figures[open].follow(rest/factor, []string{d.measurement.ID}, true)
		}
	}
}
