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

	Parts   []YarnPart   // by section
	Colours []YarnColour // by colour, in the order of their first row; one without a name where there is one
}

// A YarnPart is the yarn of a section, all its copies, the margin included.
type YarnPart struct {
	Section       *Section
	AreaCm2       float64
	Grams, Metres float64
}

// A YarnColour is the yarn of a colour.
type YarnColour struct {
	Colour  string
	Need    stitch.YarnNeed
	OneMore bool // buy one more ball of it
}

// Of is the yarn of a colour; none where the garment does not have it.
func (y *Yarn) Of(colour string) YarnColour {
	for _, c := range y.Colours {
		if c.Colour == colour {
			return c
		}
	}
	return YarnColour{Colour: colour}
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
		y.AreaCm2 += s.AreaCm2() + s.laterAreaCm2()
	}
	var err error
	if y.Need, err = stitch.EstimateYarn(h.Swatch, h.Ball, y.AreaCm2, y.Margin); err != nil {
		m.note("yarn-left-out", err.Error())
		return
	}
	m.bandOf(&y)
	m.p.Yarn = &y
	m.byPart(&y)
	if err := m.byColour(&y); err != nil {
		m.note("yarn-left-out", err.Error())
		return
	}
	if !y.Doubt.IsZero() {
		m.noteFact(y.Doubt)
	}
}

// byPart divides the need among the sections by their areas.
func (m *maker) byPart(y *Yarn) {
	for _, s := range m.p.Sections {
		area := s.AreaCm2() + s.laterAreaCm2()
		share := area / y.AreaCm2
		y.Parts = append(y.Parts, YarnPart{s, area, y.Need.Grams * share, y.Need.Metres * share})
	}
}

// byColour counts the balls of each colour.
func (m *maker) byColour(y *Yarn) error {
	var order []string
	areas := make(map[string]float64)
	for _, s := range m.p.Sections {
		for r := range s.Rows() {
			colour := ""
			if len(s.Colours) > 0 {
				colour = s.Colours[r]
			}
			if _, seen := areas[colour]; !seen {
				order = append(order, colour)
			}
			areas[colour] += float64(s.rows[r].worked*s.Copies) * s.Gauge.StitchWidthCm() * s.Gauge.RowHeightCm()
			if r == s.Rows()-1 { // what is worked on later has the last colour
				areas[colour] += s.laterAreaCm2()
			}
		}
	}
	most := m.share("last_ball_share")
	for _, colour := range order {
		need, err := stitch.EstimateYarn(m.how.Swatch, m.how.Ball, areas[colour], y.Margin)
		if err != nil {
			return err
		}
		c := YarnColour{colour, need, need.LastShare > most}
		if c.OneMore && colour == "" {
			m.note("yarn-one-more", need.Balls, need.LastShare)
		} else if c.OneMore {
			m.note("yarn-one-more-colour", colour, need.Balls, need.LastShare)
		}
		y.Colours = append(y.Colours, c)
		y.OneMore = y.OneMore || c.OneMore
	}
	if len(order) > 1 { // each colour has balls of its own
		y.Need.Balls = 0
		for _, c := range y.Colours {
			y.Need.Balls += c.Need.Balls
		}
	}
	return nil
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
