package schematic

import "growtuck/sizing"

// frontEdge is how far from the middle the fabric of a front begins, beside its
// edge and what closes it. It has no label.
const frontEdge = "front_edge"

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

// Finished is the panel of a garment's finished measurements, with labels in a
// unit: "cm", to the half; "in", to the quarter; or "both", cm on the lines and
// both in words.
func Finished(f *sizing.Finished, unit string) Panel {
	cm := make(map[string]float64)
	p := Panel{Labels: make(map[string]string), Names: make(map[string]string), Sizes: make(map[string]string)}
	for _, l := range f.Lines {
		part := l.Part.Part
		cm[part] = l.Finished
		p.Names[part] = l.Part.Name
		p.Order = append(p.Order, part)
		inCm, inches := sizing.FormatCm(l.Finished), sizing.FormatQuarters(l.FinishedIn)
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
	if f.Garment.Opening == "front" {
		cm[frontEdge] = f.Practice("edge_depth").Value + f.Practice("zipper_gap").Value/2
	}
	p.Figure = Of(f.Garment.Group, cm)
	return p
}
