package sizing

import (
	"math"

	"growtuck/data"
)

// A chartRun is a run whose columns are found by the numbers of measurements in
// their table. It is for one goroutine.
type chartRun struct {
	*Run
	measurements []data.Measurement
	columns      []*column
	lookedUp     []bool // by column
}

func newChartRun(r *Run, measurements []data.Measurement) *chartRun {
	return &chartRun{r, measurements, make([]*column, len(measurements)), make([]bool, len(measurements))}
}

// numbered returns the column of a measurement, nil where the run has none.
func (r *chartRun) numbered(m int) *column {
	if !r.lookedUp[m] {
		r.columns[m], r.lookedUp[m] = r.column(r.measurements[m].ID), true
	}
	return r.columns[m]
}

// value reads a measurement at a position. It is NaN where the run does not have
// it.
func (r *chartRun) value(m int, position float64) float64 {
	c := r.numbered(m)
	if c == nil || c.values == nil {
		return math.NaN()
	}
	return c.values.At(position)
}

// inverse returns the lowest position at which a measurement has a value.
func (r *chartRun) inverse(m int, value float64) (position float64, ok bool) {
	c := r.numbered(m)
	if c == nil || c.values == nil {
		return 0, false
	}
	position, _, ok = c.values.Inverse(value)
	return position, ok
}
