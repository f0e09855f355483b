package sizing

import (
	"errors"
	"fmt"
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
	if widths.Run == nil || lengths.Run == nil {
		return nil, errNoPlace
	}
	b := &Body{Summary: NewFact("body-blend", widths.Label(), lengths.Label(), lengths.Run.Chart.ID), child: c, Read: widths.read()}
	if lengths.How != nil && (widths.How == nil || !slices.Equal(lengths.How.Args, widths.How.Args)) {
		b.Read = append(b.Read, lengths.read()...)
	}
	if n := len(c.Own); n > 0 {
		b.Summary = NewFact("body-blend-own", widths.Label(), lengths.Label(), lengths.Run.Chart.ID, n)
	}
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
		r.From.Follows = m.Follows
		ref.moveWith(&r, place, c, method)
		b.Readings = append(b.Readings, r)
	}
	ref.agree(b)
	b.standApart(ref, widths)
	b.Questions = ref.Doubts(c)
	return b, nil
}

// moveWith moves a length of a size with what it goes with, where that was
// measured on the child: a sleeve with the arm.
func (ref *Reference) moveWith(r *Reading, place Place, c Child, method Method) {
	m := r.Measurement
	own, ok := c.Own[m.Relation]
	if !ok || m.Relation == m.ID || m.Kind != "length" || m.Follows != "lengths" {
		return
	}
	usual, err := ref.Read(place, m.Relation, method)
	if err != nil || usual.Value <= 0 {
		return
	}
	factor := own / usual.Value
	r.Value, r.Low, r.High = r.Value*factor, r.Low*factor, r.High*factor
	r.Imperial, r.Provenance, r.Notes = r.inImperial(r.Value), Derived, nil
	r.From = Origin{AgreesWith: ref.measurementsOf([]string{m.Relation}), AgreesWithOwn: true}
}

// checkChild refuses values that are not measurements.
func (ref *Reference) checkChild(c Child) error {
	var errs []error
	for _, id := range keys(c.Own) {
		if ref.measurements[id] == nil {
			errs = append(errs, unknown("measurement", id, keys(ref.order)))
		} else if v := c.Own[id]; !finite(v) || v <= 0 || v > mostMeasured {
			errs = append(errs, fmt.Errorf("%s: %g is not a measurement in %s", id, v, ref.measurements[id].Unit))
		}
	}
	if !slices.Contains(sexes, c.Sex) && c.Sex != "" {
		errs = append(errs, fmt.Errorf("sex %.80q is not one of m, f, both", c.Sex))
	}
	return errors.Join(errs...)
}

// agree makes a body agree with itself where the child was measured.
func (ref *Reference) agree(b *Body) {
	figures := make([]figure, len(ref.tables.Measurements))
	for _, r := range b.Readings {
		figures[ref.order[r.Measurement.ID]] = figure{known: true, Figure: Figure{r.Value, r.Low, r.High, r.Spread, r.Provenance}}
	}
	ref.sums.agree(figures)
	for i := range b.Readings {
		r := &b.Readings[i]
		ref.settle(r, &figures[ref.order[r.Measurement.ID]])
	}
}

// settle updates a reading with its figure after the body was made to agree with
// itself.
func (ref *Reference) settle(r *Reading, f *figure) {
	r.Value, r.Low, r.High, r.Provenance = f.Value, f.Low, f.High, f.Provenance
	if len(f.from) == 0 {
		return
	}
	r.Imperial, r.Notes = r.inImperial(r.Value), nil
	r.From = Origin{AgreesWith: ref.measurementsOf(f.from), AgreesWithOwn: f.fromOwn}
}
