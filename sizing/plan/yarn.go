package plan

import (
	"fmt"

	"growtuck/sizing/stitch"
)

// Yarn is what a plan needs.
type Yarn struct {
	AreaCm2 float64 // of all sections
	Margin  float64
	Need    stitch.YarnNeed
	Band    *stitch.YarnBand // believed for such yarn; nil where none is known
	Doubt   string           // how the need lies outside the band
}

// yarn estimates the yarn from the area of the sections.
func (m *maker) yarn() {
	h := m.how
	if h.Ball == (stitch.Ball{}) || h.Swatch == (stitch.YarnSwatch{}) {
		m.note("Yarn is left out: give a ball's grams and metres and the weight of a swatch.")
		return
	}
	y := Yarn{Margin: stitch.PlainMargin}
	switch {
	case h.Margin != nil:
		y.Margin = *h.Margin
	case m.p.Hood != nil:
		y.Margin = stitch.TexturedMargin
	}
	for _, s := range m.p.Sections {
		y.AreaCm2 += s.AreaCm2()
	}
	var err error
	if y.Need, err = stitch.EstimateYarn(h.Swatch, h.Ball, y.AreaCm2, y.Margin); err != nil {
		m.note("Yarn is left out: %v.", err)
		return
	}
	m.bandOf(&y)
	m.p.Yarn = &y
	if y.Need.OneMore {
		m.note("The last of the %d balls would be used to %.0f %%: buy one more before the dye lot is gone.", y.Need.Balls, y.Need.LastShare*100)
	}
	if y.Doubt != "" {
		m.note("%s", y.Doubt)
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
		y.Doubt = fmt.Sprintf("Yarn of %.0f m for %.2f m² is outside what is usual for %s, %.0f to %.0f m (from memory): weigh the swatch again.",
			metres, y.AreaCm2/1e4, band.Yarn, band.Low*y.AreaCm2/1e4, band.High*y.AreaCm2/1e4)
	}
}
