package sizing

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Blend takes what follows widths from one size, what follows lengths from
// another, and the child's own measurements before either. Both places are
// read by the method. A size may leave a measurement out; it is then not in
// the body.
func (ref *Reference) Blend(widths, lengths Place, c Child, method Method) (*Body, error) {
	if err := ref.checkChild(c); err != nil {
		return nil, err
	}
	b := &Body{Summary: fmt.Sprintf("widths from size %s, lengths from size %s of chart %s",
		widths.Label(), lengths.Label(), lengths.Run.Chart.ID)}
	for _, m := range ref.tables.Measurements {
		if v, ok := c.Own[m.ID]; ok {
			b.Readings = append(b.Readings, ref.own(m.ID, v))
			continue
		}
		place := lengths
		switch m.Follows {
		case "widths":
			place = widths
		case "none": // weight belongs to no one size
			continue
		}
		r, err := ref.Read(place, m.ID, method)
		if err != nil {
			continue
		}
		r.From = m.Follows + " from " + r.From
		b.Readings = append(b.Readings, r)
	}
	ref.settle(b, c)
	ref.resum(b, c)
	b.Questions = ref.Questions(c)
	if len(c.Own) > 0 {
		b.Summary += fmt.Sprintf("; %d of the child's own", len(c.Own))
	}
	return b, nil
}

// checkChild refuses what is no measurement.
func (ref *Reference) checkChild(c Child) error {
	var errs []error
	for _, id := range keys(c.Own) {
		if ref.measurements[id] == nil {
			errs = append(errs, unknown("measurement", id, keys(ref.order)))
		} else if v := c.Own[id]; !finite(v) || v <= 0 || v > maxAmount {
			errs = append(errs, fmt.Errorf("%s: %g is no measurement in %s", id, v, ref.measurements[id].Unit))
		}
	}
	if !slices.Contains(sexes, c.Sex) && c.Sex != "" {
		errs = append(errs, fmt.Errorf("sex %q is none of m, f, both", c.Sex))
	}
	return errors.Join(errs...)
}

// An identity is a measurement that is the sum of others on every body.
type identity struct {
	whole string
	parts []string
}

var identities = []identity{
	{"trunk", []string{"back_waist_length", "rise"}},
	{"height", []string{"crown_to_throat", "suprasternale_height"}},
}

// settle makes a body agree with itself where the child was measured. A whole
// that was not measured becomes the sum of its parts; the parts that were not
// measured share what a measured whole leaves for them, in proportion.
func (ref *Reference) settle(b *Body, c Child) {
	for _, id := range identities {
		parts := make([]*Reading, len(id.parts))
		for i, p := range id.parts {
			parts[i] = b.find(p)
		}
		whole := b.find(id.whole)
		if whole == nil || slices.Contains(parts, nil) {
			continue
		}
		_, wholeOwn := c.Own[id.whole]
		var sum, open float64 // of all parts, of those not measured
		for i, p := range parts {
			sum += p.Value
			if _, own := c.Own[id.parts[i]]; !own {
				open += p.Value
			}
		}
		switch {
		case !wholeOwn && open < sum:
			whole.follow(sum, ref.sum(id.parts))
		case wholeOwn && open > 0 && whole.Value > sum-open:
			factor := (whole.Value - (sum - open)) / open
			if math.Abs(factor-1) < 1e-6 {
				continue // they agree already
			}
			for i, p := range parts {
				if _, own := c.Own[id.parts[i]]; !own {
					p.follow(p.Value*factor, "the child's "+whole.Measurement.Name)
				}
			}
		}
	}
}

// resum works out again what the default chart derives as a sum of other
// readings, so that it agrees with the child's own.
func (ref *Reference) resum(b *Body, c Child) {
	for i, d := range ref.tables.Derivations {
		terms := ref.formulas[i]
		target := b.find(d.Measurement)
		if _, own := c.Own[d.Measurement]; own || target == nil || d.Chart != defaultChart ||
			ref.measurements[d.Measurement].Relation != "" || len(terms) < 2 {
			continue
		}
		sum, complete := 0.0, true
		var from []string
		for _, t := range terms {
			r := b.find(t.measurement)
			if r == nil || t.chart != defaultChart {
				complete = false
				break
			}
			sum += t.factor * r.Value
			from = append(from, t.measurement)
		}
		if complete && sum > 0 && math.Abs(sum-target.Value) > 1e-6 {
			target.follow(sum, ref.sum(from))
		}
	}
}

func (ref *Reference) sum(ids []string) string {
	var names []string
	for _, id := range ids {
		names = append(names, ref.measurements[id].Name)
	}
	return List(names)
}

func (b *Body) find(id string) *Reading {
	i := slices.IndexFunc(b.Readings, func(r Reading) bool { return r.Measurement.ID == id })
	if i < 0 {
		return nil
	}
	return &b.Readings[i]
}

// follow sets the reading to what other readings make it, moving its range
// along.
func (r *Reading) follow(v float64, from string) {
	if r.Spread != "" {
		r.Low, r.High = r.Low+v-r.Value, r.High+v-r.Value
	}
	r.Value, r.Imperial = v, r.inImperial(v)
	r.Got, r.From, r.Notes = Derived, "from "+from, nil
}
