package main

import (
	"fmt"
	"math"

	"growtuck/sizing"
)

// The ways without an estimate that the estimates are judged against.
const (
	byHeight = "nearest size by height"
	byChest  = "best size by chest"
	between  = "size by chest, between sizes"
	measured = "measured chart at the height"
)

// A method is one way to find a child's measurements, and its result.
type method struct {
	name string
	body *sizing.Body
	own  map[string]float64 // what the method was told
}

// estimate returns the reading of a measurement that the method was not told.
func (m method) estimate(id string) (sizing.Reading, bool) {
	if _, told := m.own[id]; told {
		return sizing.Reading{}, false
	}
	return m.body.Get(id)
}

// chartMethods reads the charts for a child: the default chart at the size whose
// height is nearest and at the size whose chest is nearest, whole sizes both,
// and the measured chart at the child's height. Beyond the chart's ends the
// smallest or the largest size is the nearest; such chests are counted.
func (r *results) chartMethods(ref *sizing.Reference, c child) ([]method, error) {
	chart, err := ref.Chart("child")
	if err != nil {
		return nil, err
	}
	sizes, ok := chart.Run(sizing.Years, sizing.Sex(c.sex))
	if !ok {
		return nil, fmt.Errorf("chart child has no sizes by years for sex %s", c.sex)
	}
	methods := []method{{byHeight, ref.BodyAt(nearest(sizes, "height", c.height), sizing.Monotone), nil}}
	if chest := c.value("chest"); !math.IsNaN(chest) {
		methods = append(methods, method{byChest, ref.BodyAt(nearest(sizes, "chest", chest), sizing.Monotone),
			map[string]float64{"chest": chest}})
		if span, err := chart.SizeOf("chest", chest, sizing.Sex(c.sex)); err == nil && span.Run == sizes {
			methods = append(methods, method{between, ref.BodyAt(sizing.Place{Run: sizes, Position: span.From}, sizing.Monotone),
				map[string]float64{"chest": chest}})
		}
		if chest < sizes.Value("chest", sizes.Sizes[0].Position) {
			r.beyond[0]++
		}
		if chest > sizes.Value("chest", sizes.Sizes[len(sizes.Sizes)-1].Position) {
			r.beyond[1]++
		}
	}
	if chart, err = ref.Chart("measured"); err != nil {
		return nil, err
	}
	place, err := chart.AtHeight(c.height, sizing.Sex(c.sex))
	if err != nil {
		return nil, err
	}
	return append(methods, method{measured, ref.BodyAt(place, sizing.Monotone), nil}), nil
}

// nearest returns the size of the run whose measurement is closest to a value;
// of two equally close, the smaller.
func nearest(run *sizing.Run, measurement string, value float64) sizing.Place {
	best, least := sizing.Place{Run: run}, math.Inf(1)
	for _, m := range run.Sizes {
		if d := math.Abs(run.Value(measurement, m.Position) - value); d < least {
			best.Position, least = m.Position, d
		}
	}
	return best
}
