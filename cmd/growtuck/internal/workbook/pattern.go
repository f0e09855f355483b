package workbook

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing/plan"
)

// Boxes to tick, empty and ticked.
const (
	boxEmpty = "☐"
	boxDone  = "☑"
)

// patternWide are the columns of the pattern: a box, the text over the next four, the
// count after it.
var patternWide = []float64{6, 44, 11, 13, 10, 13}

// pattern lays out the pattern of a child: what to work from, for print and beside the
// work, red where the gauge on the first sheet is another.
func (l *layout) pattern() *sheet {
	s := newPattern(l.Pattern, patternWide)
	stale := l.stale()
	s.formula(calc("IF("+stale+","+quoted(staleWords)+","+quoted(freshWords)+")", freshWords, stNote))
	s.patternChapters(l.Pattern, l.Drawn)
	s.conds = append(s.conds, condition{area(1, 1, len(s.widths), len(s.rows)), stale, stStop})
	return s
}

// NewRun lays out the pattern of a run of sizes as a workbook of one sheet.
func NewRun(d tell.Document, drawn schematic.Panel, program, edition string) *Book {
	widths := slices.Clone(patternWide)
	for _, c := range d.Chapters {
		if c.Table == nil || c.ID != "sizes" {
			continue
		}
		for len(widths) < len(c.Table.Columns) {
			widths = append(widths, 8)
		}
	}
	s := newPattern(d, widths)
	s.patternChapters(d, drawn)
	return &Book{sheets: []*sheet{s}, title: d.Heading[0], by: program, tables: edition}
}

// newPattern begins the sheet of a pattern.
func newPattern(d tell.Document, widths []float64) *sheet {
	s := &sheet{name: patternName, widths: widths, portrait: true}
	for i, line := range d.Heading {
		s.paragraph(line, []style{stTitleLong, stNote}[min(i, 1)])
	}
	return s
}

// patternChapters puts all of a pattern on its sheet.
func (s *sheet) patternChapters(d tell.Document, drawn schematic.Panel) {
	titles := make([]string, len(s.widths))
	titles[0], titles[1], titles[len(titles)-1] = boxDone, "what to do", "stitches after"
	s.head = s.header(titles...)
	s.picture = aside(drawn, "")
	for _, c := range d.Chapters {
		s.chapter(c)
	}
	if s.place == "" { // the pattern has no place for it
		s.picture = nil
	}
	for _, line := range d.Credits {
		s.paragraph(line, stNote)
	}
}

// What is said over a pattern about the gauge on the first sheet.
const (
	staleWords = "The gauge on Start is no longer that of this pattern: make it again with growtuck export NEW.xlsx THIS-FILE."
	freshWords = "Its gauge is the one on Start; where that is changed, this sheet turns red."
)

// stale is the formula that the gauge is another than the pattern's.
func (l *layout) stale() string {
	how := l.Plan.How
	rib := how.Gauge
	if how.Rib != nil {
		rib = *how.Rib
	}
	var all []string
	for _, g := range []struct {
		name string
		per  float64
	}{
		{"stitches_per_10", how.Gauge.StitchesPer10Cm}, {"rows_per_10", how.Gauge.RowsPer10Cm}, {"rib_stitches_per_10", rib.StitchesPer10Cm}, {"rib_rows_per_10", rib.RowsPer10Cm},
	} {
		all = append(all, fmt.Sprintf("ABS(%s-%s)>0.001", g.name, literal(g.per)))
	}
	return "OR(" + strings.Join(all, ",") + ")"
}

// chapter puts a chapter of the pattern on the sheet.
func (s *sheet) chapter(c tell.Chapter) {
	s.add()
	if c.Drawn && s.left() < pictureRows*rowHeight {
		s.breaks = append(s.breaks, s.next())
	}
	title := c.Title
	if c.About != "" {
		title += ": " + c.About
	}
	s.paragraph(title, stChapter)
	for _, line := range c.Lines {
		s.paragraph(line, stWork)
	}
	if c.Drawn && s.picture != nil {
		s.place = at(2, s.next())
		for range pictureRows {
			s.add()
		}
	}
	if c.Table != nil {
		s.patternTable(*c.Table)
	}
	for _, item := range c.Items {
		s.wide("–", item, stWork, len(s.widths))
	}
	boxes := []string{boxEmpty, boxDone}
	if c.Twice {
		boxes = []string{boxEmpty + boxEmpty, boxDone + boxEmpty, boxDone + boxDone}
	}
	for _, w := range c.Work {
		row := s.wide(boxes[0], w.String(), stWork, len(s.widths)-1)
		s.rows[row-1][0].style = stBox
		s.rows[row-1][len(s.widths)-1] = styled(w.Count, stAfter)
		s.lists = append(s.lists, list{cells: at(1, row), words: boxes, hint: "done"})
	}
	for _, line := range c.After {
		s.paragraph(line, stWork)
	}
}

// wide puts a mark in the first column and text from the next one to another.
func (s *sheet) wide(mark, text string, st style, to int) int {
	cells := make([]cell, len(s.widths))
	for i := range cells {
		cells[i] = blank(st)
	}
	cells[0], cells[1] = styled(mark, st), styled(text, st)
	row := s.add(cells...)
	s.merges = append(s.merges, span{row, 2, to})
	return row
}

// patternTable puts a table on the sheet: letters stand in the first column.
func (s *sheet) patternTable(t tell.Table) {
	used := t.Used()
	shift := 1
	if len(used) > 0 && t.Columns[used[0]].Head == tell.LetterHead {
		shift = 0
	}
	line := func(st style, text func(i int) string) {
		cells := make([]cell, max(len(used)+shift, len(s.widths)))
		for k, i := range used {
			cells[k+shift] = styled(text(i), st)
			if t.Columns[i].Right && st != stHead {
				cells[k+shift].style = stRight
			}
		}
		s.add(cells...)
	}
	line(stHead, func(i int) string {
		if t.Columns[i].Head == tell.LetterHead {
			return ""
		}
		return t.Columns[i].Head
	})
	for _, r := range t.Rows {
		line(stWork, func(i int) string { return r.Cells[i] })
	}
}

// pictureRows are rows as high as the picture.
const (
	pictureRows = 31
	rowHeight   = 15 // points, of an empty row
)

// left is about how high the rest of the page is on which the next row is printed, in
// points.
func (s *sheet) left() float64 {
	const pageWidth, pageHeight, perUnit = 523, 750, 6.2 // of upright A4 within its margins; of a unit of width
	wide := 0.0
	for _, w := range s.widths {
		wide += w * perUnit
	}
	high := pageHeight / min(1, pageWidth/wide)
	used := 0.0
	for i, row := range s.rows {
		if slices.Contains(s.breaks, i+1) {
			used = 0
		}
		merged := span{}
		for _, m := range s.merges {
			if m.row == i+1 {
				merged = m
			}
		}
		used += s.height(row, merged)
	}
	return high - math.Mod(used, high)
}

// rowsSheet lays out every row of the work, each with a box for each copy.
func (l *layout) rowsSheet() *sheet {
	s := &sheet{name: rowsName, widths: []float64{16, 6, 7, 7, 10, 8, 12, 40}, filter: true, unprinted: true}
	s.heading("Rows", "Every row of the work with a box to tick; two where it is worked twice. "+freshWords)
	s.head = s.header("section", "row", "done", "the other", "stitches after", "±", "colour", "what to do")
	for i, c := range l.sections() {
		s.sectionRows(l.Plan.Sections[i], c)
	}
	s.conds = append(s.conds, condition{area(1, 1, len(s.widths), len(s.rows)), l.stale(), stStop})
	return s
}

// sections are the chapters of the pattern that are sections of the work.
func (l *layout) sections() []tell.Chapter {
	var all []tell.Chapter
	for _, s := range l.Plan.Sections {
		for _, c := range l.Pattern.Chapters {
			if c.ID == s.ID && len(c.Work) > 0 {
				all = append(all, c)
				break
			}
		}
	}
	return all
}

func (s *sheet) sectionRows(section *plan.Section, c tell.Chapter) {
	what := make(map[int]string)
	for _, w := range c.Work {
		if len(w.Rows) > 0 {
			what[w.Rows[0].Row] = strings.TrimSpace(what[w.Rows[0].Row] + " " + w.String())
		}
	}
	for r := 1; r <= section.Rows(); r++ {
		other := cell{}
		if section.Copies > 1 {
			other = styled(boxEmpty, stBox)
		}
		colour := ""
		if len(section.Colours) > 0 {
			colour = section.Colours[r-1]
		}
		n := section.StitchesAfter(r)
		change := cell{style: stInt}
		if by := n - section.StitchesAfter(r-1); by != 0 {
			change = cell{value: float64(by), style: stGain}
		}
		row := s.add(styled(c.Title, stWrap), count(r), styled(boxEmpty, stBox), other, cell{value: n, style: stAfter}, change, styled(colour, stWrap), styled(what[r], stWrap))
		s.lists = append(s.lists, list{cells: area(3, row, 2+section.Copies, row), words: []string{boxEmpty, boxDone}, hint: "done"})
	}
}
