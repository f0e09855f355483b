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
	OneMore bool             // buy one more ball before the dye lot is gone
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
	if y.OneMore = y.Need.LastShare > m.share("last_ball_share"); y.OneMore {
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
	band, err := stitch.BelievableYarn(per4, m.yarnUses())
	if err != nil {
		return
	}
	if m.how.Craft == Crochet {
		band = band.Times(m.share("crochet_yarn_low"), m.share("crochet_yarn_high"))
	}
	y.Band = &band
	metres := y.Need.Metres / (1 + y.Margin)
	if band.Check(metres, y.AreaCm2) != nil {
		y.Doubt = sizing.NewFact("yarn-outside-usual", metres, y.AreaCm2/1e4, band.Yarn, band.Low*y.AreaCm2/1e4, band.High*y.AreaCm2/1e4)
	}
}

// yarnUses are what plain knitting takes of the yarns that are known, by their
// stitches.
func (m *maker) yarnUses() []stitch.YarnUse {
	var uses []stitch.YarnUse
	add := func(class int, yarn string, low, high sizing.Practice) {
		if y, ok := m.f.YarnClass(class); ok && y.KnitLow != nil && y.KnitHigh != nil {
			uses = append(uses, stitch.YarnUse{Yarn: yarn, KnitLow: *y.KnitLow, KnitHigh: *y.KnitHigh, Low: low.Value, High: high.Value})
		}
	}
	add(4, "worsted", m.practice("yarn_use_worsted_low"), m.practice("yarn_use_worsted_high"))
	add(3, "DK", m.practice("yarn_use_dk_low"), m.practice("yarn_use_dk_high"))
	add(1, "fingering", m.practice("yarn_use_fingering_low"), m.practice("yarn_use_fingering_high"))
	return uses
}
