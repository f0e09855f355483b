package workbook

import (
	"fmt"
	"math"
	"slices"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
)

const monthsName = "Growth"

// grownByMonth are measurements that are shown by month beside those that folds go by.
var grownByMonth = []string{"height", "chest"}

// byMonth lays out how the child grows by month, when each fold is let down, and how long
// its part is before and after. nil where there is no room to grow.
func (l *layout) byMonth() *sheet {
	held, g := l.Plan.Held(), l.Finished.Growth
	if len(held) == 0 && g == nil {
		return nil
	}
	s := &sheet{name: monthsName, widths: []float64{16, 26, 12, 10, 12, 12, 26, 12, 22}}
	s.heading("Room to grow", "In cm. Each fold is let down when the measurement passes the length beside it; the month is the forecast's, with a likely range of eight in ten. Measure the child again before you let one down.")
	if len(held) > 0 {
		s.header("part", "section", "held by", "rows", "with it", "let down", "when this passes", "cm", "about")
		for _, h := range held {
			part, _ := l.Plan.Part(h.Parts[0])
			s.add(text(part.Line.Part.Name), text(tell.Spoken(h.Section.Kind)), text(string(h.Way)), count(h.Rows), number(h.WornCm[0], stCm), number(h.DownCm[0], stCm),
				text(h.Body.Measurement.Name), number(h.AtCm, stCm), text(tell.Due(h.When)))
		}
		s.add()
	}
	if g == nil {
		return s
	}
	var shown []string
	titles := []string{"month", "let down"}
	shown = append(shown, grownByMonth...)
	for _, h := range held {
		if id := h.Body.Measurement.ID; !slices.Contains(shown, id) {
			shown = append(shown, id)
		}
	}
	shown = slices.DeleteFunc(shown, func(id string) bool { _, known := l.Finished.Body.Get(id); return !known })
	for _, id := range shown {
		r, _ := l.Finished.Body.Get(id)
		titles = append(titles, r.Measurement.Name)
	}
	for len(s.widths) < len(titles) {
		s.widths = append(s.widths, 12)
	}
	s.head = s.header(titles...)
	first, _ := l.Finished.Passes("height", 0) // what is known of the day of measuring
	months := int(math.Ceil(l.Finished.Spec.Wear+6*l.Finished.Spec.Seasons)) + 1
	for month := range months + 1 {
		b, err := g.At(float64(month) / 12)
		if err != nil {
			break
		}
		label := monthOf(first, float64(month))
		down := ""
		for _, h := range held {
			if h.When != nil && monthOf(*h.When, h.When.Months) == label {
				if down != "" {
					down += "; "
				}
				part, _ := l.Plan.Part(h.Parts[0])
				down += part.Line.Part.Name + " to " + tell.LengthIn(h.DownCm[0], "cm")
			}
		}
		row := []cell{text(label), text(down)}
		for _, id := range shown {
			r, _ := b.Get(id)
			row = append(row, number(r.Value, stCm))
		}
		s.add(row...)
	}
	return s
}

// monthOf is a month of the calendar, or so many from the day of measuring.
func monthOf(w sizing.Passing, months float64) string {
	if day := w.Day(months); !day.IsZero() {
		return day.Format("January 2006")
	}
	return fmt.Sprintf("in %.0f months", months)
}
