package workbook

import "growtuck/cmd/growtuck/internal/tell"

// start lays out the first sheet: what comes out, what to mind, and the settings that it
// comes of.
func (l *layout) start() *sheet {
	s := &sheet{name: startName, widths: []float64{36, 18, 16, 60}, portrait: true, pages: 2}
	s.paragraph(l.Title, stTitleLong)
	for _, d := range (tell.Style{}).CheckFirst(l.Finished.Body.Questions) {
		s.paragraph(d, stWarn)
	}
	s.paragraph(tell.Capital(tell.Style{}.Spec(l.Finished.Spec))+". "+tell.Style{}.MadeFrom(l.Finished.Body)+".", stNote)
	if apart := l.Finished.Body.AsApart(); !apart.IsZero() {
		s.paragraph(tell.Style{}.Fact(apart)+".", stNote)
	}
	l.results(s)
	s.add()
	s.paragraph("Mind", stSection)
	l.minded(s)
	s.add()
	s.paragraph("Settings", stSection)
	s.paragraph("Fill in the yellow cells. Changes of fit, layer, gauge, ease and the child's measurements take effect at once: finished sizes and counts follow. "+
		"Sheet "+patternName+" is what to work from and to print, "+rowsName+" has every row to tick. Their shaping and words do not follow: growtuck plan THIS-FILE makes the plan again from the yellow cells of this sheet, of "+childName+" and of "+easeName+", and recalculates the counts; your own counts on "+checkName+" belong to the draft. growtuck check THIS-FILE checks the sheet "+draftName+". "+
		"Sheets for the screen have an empty print area: clear it to print them.", stNote)
	group := ""
	for _, set := range l.Settings {
		if set.Group != group {
			group = set.Group
			s.add()
			s.paragraph(group, stSection)
		}
		st := stInput
		if _, isNumber := set.Value.(float64); isNumber || set.Low != 0 || set.High != 0 {
			st = stInputNumber
		}
		row := s.add(text(set.Label), cell{value: set.Value, style: st}, styled(set.Hint, stNote))
		s.names = append(s.names, name{settingName(set.Name), fixed(2, row)})
		if len(set.Words) > 0 || st == stInputNumber && set.High != 0 {
			s.lists = append(s.lists, list{cells: at(2, row), words: set.Words, low: set.Low, high: set.High, hint: set.Label})
		}
	}
	s.add()
	s.paragraph("Worked out from these", stSection)
	for _, w := range l.workedOut() {
		row := s.add(text(w.label), calc(w.formula, w.value, stGauge), styled(w.hint, stNote))
		s.names = append(s.names, name{w.name, fixed(2, row)})
	}
	s.add()
	for _, c := range l.Credits {
		s.paragraph(c, stNote)
	}
	if l.Edition != "" {
		s.paragraph("Made from the "+l.Edition+".", stNote)
	}
	return s
}

// results are the finished sizes, which follow the settings, with the counts of the plan.
func (l *layout) results(s *sheet) {
	s.add()
	s.header("finished, "+unitNote, "finished", "count, as planned", "on the body")
	first := s.next()
	for i, line := range l.lines() {
		planned := ""
		if p, ok := l.planned(i); ok && p.Count > 0 {
			planned = tell.Counted(p.Count, p.Unit)
		}
		s.add(styled(tell.Letter(i)+"  "+line.Part.Name, stWrap), calc(on(easeName, fixed(easeFinished, easeFirst+i)), l.finished(line), stLength),
			styled(planned, stWrap), styled(line.Body.Measurement.Name+", "+tell.Style{}.How(line.Body), stWrap))
	}
	last := s.next() - 1
	s.conds = append(s.conds, lengths(area(2, first, 2, last), stInches), condition{area(3, first, 3, last), l.stale(), stStop})
}

// minded are the notes of the plan, what the checks found, and that a chart is a
// substitute.
func (l *layout) minded(s *sheet) {
	for _, n := range (tell.Style{}).For(l.Plan.How).Facts(l.Plan.Notes) {
		s.paragraph(n, stWrap)
	}
	for _, f := range l.Findings {
		if f.Caution() {
			s.paragraph(tell.Capital(tell.Style{}.Message(f))+".", stWrap)
		}
	}
	s.paragraph("Reminders are not a verdict that a garment is safe or complies. Measure the child: a chart or an estimate is only a substitute. This is not a medical growth chart.", stWrap)
}

type worked struct {
	name, label, formula string
	value                float64
	hint                 string
}

// workedOut are the cells that all formulas share.
func (l *layout) workedOut() []worked {
	how := l.Plan.How
	rib := how.Gauge
	if how.Rib != nil {
		rib = *how.Rib
	}
	per10 := func(cell string) string { return cell + `*10/IF(in_gauge_over="4 in",10.16,10)` }
	orFabric := func(cell, fabric string) string { return "IF(" + cell + `&""="",` + fabric + "," + per10(cell) + ")" }
	return []worked{
		{"unit_cm", "cm in the unit chosen", `IF(in_unit="in",2.54,1)`, l.unitCm, "1 for cm, 2.54 for inches"},
		{"stitches_per_10", "stitches to 10 cm", per10("in_stitch_gauge"), how.Gauge.StitchesPer10Cm, ""},
		{"rows_per_10", "rows to 10 cm", per10("in_row_gauge"), how.Gauge.RowsPer10Cm, ""},
		{"rib_stitches_per_10", "ribbing, stitches to 10 cm", orFabric("in_rib_stitch_gauge", "stitches_per_10"), rib.StitchesPer10Cm, ""},
		{"rib_rows_per_10", "ribbing, rows to 10 cm", orFabric("in_rib_row_gauge", "rows_per_10"), rib.RowsPer10Cm, ""},
		{"ease_row", "row of the ease table", l.comboFormula(), float64(l.comboRow()), "by fit, layer and nappy"},
	}
}
