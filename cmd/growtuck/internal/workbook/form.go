package workbook

import (
	"strings"

	"growtuck/data"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// ChildHeader is the header of a child's table.
var ChildHeader = []string{"measurement", "value", "unit"}

// childForm lays out the table of a child with nothing filled in.
func childForm(measurements []data.Measurement) *sheet {
	s := &sheet{name: childName, widths: []float64{24, 14, 9, 32, 78}, freeze: 1}
	s.heading("The child", "Fill in what was measured; leave the rest empty. Lengths as 24.5 or 9 3/4, the unit beside them: cm, mm or in, for weight kg or lb.")
	s.add()
	s.head = s.header(append(append([]string{}, ChildHeader...), "what it is", "how to take it")...)
	for _, f := range []struct{ id, unit, name, how string }{
		{"name", "", "name", "the child's name; it stays in this file"},
		{"sex", "", "sex", "m or f; helps the estimates"},
		{"age", "years", "age", "4.5 or 4y6m; or a number of months, with the unit months"},
		{"born", "", "born on", "a day, such as 2018-08-20, in place of the age"},
		{"measured", "", "measured on", "a day, such as 2026-11-01, from which the child grows"},
	} {
		row := s.add(text(f.id), blank(stInput), styled(f.unit, stInput), styled(f.name, stWrap), styled(f.how, stWrap))
		switch f.id {
		case "sex":
			s.lists = append(s.lists, list{cells: at(2, row), words: []string{"m", "f", "both"}, hint: "sex"})
		case "age":
			s.lists = append(s.lists, list{cells: at(3, row), words: []string{"years", "months"}, hint: "unit of the age"})
		}
	}
	first := s.next()
	for _, m := range measurements {
		row := s.add(text(m.ID), blank(stInputNumber), styled(m.Unit, stInput), styled(m.Name, stWrap), styled(m.How, stWrap))
		s.names = append(s.names, name{"child_" + m.ID, fixed(2, row)})
	}
	s.lists = append(s.lists, list{cells: area(3, first, 3, s.next()-1), words: []string{"cm", "in", "mm", "kg", "lb"}, hint: "unit"})
	return s
}

// BlankChild is a form for a child's measurements.
func BlankChild(ref *sizing.Reference, program string) *Book {
	return &Book{sheets: []*sheet{childForm(ref.Measurements())}, title: "A child's measurements", by: program}
}

// BlankDraft is a form for a draft: the rows that most drafts have, room for
// more, and what every field is.
func BlankDraft(ref *sizing.Reference, program string) *Book {
	s := &sheet{name: draftName, widths: []float64{18, 20, 16, 11, 60}, freeze: 1}
	s.heading("A draft", "One fact in each row; rows without a value are ignored. The sheet Fields says what each field takes. growtuck check THIS-FILE checks it.")
	s.head = s.header(plan.DraftColumns...)
	first := s.next()
	row := func(field, part, unit, note string) {
		s.add(styled(field, stInput), styled(part, stInput), blank(stInput), styled(unit, stInput), styled(note, stInput))
	}
	var garments []string
	for _, g := range ref.Garments() {
		garments = append(garments, g.ID)
	}
	for _, f := range []struct{ field, part, unit string }{
		{"garment", "", ""}, {"fit", "", ""}, {"layer", "", ""}, {"growth", "", "seasons"}, {"size", "", ""}, {"age", "", "years"},
		{"body", "height", "cm"}, {"body", "chest", "cm"}, {"craft", "", ""}, {"stitch_gauge", "", "10 cm"}, {"row_gauge", "", "10 cm"},
		{"swatch", "", "cm"}, {"finished", "chest", "stitches"}, {"finished", "sleeve_length", "rows"},
	} {
		row(f.field, f.part, f.unit, "")
	}
	for range 60 {
		row("", "", "", "")
	}
	s.lists = append(s.lists,
		list{cells: at(3, first), words: garments, hint: "garment"},
		list{cells: at(3, first+1), words: sizing.Words(sizing.Fits), hint: "fit"},
		list{cells: at(3, first+2), words: sizing.Words(sizing.Layers), hint: "layer"})
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
