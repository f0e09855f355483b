package workbook

import (
	"fmt"

	"growtuck/sizing"
)

// mostMonths is the longest growth room, in months from when a garment is first worn.
const mostMonths = 24

// The table of growth room by month: a row for each month, a column for each part.
const (
	growthName  = "Growth table"
	growthFirst = 5
)

// growthByMonth is the growth room of every part in whole months from when the garment
// is first worn, and how much the child grows before; as far as it can be foreseen.
func (l *layout) growthByMonth() [][]float64 {
	out := make([][]float64, len(l.lines()))
	for month := range mostMonths + 1 {
		m := l.Finished.Spec
		m.Seasons = float64(month) / 6
		f, err := l.Reference.Finish(l.Finished.Body, m)
		if err != nil {
			break
		}
		for i, line := range f.Lines {
			out[i] = append(out[i], grownCm(line))
		}
	}
	return out
}

// grownCm is the growth room of a part, with what the child grows before it is worn.
func grownCm(line sizing.Line) float64 {
	cm := 0.0
	for _, a := range line.Adjust {
		if a.Kind == sizing.GrowthRoom || a.Kind == sizing.GrownBefore {
			cm += a.Cm
		}
	}
	return cm
}

// growthRoom is the growth room of line i as made, in cm, and the formula of it: between
// whole months of the table it is read evenly.
func (l *layout) growthRoom(i int, line sizing.Line) (cm float64, formula string) {
	column, last := i+2, growthFirst+len(l.monthly[i])-1
	months := on(growthName, area(column, growthFirst, column, last))
	t := fmt.Sprintf("MIN(in_growth*6,%d)", len(l.monthly[i])-1)
	at := func(month string) string { return fmt.Sprintf("INDEX(%s,%s)", months, month) }
	floor := "INT(" + t + ")"
	next := fmt.Sprintf("MIN(%s+2,%d)", floor, len(l.monthly[i]))
	return grownCm(line), fmt.Sprintf("(%s+(%s-%s)*(%s-%s))", at(floor+"+1"), t, floor, at(next), at(floor+"+1"))
}

// growthTable lays the growth room out by month.
func (l *layout) growthTable() *sheet {
	s := &sheet{name: growthName, widths: []float64{12}, freeze: 1}
	s.heading("Growth room by month", "In cm, from when the garment is first worn. Made for this child and garment; after a change of either the program makes it anew.")
	titles := []string{"months"}
	for _, line := range l.lines() {
		titles, s.widths = append(titles, line.Part.Name), append(s.widths, 14)
	}
	s.head = s.header(titles...)
	for month := range mostMonths + 1 {
		row := []cell{number(float64(month), stCm)}
		for i := range l.lines() {
			if month < len(l.monthly[i]) {
				row = append(row, number(l.monthly[i][month], stCm))
			}
		}
		if len(row) > 1 {
			s.add(row...)
		}
	}
	return s
}
