package schematic

import (
	"strings"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// goesOver is what an edge must be stretched over, 0 where it need not be or that
// is not known.
func goesOver(f *sizing.Finished, l sizing.Line) float64 {
	p, ok := f.Passage(l.Part.Part)
	body, known := f.Body.Get(p.Measurement)
	if over := p.Cm(body.Value); ok && known && over > l.Finished {
		return over
	}
	return 0
}

// Finished is the panel of a garment's finished measurements, made as how says,
// with labels in a unit: "cm", to the half; "in", to the quarter; or "both", cm on
// the lines and both in words. Letters are those of the tables.
func Finished(f *sizing.Finished, how plan.How, unit string) Panel {
	var otherwise map[string]float64
	if how.Construction == plan.DropShoulder {
		otherwise = plan.DropShoulderCm(f)
	}
	g := garmentOf(f, how)
	p := Panel{Letters: make(map[string]string), Labels: make(map[string]string), Names: make(map[string]string), Sizes: make(map[string]string)}
	for i, l := range f.Lines {
		part := l.Part.Part
		p.Letters[part], p.Names[part] = tell.Letter(i), l.Part.Name
		p.Order = append(p.Order, part)
		g.Cm[part] = l.Finished
		inCm, inches := sizing.FormatCm(l.Finished), sizing.FormatQuarters(l.FinishedIn)
		if cm, ok := otherwise[part]; ok {
			g.Cm[part], inCm, inches = cm, sizing.FormatCm(cm), sizing.FormatQuarters(cm/sizing.CmPerInch)
		}
		switch unit {
		case "in":
			p.Labels[part], p.Sizes[part] = inches, inches+" in"
		case "both":
			p.Labels[part], p.Sizes[part] = inCm, inCm+" cm ("+inches+" in)"
		default:
			p.Labels[part], p.Sizes[part] = inCm, inCm+" cm"
		}
		if over := goesOver(f, l); over > 0 && unit == "in" {
			p.Sizes[part] += ", to go over " + sizing.FormatQuarters(over/sizing.CmPerInch) + " in"
		} else if over > 0 {
			p.Sizes[part] += ", to go over " + sizing.FormatCm(over) + " cm"
		}
	}
	p.Figure = Of(g)
	return p
}

// garmentOf is a garment without its sizes.
func garmentOf(f *sizing.Finished, how plan.How) Garment {
	cm := func(id string) float64 { return f.Practice(id).Value }
	share := func(id string) float64 { return f.Practice(id).Share() }
	g := Garment{Group: f.Garment.Group, Front: f.Garment.Opening == "front", Cm: make(map[string]float64), Body: make(map[string]float64),
		Construction: how.Construction, Closure: how.Closure, Hood: how.Hood,
		Trade: Trade{Hem: cm("hem_depth"), Cuff: cm("cuff_depth"), Band: cm("neckband_depth"), Edge: cm("edge_depth"), ZipperGap: cm("zipper_gap"), NeckDrop: cm("neck_drop"),
			ButtonSpacing: cm("button_spacing"), ButtonEnd: cm("button_end"), Strap: cm("strap_width"), HemMost: share("hem_most"), CuffMost: share("cuff_most"), RibShare: share("rib_share"),
			HipShare: share("hip_share_of_rise"), SkirtHipShare: share("hip_share_of_skirt"), CalfShare: share("calf_share_of_leg"),
			HoodCrownShare: share("hood_crown_share"), HoodIncrease: cm("hood_increase_height")}}
	for _, r := range f.Body.Readings {
		g.Body[r.Measurement.ID] = r.Value
	}
	g.Trade.HoodCrown = share("hood_crown_height") * g.Body["head"]
	return g
}

// Planned is the panel of a plan, drawn as large as its counts make it.
func Planned(p *plan.Plan, unit string) Panel {
	panel := Finished(p.Finished, p.How, unit)
	g := garmentOf(p.Finished, p.How)
	g.Folds = foldsOf(p)
	for _, l := range p.Finished.Lines {
		part := l.Part.Part
		g.Cm[part] = l.Finished
		if made, ok := p.Part(part); ok {
			g.Cm[part] = made.SizeCm
			panel.Labels[part] = strings.TrimSuffix(tell.LengthIn(made.SizeCm, unit), ".0")
			panel.Sizes[part] = panel.Labels[part] + " " + unit
		}
	}
	panel.Figure = Of(g)
	return panel
}

// Several is the panel of a garment in several sizes: one figure, that of the
// middle one, with letters alone on its lines, and in words the other sizes in brackets,
// as patterns write them.
func Several(all []*sizing.Finished, how plan.How, unit string) Panel {
	p := Finished(all[len(all)/2], how, unit)
	for part := range p.Sizes {
		var labels []string
		for _, f := range all {
			one := "–"
			if l, ok := f.Line(part); ok {
				one = tell.LengthIn(l.Finished, map[bool]string{true: "in", false: "cm"}[unit == "in"])
			}
			labels = append(labels, strings.TrimSuffix(one, ".0"))
		}
		p.Sizes[part] = Bracketed(labels)
	}
	p.Labels = nil
	return p
}

// Bracketed puts all but the first in brackets.
func Bracketed(texts []string) string {
	if len(texts) == 1 {
		return texts[0]
	}
	return texts[0] + " (" + strings.Join(texts[1:], ", ") + ")"
}
