package workbook

import (
	"fmt"
	"strconv"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/validate"
)

// Columns of the sheet that compares the draft with its targets.
const (
	checkPart = iota + 1
	checkTarget
	checkCount
	checkUnit
	checkLength
	checkGives
	checkOff
	checkLeast
	checkSays
)

// check lays out the draft's own numbers beside the targets, and what the
// rules found when the workbook was made.
func (l *layout) check() *sheet {
	s := &sheet{name: checkName, widths: []float64{44, 11, 12, 11, 13, 11, 12, 11, 36}, freeze: 1, unprinted: true}
	s.heading("Check", "Your draft beside the targets, "+unitNote+". Fill in your own counts; a part that is not counted at one gauge takes a length, in "+tell.UnitWord(l.Unit)+
		". These numbers are the draft: growtuck check THIS-FILE reads them, and the rest of the sheet "+draftName+".")
	s.head = s.header("part", "target", "your count", "of", "or your length, "+l.Unit, "gives", "more or less", "least", "says")
	for i, line := range l.lines() {
		row := s.add(l.checkRow(i, line, s.next())...)
		s.names = append(s.names, name{"count_" + line.Part.Part, fixed(checkCount, row)}, name{"length_" + line.Part.Part, fixed(checkLength, row)})
	}
	last := s.next() - 1
	for _, c := range []int{checkTarget, checkGives, checkOff} {
		s.conds = append(s.conds, lengths(area(c, checkFirst, c, last), stInches))
	}
	s.conds = append(s.conds, lengths(area(checkLeast, checkFirst, checkLeast, last), stInchesLeast))
	says := area(checkSays, checkFirst, checkSays, last)
	cell := "$" + column(checkSays) + strconv.Itoa(checkFirst)
	s.conds = append(s.conds,
		condition{says, cell + `="too small for the body"`, stStop},
		condition{says, cell + `="off by more than the counts explain"`, stWarn},
		condition{says, cell + `="good"`, stGood})
	s.lists = append(s.lists, list{cells: area(checkCount, checkFirst, checkCount, last), low: 0, high: 2000, hint: "whole stitches or rows"})
	s.add()
	s.paragraph("What the rules found when this was made", stSection)
	if len(l.Findings) == 0 {
		s.paragraph("No problems found.", stText)
	}
	for _, f := range l.Findings {
		look := map[validate.Severity]style{validate.Stop: stStop, validate.Warn: stWarn}[f.Severity]
		row := s.add(styled(f.Severity.String()+" "+f.Rule+", "+f.Subject, look), styled(tell.Capital(tell.Style{}.Message(f))+".", stWrap))
		s.merges = append(s.merges, span{row, 2, len(s.widths)})
	}
	return s
}

func (l *layout) checkRow(i int, line sizing.Line, row int) []cell {
	at := func(col int) string { return fixed(col, row) }
	ease := func(col int) string { return on(easeName, fixed(col, easeFirst+i)) }
	counts := func(col int) string { return on(countsName, fixed(col, countsFirst+i)) }
	per10, _, unit := l.gaugeOf(i)
	yours, length, of := blank(stInputCount), blank(stInputNumber), styled(unit, stWrap)
	gives, planned := 0.0, false
	if p, ok := l.planned(i); ok {
		planned = true
		if p.Count > 0 {
			yours.value = p.Count
			gives = float64(p.Count)*10/per10 + p.EdgesCm
		} else {
			length.value = l.inUnit(p.SizeCm)
			gives = p.SizeCm
		}
	}
	finished := l.finished(line)
	given := fmt.Sprintf(`IF(%s&""<>"",(%s*10/%s+%s)%s,IF(%s&""<>"",%s%s%s,""))`, at(checkCount), at(checkCount), counts(countGauge), counts(countEdges), perUnit,
		at(checkLength), at(checkLength), l.factor(), perUnit)
	off := fmt.Sprintf(`IF(%s&""="","",%s-%s)`, at(checkGives), at(checkGives), at(checkTarget))
	step := fmt.Sprintf("(10/%s*%s+0.5)%s", counts(countGauge), counts(countRepeat), perUnit)
	says := fmt.Sprintf(`IF(%[1]s&""="","not planned",IF(%[2]s<%[3]s-0.01,"too small for the body",IF(IF(%[1]s<0,-%[1]s,%[1]s)>%[4]s,"off by more than the counts explain","good")))`,
		at(checkOff), at(checkGives), at(checkLeast), step)
	leastCm := l.leastOf(i, line)
	givesCell, offCell, word := calc(given, "", stSum), calc(off, "", stOff), "not planned"
	if planned {
		givesCell.value, offCell.value = l.inUnit(gives), l.inUnit(gives)-finished
		repeat := 1.0
		if p, _ := l.planned(i); p.Multiple.Repeat > 1 {
			repeat = float64(p.Multiple.Repeat)
		}
		word = verdict(l.inUnit(gives), finished, l.inUnit(leastCm), l.inUnit(10/per10*repeat+0.5))
	}
	return []cell{
		text(line.Part.Name),
		calc(ease(easeFinished), finished, stLength),
		yours, of, length, givesCell, offCell,
		calc(ease(easeLeast)+perUnit, l.inUnit(leastCm), stLeast),
		calc(says, word, stWrap),
	}
}

// verdict says what the formula of the last column says.
func verdict(gives, target, least, step float64) string {
	off := gives - target
	switch {
	case gives < least-0.01:
		return "too small for the body"
	case off > step || -off > step:
		return "off by more than the counts explain"
	}
	return "good"
}
