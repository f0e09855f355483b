package sizing

import (
	"fmt"
	"maps"
	"slices"

	"growtuck/data"
)

// An OwnEase is ease that the maker asks for, in place of that of a fit: cm, or
// a share of the body measurement.
type OwnEase struct {
	Cm    float64
	Share float64 // 0.1 for 10 %; Cm is then 0
}

// cm is the ease on a body measurement.
func (e OwnEase) cm(body float64) float64 { return e.Cm + e.Share*body }

// Girths is the key of ease that is asked for round chest, waist, hips, arms and
// legs at once. Edges at neck, wrist and ankle keep the fit's: they must pass or hold.
const Girths = "girths"

// roomGirths are the measurements that Girths stands for; the first that ease is
// asked for tells the fit class.
var roomGirths = []string{"chest", "hip", "waist", "upper_arm", "thigh", "calf"}

// ownEase finds the ease that was asked for a part: by its id, by its measurement,
// or for all girths.
func (m Spec) ownEase(part, measurement string) (OwnEase, bool) {
	for _, key := range []string{part, measurement} {
		if e, ok := m.Ease[key]; ok {
			return e, true
		}
	}
	e, ok := m.Ease[Girths]
	return e, ok && slices.Contains(roomGirths, measurement)
}

// checkEase refuses ease of parts that the garment does not have, or whose length is
// a share of the body, and ease out of bounds.
func (g *garment) checkEase(m Spec) error {
	known := []string{Girths}
	for _, p := range g.parts {
		if !slices.ContainsFunc(g.lengths[p.Part], func(l data.Length) bool { return l.Role == "share" }) {
			known = append(known, p.Part)
			if p.Part != p.Measurement && !slices.Contains(known, p.Measurement) {
				known = append(known, p.Measurement)
			}
		}
	}
	for _, key := range slices.Sorted(maps.Keys(m.Ease)) {
		if !slices.Contains(known, key) {
			return unknown("part of "+g.ID+" that has ease", key, known)
		}
		e := m.Ease[key]
		if !finite(e.Cm) || e.Cm < -50 || e.Cm > 50 || !finite(e.Share) || e.Share < -0.4 || e.Share > 1 {
			return fmt.Errorf("%s: ease of %g cm and %g %%; want -50 to 50 cm, or -40 to 100 %%", key, e.Cm, e.Share*100)
		}
	}
	return nil
}

// withFit is a specification whose fit class is that of the ease asked for, where no
// fit was: it is the class that the rest of the garment then has.
func (ref *Reference) withFit(b *Body, m Spec) Spec {
	if !m.FitByEase || len(m.Ease) == 0 {
		return m
	}
	g, err := ref.garment(m.Garment)
	if err != nil {
		return m
	}
	for _, measurement := range roomGirths {
		for _, p := range g.parts {
			e, asked := m.ownEase(p.Part, p.Measurement)
			r, known := b.Get(p.Measurement)
			if p.Measurement != measurement || !asked || !known {
				continue
			}
			if fit, ok := ref.FitOf(m.Garment, measurement, r.Value, e.cm(r.Value), m.Layer); ok {
				m.Fit, m.FitByEase = fit, false
				return m
			}
		}
	}
	return m
}

// asked are facts about ease that was asked for: the fit class that it is, what is
// left of it over the clothes underneath, and what follows from the class in other
// parts.
func (f *Finished) asked() []Fact {
	if len(f.Spec.Ease) == 0 {
		return nil
	}
	g, err := f.ref.garment(f.Garment.ID)
	if err != nil {
		return nil
	}
	var facts, follow []Fact
	for _, line := range f.Lines {
		own, asked := f.Spec.ownEase(line.Part.Part, line.Part.Measurement)
		if !asked || line.Share.Cm != 0 {
			if len(line.Ease) > 0 && line.Ease[0].Kind == FitEase {
				follow = append(follow, NewFact("ease-of", line.Part.Name, Length(TotalCm(line.Ease))))
			}
			continue
		}
		cm := own.cm(line.Body.Value)
		fit, ok := f.ref.FitOf(f.Garment.ID, line.Part.Measurement, line.Body.Value, cm, f.Spec.Layer)
		if ok {
			facts = append(facts, NewFact("ease-is-fit", line.Part.Name, Length(cm), string(fit)))
		}
		over := 0.0
		for _, a := range g.easeRules(line.Part.Measurement, f.Spec).amountsFor(line.Body.Value) {
			if a.Kind == LayerEase || a.Kind == NappyEase {
				over += a.Cm
			}
		}
		switch {
		case over > 0 && cm < over:
			facts = append(facts, NewFact("ease-under-layer", line.Part.Name, Length(cm), f.Spec.Layer.Fact(), Length(over)))
		case over > 0:
			facts = append(facts, NewFact("ease-over-layer", line.Part.Name, f.Spec.Layer.Fact(), Length(over), Length(cm-over)))
		}
	}
	if len(follow) > 0 {
		facts = append(facts, NewFact("ease-follows", string(f.Spec.Fit), follow))
	}
	return facts
}
