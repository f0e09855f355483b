package sizing

import (
	"slices"

	"growtuck/data"
)

// madeFrom is the measurement that a part is made from: its own, or the one that
// an option takes instead.
func (g *garment) madeFrom(part data.Part, m Spec) string {
	for _, l := range g.lengths[part.Part] {
		if l.Instead != "" && slices.Contains(m.Options, l.Option) {
			return l.Instead
		}
	}
	return part.Measurement
}

// Instead returns the measurements that options make a part of a garment from in
// place of its own, by option.
func (ref *Reference) Instead(garment, part string) (map[string]string, error) {
	g, err := ref.garment(garment)
	if err != nil {
		return nil, err
	}
	out := make(map[string]string)
	for _, l := range g.lengths[part] {
		if l.Instead != "" {
			out[l.Option] = l.Instead
		}
	}
	return out, nil
}

// Beside are facts about parts that a published standard makes from another
// measurement than the garment does, as an option that was not taken: the length
// that it has.
func (f *Finished) Beside() []Fact {
	g, err := f.ref.garment(f.Garment.ID)
	if err != nil {
		return nil
	}
	var facts []Fact
	for _, line := range f.Lines {
		for _, l := range g.lengths[line.Part.Part] {
			if l.Instead == "" || l.Basis != "published" || slices.Contains(f.Spec.Options, l.Option) {
				continue
			}
			m := f.Spec
			m.Options = append(slices.Clone(f.Spec.Options), l.Option)
			other, err := f.ref.Finish(f.Body, m)
			if err != nil {
				continue // an option that was taken says how long it is
			}
			if standard, ok := other.Line(line.Part.Part); ok {
				facts = append(facts, NewFact("length-beside", line.Part.Name, Length(standard.Finished), l.Option))
			}
		}
	}
	return facts
}
