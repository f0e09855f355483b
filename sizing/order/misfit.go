package order

import "fmt"

// Misfit says what it costs that a size is not what a child measures: a
// centimetre too big costs 1, a centimetre too small Small. Costs of several
// measurements are added. For one measurement and a size made for it, the
// best figure is then such that Small children of Small+1 are no bigger
// (Koenker and Bassett, "Regression quantiles", Econometrica 46, 1978, have
// this cost; from memory).
type Misfit struct {
	Small float64
}

// maxSmall bounds what a centimetre too small may cost.
const maxSmall = 1000

// Check refuses a cost that is out of range.
func (m Misfit) Check() error {
	if !(m.Small >= 1.0/maxSmall && m.Small <= maxSmall) {
		return fmt.Errorf("a centimetre too small cannot count %g times one too big; use %g to %d", m.Small, 1.0/maxSmall, maxSmall)
	}
	return nil
}

// of is the cost of one measurement.
func (m Misfit) of(need, offer float64) float64 {
	return max(offer-need, m.Small*(need-offer))
}

// cost is the cost of all measurements of a child.
func (m Misfit) cost(child, size []float64) float64 {
	total := 0.0
	for i, need := range child {
		total += m.of(need, size[i])
	}
	return total
}

// nearest returns the size that costs least, the first of equals.
func (m Misfit) nearest(child []float64, offer [][]float64) (size int, cost float64) {
	for i, s := range offer {
		if c := m.cost(child, s); i == 0 || c < cost {
			size, cost = i, c
		}
	}
	return size, cost
}
