package sizing

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"growtuck/data"
)

// easeOf works out the ease of a measurement for the fit and layer: the fit's
// figure over skin, plus what the clothes underneath take, but never less than
// the least that goes over those clothes. low and high are the ends of the
// range that still belongs to the fit.
func (g *garment) easeOf(measurement string, body float64, m Making) (ease []Amount, low, high float64) {
	add := func(e data.Ease, why string) {
		ease = append(ease, Amount{easeCm(e, e.Use, body), why, e.Source, e.Basis})
		low += easeCm(e, e.Low, body)
		if e.High == nil {
			high = math.Inf(1)
		} else {
			high += easeCm(e, *e.High, body)
		}
	}
	if e, ok := g.easeRow("fit", measurement, m.Fit, "skin"); ok {
		why := string(m.Fit) + " fit"
		if e.Fit == "any" {
			why = "any fit"
		}
		add(e, words(why, e.Note))
	}
	if e, ok := g.easeRow("layer", measurement, m.Fit, m.Layer); ok && m.Layer != "skin" {
		add(e, words(m.Layer.over(), e.Note))
	}
	if e, ok := g.easeRow("nappy", measurement, m.Fit, m.Layer); ok && m.Nappy {
		add(e, e.Note)
	}
	e, ok := g.easeRow("least", measurement, m.Fit, m.Layer)
	if !ok {
		return ease, low, high
	}
	total := 0.0
	for _, a := range ease {
		total += a.Cm
	}
	least := easeCm(e, e.Low, body)
	if total < least {
		ease = append(ease, Amount{least - total, words(m.Layer.over(), e.Note), e.Source, e.Basis})
	}
	return ease, max(low, least), max(high, least)
}

func words(what, note string) string {
	if note == "" {
		return what
	}
	return what + ": " + note
}

// over says the layer in words.
func (l Layer) over() string {
	switch l {
	case "indoor":
		return "over indoor clothes"
	case "winter":
		return "over winter clothes"
	}
	return "over skin"
}

// easeCm turns a figure of an ease row into cm.
func easeCm(e data.Ease, v, body float64) float64 {
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
	for i, e := range g.ease {
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
		_, low, high := g.easeOf(measurement, body, Making{Fit: f, Layer: layer})
		away := max(low-easeCm, easeCm-high, 0)
		// On a shared end the wider class has it: the standard's classes meet.
		if away <= nearest {
			fit, nearest, ok = f, away, true
		}
	}
	return fit, ok
}

// Describe says the making in words: "classic fit over winter clothes".
func (m Making) Describe() string {
	parts := []string{strings.ReplaceAll(string(m.Fit), "-", " ") + " fit " + m.Layer.over()}
	if m.Nappy {
		parts = append(parts, "over a nappy")
	}
	switch {
	case m.Seasons == 1:
		parts = append(parts, "growth room for half a year")
	case m.Seasons > 0:
		parts = append(parts, fmt.Sprintf("growth room for %g half-years", m.Seasons))
	}
	for _, o := range slices.Sorted(slices.Values(m.Options)) {
		parts = append(parts, strings.ReplaceAll(o, "-", " "))
	}
	return strings.Join(parts, ", ")
}
