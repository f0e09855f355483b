package tell

import (
	"fmt"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

type sizeRow struct {
	Chart string `json:"chart"`
	Sex   string `json:"sex"`
	Size  string `json:"size"`
	Scale string `json:"scale"`
	bodyRecord
}

// A SizeDocument is sizes of a chart, as JSON.
type SizeDocument struct {
	Chart   string       `json:"chart" doc:"id of the chart"`
	Method  string       `json:"method" doc:"how the chart is read between sizes: monotone or linear"`
	Sizes   []sizeRecord `json:"sizes" doc:"the sizes, in order"`
	Sources []string     `json:"sources" doc:"ids of the sources that it rests on"`
	Credits []string     `json:"credits" doc:"credit lines that the sources used ask for"`
}

type sizeRecord struct {
	Size         string          `json:"size" doc:"the size"`
	Scale        string          `json:"scale" doc:"months, years, height or band; empty where the chart does not have the value"`
	Sex          string          `json:"sex" doc:"m, f or both"`
	Position     Figure          `json:"position" doc:"position of the size on its scale"`
	HeightCm     *Figure         `json:"height_cm" doc:"the height that the size is for; null where the chart does not say"`
	Apart        []apartRecord   `json:"apart" doc:"girths from a size that part from those of children measured at its height"`
	Measurements []bodyRecord    `json:"measurements" doc:"the body measurements"`
	Missing      []missingRecord `json:"missing" doc:"what is left out, because it is not known"`
	Read         []string        `json:"read" doc:"how a label was read that is no size of the chart"`
}

// A SizeBody is a size and what its chart has there.
type SizeBody struct {
	Asked   string // as the maker wrote it
	Place   sizing.Place
	Body    *sizing.Body
	Missing []Missing // what was asked for by name and is not there
}

// Missing is a measurement that is not known, and why.
type Missing struct {
	Measurement data.Measurement
	Err         error
}

// Sizes reports one size of a chart, with how each number was got, or several
// side by side.
func (st Style) Sizes(ref *sizing.Reference, chart string, method sizing.Method, sizes []SizeBody, shown func(data.Measurement) bool, why bool) Document {
	r := Document{}
	for _, s := range sizes {
		for _, m := range s.Missing {
			r.Remarks = append(r.Remarks, m.Err.Error())
		}
		for _, how := range s.Body.Read {
			r.Remarks = append(r.Remarks, st.Fact(how))
		}
		r.Sources = append(r.Sources, s.Body.Sources()...)
	}
	r.Sources = InOrder(r.Sources)
	r.Credits = CreditLines(ref, r.Sources)
	doc := SizeDocument{Chart: chart, Method: methodName(method), Sources: r.Sources, Credits: r.Credits}
	r.Records = func() (any, any) { return sizeRecords(doc, sizes) }
	if len(sizes) == 1 && st.Place != Page {
		st.oneSize(&r, sizes[0], shown, why)
	} else {
		st.severalSizes(&r, ref, sizes, shown)
		r.Remarks = append(r.Remarks, apartWords(sizes)...)
	}
	return r
}

// sizeRecords are sizes as rows, and put into the document.
func sizeRecords(doc SizeDocument, sizes []SizeBody) ([]sizeRow, SizeDocument) {
	rows := []sizeRow{}
	for _, s := range sizes {
		run := s.Place.Run
		rec := sizeRecord{
			Size: s.Place.Label(), Scale: string(run.Scale), Sex: string(run.Sex), Position: Figure(s.Place.Position),
			Apart: apartRecords(s.Body), Measurements: bodyRecords(s.Body), Missing: []missingRecord{}, Read: []string{},
		}
		rec.HeightCm = Known(s.Place.Height())
		for _, m := range rec.Measurements {
			rows = append(rows, sizeRow{doc.Chart, rec.Sex, rec.Size, rec.Scale, m})
		}
		for _, m := range s.Missing {
			rec.Missing = append(rec.Missing, missingRecord{m.Measurement.ID, m.Measurement.Name, m.Err.Error()})
		}
		for _, how := range s.Body.Read {
			rec.Read = append(rec.Read, Style{}.Fact(how))
		}
		doc.Sizes = append(doc.Sizes, rec)
	}
	return rows, doc
}

// methodName is the method of reading between sizes as CSV and JSON name it.
func methodName(m sizing.Method) string {
	if m == sizing.Linear {
		return "linear"
	}
	return "monotone"
}

// oneSize shows a size with how each number was got.
func (st Style) oneSize(r *Document, s SizeBody, shown func(data.Measurement) bool, why bool) {
	r.Heading = []string{"Body measurements, " + st.Fact(s.Body.Summary) + sexWords(s.Place.Run.Sex)}
	g := Table{Columns: []Column{{Head: "measurement"}}}
	for _, u := range st.Units() {
		g.Columns = append(g.Columns, Column{Head: u, Right: true})
	}
	g.Columns = append(g.Columns, Column{Head: "range, " + st.Units()[0]}, Column{Head: "how"}, Column{Head: "notes"}, Column{Head: "sources", Wrap: true})
	hidden := 0
	var visible []sizing.Reading
	for _, m := range s.Body.Readings {
		if !shown(m.Measurement) {
			hidden++
			continue
		}
		visible = append(visible, m)
		cells := append(st.amounts(m), atSize(m), "", strings.Join(InOrder(m.Sources), ", "))
		line := Row{Cells: cells}
		if why {
			line.Under = st.Reason(m).Lines()
		} else {
			cells[len(cells)-2] = r.Notes.marks(st.footnotes(m))
		}
		g.Rows = append(g.Rows, line)
	}
	r.Tables = []Table{g}
	r.Sources = nil // each line has its own
	r.Remarks = append(r.Remarks, spreadWords(visible)...)
	r.Remarks = append(r.Remarks, st.hiddenWords(hidden)...)
	if apart := s.Body.AsApart(); !apart.IsZero() {
		r.Remarks = append(r.Remarks, st.Fact(apart)+".")
	}
}

// amounts are the cells that every body measurement begins with: its name,
// value, and range in the first of the units.
func (st Style) amounts(m sizing.Reading) []string {
	cells := []string{title(m, st.Units())}
	for _, u := range st.Units() {
		cells = append(cells, amount(m, u))
	}
	return append(cells, spread(m, st.Units()[0]))
}

// severalSizes shows sizes side by side.
func (st Style) severalSizes(r *Document, ref *sizing.Reference, sizes []SizeBody, shown func(data.Measurement) bool) {
	chart := sizes[0].Place.Run.Chart
	r.Heading = []string{fmt.Sprintf("Body measurements by size, chart %s (%s)%s",
		chart.ID, chart.Title, sexWords(sizes[0].Place.Run.Sex))}
	g := Table{Columns: []Column{{Head: "measurement"}}}
	for _, s := range sizes {
		for _, u := range st.Units() {
			g.Columns = append(g.Columns, Column{Head: s.head() + unitHead(st.Unit, u), Right: true, Opens: true})
		}
	}
	g.Columns = append(g.Columns, Column{Head: "notes"})
	hidden := 0
	for _, m := range ref.Measurements() {
		cells := []string{title(sizing.Reading{Measurement: m}, st.Units())}
		var notes []string
		var why bySize
		found := false
		for _, s := range sizes {
			reading, ok := s.Body.Get(m.ID)
			found = found || ok
			for _, u := range st.Units() {
				text := absent
				if ok {
					text = amount(reading, u)
				}
				cells = append(cells, text)
			}
			if ok {
				why.reading(s.Asked, st.Measured(reading), st.Reason(reading))
				why.add(s.Asked, st.rangeOf(reading)...)
				notes = append(notes, st.footnotes(reading)...)
			}
		}
		switch {
		case !found:
		case !shown(m):
			hidden++
		case st.Place == Page:
			g.Rows = append(g.Rows, Row{Cells: append(cells, ""), ID: m.ID, Why: why.lines()})
		default:
			g.Rows = append(g.Rows, Row{Cells: append(cells, r.Notes.marks(notes))})
		}
	}
	r.Tables = []Table{g}
	switch st.Unit {
	case "cm":
		r.Heading[0] += ", in cm"
	case "in":
		r.Heading[0] += ", in inches"
	}
	r.Remarks = append(r.Remarks, st.hiddenWords(hidden)...)
}

// head names the size in a table: as the chart does, and as the maker did
// where that is not the same.
func (s SizeBody) head() string {
	label := s.Place.Label()
	if strings.EqualFold(strings.TrimSpace(s.Asked), label) {
		return label
	}
	return strings.TrimSpace(s.Asked) + " (" + label + ")"
}

// unitHead adds the unit to the head of a column where there are two.
func unitHead(asked, unit string) string {
	if asked == "both" {
		return " " + unit
	}
	return ""
}

func sexWords(s sizing.Sex) string {
	switch s {
	case sizing.Boy:
		return ", boys"
	case sizing.Girl:
		return ", girls"
	}
	return ", boys and girls"
}

var spreads = []struct {
	spread sizing.Spread
	words  string
}{
	{sizing.EightInTen, "about eight of ten US children with the same measurements, of 1975–77 or of 1999–2016, have a figure in this range"},
	{sizing.MiddleHalf, "the middle half of the children measured"},
	{sizing.NineInTen, "nine of ten of the children measured"},
	{sizing.TenthToNinetieth, "eight of ten of the children measured"},
	{sizing.ThirdTo97th, "94 of 100 of the children measured"},
	{sizing.TwoInThree, "about two of three of the children measured"},
	{sizing.AsPublished, "the range that the chart gives"},
}

// spreadWords explains the ranges that are shown.
func spreadWords(readings []sizing.Reading) []string {
	var lines []string
	for _, s := range spreads {
		for _, r := range readings {
			if r.Spread == s.spread {
				lines = append(lines, string(s.spread)+": "+s.words+".")
				break
			}
		}
	}
	if slices.ContainsFunc(readings, girthByHeight) {
		lines = append(lines, "Ranges of girths are wide where the height alone is known: children of one height differ. A weight or a chest halves them.")
	}
	return lines
}

// girthByHeight reports whether a reading is a girth estimated from the height
// alone.
func girthByHeight(r sizing.Reading) bool {
	return r.Measurement.Kind == "girth" && r.Spread == sizing.EightInTen && slices.Equal(r.From.Evidence.IDs(), []string{"height"})
}

// SpreadWords says what a range is; "" for none.
func SpreadWords(spread sizing.Spread) string {
	for _, s := range spreads {
		if s.spread == spread {
			return s.words
		}
	}
	return ""
}

// rangeOf says in which range a measurement is, and what that is; nothing for none.
func (st Style) rangeOf(r sizing.Reading) []string {
	if r.Spread == "" {
		return nil
	}
	return []string{"range " + ends(r, st.Units()[0]) + ": " + SpreadWords(r.Spread)}
}

// ReadingReasons say how a measurement was got, and its range.
func (st Style) ReadingReasons(r sizing.Reading) []string {
	return append(st.Reason(r).Lines(), st.rangeOf(r)...)
}

func (st Style) hiddenWords(n int) []string {
	words, them := fmt.Sprintf("%d measurements that garments seldom need are left out", n), "them"
	switch n {
	case 0:
		return nil
	case 1:
		words, them = "1 measurement that garments seldom need is left out", "it"
	}
	if st.Place == Page {
		return []string{words + "."}
	}
	return []string{words + "; --all shows " + them + "."}
}
