//go:build !nobooks

package workbook

import (
	"math"

	"github.com/xuri/excelize/v2"
)

// seriesInks are the colours of a chart's measurements, distinct also for readers
// who cannot tell red from green.
var seriesInks = []string{"0B6E99", "B5541A", "5B4B8A", "4A7A2B"}

// chart draws the sheet's chart: a line for each measurement, and marks for the
// child, each size at its place: on an axis of names every line would bend where
// sizes lie closer together.
func (x *xlsx) chart(s *sheet) error {
	if s.chart == nil {
		return nil
	}
	c := s.chart
	symbols := []string{"circle", "square", "diamond", "triangle"}
	column := func(col int) string { return on(s.name, fixed(col, c.first)+":"+fixed(col, c.last)) }
	var series []excelize.ChartSeries
	for i := range c.series {
		ink := seriesInks[i%len(seriesInks)]
		series = append(series, excelize.ChartSeries{
			Name: on(s.name, fixed(3+i, s.head)), Categories: column(2), Values: column(3 + i),
			Fill:   excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{ink}}, // of the line
			Line:   excelize.LineOptions{Type: excelize.LineSolid, Width: 2},
			Marker: excelize.ChartMarker{Symbol: "none"},
		})
	}
	for i := 0; c.own && i < c.series; i++ {
		fill := excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{seriesInks[i%len(seriesInks)]}}
		series = append(series, excelize.ChartSeries{
			Name: on(s.name, fixed(3+c.series+i, s.head)), Categories: column(2), Values: column(3 + c.series + i),
			Line:   excelize.LineOptions{Type: excelize.LineNone},
			Marker: excelize.ChartMarker{Symbol: symbols[i%len(symbols)], Size: 9, Fill: fill},
		})
	}
	title := func(t string) excelize.ChartTitle {
		return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: t, Font: &excelize.Font{Size: 11, Color: ink}}}}
	}
	low, high := math.Floor(c.low), math.Ceil(c.high)
	return x.file.AddChart(s.name, c.cell, &excelize.Chart{
		Type: excelize.Scatter, Series: series, Title: title(c.title),
		Legend:       excelize.ChartLegend{Position: "bottom"},
		Dimension:    excelize.ChartDimension{Width: 960, Height: 440},
		XAxis:        excelize.ChartAxis{Title: title(c.xTitle), Minimum: &low, Maximum: &high, Font: excelize.Font{Size: 9, Color: ink}},
		YAxis:        excelize.ChartAxis{Title: title(c.unit), MajorGridLines: true, Font: excelize.Font{Size: 9, Color: ink}},
		ShowBlanksAs: "gap",
		Format:       excelize.GraphicOptions{Positioning: "oneCell", AltText: c.title},
	})
}
