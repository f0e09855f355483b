package sizing

import "slices"

// Seated is the option of a garment for a child who sits in a wheelchair.
const Seated = "seated"

// Advice is what would make the garment fit better: a tape to take first, or
// ease that was not asked for.
func (f *Finished) Advice() []Fact {
	var advice []Fact
	if l, ok := f.Line("trunk"); ok && l.Body.Spread == EightInTen && f.forChild() {
		advice = append(advice, NewFact("trunk-first", Range{Length(l.Body.Low), Length(l.Body.High)}))
	}
	if hip, rise, ok := f.nappy(); ok {
		advice = append(advice, NewFact("nappy-offered", Length(hip), Length(rise)))
	}
	if slices.Contains(f.Spec.Options, Seated) {
		advice = append(advice, NewFact("seated"), NewFact("carers-decide"))
	}
	return append(advice, f.growthFacts()...)
}

// growthFacts tell what growth room is for.
func (f *Finished) growthFacts() []Fact {
	g, m := f.Growth, f.Spec
	_, tall := f.Body.Get("height")
	switch {
	case g == nil && m.Seasons > 0 && tall:
		return []Fact{NewFact("growth-by-season-ended")}
	case g == nil && m.Seasons > 0:
		return []Fact{NewFact("growth-by-season")}
	case g == nil:
		return nil
	}
	months := m.Wear + 6*m.Seasons
	h, err := g.Height(months / 12)
	if err != nil {
		return nil
	}
	facts := []Fact{NewFact("growth-height", Length(g.height), Length(h.Value), Range{Length(h.Low), Length(h.High)})}
	if day := f.Body.child.Measured; !day.IsZero() {
		facts[0] = NewFact("growth-height-dated", Length(g.height), day.Format(Day), Length(h.Value), Range{Length(h.Low), Length(h.High)}, AfterMonths(day, months).Format(Day))
	}
	switch {
	case g.Implied && !f.forChild():
		facts = append(facts, NewFact("growth-size-age", Length(g.height), g.Years))
	case g.Implied:
		facts = append(facts, NewFact("growth-implied-age", Length(g.height), g.Years))
	}
	if g.Paced {
		facts = append(facts, NewFact("growth-paced"))
	}
	return facts
}

// forChild reports whether something was measured on a child.
func (f *Finished) forChild() bool {
	return slices.ContainsFunc(f.Body.Readings, func(r Reading) bool { return r.Provenance == Measured })
}

// nappy is what a nappy would add to hip and rise, where the body is that of a
// child too young to do without and none was asked for.
func (f *Finished) nappy() (hipCm, riseCm float64, ok bool) {
	height, known := f.Body.Get("height")
	if f.ref == nil || f.Spec.Nappy || !known || f.ref.charts[defaultChart] == nil {
		return 0, 0, false
	}
	run, ok := f.ref.charts[defaultChart].Run(Years, Both)
	if !ok || !(height.Value < run.Value("height", f.ref.Practice("toilet_age").Value)) {
		return 0, 0, false
	}
	over := f.Spec
	over.Nappy = true
	with, err := f.Remade(over)
	if err != nil {
		return 0, 0, false
	}
	more := func(part string) float64 {
		a, _ := with.Line(part)
		b, _ := f.Line(part)
		return a.Finished - b.Finished // 0 where the garment has no such part
	}
	hipCm, riseCm = more("hip"), more("rise")
	return hipCm, riseCm, hipCm > 0 && riseCm > 0
}
