package workbook

import (
	"strings"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
)

// sources lays out what every row rests on, and the documents.
func (l *layout) sources() *sheet {
	s := &sheet{name: sourcesName, widths: []float64{32, 14, 50, 24, 34, 16}, freeze: 1, unprinted: true}
	s.heading("Sources", "What each figure rests on. \"Common practice\" is trade knowledge without a single document; \"memory\" is a figure that has not been looked up yet.")
	s.head = s.header("figure", "kind", "where it comes from, or why", "documents", "where in them", "basis")
	used := make(map[string]bool)
	note := func(ids ...string) string {
		for _, id := range ids {
			used[id] = true
		}
		return strings.Join(ids, ", ")
	}
	for _, r := range l.Finished.Body.Readings {
		s.add(styled(r.Measurement.Name, stWrap), text("body"), styled(tell.Style{}.How(r), stWrap), styled(note(r.Sources...), stWrap), styled(r.Where, stWrap), styled(string(r.Provenance), stWrap))
	}
	for _, line := range l.lines() {
		for _, kind := range []struct {
			name    string
			amounts []sizing.Amount
		}{{"share", []sizing.Amount{line.Share}}, {"ease", line.Ease}, {"length", line.Adjust}} {
			for _, a := range kind.amounts {
				why := tell.Style{}.Amount(a)
				if why == "" {
					continue
				}
				doc := ""
				if a.Source != "" {
					doc = note(a.Source)
				}
				s.add(styled(line.Part.Name, stWrap), text(kind.name), styled(why, stWrap), styled(doc, stWrap), styled(a.Basis, stWrap))
			}
		}
	}
	for _, z := range l.Sizes {
		note(z.Body.Sources()...)
	}
	note(l.Plan.Sources()...)
	s.add()
	s.paragraph("The documents", stSection)
	s.header("title", "id", "publisher, edition", "credit", "rights")
	for _, d := range l.Reference.Sources() {
		if used[d.ID] {
			s.add(styled(d.Title, stWrap), text(d.ID), styled(d.Publisher+", "+d.Edition, stWrap), styled(d.Credit, stWrap), styled(d.Rights, stWrap))
		}
	}
	s.add()
	for _, c := range l.Credits {
		s.paragraph(c, stNote)
	}
	return s
}
