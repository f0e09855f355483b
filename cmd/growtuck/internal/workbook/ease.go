package workbook

import (
	"fmt"
	"math"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/data"
	"growtuck/sizing"
)

// Columns of the sheet of ease and lengths.
const (
	easePart = iota + 1
	easeOf
	easeBody
	easeShare
	easeByFit
	easeOwn
	easeLengths
	easeGrowth
	easeExtra
	easeFinished
	easeRounded
	easeCm
	easeLeast
	easeWhy
)

// easeAndLengths lays out body × share + ease + lengths = finished, part by
// part, as formulas.
func (l *layout) easeAndLengths() *sheet {
	s := &sheet{name: easeName, widths: []float64{34, 22, 9, 9, 11, 11, 11, 10, 10, 10, 10, 10, 10, 60}, freeze: 1, pages: 1}
	s.heading("Ease and lengths", "Body × share + ease + lengths = finished, "+unitNote+". Own ease replaces the ease of the fit; extra is added. Both are in "+tell.UnitWord(l.Unit)+".")
	s.head = s.header("part", "body measurement", "body", "× share", "+ ease of the fit", "or own ease, "+l.Unit, "+ style and options", "+ growth room", "+ extra, "+l.Unit,
		"= finished", "to work to", "finished, cm", "least, cm", "why")
	for i, line := range l.lines() {
		row := s.add(l.easeRow(i, line, l.splits[i], s.next())...)
		s.names = append(s.names, name{settingName(ask.EaseCell + line.Part.Part), fixed(easeOwn, row)}, name{settingName(ask.ExtraCell + line.Part.Part), fixed(easeExtra, row)})
	}
	last := s.next() - 1
	for _, c := range []int{easeBody, easeByFit, easeLengths, easeGrowth, easeFinished} {
		s.conds = append(s.conds, lengths(area(c, easeFirst, c, last), stInches))
	}
	s.conds = append(s.conds, lengths(area(easeRounded, easeFirst, easeRounded, last), stInchesRounded))
	for _, p := range l.Finished.Missing {
		m, err := l.Reference.Measurement(p.Measurement)
		if err == nil {
			s.paragraph(tell.Capital(tell.LeftOut(p, m))+".", stNote)
		}
	}
	return s
}

// A split is what lengths add to a part: always, by option, as asked for. All in cm.
type split struct {
	style   float64
	options map[string]float64
	extra   float64
}

// lengthSplits splits the adjustments of every part by making the garment
// plain, and with each option.
func (l *layout) lengthSplits() []split {
	splits := make([]split, len(l.lines()))
	adjusted := func(options []string) []float64 {
		out := make([]float64, len(splits))
		m := l.Finished.Spec
		f, err := l.Reference.Finish(l.Finished.Body, sizing.Spec{Garment: m.Garment, Fit: m.Fit, Layer: m.Layer, Options: options})
		if err != nil {
			return out
		}
		for i, line := range f.Lines {
			out[i] = sizing.TotalCm(line.Adjust)
		}
		return out
	}
	plain := adjusted(nil)
	for i, line := range l.lines() {
		splits[i] = split{style: plain[i], options: make(map[string]float64),
			extra: l.Finished.Spec.Extra[line.Part.Part]}
	}
	for _, o := range l.Options {
		for i, v := range adjusted([]string{o}) {
			if v = tidy(v - plain[i]); v != 0 {
				splits[i].options[o] = v
			}
		}
	}
	return splits
}

// fitEase is the ease that a part has by the fit, where it has none of its own.
func (l *layout) fitEase(line sizing.Line) float64 {
	m := l.Finished.Spec
	if len(m.Ease) > 0 {
		m.Ease = nil
		if f, err := l.Reference.Finish(l.Finished.Body, m); err == nil {
			line, _ = f.Line(line.Part.Part)
		}
	}
	return sizing.TotalCm(line.Ease)
}

func (l *layout) easeRow(i int, line sizing.Line, by split, row int) []cell {
	at := func(col int) string { return fixed(col, row) }
	body := l.madeFrom(line)
	share := 100.0
	if line.Share.Cm != 0 {
		share = line.Share.Cm
	}
	inches := l.imperial(line.Body, body)
	bodyNow := line.Body.Value
	if l.Unit == "in" {
		bodyNow = line.Body.Imperial
	}
	ease, least := "0", "0"
	if len(line.Ease) > 0 {
		ease = fmt.Sprintf("(%s+%s*%s/100)%s", l.lookUp(i, 5), l.lookUp(i, 6), body, perUnit)
		least = fmt.Sprintf("%s+%s*%s/100", l.lookUp(i, 7), l.lookUp(i, 8), body)
	}
	style := literal(by.style)
	for _, o := range l.Options {
		if v, ok := by.options[o]; ok {
			style += fmt.Sprintf(`+IF(%s="yes",%s,0)`, settingName(ask.OptionCell(o)), literal(v))
		}
	}
	growthCm, growth := l.growthRoom(i, line)
	own := blank(stInputNumber)
	if len(line.Ease) > 0 && line.Ease[0].Kind == sizing.AskedEase {
		own.value = l.inUnit(line.Ease[0].Cm)
	}
	extra := blank(stInputNumber)
	if by.extra != 0 {
		extra.value = l.inUnit(by.extra)
	}
	finished := l.finished(line)
	eases := fmt.Sprintf(`IF(%s&""="",%s,%s%s%s)`, at(easeOwn), at(easeByFit), at(easeOwn), l.factor(), perUnit)
	leastFormula := "0"
	if len(line.Ease) > 0 {
		with := fmt.Sprintf("%s+%s+%s*unit_cm", body, least, at(easeLengths))
		leastFormula = fmt.Sprintf("IF(%s>%s,%s,%s)", with, at(easeCm), at(easeCm), with)
	}
	return []cell{
		text(line.Part.Name), text(line.Body.Measurement.Name),
		calc(fmt.Sprintf(`IF(in_unit="in",%s,%s)`, inches, body), bodyNow, stLength),
		number(share, stPercent),
		calc(ease, l.inUnit(l.fitEase(line)), stLength),
		own,
		calc("("+style+")"+perUnit, l.inUnit(l.chosen(by)), stLength),
		calc(growth+perUnit, l.inUnit(growthCm), stLength),
		extra,
		calc(fmt.Sprintf("%s*%s/100+%s+%s+%s+%s%s%s", at(easeBody), at(easeShare), eases, at(easeLengths), at(easeGrowth), at(easeExtra), l.factor(), perUnit), finished, stSum),
		calc(fmt.Sprintf(`MROUND(%s,IF(in_unit="in",0.25,0.5))`, at(easeFinished)), rounded(finished, l.Unit), stRounded),
		calc(fmt.Sprintf("%s*%s/100+(%s-%s*%s/100)*unit_cm", body, at(easeShare), at(easeFinished), at(easeBody), at(easeShare)), line.Finished, stCm),
		calc(leastFormula, l.leastOf(i, line), stLeast),
		styled(why(line), stWrap),
	}
}

// madeFrom is the body measurement that a line is made from, which options may
// change.
func (l *layout) madeFrom(line sizing.Line) string {
	own := line.Part.Measurement
	instead, _ := l.Reference.Instead(l.Finished.Garment.ID, line.Part.Part) // of its own garment
	parts, _ := l.Reference.Parts(l.Finished.Garment.ID)
	for _, p := range parts {
		if p.Part == line.Part.Part {
			own = p.Measurement
		}
	}
	cell := l.bodyCell(own)
	formula := cell
	for _, o := range l.Options {
		if other, ok := instead[o]; ok && l.bodyRow(other) > 0 {
			formula += fmt.Sprintf(`+IF(%s="yes",%s-%s,0)`, settingName(ask.OptionCell(o)), l.bodyCell(other), cell)
		}
	}
	if formula != cell {
		return "(" + formula + ")"
	}
	return formula
}

// chosen are the part's style and the options that are chosen, in cm.
func (l *layout) chosen(by split) float64 {
	cm := by.style
	for _, o := range l.Finished.Spec.Options {
		cm += by.options[o]
	}
	return cm
}

// leastOf is the least that line i may come out at, in cm: the body with the
// least ease of the fit, and what the style takes off or adds. Growth room is no
// part of it. 0 where there is no real ease.
func (l *layout) leastOf(i int, line sizing.Line) float64 {
	if len(line.Ease) == 0 {
		return 0
	}
	return min(line.Body.Value+line.EaseLow+l.chosen(l.splits[i]), line.Finished)
}

// rounded is a length as it is worked to.
func rounded(v float64, unit string) float64 {
	step := 0.5
	if unit == "in" {
		step = 0.25
	}
	return math.Round(v/step) * step
}

// why gives the reasons of a line, with the documents they are from.
func why(line sizing.Line) string {
	var out []string
	for _, amounts := range [][]sizing.Amount{{line.Share}, line.Ease, line.Adjust} {
		for _, a := range amounts {
			if because := (tell.Style{}).Because(a); because != "" {
				out = append(out, because)
			}
		}
	}
	return tell.Once(out)
}

func isLength(p data.Part) bool { return p.Dimension == "length" }
