package workbook

import (
	"fmt"
	"math"
	"time"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
)

// child lays out what was measured of the child: the same table as the blank
// form, so that more can be filled in.
func (l *layout) child() *sheet {
	s := childForm(l.measurements)
	own := func(row int, v any, unit string) {
		s.rows[row-1][1].value = v
		if unit != "" {
			s.rows[row-1][2].value = unit
		}
	}
	if l.Child.Name != "" {
		own(l.factRow("name"), l.Child.Name, "")
	}
	if l.Child.Sex == sizing.Boy || l.Child.Sex == sizing.Girl {
		own(l.factRow("sex"), string(l.Child.Sex), "")
	}
	if l.Child.AgeYears > 0 {
		own(l.factRow("age"), l.Child.AgeYears, "years")
	}
	for _, day := range []struct {
		fact string
		on   time.Time
	}{{"born", l.Child.Born}, {"measured", l.Child.Measured}} {
		if !day.on.IsZero() {
			own(l.factRow(day.fact), day.on.Format(sizing.Day), "")
		}
	}
	for id, v := range l.Child.Own {
		own(l.childRow(id), v, "")
	}
	l.besideDoubts(s)
	return s
}

// besideDoubts puts what is in doubt beside its cell.
func (l *layout) besideDoubts(s *sheet) {
	doubts := l.Finished.Body.Questions
	if len(doubts) == 0 {
		return
	}
	s.rows[s.head-1] = append(s.rows[s.head-1], styled("check first", stWarn.head()))
	s.widths = append(s.widths, 60)
	for _, d := range doubts {
		row := l.factRow(d.Measurement)
		if d.Measurement != sizing.AgeField {
			row = l.childRow(d.Measurement)
		}
		s.rows[row-1] = append(s.rows[row-1], styled(tell.Style{}.Fact(d.Fact), stWarn))
	}
}

// ownCm is the formula of a measurement of the child in cm or kg, as filled in.
func (l *layout) ownCm(measurement string) (cell, inCm string) {
	row := l.childRow(measurement)
	cell, unit := on(childName, fixed(2, row)), on(childName, fixed(3, row))
	if l.measurements[l.order(measurement)].Unit == "kg" {
		return cell, cell + `*IF(` + unit + `="lb",` + literal(sizing.KgPerPound) + `,1)`
	}
	return cell, cell + `*IF(` + unit + `="in",2.54,IF(` + unit + `="mm",0.1,1))`
}

// Columns of the sheet of body measurements.
const (
	bodyColumn     = 2 // the child's
	bodyHowColumn  = 3
	bodyLowColumn  = 4
	bodyHighColumn = 5
	bodySizes      = 6 // first of the sizes
)

// bodyCell is the child's measurement in cm.
func (l *layout) bodyCell(measurement string) string {
	return on(bodyName, fixed(bodyColumn, l.bodyRow(measurement)))
}

// body lays out the body with its ranges, beside the sizes of the chart.
func (l *layout) body() *sheet {
	readings := l.Finished.Body.Readings
	s := &sheet{name: bodyName, widths: []float64{30, 12, 27, 9, 9}, freeze: 2, filter: true, unprinted: true}
	for range l.Sizes {
		s.widths = append(s.widths, 8)
	}
	s.widths = append(s.widths, 44)
	s.heading("Body measurements", "In cm, weight in kg. A measurement filled in on the sheet "+childName+
		" replaces the estimate at once; the other estimates follow when the program makes the plan again. The range holds about eight of ten US children with the same measurements, of 1975–77 or of 1999–2016, or is the chart's own.")
	titles := []string{"measurement, cm", wearer(l.Child), "where it comes from", "low", "high"}
	for _, z := range l.Sizes {
		titles = append(titles, "size "+z.Label)
	}
	s.head = s.header(append(titles, "notes")...)
	for _, r := range readings {
		own, inCm := l.ownCm(r.Measurement.ID)
		exact := literal(r.Value)
		row := []cell{
			text(tell.Style{}.Named(r)),
			calc("IF("+own+`&""="",`+exact+",IFERROR("+inCm+","+exact+"))", r.Value, stCm),
			styled(tell.Style{}.How(r), stWrap), blank(stCm), blank(stCm),
		}
		if r.Spread != "" && isNumber(r.Low) && isNumber(r.High) {
			row[3], row[4] = number(r.Low, stCm), number(r.High, stCm)
		}
		notes := tell.Style{}.Facts(r.Notes)
		for _, z := range l.Sizes {
			c := blank(stCm)
			if v, ok := z.Body.Get(r.Measurement.ID); ok {
				c = number(v.Value, stCm)
				notes = append(notes, tell.Style{}.Facts(v.Notes)...)
			}
			row = append(row, c)
		}
		s.add(append(row, styled(tell.Once(notes), stWrap))...)
	}
	return s
}

// inches lays out the same in inches, for reading.
func (l *layout) inches() *sheet {
	readings := l.Finished.Body.Readings
	s := &sheet{name: inchesName, widths: []float64{36, 13, 11, 11}, freeze: 2, filter: true, unprinted: true}
	s.heading("Body measurements in inches", "To the nearest quarter inch, as published where the chart prints inches; weight in pounds. Fill in measurements on the sheet "+childName+".")
	titles := []string{"measurement, in", wearer(l.Child), "low", "high"}
	for _, z := range l.Sizes {
		titles = append(titles, "size "+z.Label)
		s.widths = append(s.widths, 11)
	}
	s.head = s.header(titles...)
	for i, r := range readings {
		quarter := func(v float64) cell {
			if r.Measurement.Unit == "kg" {
				return number(v, stCm)
			}
			return number(math.Round(v*4)/4, stQuarters)
		}
		per := sizing.CmPerInch
		if r.Measurement.Unit == "kg" {
			per = sizing.KgPerPound
		}
		child := calc("MROUND("+l.imperial(r, on(bodyName, fixed(bodyColumn, bodyFirst+i)))+",0.25)", math.Round(r.Imperial*4)/4, stQuarters)
		if r.Measurement.Unit == "kg" {
			child = calc(l.imperial(r, on(bodyName, fixed(bodyColumn, bodyFirst+i))), r.Imperial, stCm)
		}
		row := []cell{text(tell.Style{Unit: "in"}.Named(r)), child, blank(stCm), blank(stCm)}
		if r.Spread != "" && isNumber(r.Low) && isNumber(r.High) {
			row[2], row[3] = quarter(r.Low/per), quarter(r.High/per)
		}
		for _, z := range l.Sizes {
			c := blank(stCm)
			if v, ok := z.Body.Get(r.Measurement.ID); ok {
				c = quarter(v.Imperial)
			}
			row = append(row, c)
		}
		s.add(row...)
	}
	return s
}

// imperial is the formula of a measurement in inches or pounds: as published
// while the cell in cm is as it was, so that 23 in does not become 22.99.
func (l *layout) imperial(r sizing.Reading, cm string) string {
	per := sizing.CmPerInch
	if r.Measurement.Unit == "kg" {
		per = sizing.KgPerPound
	}
	if r.Imperial == r.Value/per {
		return cm + "/" + literal(per)
	}
	return fmt.Sprintf("IF(%s=%s,%s,%s/%s)", cm, literal(r.Value), literal(r.Imperial), cm, literal(per))
}

func isNumber(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
