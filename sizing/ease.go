package sizing

import (
	"slices"

	"growtuck/data"
)

// easeRules are the rules for a measurement's ease, for any body.
type easeRules struct {
	fit   Fit
	layer Layer
	rows  []*data.Ease // added up
	least *data.Ease   // nil for none
}

// easeRules finds the rules for the fit and layer: the fit's figure over skin,
// plus what the clothes underneath take, but never less than the least that goes
// over those clothes.
func (g *garment) easeRules(measurement string, m Spec) easeRules {
	r := easeRules{fit: m.Fit, layer: m.Layer, rows: make([]*data.Ease, 0, 3)}
	add := func(rule string, layer Layer) {
		if e := g.easeRow(rule, measurement, m.Fit, layer); e != nil {
			r.rows = append(r.rows, e)
		}
	}
	add("fit", "skin")
	if m.Layer != "skin" {
		add("layer", m.Layer)
	}
	if m.Nappy {
		add("nappy", m.Layer)
	}
	r.least = g.easeRow("least", measurement, m.Fit, m.Layer)
	return r
}

// why is what a row adds ease for, without the amount.
func (r *easeRules) why(e *data.Ease) Amount {
	a := Amount{Note: e.Note, Source: e.Source, Basis: e.Basis}
	switch {
	case e.Rule == "layer":
		a.Kind, a.Of = LayerEase, string(r.layer)
	case e.Rule == "nappy":
		a.Kind = NappyEase
	case e.Rule == "least":
		a.Kind, a.Of = LeastEase, string(r.layer)
	case e.Fit == "any":
		a.Kind, a.Of = AnyFitEase, string(r.fit)
	default:
		a.Kind, a.Of = FitEase, string(r.fit)
	}
	return a
}

// cm adds to room the ease of each row for a body, and what is missing to the
// least.
func (r *easeRules) cm(body float64, room []float64) []float64 {
	total := 0.0
	for _, e := range r.rows {
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
	ease := make([]Amount, len(cm))
	for i, cm := range cm {
		e := r.least // what is missing to it comes last
		if i < len(r.rows) {
			e = r.rows[i]
		}
		ease[i] = r.why(e)
		ease[i].Cm = cm
	}
	return ease
}

// amountsFor are the amounts on a body measurement.
func (r easeRules) amountsFor(body float64) []Amount { return r.amounts(r.cm(body, nil)) }

// ends are those of the range that still belongs to the fit.
func (r *easeRules) ends(body float64) (low, high float64) {
	for _, e := range r.rows {
		low += easeCm(e, e.Low, body)
		if e.High == nil {
			high = inf
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
// named fit and layer before any. It is nil where there is none.
func (g *garment) easeRow(rule, measurement string, fit Fit, layer Layer) *data.Ease {
	var best *data.Ease
	score := 0
	for _, e := range g.ease[measurement] {
		if e.Rule != rule || e.Fit != string(fit) && e.Fit != "any" || e.Layer != string(layer) && e.Layer != "any" {
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
			best, score = e, s
		}
	}
	return best
}

// fitted reports whether the ease of a measurement depends on the fit.
func (g *garment) fitted(measurement string, fit Fit) bool {
	e := g.easeRow("fit", measurement, fit, "skin")
	return e != nil && e.Fit != "any"
}

// HasFits reports whether a garment's ease of a measurement depends on the fit.
func (ref *Reference) HasFits(garment, measurement string) bool {
	g, err := ref.garment(garment)
	return err == nil && slices.ContainsFunc(Fits, func(f Fit) bool { return g.fitted(measurement, f) })
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
	nearest := inf
	for _, f := range Fits {
		if !g.fitted(measurement, f) {
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
