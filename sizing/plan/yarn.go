package plan

import (
	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// Yarn is what a plan needs.
type Yarn struct {
	AreaCm2 float64 // of all sections
	Margin  float64
	Need    stitch.YarnNeed
	Band    *stitch.YarnBand // believed for such yarn; nil where none is known
	Doubt   sizing.Fact      // how the need lies outside the band
}

// yarn estimates the yarn from the area of the sections.
func (m *maker) yarn() {
	h := m.how
	if h.Ball == (stitch.Ball{}) || h.Swatch == (stitch.YarnSwatch{}) {
		m.note("yarn-not-asked")
		return
	}
	y := Yarn{Margin: m.margin()}
	for _, s := range m.p.Sections {
		y.AreaCm2 += s.AreaCm2()
	}
	var err error
	if y.Need, err = stitch.EstimateYarn(h.Swatch, h.Ball, y.AreaCm2, y.Margin); err != nil {
		m.note("yarn-left-out", err.Error())
		return
	}
	m.bandOf(&y)
	m.p.Yarn = &y
	if y.Need.OneMore {
		m.note("yarn-one-more", y.Need.Balls, y.Need.LastShare)
	}
	if !y.Doubt.IsZero() {
		m.noteFact(y.Doubt)
	}
}

// bandOf compares the need, without its margin, with what such yarn usually
// takes for the area.
func (m *maker) bandOf(y *Yarn) {
	per4 := m.how.KnitPer4In
	if per4 == 0 && m.how.Craft == Knit {
		per4, _ = m.g.Per4In()
	}
	if per4 == 0 {
		return // a crochet gauge does not tell the yarn
	}
	band, err := stitch.BelievableYarn(per4, m.how.Craft == Crochet)
	if err != nil {
		return
	}
	y.Band = &band
	metres := y.Need.Metres / (1 + y.Margin)
	if band.Check(metres, y.AreaCm2) != nil {
		y.Doubt = sizing.NewFact("yarn-outside-usual", metres, y.AreaCm2/1e4, band.Yarn, band.Low*y.AreaCm2/1e4, band.High*y.AreaCm2/1e4)
	}
}
