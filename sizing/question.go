package sizing

import (
	"fmt"

	"growtuck/data"
)

// rare returns the row of ratios that a measurement of the child falls outside
// of: its ratio to the child's height is below the 1st or above the 99th
// percentile of surveyed children of about that height.
func (ref *Reference) rare(c Child, id string) (data.Ratio, bool) {
	height := c.Own["height"]
	sex := c.Sex
	if sex == "" {
		sex = Both
	}
	for _, r := range ref.tables.Ratios {
		if r.Measurement == id && Sex(r.Sex) == sex && height >= r.LowCm && height < r.HighCm {
			v := c.Own[id] / height
			return r, v < r.P1 || v > r.P99
		}
	}
	return data.Ratio{}, false
}

// Questions puts the doubts about a child's own measurements into words: what
// hardly any surveyed child of that height has, and what does not add up. They
// are no errors.
func (ref *Reference) Questions(c Child) []string {
	var out []string
	height := c.Own["height"]
	for _, id := range ref.ownIDs(c) {
		if r, ok := ref.rare(c, id); ok {
			m := ref.measurements[id]
			out = append(out, fmt.Sprintf("%s %.4g %s at height %.4g cm: 98 of 100 children of %.4g to %.4g cm would have %.3g to %.3g; check the tape",
				m.Name, c.Own[id], m.Unit, height, r.LowCm, r.HighCm, r.P1*height, r.P99*height))
		}
	}
	for _, i := range identities {
		sum, all := 0.0, c.Own[i.whole] > 0
		for _, p := range i.parts {
			sum += c.Own[p]
			all = all && c.Own[p] > 0
		}
		if whole := c.Own[i.whole]; all && (whole < 0.97*sum || whole > 1.03*sum) {
			out = append(out, fmt.Sprintf("%s %.4g cm, but %s make %.4g: check the tape",
				ref.measurements[i.whole].Name, whole, ref.sum(i.parts), sum))
		}
	}
	return out
}
