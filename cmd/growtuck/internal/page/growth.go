package page

import (
	"fmt"
	"math"
	"strings"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
)

// A growthView is how measurements grow with the sizes of a chart, as curves.
type growthView struct {
	Wide, High int
	Across     []gridLine // sizes
	Up         []gridLine // lengths
	Curves     []growthCurve
	Words      string // what is shown, for those who do not see it
	Scale      string
}

type gridLine struct {
	At    string
	Label string
}

// A growthCurve is one measurement: its path, the sizes as dots, and where its
// name is.
type growthCurve struct {
	Name, Path   string
	Dots         []dot
	NameX, NameY string
	Kind         int // how it is drawn: 0 to 5
	Words        string
}

type dot struct{ X, Y string }

const (
	growthWide, growthHigh  = 720, 420
	growthLeft, growthRight = 44, 150
	growthTop, growthBottom = 14, 40
	growthSteps             = 60
	maxCurves               = 8
)

// growth draws the chosen measurements along the run of sizes that most of
// the places are on.
func (s *site) growth(chosen []field, unit string, chart *sizing.Chart, sex sizing.Sex, places []sizing.Place) *growthView {
	run := runOf(chart, sex, places)
	if run == nil {
		return nil
	}
	type line struct {
		id, name  string
		low, high float64
	}
	var lines []line
	least, most, first, last := math.Inf(1), 0.0, math.Inf(1), math.Inf(-1)
	for _, c := range chosen {
		m, err := s.engine.Reference.Measurement(c.Value)
		low, high, ok := run.Has(c.Value)
		if err != nil || !c.Checked || !ok || m.Unit != "cm" || len(lines) == maxCurves {
			continue
		}
		lines = append(lines, line{m.ID, m.Name, low, high})
		first, last = math.Min(first, low), math.Max(last, high)
		for i := range growthSteps + 1 {
			v := run.Value(m.ID, low+(high-low)*float64(i)/growthSteps)
			least, most = math.Min(least, v), math.Max(most, v)
		}
	}
	if len(lines) == 0 || !(last > first) {
		return nil
	}
	step := 10.0
	if most-least > 80 {
		step = 20
	}
	least, most = math.Floor(least/step)*step, math.Ceil(most/step)*step
	if most == least {
		most += step
	}
	x := func(p float64) float64 {
		return growthLeft + (p-first)/(last-first)*(growthWide-growthLeft-growthRight)
	}
	y := func(v float64) float64 {
		return growthHigh - growthBottom - (v-least)/(most-least)*(growthHigh-growthTop-growthBottom)
	}
	g := &growthView{Wide: growthWide, High: growthHigh, Scale: map[sizing.Scale]string{sizing.Height: "height, cm", sizing.Months: "size, months", sizing.Years: "size"}[run.Scale]}
	before := math.Inf(-1)
	for _, m := range run.Sizes {
		if m.Position < first || m.Position > last || x(m.Position)-before < 26 {
			continue
		}
		before = x(m.Position)
		g.Across = append(g.Across, gridLine{pixel(before), strings.TrimSuffix(m.Size, "cm")})
	}
	for v := least; v <= most; v += step {
		g.Up = append(g.Up, gridLine{pixel(y(v)), tell.LengthIn(v, unit)})
	}
	ends := []float64{}
	var words []string
	for i, l := range lines {
		c := growthCurve{Name: l.name, Kind: i % 6}
		var path strings.Builder
		for j := range growthSteps + 1 {
			p := l.low + (l.high-l.low)*float64(j)/growthSteps
			move := "L"
			if j == 0 {
				move = "M"
			}
			fmt.Fprintf(&path, "%s%s %s", move, pixel(x(p)), pixel(y(run.Value(l.id, p))))
		}
		c.Path = path.String()
		for _, m := range run.Sizes {
			if m.Position >= l.low && m.Position <= l.high {
				c.Dots = append(c.Dots, dot{pixel(x(m.Position)), pixel(y(run.Value(l.id, m.Position)))})
			}
		}
		at := free(y(run.Value(l.id, l.high)), ends)
		ends = append(ends, at)
		c.NameX, c.NameY = pixel(x(l.high)+8), pixel(at+4)
		words = append(words, fmt.Sprintf("%s from %s to %s %s", l.name, tell.LengthIn(run.Value(l.id, l.low), unit), tell.LengthIn(run.Value(l.id, l.high), unit), unit))
		g.Curves = append(g.Curves, c)
	}
	g.Words = "Growth along chart " + chart.ID + ": " + strings.Join(words, "; ") + "."
	return g
}

// runOf is the run that most of the places are on, the first of several; without
// one, the chart's first that can be read.
func runOf(chart *sizing.Chart, sex sizing.Sex, places []sizing.Place) *sizing.Run {
	var most *sizing.Run
	count := map[*sizing.Run]int{}
	for _, p := range places {
		if p.Run.Scale != sizing.Band {
			count[p.Run]++
		}
	}
	for _, p := range places {
		if count[p.Run] > count[most] {
			most = p.Run
		}
	}
	if most != nil {
		return most
	}
	for _, scale := range []sizing.Scale{sizing.Years, sizing.Height, sizing.Months} {
		if run, ok := chart.Run(scale, sex); ok {
			return run
		}
	}
	return nil
}

// free moves a name up or down until it is clear of the others.
func free(at float64, others []float64) float64 {
	const room = 15
	for step := 0.0; step < 200; step++ {
		for _, y := range []float64{at - step, at + step} {
			clear := true
			for _, o := range others {
				clear = clear && math.Abs(y-o) >= room
			}
			if clear {
				return y
			}
		}
	}
	return at
}

func pixel(v float64) string { return fmt.Sprintf("%.1f", v) }
