package schematic

import "growtuck/sizing"

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
	}
	p.Figure = Of(f.Garment.Group, cm)
	return p
}
