package page

import (
	"fmt"
	"math"
	"slices"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// An easeBand shows the ease of a girth among the classes of fit. Places are in
// percent of the track.
type easeBand struct {
	Name, Ease string
	Fits       []easeFit
	At         string
}

// An easeFit is the ease of a class of fit, from its least to where the next begins.
type easeFit struct {
	Name, From, Width string
	Chosen            bool
}

// easeBands are those of the girths that have an ease of their fit.
func (s *site) easeBands(style tell.Style, f *sizing.Finished) []easeBand {
	var all []easeBand
	runs := make([]*sizing.Finished, len(sizing.Fits))
	for i, fit := range sizing.Fits {
		m := f.Spec
		m.Fit, m.Ease = fit, nil
		run, err := s.engine.Reference.Finish(f.Body, m)
		if err != nil {
			return nil
		}
		runs[i] = run
	}
	for _, l := range f.Lines {
		own := sizing.TotalCm(l.Ease)
		if l.Part.Dimension != "girth" || len(l.Ease) == 0 {
			continue
		}
		b := easeBand{Name: l.Part.Name, Ease: tell.LengthIn(own, style.Unit) + " " + style.Unit}
		var lows []float64
		for _, run := range runs {
			if x, ok := run.Line(l.Part.Part); ok {
				lows = append(lows, x.EaseLow)
			}
		}
		if len(lows) < len(runs) || !(lows[len(lows)-1] > lows[0]) { // the same in every fit
			continue
		}
		last, _ := runs[len(runs)-1].Line(l.Part.Part)
		low, high := math.Min(lows[0], own), math.Max(sizing.TotalCm(last.Ease)*1.15, own)
		place := func(v float64) float64 { return 2 + 96*(math.Min(math.Max(v, low), high)-low)/(high-low) }
		for i, fit := range sizing.Fits {
			end := high
			if i+1 < len(lows) {
				end = lows[i+1]
			}
			b.Fits = append(b.Fits, easeFit{string(fit), percentage(place(lows[i])), percentage(math.Max(0, place(end)-place(lows[i]))), fit == f.Spec.Fit})
		}
		b.At = percentage(place(own))
		all = append(all, b)
	}
	return all
}

func percentage(v float64) string { return fmt.Sprintf("%.1f%%", v) }

// The child's growth is shown so many months ahead, read in steps of some.
const (
	grownMonths = 24
	grownStep   = 3
)

// outgrown shows how the lengths that the garment covers grow on the child, and marks
// where each has used up its room, and where each fold is let down.
func (s *site) outgrown(style tell.Style, f *sizing.Finished, held []plan.Held) *growthView {
	grows, err := s.engine.Reference.Growth(f.Body)
	if err != nil || grows.Last() < grownMonths/12 {
		return nil
	}
	type grown struct {
		line   sizing.Line
		cm     []float64 // by step
		covers float64   // of the body
	}
	var all []grown
	least, most := math.Inf(1), 0.0
	for _, l := range f.Lines {
		room := 0.0
		for _, a := range l.Adjust {
			if a.Kind == sizing.GrowthRoom || a.Kind == sizing.GrownBefore {
				room += a.Cm
			}
		}
		if slices.ContainsFunc(all, func(g grown) bool { return g.line.Part.Measurement == l.Part.Measurement }) {
			continue
		}
		if l.Part.Dimension != "length" || l.Body.Measurement.Follows != "lengths" || len(all) == 6 {
			continue
		}
		g := grown{line: l, covers: l.Body.Value + room}
		for month := 0; month <= grownMonths; month += grownStep {
			b, err := grows.At(float64(month) / 12)
			if err != nil {
				return nil
			}
			r, _ := b.Get(l.Part.Measurement)
			g.cm = append(g.cm, r.Value)
			least, most = math.Min(least, r.Value), math.Max(most, r.Value)
		}
		all = append(all, g)
	}
	if len(all) == 0 {
		return nil
	}
	const step = 10.0
	least, most = math.Floor(least/step)*step, math.Ceil(most/step)*step
	x := func(month float64) float64 {
		return growthLeft + month/grownMonths*(growthWide-growthLeft-growthRight)
	}
	y := func(v float64) float64 {
		return growthHigh - growthBottom - (v-least)/(most-least)*(growthHigh-growthTop-growthBottom)
	}
	v := &growthView{Wide: growthWide, High: growthHigh, Bottom: pixel(growthHigh - growthBottom), Right: pixel(growthWide - growthRight),
		Middle: pixel(growthLeft + (growthWide-growthLeft-growthRight)/2), Scale: "months from now"}
	for month := 0; month <= grownMonths; month += 6 {
		v.Across = append(v.Across, gridLine{pixel(x(float64(month))), fmt.Sprint(month)})
	}
	for at := least; at <= most; at += step {
		v.Up = append(v.Up, gridLine{pixel(y(at)), tell.LengthIn(at, style.Unit)})
	}
	for i, g := range all {
		c := growthCurve{Name: g.line.Part.Name, Kind: i % 6}
		ends := "longer than two years"
		for step, cm := range g.cm {
			month := float64(step * grownStep)
			c.Path += map[bool]string{true: "M", false: "L"}[step == 0] + pixel(x(month)) + " " + pixel(y(cm))
			if step > 0 && len(c.Dots) == 0 && cm > g.covers+0.05 {
				month -= grownStep * (cm - g.covers) / (cm - g.cm[step-1])
				c.Dots = append(c.Dots, dot{pixel(x(month)), pixel(y(g.covers))})
				ends = fmt.Sprintf("for about %.0f months", month)
			}
		}
		if len(c.Dots) == 0 || g.covers > g.line.Body.Value+0.05 {
			c.Name += ": fits " + ends
		} else {
			c.Name += ": no room to grow"
		}
		for _, h := range held {
			if h.When != nil && h.When.Months <= grownMonths && h.Body.Measurement.ID == g.line.Part.Measurement && h.AtCm >= least && h.AtCm <= most {
				c.Folds = append(c.Folds, dot{pixel(x(h.When.Months)), pixel(y(h.AtCm))})
			}
		}
		v.Curves = append(v.Curves, c)
	}
	for _, h := range held {
		if l, ok := f.Line(h.Parts[0]); ok && h.When != nil {
			v.Tucks = append(v.Tucks, fmt.Sprintf("%s: let fold %d down when the %s passes %s %s: %s", tell.Capital(l.Part.Name), h.Place, h.Body.Measurement.Name, tell.LengthIn(h.AtCm, style.Unit), style.Unit, tell.Due(h.When)))
		}
	}
	v.Words = "How the child is likely to grow, in " + tell.UnitWord(style.Unit) + ": a circle is where the room to grow in the garment is used up" + map[bool]string{true: ", a square where a fold is let down"}[len(v.Tucks) > 0] + "."
	return v
}

// later shows what of the child the garment covers as it will be, and from when until when
// each part of the garment fits; neither where growth cannot be forecast.
func (s *site) later(v *makerView, style tell.Style, r *result) {
	ask := *r.request
	ask.Only = nil
	for _, l := range r.finished.Lines {
		if !slices.Contains(ask.Only, l.Part.Measurement) {
			ask.Only = append(ask.Only, l.Part.Measurement)
		}
	}
	if d, err := work.Grow(s.engine.Reference, &ask, style); err == nil {
		v.Later = newTable(d.Tables[0], "many", "As the child grows", d.Heading[0]+"; the last column is the range at the end.")
	}
	d, err := work.WearsOne(s.engine.Reference, r.request, style)
	if err != nil {
		return
	}
	// Those that fit throughout need no line; the first of the records is of all parts.
	parts, t := d.JSON.(tell.WearsDocument).Worn[1:], d.Tables[0]
	t.Rows = nil
	for i, row := range d.Tables[0].Rows {
		if p := parts[i]; !p.Open || p.From == nil || *p.From > 0 {
			t.Rows = append(t.Rows, row)
		}
	}
	v.FitsWords = d.Remarks
	if len(t.Rows) > 0 {
		v.Fits = newTable(t, "many", "How long it fits", "Parts that do not fit the child as long as can be foreseen.")
	}
}
