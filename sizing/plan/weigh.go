package plan

import (
	"fmt"
	"slices"

	"growtuck/sizing"
)

// A Weighing is the yarn that was left, on the scale, once a section was done; or, for
// Start, before anything was worked.
type Weighing struct {
	Section string
	Grams   float64
}

// Start is the section of a weighing before the work was begun.
const Start = "start"

// A Weighed is what the yarn that is left has to do.
type Weighed struct {
	Left     []WeighedPart // sections to go, in working order
	After    *Section      // the last that is done; nil where nothing is
	Grams    float64       // left on the scale
	Stitches int           // to go

	// UsedGrams is what the work between the first weighing and the last took, and Used
	// the share of the whole garment that this was; 0 where there is one weighing.
	UsedGrams, Used float64
	// ByUse and BySwatch are the grams that the rest takes, the margin included, going by
	// what was used and by the swatch; 0 where that is not known.
	ByUse, BySwatch float64
	Margin          float64
}

// A WeighedPart is a section to go, with its share of the need.
type WeighedPart struct {
	Section *Section
	Grams   float64
}

// Need is the grams that the rest takes: by use where that is known, else by the swatch.
func (w *Weighed) Need() float64 {
	if w.ByUse > 0 {
		return w.ByUse
	}
	return w.BySwatch
}

// Spare is what will be left of the yarn at the end, below 0 what is missing, in grams.
func (w *Weighed) Spare() float64 { return w.Grams - w.Need() }

// Weigh tells by weighings, in any order, what yarn the rest takes. All sections up to
// the last that is named count as done.
func (p *Plan) Weigh(weighings []Weighing) (*Weighed, error) {
	at, err := p.ordered(weighings)
	if err != nil {
		return nil, err
	}
	first, last := at[0], at[len(at)-1]
	w := &Weighed{Grams: last.grams, Margin: p.yarnMargin()}
	for i, s := range p.Sections {
		switch area := s.AreaCm2(); {
		case i > last.index:
			w.Left = append(w.Left, WeighedPart{Section: s})
			w.Stitches += s.Stitches()
		case i > first.index:
			w.Used += area
			w.After = s
		default:
			w.After = s
		}
	}
	all, left := 0.0, 0.0
	for _, s := range p.Sections {
		all += s.AreaCm2()
	}
	for _, l := range w.Left {
		left += l.Section.AreaCm2()
	}
	if w.Used > 0 {
		w.UsedGrams = first.grams - last.grams
		w.ByUse = w.UsedGrams / w.Used * left * (1 + w.Margin)
		w.Used /= all
	}
	if p.Yarn != nil {
		w.BySwatch = p.Yarn.Need.Grams * left / all
	}
	if w.ByUse == 0 && w.BySwatch == 0 && left > 0 {
		return nil, fmt.Errorf("one weighing does not tell what the rest takes: weigh before the first row too, as start=300, or give yarn and swatch")
	}
	for i := range w.Left {
		w.Left[i].Grams = w.Need() * w.Left[i].Section.AreaCm2() / left
	}
	return w, nil
}

// A scaled is a weighing after the section of an index, -1 before the first.
type scaled struct {
	index int
	grams float64
}

// ordered puts weighings into the order of the work.
func (p *Plan) ordered(weighings []Weighing) ([]scaled, error) {
	var all []scaled
	for _, x := range weighings {
		i := slices.IndexFunc(p.Sections, func(s *Section) bool { return s.ID == x.Section })
		if i < 0 && x.Section != Start {
			known := []string{Start}
			for _, s := range p.Sections {
				known = append(known, s.ID)
			}
			return nil, &sizing.UnknownError{Kind: "section", Name: x.Section, Known: known}
		}
		if slices.ContainsFunc(all, func(a scaled) bool { return a.index == i }) {
			return nil, fmt.Errorf("%s is weighed twice", x.Section)
		}
		all = append(all, scaled{i, x.Grams})
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("nothing was weighed")
	}
	slices.SortFunc(all, func(a, b scaled) int { return a.index - b.index })
	for i := 1; i < len(all); i++ {
		if all[i].grams >= all[i-1].grams {
			return nil, fmt.Errorf("%g g after %s and %g g before: work uses yarn up; weigh all the yarn that is left for the garment, each time",
				all[i].grams, p.Sections[all[i].index].ID, all[i-1].grams)
		}
	}
	return all, nil
}

// yarnMargin is the safety share of yarn: as was asked, or as is customary.
func (p *Plan) yarnMargin() float64 {
	switch {
	case p.Yarn != nil:
		return p.Yarn.Margin
	case p.How.Margin != nil:
		return *p.How.Margin
	case p.Hood != nil:
		return p.Finished.Practice("yarn_margin_textured").Share()
	}
	return p.Finished.Practice("yarn_margin_plain").Share()
}
