package sizing

import (
	"errors"
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
	own    *OwnEase // asked for in place of the rules
	adjust []Amount
	season []Amount // growth room where nothing is known of the growth
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
	f := &Finisher{garment: g, spec: m, parts: make([]finishedPart, 0, len(g.parts))}
	for _, row := range g.parts {
		row.Measurement = g.madeFrom(row, m)
		p := finishedPart{Part: row, adjust: g.adjustments(row.Part, m), season: g.bySeason(row.Part, m)}
		for _, l := range g.lengths[row.Part] {
			if l.Role == "share" {
				p.share = Amount{Cm: l.Adjustment, Kind: ShareOf, Note: l.Why, Source: l.Source, Basis: l.Basis}
			}
		}
		if p.share.Cm == 0 {
			p.ease = g.easeRules(row.Measurement, m)
			if own, ok := m.ownEase(row.Part, row.Measurement); ok {
				p.own = &own
			}
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
func (p *finishedPart) finish(body, grown float64, room []float64) (finished float64, ease []float64, err error) {
	if p.own != nil {
		ease = append(room, p.own.cm(body))
	} else {
		ease = p.ease.cm(body, room)
	}
	base := p.of(body)
	finished = base + grown
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
// is not known; the length is then NaN. grown is how much each grows until the
// garment need not fit any more; nil for the growth room of a season.
func (f *Finisher) Lengths(body, grown, out []float64) error {
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
		more := TotalCm(f.parts[i].season)
		if grown != nil {
			more = f.parts[i].of(grown[i])
		}
		if out[i], f.room, err = f.parts[i].finish(body[i], more, f.room[:0]); err != nil {
			return err
		}
	}
	return nil
}

// grow forecasts a body to when a garment is first worn, and to the end of its growth
// room. There is no growth where nothing is known of it and the garment is worn at once.
func (ref *Reference) grow(b *Body, m Spec, known *Growth) (g *Growth, first, last *Body, err error) {
	if g = known; g == nil {
		g, err = ref.Growth(b)
	}
	if err == nil {
		if first, err = g.At(m.Wear / 12); err == nil {
			last, err = g.At(m.Wear/12 + m.Seasons/2)
		}
	}
	// Of a size alone room is by season where the survey or the charts end.
	aSize := len(b.child.Own) == 0 && b.child.AgeYears == 0
	if err != nil && m.Wear == 0 && (errors.Is(err, ErrNoHeight) || aSize) {
		return nil, nil, nil, nil
	}
	return g, first, last, err
}

// grown is how much a part grows before it is first worn, and then.
func (p *finishedPart) grown(now float64, first, last *Body) []Amount {
	var out []Amount
	add := func(cm float64, kind AmountKind) {
		if cm > 0 {
			out = append(out, Amount{Cm: p.of(cm), Kind: kind, Source: growthSource, Basis: "derived"})
		}
	}
	a, _ := first.Get(p.Measurement)
	b, _ := last.Get(p.Measurement)
	add(a.Value-now, GrownBefore)
	add(b.Value-a.Value, GrowthRoom)
	return out
}

// growthSource is the document that forecasts rest on first.
const growthSource = "cdc-2000"

// Finish works out the finished measurements of a garment for a body. Parts whose
// body measurement is not in the body are in [Finished.Missing]. An unknown
// garment, fit, layer, option or part is an [UnknownError]; a body without any of
// the measurements, or less than nothing left of one, is a [FactError].
func (ref *Reference) Finish(b *Body, m Spec) (*Finished, error) { return ref.finish(b, m, nil) }

// Remade is the garment for the same body with another specification.
func (f *Finished) Remade(m Spec) (*Finished, error) { return f.ref.finish(f.Body, m, f.Growth) }

// finish is Finish where the growth of the body may be known.
func (ref *Reference) finish(b *Body, m Spec, growth *Growth) (*Finished, error) {
	m = ref.withFit(b, m)
	finisher, err := ref.Finisher(m)
	if err != nil {
		return nil, err
	}
	g := finisher.garment
	f := &Finished{Garment: g.Garment, Spec: m, Body: b, ref: ref}
	var first, last *Body // when it is first worn, and at the end
	if m.Seasons > 0 || m.Wear > 0 {
		if f.Growth, first, last, err = ref.grow(b, m, growth); err != nil {
			return nil, err
		}
	}
	f.Lines = make([]Line, 0, len(finisher.parts))
	for i := range finisher.parts {
		p := &finisher.parts[i]
		r, ok := b.Get(p.Measurement)
		if !ok {
			f.Missing = append(f.Missing, p.Part)
			continue
		}
		adjust := slices.Concat(p.adjust, p.season)
		if f.Growth != nil {
			adjust = slices.Concat(p.adjust, p.grown(r.Value, first, last))
		}
		finished, ease, err := p.finish(r.Value, TotalCm(adjust[len(p.adjust):]), nil)
		if err != nil {
			return nil, err
		}
		line := Line{Part: p.Part, Body: r, Share: p.share, Adjust: adjust,
			Finished: finished, FinishedIn: p.of(r.Imperial)}
		if p.own != nil {
			slack := ref.Practice("asked_ease_slack").Value
			line.Ease = []Amount{{Cm: ease[0], Kind: AskedEase}}
			line.EaseLow, line.EaseHigh = ease[0]-slack, ease[0]+slack
		} else {
			line.Ease = p.ease.amounts(ease)
			line.EaseLow, line.EaseHigh = p.ease.ends(r.Value)
		}
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
