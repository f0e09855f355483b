package sizing

import (
	"slices"

	"growtuck/data"
)

// A ratioKey names the rows of ratios of one measurement.
type ratioKey struct {
	sex         Sex
	measurement string
}

func newRatios(t *data.Tables) map[ratioKey][]data.Ratio {
	ratios := make(map[ratioKey][]data.Ratio)
	for _, r := range t.Ratios {
		k := ratioKey{Sex(r.Sex), r.Measurement}
		ratios[k] = append(ratios[k], r)
	}
	return ratios
}

// rare returns the row of ratios that a value falls outside of: its ratio to
// the height is below the 1st or above the 99th percentile of surveyed children
// of about that height.
func rare(ratios []data.Ratio, value, height float64) (row *data.Ratio, outside bool) {
	for i := range ratios {
		if r := &ratios[i]; height >= r.LowCm && height < r.HighCm {
			v := value / height
			return r, v < r.P1 || v > r.P99
		}
	}
	return nil, false
}

// Questions are the doubts about a child's own measurements: what hardly any
// surveyed child of that height has, and what does not add up. They are not
// errors.
func (ref *Reference) Questions(c Child) []Doubt {
	var out []Doubt
	height := c.Own["height"]
	fitted, err := ref.fitted()
	if err != nil {
		return []Doubt{{Fact: Text(err.Error())}}
	}
	for _, id := range ref.ownIDs(c) {
		if r, ok := rare(fitted.ratios[ratioKey{c.Sex.orBoth(), id}], c.Own[id], height); ok {
			m := ref.measurements[id]
			out = append(out, Doubt{id, NewFact("rare-at-height", m.Name, amount(m, c.Own[id]), Length(height),
				Range{Length(r.LowCm), Length(r.HighCm)}, amount(m, r.P1*height), amount(m, r.P99*height))})
		}
	}
	for _, i := range identities {
		sum, all := 0.0, c.Own[i.whole] > 0
		parts := slices.Clone(i.parts)
		for k, p := range parts {
			if same := takenAs(p); c.Own[p] == 0 && same != i.whole && c.Own[same] > 0 {
				p, parts[k] = same, same
			}
			sum += c.Own[p]
			all = all && c.Own[p] > 0
		}
		if whole := c.Own[i.whole]; all && contradicts(whole, sum) {
			out = append(out, Doubt{i.whole, NewFact("parts-contradict", ref.measurements[i.whole].Name, Length(whole),
				namesOf(ref.measurementsOf(parts)), Length(sum))})
		}
	}
	return out
}

// takenAs is the measurement that a tape takes a part as: one of which it is the
// only part, or itself.
func takenAs(part string) string {
	for _, i := range identities {
		if len(i.parts) == 1 && i.parts[0] == part {
			return i.whole
		}
	}
	return part
}

// contradicts reports that a whole and the sum of its parts differ by more than
// tapes do.
func contradicts(whole, sum float64) bool { return whole < 0.97*sum || whole > 1.03*sum }
