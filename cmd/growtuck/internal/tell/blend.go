package tell

import (
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

// A BlendDocument is what is known of a child, as JSON.
type BlendDocument struct {
	Doubts       []DoubtRecord   `json:"doubts" doc:"what is hardly to be believed of what was said of the child"`
	Child        childRecord     `json:"child" doc:"what is known of the child"`
	Summary      string          `json:"summary" doc:"in words, what the body was made from"`
	Apart        []apartRecord   `json:"apart" doc:"girths from a size that part from those of children measured at its height"`
	Measurements []bodyRecord    `json:"measurements" doc:"the body measurements"`
	Missing      []missingRecord `json:"missing" doc:"what is left out, because it is not known"`
	Questions    []string        `json:"questions" doc:"the doubts in words alone"`
	Sources      []string        `json:"sources" doc:"ids of the sources that it rests on"`
	Credits      []string        `json:"credits" doc:"credit lines that the sources used ask for"`
}

// Blend reports the measurements of a child: those that shown says of those that
// the body has, why each was taken where asked for, and what is missing.
func (st Style) Blend(ref *sizing.Reference, c sizing.Child, b *sizing.Body, absent []data.Measurement, shown func(data.Measurement) bool, why bool) Document {
	missing := []missingRecord{}
	for _, m := range absent {
		missing = append(missing, missingRecord{m.ID, m.Name, NotKnown(m)})
	}
	cm := Style{} // in which JSON and standard error are
	r := Document{Sources: InOrder(b.Sources()), Doubts: st.CheckFirst(b.Questions)}
	r.Credits = CreditLines(ref, r.Sources)
	records := bodyRecords(b)
	r.Rows = records
	r.JSON = BlendDocument{DoubtRecords(b.Questions), newChildRecord(c), cm.Fact(b.Summary), apartRecords(b), records, missing, cm.Questions(b.Questions), r.Sources, r.Credits}

	r.Heading = st.bodyHeading(c, b)
	g := Table{Columns: []Column{{Head: "measurement"}}}
	for _, u := range st.Units() {
		g.Columns = append(g.Columns, Column{Head: u, Right: true})
	}
	g.Columns = append(g.Columns, Column{Head: "range, " + st.Units()[0]}, Column{Head: "how", Wrap: true}, Column{Head: "notes"})
	hidden := 0
	var visible []sizing.Reading
	for _, m := range b.Readings {
		if _, own := c.Own[m.Measurement.ID]; !own && !shown(m.Measurement) {
			hidden++
			continue
		}
		visible = append(visible, m)
		words, note := forChild(m)
		line := Row{Cells: append(st.amounts(m), words, "")}
		if why {
			line.Under = st.Reason(m).Lines()
		} else {
			notes := st.footnotes(m)
			if note != "" {
				notes = append([]string{note}, notes...)
			}
			line.Cells[len(line.Cells)-1] = r.Notes.marks(notes)
		}
		g.Rows = append(g.Rows, line)
	}
	r.Tables = []Table{g}
	r.Remarks = append(spreadWords(visible), st.hiddenWords(hidden)...)
	r.Remarks = append(r.Remarks, missingWords(absent, shown)...)
	return r
}

// bodyHeading says whose body it is and what it was made from.
func (st Style) bodyHeading(c sizing.Child, b *sizing.Body) []string {
	var lines []string
	if who := ChildLine(c); who != "" {
		lines = append(lines, who)
	}
	lines = append(lines, st.MadeFrom(b))
	lines = append(lines, st.Facts(b.Read)...)
	if apart := b.AsApart(); !apart.IsZero() {
		lines = append(lines, st.Fact(apart))
	}
	return lines
}

// missingWords names what is not known of what tables show.
func missingWords(absent []data.Measurement, shown func(data.Measurement) bool) []string {
	var names []string
	for _, m := range absent {
		if shown(m) {
			names = append(names, m.Name)
		}
	}
	if len(names) == 0 {
		return nil
	}
	return []string{"Not known, please measure: " + strings.Join(names, "; ") + "."}
}
