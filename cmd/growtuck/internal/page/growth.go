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
	Bottom     string     // where the curves' field ends
	Right      string
	Middle     string
	Curves     []growthCurve
	Words      string // what is shown, for those who do not see it
	Scale      string
	Tucks      []string // folds with when each is let down, in words
}

type gridLine struct {
	At    string
	Label string
}

// A growthCurve is one measurement: its path, and the sizes as dots.
type growthCurve struct {
	Name, Path string
	Dots       []dot
	Bars       []bar // what eight in ten children have
	Folds      []dot // when folds are let down
	Kind       int   // how it is drawn: 0 to 5
}

type dot struct{ X, Y string }

type bar struct{ X, Low, High string }

const (
	growthWide, growthHigh  = 380, 400 // as wide as a phone shows at full size
	growthLeft, growthRight = 34, 14
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
	bodies := make(map[float64]*sizing.Body)
	// children are those who are as tall as a size is for.
	children := func(run *sizing.Run, at float64) *sizing.Body {
		if b, known := bodies[at]; known {
			return b
		}
		b, err := s.engine.Reference.Estimate(sizing.Child{Sex: sex, Own: map[string]float64{"height": run.Value("height", at)}})
		if err != nil {
			b = &sizing.Body{}
		}
		bodies[at] = b
		return b
	}
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
		for _, z := range run.Sizes {
			if r, ok := children(run, z.Position).Get(c.Value); ok && z.Position >= low && z.Position <= high && r.Spread == sizing.EightInTen {
				least, most = math.Min(least, r.Low), math.Max(most, r.High)
			}
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
	g := &growthView{Wide: growthWide, High: growthHigh, Bottom: pixel(growthHigh - growthBottom), Right: pixel(growthWide - growthRight), Middle: pixel(growthLeft + (growthWide-growthLeft-growthRight)/2), Scale: map[sizing.Scale]string{sizing.Height: "height, cm", sizing.Months: "size, months", sizing.Years: "size"}[run.Scale]}
	before := math.Inf(-1)
	for _, m := range run.Sizes {
		if m.Position < first || m.Position > last || x(m.Position)-before < 22 {
			continue
		}
		before = x(m.Position)
		g.Across = append(g.Across, gridLine{pixel(before), strings.TrimSuffix(m.Size, "cm")})
	}
	for v := least; v <= most; v += step {
		g.Up = append(g.Up, gridLine{pixel(y(v)), tell.LengthIn(v, unit)})
	}
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
				if r, ok := children(run, m.Position).Get(l.id); ok && r.Spread == sizing.EightInTen && r.Low >= least && r.High <= most {
					c.Bars = append(c.Bars, bar{pixel(x(m.Position)), pixel(y(r.Low)), pixel(y(r.High))})
				}
			}
		}
		words = append(words, fmt.Sprintf("%s from %s to %s %s", l.name, tell.LengthIn(run.Value(l.id, l.low), unit), tell.LengthIn(run.Value(l.id, l.high), unit), unit))
		g.Curves = append(g.Curves, c)
	}
	g.Words = "Growth along chart " + chart.ID + ": " + strings.Join(words, "; ") + ". A bar at a size is what eight in ten US children of its height have, of 1975–77 or 1999–2016."
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

func pixel(v float64) string { return fmt.Sprintf("%.1f", v) }
