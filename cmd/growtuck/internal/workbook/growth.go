package workbook

import (
	"math"
	"unicode/utf8"

	"growtuck/sizing"
)

// grown are the measurements whose growth is shown.
var grown = []string{"chest", "inside_leg", "arm_to_underarm", "foot_length"}

// A Growth is how chosen measurements grow with the sizes of a chart, and
// where a body is among them, by its height.
type Growth struct {
	names  []string
	labels []string
	usual  [][]float64 // by measurement, by label; NaN where the chart has none
	own    []float64   // by measurement
	stands int         // label of the body; -1: not between the sizes
}

// NewGrowth reads the sizes of a chart. The body's own column is among them
// where the chart has its height.
func NewGrowth(ref *sizing.Reference, chart *sizing.Chart, b *sizing.Body, c sizing.Child) *Growth {
	g := &Growth{stands: -1}
	label := wearer(c)
	run, ok := chart.Run(sizing.Years, c.Sex)
	var at sizing.Place
	if h, known := b.Get("height"); known {
		if p, err := chart.AtHeight(h.Value, c.Sex); err == nil {
			at, run, ok = p, p.Run, true
		}
	}
	if !ok {
		return nil
	}
	var positions []float64
	for _, m := range run.Sizes {
		if at.Run != nil && g.stands < 0 && m.Position > at.Position {
			g.stands = len(positions)
			positions, g.labels = append(positions, at.Position), append(g.labels, label)
		}
		positions, g.labels = append(positions, m.Position), append(g.labels, m.Size)
	}
	if at.Run != nil && g.stands < 0 {
		g.stands = len(positions)
		positions, g.labels = append(positions, at.Position), append(g.labels, label)
	}
	for _, id := range grown {
		r, known := b.Get(id)
		m, err := ref.Measurement(id)
		if !known || err != nil {
			continue
		}
		values := make([]float64, len(positions))
		for i, p := range positions {
			values[i] = run.Value(id, p)
		}
		g.names, g.usual, g.own = append(g.names, m.Name), append(g.usual, values), append(g.own, r.Value)
	}
	return g
}

// A chart is a line chart of columns of the sheet.
type chart struct {
	cell         string
	title        string
	first, last  int // rows
	series       int // columns of growth, from the second
	own          bool
	xTitle, unit string
}

// growth lays out the line chart and the table that it shows.
func (l *layout) growth() *sheet {
	s := &sheet{name: chartName, widths: []float64{14}, unprinted: true}
	g := l.Growth
	if g == nil || len(g.names) == 0 {
		s.widths = []float64{90}
		s.heading("Growth", "The chart has no sizes to show for this body.")
		return s
	}
	for _, label := range g.labels {
		s.widths[0] = max(s.widths[0], float64(utf8.RuneCountInString(label)+2))
	}
	titles := []string{"size"}
	for _, n := range g.names {
		titles = append(titles, n)
		s.widths = append(s.widths, 15)
	}
	if g.stands >= 0 {
		for _, n := range g.names {
			titles = append(titles, wearer(l.Child)+": "+n)
			s.widths = append(s.widths, 15)
		}
	}
	s.heading("Growth with size", "In cm. Lines are the chart's sizes; single marks are "+wearer(l.Child)+", at the child's height. A mark above its line means wider or longer than usual at that height.")
	s.head = s.header(titles...)
	first := s.next()
	for i, label := range g.labels {
		row := []cell{text(label)}
		for _, values := range g.usual {
			c := blank(stCm)
			if !math.IsNaN(values[i]) {
				c.value = values[i]
			}
			row = append(row, c)
		}
		if g.stands >= 0 {
			for _, v := range g.own {
				c := blank(stCm)
				if i == g.stands {
					c.value = v
				}
				row = append(row, c)
			}
		}
		s.add(row...)
	}
	s.chart = &chart{cell: at(1, s.next()+1), title: "How measurements grow with size", first: first, last: s.next() - 1,
		series: len(g.names), own: g.stands >= 0, xTitle: "size", unit: "cm"}
	return s
}
