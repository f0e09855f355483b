package sizing

import (
	"fmt"
	"math"
	"slices"

	"growtuck/data"
)

// A Finisher works out the finished measurements of one garment, made in one
// way, for many bodies. [Finisher.Lengths] is for one goroutine at a time.
type Finisher struct {
	garment *garment
	spec    Spec
	parts   []finishedPart
	room    []float64
}

// A finishedPart is how a part's length is worked out, for any body.
type finishedPart struct {
	data.Part
	share  Amount
	ease   easeRules
	adjust []Amount
}

// Finisher makes a finisher. It refuses a specification that the garment cannot have.
func (ref *Reference) Finisher(m Spec) (*Finisher, error) {
	g, err := ref.garment(m.Garment)
	if err != nil {
		return nil, err
	}
	if err := ref.checkSpec(g, m); err != nil {
		return nil, err
	}
	f := &Finisher{garment: g, spec: m}
	for _, row := range g.parts {
		row.Measurement = g.madeFrom(row, m)
		p := finishedPart{Part: row, adjust: g.adjustments(row.Part, m)}
		for _, l := range g.lengths[row.Part] {
			if l.Role == "share" {
				p.share = Amount{Cm: l.Adjustment, Kind: ShareOf, Note: l.Why, Source: l.Source, Basis: l.Basis}
			}
		}
		if p.share.Cm == 0 {
			p.ease = g.easeRules(row.Measurement, m)
		}
		f.parts = append(f.parts, p)
	}
	return f, nil
}

// Parts are the parts of the garment, each with the measurement that it is made
// from as specified.
func (f *Finisher) Parts() []data.Part {
	parts := make([]data.Part, len(f.parts))
	for i, p := range f.parts {
		parts[i] = p.Part
	}
	return parts
}

// of is the part's share of a body measurement.
func (p *finishedPart) of(body float64) float64 {
	if p.share.Cm == 0 {
		return body
	}
	return body * p.share.Cm / 100
}

// finish works out the part from the body measurement. ease are the amounts that
// it has added, in room.
func (p *finishedPart) finish(body float64, room []float64) (finished float64, ease []float64, err error) {
	ease = p.ease.cm(body, room)
	base := p.of(body)
	finished = base
	for _, cm := range ease {
		finished += cm
	}
	for i := range p.adjust {
		finished += p.adjust[i].Cm
	}
	if finished <= 0 {
		return 0, nil, &FactError{NewFact("nothing-left", p.Name, Length(finished), Length(base), Length(base-finished)),
			fmt.Errorf("%s comes out at %.4g cm: %.4g cm of body and %.4g cm taken away", p.Name, finished, base, base-finished)}
	}
	return finished, ease, nil
}

// Lengths fills in the finished lengths in cm, in the order of
// [Finisher.Parts]. body are the parts' body measurements in cm, NaN where one
// is not known; the length is then NaN.
func (f *Finisher) Lengths(body, out []float64) error {
	if len(body) != len(f.parts) || len(out) != len(f.parts) {
		return fmt.Errorf("%d measurements and %d lengths; %s has %d parts", len(body), len(out), f.garment.ID, len(f.parts))
	}
	for i := range f.parts {
		out[i] = math.NaN()
		switch {
		case math.IsNaN(body[i]):
			continue
		case !(body[i] > 0 && body[i] <= maxAmount):
			return fmt.Errorf("%s: a body measurement of %g cm is not above 0 and at most %g", f.parts[i].Name, body[i], float64(maxAmount))
		}
		var err error
		if out[i], f.room, err = f.parts[i].finish(body[i], f.room[:0]); err != nil {
			return err
		}
	}
	return nil
}

// Finish works out the finished measurements of a garment for a body. Parts whose
// body measurement is not in the body are in [Finished.Missing]. An unknown
// garment, fit, layer, option or part is an [UnknownError]; a body without any of
// the measurements, or less than nothing left of one, is a [FactError].
func (ref *Reference) Finish(b *Body, m Spec) (*Finished, error) {
	finisher, err := ref.Finisher(m)
	if err != nil {
		return nil, err
	}
	g := finisher.garment
	f := &Finished{Garment: g.Garment, Spec: m, Body: b, ref: ref}
	for i := range finisher.parts {
		p := &finisher.parts[i]
		r, ok := b.Get(p.Measurement)
		if !ok {
			f.Missing = append(f.Missing, p.Part)
			continue
		}
		finished, ease, err := p.finish(r.Value, nil)
		if err != nil {
			return nil, err
		}
		line := Line{Part: p.Part, Body: r, Share: p.share, Ease: p.ease.amounts(ease), Adjust: p.adjust,
			Finished: finished, FinishedIn: p.of(r.Imperial)}
		line.EaseLow, line.EaseHigh = p.ease.ends(r.Value)
		for _, a := range slices.Concat(line.Ease, line.Adjust) {
			line.FinishedIn += a.Cm / CmPerInch
		}
		f.Lines = append(f.Lines, line)
	}
	if len(f.Lines) == 0 {
		return nil, &FactError{NewFact("none-known", g.ID, b.Summary), fmt.Errorf("%s: the body has none of its measurements", g.ID)}
	}
	return f, nil
}
