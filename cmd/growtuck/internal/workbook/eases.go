package workbook

import (
	"fmt"
	"math"
	"slices"

	"growtuck/sizing"
)

// comboFormula finds the row of the ease table for the fit, layer and nappy
// chosen, 1 for the first.
func (l *layout) comboFormula() string {
	inList := func(cell string, words []string) string {
		f := "0"
		for i := len(words) - 1; i > 0; i-- {
			f = fmt.Sprintf("IF(%s=%s,%d,%s)", cell, quoted(words[i]), i, f)
		}
		return f
	}
	var fits, layers []string
	for _, f := range sizing.Fits {
		fits = append(fits, string(f))
	}
	for _, y := range sizing.Layers {
		layers = append(layers, string(y))
	}
	nappy := "0"
	if len(l.nappies) > 1 {
		nappy = inList("in_nappy", []string{"no", "yes"})
	}
	return fmt.Sprintf("1+%s*%d+%s*%d+%s", inList("in_fit", fits), len(layers)*len(l.nappies),
		inList("in_layer", layers), len(l.nappies), nappy)
}

func (l *layout) comboRow() int {
	m := l.Finished.Spec
	return 1 + slices.Index(l.combos, combo{m.Fit, m.Layer, m.Nappy && len(l.nappies) > 1})
}

// nappyMatters reports whether the garment takes ease for a nappy.
func (l *layout) nappyMatters() bool {
	making := sizing.Spec{Garment: l.Finished.Garment.ID, Fit: sizing.Fits[0], Layer: sizing.Layers[0]}
	without, err := l.Reference.Finish(l.Finished.Body, making)
	making.Nappy = true
	with, err2 := l.Reference.Finish(l.Finished.Body, making)
	if err != nil || err2 != nil {
		return true
	}
	for i, line := range with.Lines {
		if len(line.Ease) != len(without.Lines[i].Ease) {
			return true
		}
	}
	return false
}

// An easing is the ease of one part as it follows the body: Cm + Percent of
// the body measurement, and the least that still belongs to the fit.
type easing struct{ cm, percent, leastCm, leastPercent float64 }

// easings works out the ease of every part in every fit. Ease in percent shows
// where a body a little larger has a little more of it.
func (l *layout) easings() [][]easing {
	out := make([][]easing, len(l.combos))
	const larger = 1.001
	grown := *l.Finished.Body
	grown.Readings = slices.Clone(grown.Readings)
	for i := range grown.Readings {
		grown.Readings[i].Value *= larger
	}
	for i, c := range l.combos {
		making := sizing.Spec{Garment: l.Finished.Garment.ID, Fit: c.fit, Layer: c.layer, Nappy: c.nappy}
		out[i] = make([]easing, len(l.lines()))
		here, err := l.Reference.Finish(l.Finished.Body, making)
		if err != nil {
			continue // this fit has no such garment: its ease stays empty
		}
		there, err := l.Reference.Finish(&grown, making)
		if err != nil {
			continue
		}
		for k, line := range here.Lines {
			out[i][k] = newEasing(line, there.Lines[k])
		}
	}
	return out
}

func newEasing(here, there sizing.Line) easing {
	var e easing
	by := there.Body.Value - here.Body.Value
	if len(here.Ease) == 0 || by == 0 {
		return e
	}
	at := func(a, b float64) (fixed, percent float64) {
		p := (b - a) / by
		if p < 1e-9 && p > -1e-9 {
			return a, 0
		}
		p = tidy(p * 100)
		return tidy(a - p/100*here.Body.Value), p
	}
	e.cm, e.percent = at(sizing.TotalCm(here.Ease), sizing.TotalCm(there.Ease))
	e.leastCm, e.leastPercent = at(here.EaseLow, there.EaseLow)
	return e
}

// tidy removes the rounding error of a division.
func tidy(v float64) float64 {
	const fine = 1e6
	if r := math.Round(v*fine) / fine; math.Abs(r-v) < 1e-8 {
		return r
	}
	return v
}

// easeTable lays out the ease of every part in every fit, which the other
// sheets look up.
func (l *layout) easeTable() *sheet {
	s := &sheet{name: easesName, widths: []float64{34, 13, 10, 8, 12, 12, 14, 14}, filter: true, freeze: 1, unprinted: true}
	s.heading("Ease in every fit", "What the sheet "+easeName+" looks up. Ease is the cm here plus the percentage of the body measurement. A changed figure applies to this workbook. The table itself is not printed.")
	s.head = s.header("part", "fit", "over", "nappy", "ease, cm", "ease, % of body", "least ease, cm", "least ease, % of body")
	all := l.easings()
	for k, line := range l.lines() {
		for i, c := range l.combos {
			nappy := "no"
			if c.nappy {
				nappy = "yes"
			}
			e := all[i][k]
			s.add(text(line.Part.Name), text(string(c.fit)), text(string(c.layer)), text(nappy),
				number(e.cm, stGauge), number(e.percent, stGauge), number(e.leastCm, stGauge), number(e.leastPercent, stGauge))
		}
	}
	return s
}

// lookUp is the formula of a column of the ease table for a part.
func (l *layout) lookUp(part, col int) string {
	first := easesFirst + part*len(l.combos)
	last := first + len(l.combos) - 1
	return "INDEX(" + on(easesName, fixed(col, first)+":"+fixed(col, last)) + ",ease_row)"
}
