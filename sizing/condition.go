package sizing

import "math"

// A heightPoint is a height with what the basis has there. Those of the grid, on
// which heights are searched for, keep what was worked out.
type heightPoint struct {
	*stretch
	height   float64
	past     float64   // of the height, beyond the beginning of the stretch
	share    float64   // of the way from the middle of the stretch's band to that of the next
	run      *chartRun // of the default chart, that has the height; nil where none has
	position float64   // on it
	placed   bool
	kept     *kept // nil for none
}

// kept are logarithms, each 0 where not yet asked for.
type kept struct {
	height         float64
	medians, trade []float64 // of each measurement
}

// grid returns the heights that are searched for a child's.
func (s *sexGroup) grid() []heightPoint {
	if s.points != nil {
		return s.points
	}
	for i := 0; s.low+float64(i)*stepCm <= s.high; i++ {
		height, n := s.low+float64(i)*stepCm, len(s.methods)
		a := heightPoint{kept: &kept{math.Log(height), make([]float64, n), make([]float64, n)}}
		a.moveTo(s.basis, height)
		s.points = append(s.points, a)
	}
	return s.points
}

// moveTo moves a heightPoint to a height.
func (a *heightPoint) moveTo(b *basis, height float64) {
	a.height, a.placed = height, false
	a.stretch = b.stretchAt(height)
	a.past = height - a.stretch.from
	a.share = a.stretch.share.at(a.past)
}

// sd is the spread of a measurement of the relations among children of 1977.
func (a *heightPoint) sd(v int) float64 { return a.spread[v].at(a.past) }

// slope is how a measurement goes with weight, both as logarithms.
func (a *heightPoint) slope(v int) float64 { return a.slopes[v].at(a.past) }

// rest is the spread of a measurement that weight leaves.
func (a *heightPoint) rest(v int) float64 { return a.rests[v].at(a.past) }

// shift is by how much children of the median's weight part from the median.
func (a *heightPoint) shift(v int) float64 { return a.shifts[v].at(a.past) }

// correlations returns those of a measurement of the relations, weight being
// known, in the heightPoint's band, with what they gain on the way to the next.
func (a *heightPoint) correlations(rel *relations, v int) (r, rise []float64) {
	c := &rel.alike[a.band]
	return c.r[v], c.rise[v]
}

// median is the median of a measurement, NaN where it is not known by height.
func (a *heightPoint) median(m int) float64 {
	s := a.medians[m]
	if s == nil {
		return math.NaN()
	}
	return s.at(a.height)
}

// logMedian is its logarithm.
func (a *heightPoint) logMedian(m int) float64 {
	if a.kept == nil {
		return math.Log(a.median(m))
	}
	log := &a.kept.medians[m]
	if *log == 0 {
		*log = math.Log(a.median(m))
	}
	return *log
}

// trade is the default chart's figure of a measurement; NaN where it has none.
func (a *heightPoint) trade(s *sexGroup, m int) float64 {
	if a.onChart(s); a.run == nil {
		return math.NaN()
	}
	return a.run.value(m, a.position)
}

// logTrade is its logarithm.
func (a *heightPoint) logTrade(s *sexGroup, m int) float64 {
	if a.kept == nil {
		return math.Log(a.trade(s, m))
	}
	log := &a.kept.trade[m]
	if *log == 0 {
		*log = math.Log(a.trade(s, m))
	}
	return *log
}

// onChart finds the height on the default chart.
func (a *heightPoint) onChart(s *sexGroup) {
	if a.placed {
		return
	}
	a.placed, a.run = true, nil
	if s.height < 0 {
		return
	}
	for _, run := range s.trade {
		if position, ok := run.inverse(s.height, a.height); ok {
			a.run, a.position = run, position
			return
		}
	}
}
