package sizing

import (
	"math"

	"growtuck/data"
)

// easeRules are the rules for a measurement's ease, for any body.
type easeRules struct {
	rows  []data.Ease // added up
	whys  []Amount    // of the rows, and of the least, without the amount
	least *data.Ease  // nil for none
}

// easeRules finds the rules for the fit and layer: the fit's figure over skin,
// plus what the clothes underneath take, but never less than the least that goes
// over those clothes.
func (g *garment) easeRules(measurement string, m Spec) (r easeRules) {
	why := func(e *data.Ease, kind AmountKind, of string) {
		r.whys = append(r.whys, Amount{Kind: kind, Of: of, Note: e.Note, Source: e.Source, Basis: e.Basis})
	}
	add := func(e data.Ease, kind AmountKind, of string) {
		r.rows = append(r.rows, e)
		why(&e, kind, of)
	}
	if e, ok := g.easeRow("fit", measurement, m.Fit, "skin"); ok {
		kind := FitEase
		if e.Fit == "any" {
			kind = AnyFitEase
		}
		add(e, kind, string(m.Fit))
	}
	if e, ok := g.easeRow("layer", measurement, m.Fit, m.Layer); ok && m.Layer != "skin" {
		add(e, LayerEase, string(m.Layer))
	}
	if e, ok := g.easeRow("nappy", measurement, m.Fit, m.Layer); ok && m.Nappy {
		add(e, NappyEase, "")
	}
	if e, ok := g.easeRow("least", measurement, m.Fit, m.Layer); ok {
		r.least = &e
		why(&e, LeastEase, string(m.Layer))
	}
	return r
}

// cm adds to room the ease of each row for a body, and what is missing to the
// least.
func (r *easeRules) cm(body float64, room []float64) []float64 {
	total := 0.0
	for i := range r.rows {
		e := &r.rows[i]
		cm := easeCm(e, e.Use, body)
		room, total = append(room, cm), total+cm
	}
	if r.least != nil {
		if least := easeCm(r.least, r.least.Low, body); total < least {
			room = append(room, least-total)
		}
	}
	return room
}

// amounts accounts for the ease that cm gave.
func (r *easeRules) amounts(cm []float64) []Amount {
	var ease []Amount
	for i, cm := range cm {
		a := r.whys[i]
		a.Cm = cm
		ease = append(ease, a)
	}
	return ease
}

// amountsFor are the amounts on a body measurement.
func (r easeRules) amountsFor(body float64) []Amount { return r.amounts(r.cm(body, nil)) }

// ends are those of the range that still belongs to the fit.
func (r *easeRules) ends(body float64) (low, high float64) {
	for i := range r.rows {
		e := &r.rows[i]
		low += easeCm(e, e.Low, body)
		if e.High == nil {
			high = math.Inf(1)
		} else {
			high += easeCm(e, *e.High, body)
		}
	}
	if r.least == nil {
		return low, high
	}
	least := easeCm(r.least, r.least.Low, body)
	return max(low, least), max(high, least)
}

// easeCm turns a figure of an ease row into cm.
func easeCm(e *data.Ease, v, body float64) float64 {
	switch e.Unit {
	case "in":
		return v * CmPerInch
	case "%":
		return v * body / 100
	}
	return v
}

// easeRow finds the row for a rule: the garment's own before its group's, a
// named fit and layer before any.
func (g *garment) easeRow(rule, measurement string, fit Fit, layer Layer) (data.Ease, bool) {
	best := -1
	score := 0
	for i := range g.ease {
		e := &g.ease[i]
		if e.Rule != rule || e.Measurement != measurement ||
			e.Fit != string(fit) && e.Fit != "any" || e.Layer != string(layer) && e.Layer != "any" {
			continue
		}
		s := 1
		if e.Garment == g.ID {
			s += 4
		}
		if e.Fit != "any" {
			s += 2
		}
		if e.Layer != "any" {
			s++
		}
		if s > score {
			best, score = i, s
		}
	}
	if best < 0 {
		return data.Ease{}, false
	}
	return g.ease[best], true
}

// FitOf names the fit class that an ease of a measurement belongs to, for a
// garment and layer, and the range of that class in cm. Where the classes
// leave a gap, it is the nearest. ok is false where the garment's ease does not
// depend on the fit.
func (ref *Reference) FitOf(garmentID, measurement string, body, easeCm float64, layer Layer) (fit Fit, ok bool) {
	g, err := ref.garment(garmentID)
	if err != nil {
		return "", false
	}
	nearest := math.Inf(1)
	for _, f := range Fits {
		e, found := g.easeRow("fit", measurement, f, "skin")
		if !found || e.Fit == "any" {
			continue
		}
		rules := g.easeRules(measurement, Spec{Fit: f, Layer: layer})
		low, high := rules.ends(body)
		away := max(low-easeCm, easeCm-high, 0)
		// A value on a shared end belongs to the wider class: the standard's classes meet.
		if away <= nearest {
			fit, nearest, ok = f, away, true
		}
	}
	return fit, ok
}
