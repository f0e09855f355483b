package plan

import (
	"math"

	"growtuck/sizing"
)

// A passing is what must go through an edge, and its girth on the way.
type passing struct {
	what sizing.Fact
	cm   float64
}

// passers say what goes through each edge.
var passers = map[string]sizing.Fact{
	"neck": sizing.NewFact("passing-head"), "cuff": sizing.NewFact("passing-hand"), "ankle": sizing.NewFact("passing-foot"),
	"waist": sizing.NewFact("passing-hips"), "brim": sizing.NewFact("passing-brim"),
}

// passes returns what must go through an edge; ok is false where it is not
// known, or nothing must.
func (m *maker) passes(edge string) (passing, bool) {
	if p, ok := m.f.Passage(edge); ok {
		body, known := m.body(p.Measurement)
		m.practice(p.Times.ID)
		return passing{passers[edge], p.Cm(body)}, known
	}
	measurement := map[string]string{"waist": "hip", "brim": "head"}[edge]
	body, known := m.body(measurement)
	if edge == "waist" {
		l, _ := m.f.Line(measurement)
		body += l.NappyCm() // it is pulled on over the nappy
	}
	return passing{passers[edge], body}, known
}

// wideEnough widens an edge to what must pass, where it is known how far it
// stretches.
func (m *maker) wideEnough(edge string, t target) target {
	over, ok := m.passes(edge)
	stretch, measured := m.how.Stretch[edge]
	if !ok || !measured {
		return t
	}
	t.leastCm = max(t.leastCm, over.cm/stretch)
	if t.leastCm <= t.cm {
		return t
	}
	m.note("edge-wider-to-pass", edge, sizing.Length(t.cm), sizing.Length(t.cm*stretch), over.what, sizing.Length(over.cm))
	m.depart(edge, t.leastCm-t.cm, "wide-enough-to-pass")
	t.cm = t.leastCm
	return t
}

// noteStretch says how far an edge as counted has to stretch, where it is not
// known how far it does.
func (m *maker) noteStretch(edge string, girthCm float64) {
	over, ok := m.passes(edge)
	if _, measured := m.how.Stretch[edge]; measured || !ok || over.cm <= girthCm {
		return
	}
	m.note("edge-must-stretch", edge, sizing.Length(girthCm), over.what, sizing.Length(over.cm), math.Ceil(over.cm/girthCm*100)/100)
}
