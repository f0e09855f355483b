package workbook

import (
	"fmt"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// ChildHeader is the header of a child's table.
var ChildHeader = []string{"measurement", "value", "unit"}

// childForm lays out the table of a child with nothing filled in: what it is first, the
// measurements that are worth most above the others, numbered as in the picture of where
// to measure, the ids that it is read by last.
func childForm(ref *sizing.Reference) *sheet {
	s := &sheet{name: childName, widths: []float64{30, 14, 9, 66, 20}, freeze: 1, portrait: true, pages: 1}
	s.heading("The child", "Fill in what was measured; leave the rest empty. Lengths as 24.5 or 9 3/4, the unit beside them: cm, mm or in, for weight kg or lb.")
	s.add()
	s.head = s.header("what it is", ChildHeader[1], ChildHeader[2], "how to take it", ChildHeader[0])
	for _, f := range []struct{ id, unit, name, how string }{
		{"name", "", "name", "the child's name; it stays in this file"},
		{"sex", "", "sex", "m or f; helps the estimates"},
		{"age", "years", "age", "4.5 or 4y6m; or a number of months, with the unit months"},
		{"born", "", "born on", "a day, such as 2018-08-20, in place of the age"},
		{"measured", "", "measured on", "a day, such as 2026-11-01, from which the child grows"},
	} {
		row := s.add(styled(f.name, stWrap), blank(stInput), styled(f.unit, stInput), styled(f.how, stWrap), styled(f.id, stNote))
		switch f.id {
		case "sex":
			s.lists = append(s.lists, list{cells: at(2, row), words: []string{"m", "f", "both"}, hint: "sex"})
		case "age":
			s.lists = append(s.lists, list{cells: at(3, row), words: []string{"years", "months"}, hint: "unit of the age"})
		}
	}
	first := s.next()
	for i, m := range ref.MeasuringOrder() {
		switch i {
		case 0:
			s.add(styled("Worth most", stSection))
		case len(ask.WorthMost):
			s.add(styled("All others", stSection))
		}
		row := s.add(styled(fmt.Sprintf("%d %s", i+1, m.Name), stWrap), blank(stInputNumber), styled(m.Unit, stInput), styled(m.How, stWrap), styled(m.ID, stNote))
		s.names = append(s.names, name{"child_" + m.ID, fixed(2, row)})
	}
	s.lists = append(s.lists, list{cells: area(3, first, 3, s.next()-1), words: []string{"cm", "in", "mm", "kg", "lb"}, hint: "unit"})
	return s
}

// BlankChild is a form for a child's measurements, with pictures of where to measure.
func BlankChild(ref *sizing.Reference, program string, pictures ...[]byte) *Book {
	b := &Book{sheets: []*sheet{childForm(ref)}, title: "A child's measurements", by: program}
	for i, png := range pictures {
		s := &sheet{name: []string{"Where to measure", "Where to measure a baby"}[i], widths: []float64{120}}
		s.heading(s.name, "The numbers are those of the form. Over thin clothes, the tape level and close but not tight.")
		s.picture, s.place = func() []byte { return png }, at(1, s.next()+1)
		for range pictureRows {
			s.add()
		}
		for n, m := range ref.MeasuringOrder() {
			if wrong := ref.Pitfall(m.ID); wrong != "" && i == 0 {
				s.add(styled(fmt.Sprintf("%d %s. What goes wrong: %s.", n+1, m.Name, wrong), stWrap))
			}
		}
		b.sheets = append(b.sheets, s)
	}
	return b
}

// BlankDraft is a form for a draft: the rows that most drafts have, room for
// more, and what every field is.
func BlankDraft(ref *sizing.Reference, program string) *Book {
	s := &sheet{name: draftName, widths: []float64{44, 16, 11, 34, 18, 20}, freeze: 1}
	s.heading("A draft", "One fact in each row; rows without a value are ignored. The sheet Fields says what each field takes. growtuck check THIS-FILE checks it.")
	c := plan.DraftColumns
	s.head = s.header("what it is", c[2], c[3], c[4], c[0], c[1])
	first := s.next()
	row := func(what, field, part, unit string) {
		s.add(styled(what, stWrap), blank(stInput), styled(unit, stInput), blank(stInput), styled(field, stInput), styled(part, stInput))
	}
	var garments []string
	for _, g := range ref.Garments() {
		garments = append(garments, g.ID)
	}
	means := make(map[string]string)
	for _, f := range validate.DraftFields() {
		means[f.Name] = f.Means
	}
	for _, f := range []struct{ field, part, unit string }{
		{"garment", "", ""}, {"fit", "", ""}, {"layer", "", ""}, {"growth", "", "seasons"}, {"size", "", ""}, {"age", "", "years"},
	} {
		row(means[f.field], f.field, f.part, f.unit)
	}
	for _, m := range ref.MeasuringOrder()[:len(ask.WorthMost)] {
		row("body: "+m.Name, "body", m.ID, m.Unit)
	}
	for _, f := range []struct{ field, part, unit string }{
		{"craft", "", ""}, {"stitch_gauge", "", "10 cm"}, {"row_gauge", "", "10 cm"},
		{"swatch", "", "cm"}, {"finished", "chest", "stitches"}, {"finished", "sleeve_length", "rows"},
	} {
		what := means[f.field]
		if f.part != "" {
			what = f.part + ": " + what
		}
		row(strings.ReplaceAll(what, "_", " "), f.field, f.part, f.unit)
	}
	for range 60 {
		row("", "", "", "")
	}
	s.lists = append(s.lists,
		list{cells: at(2, first), words: garments, hint: "garment"},
		list{cells: at(2, first+1), words: sizing.Words(sizing.Fits), hint: "fit"},
		list{cells: at(2, first+2), words: sizing.Words(sizing.Layers), hint: "layer"})
	return &Book{sheets: []*sheet{s, fieldSheet(), partSheet(ref)}, title: "A draft to fill in", by: program}
}

// fieldSheet says what a draft may hold.
func fieldSheet() *sheet {
	s := &sheet{name: "Fields", widths: []float64{16, 34, 34, 20, 66}, freeze: 1, filter: true}
	s.heading("The fields of a draft", "Required are garment, fit and layer, and who it is for: child, size, or a body measurement.")
	s.head = s.header("name of the field", "its part", "its value", "its unit", "what it is")
	for _, f := range validate.DraftFields() {
		part, value := f.Part, f.Value
		if len(f.Parts) > 0 {
			part = strings.Join(f.Parts, ", ")
		}
		if len(f.Words) > 0 {
			value = strings.Join(f.Words, ", ")
		}
		s.add(text(f.Name), styled(part, stWrap), styled(value, stWrap), styled(strings.Join(f.Units, ", "), stWrap), styled(f.Means, stWrap))
	}
	return s
}

// partSheet lists the parts of the garments, which finished rows name.
func partSheet(ref *sizing.Reference) *sheet {
	s := &sheet{name: "Parts", widths: []float64{20, 18, 46, 22, 12}, freeze: 1, filter: true}
	s.heading("The parts of the garments", "What the column part accepts in rows of finished, multiple and extra.")
	s.head = s.header("garment", "part", "what it is", "goes round or along", "counted in")
	for _, g := range ref.Garments() {
		parts, err := ref.Parts(g.ID)
		if err != nil {
			continue // the tables are checked
		}
		for _, p := range parts {
			unit := "stitches"
			if isLength(p) {
				unit = "rows"
			}
			s.add(text(g.ID), text(p.Part), styled(p.Name, stWrap), styled(p.Measurement, stWrap), text(unit))
		}
	}
	return s
}
