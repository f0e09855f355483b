package workbook

import "growtuck/cmd/growtuck/internal/tell"

// graded lays out the run of sizes with every count in bracket form.
func (l *layout) graded() *sheet {
	s := &sheet{name: gradedName, widths: []float64{40, 44, 44, 34}, unprinted: true}
	g := l.Graded
	if g == nil {
		s.heading("Graded", "There is no plan for a run of sizes: "+l.NotGraded+".")
		return s
	}
	s.heading("Graded", "Not the pattern of this child, which is on sheet "+patternName+": the same garment in sizes "+tell.Brackets(g.Labels)+" of the chart, with every count in brackets, at the gauge on "+startName+
		" when this was made. --sizes names other sizes.")
	run := tell.Style{}.For(g.Plans[0].How).Run(g)
	s.head = s.header("part", "count", "gives, cm", "more or less, cm")
	for _, p := range run.Parts {
		s.add(text(p.Name), styled(p.Counted(), stWrap), styled(p.SizeCm, stWrap), styled(p.Error, stWrap))
	}
	s.add()
	s.paragraph("To work, in this order", stSection)
	s.header("section", "stitches", "rows", "times")
	for _, sec := range run.Sections {
		s.add(text(sec.Name), styled(sec.Stitches(), stWrap), styled(sec.Rows, stWrap), text(sec.Times()))
		for _, line := range sec.Steps {
			s.paragraph(line.String(), stWrap)
		}
	}
	for _, n := range run.Notes {
		s.paragraph(n, stWrap)
	}
	return s
}
