package order

import "fmt"

// A Plan is how many of each size to make, and the misfit it leaves.
type Plan struct {
	Counts []int   // of each size of the offer
	Sizes  []int32 // of each child, an index of the offer
	Cost   float64
	// Fitted are the children with every measurement within the tolerance.
	Fitted int
	Fits   []Fit // of each measurement
}

// A Fit is how the sizes fit in one measurement. The rest of the children are
// within the tolerance.
type Fit struct {
	TooSmall, TooBig Count
}

// A Count is children for whom a size is too small, or too big, by more than
// the tolerance, and by how many cm on average and at most.
type Count struct {
	Children int
	MeanCm   float64
	MostCm   float64
}

func (c *Count) add(cm float64) {
	c.Children++
	c.MeanCm += (cm - c.MeanCm) / float64(c.Children)
	c.MostCm = max(c.MostCm, cm)
}

// Assign gives every child the size of the offer that costs least, the first
// where several cost the same. tolerance is how many cm a size may be off before
// it counts as too small or too big.
func Assign(l *List, offer [][]float64, m Misfit, tolerance float64) (*Plan, error) {
	if err := m.Check(); err != nil {
		return nil, err
	}
	if err := l.checkOffer(offer); err != nil {
		return nil, err
	}
	if err := CheckTolerance(tolerance); err != nil {
		return nil, err
	}
	p := &Plan{Counts: make([]int, len(offer)), Fits: make([]Fit, l.measurements), Sizes: make([]int32, l.Len())}
	for i := range l.Len() {
		child := l.Child(i)
		size, cost := m.nearest(child, offer)
		p.Counts[size]++
		p.Sizes[i] = int32(size)
		p.Cost += cost
		fitted := true
		for j, need := range child {
			off := offer[size][j] - need
			switch {
			case off < -tolerance-noDifference:
				p.Fits[j].TooSmall.add(-off)
				fitted = false
			case off > tolerance+noDifference:
				p.Fits[j].TooBig.add(off)
				fitted = false
			}
		}
		if fitted {
			p.Fitted++
		}
	}
	return p, nil
}

// noDifference is a length in cm too small to measure: 64.4 − 61.9 is 2.5 and a
// little more in binary fractions.
const noDifference = 1e-9

// CheckTolerance refuses a tolerance outside 0 to 100 cm.
func CheckTolerance(cm float64) error {
	if !(cm >= 0 && cm <= 100) {
		return fmt.Errorf("a tolerance of %g cm is not between 0 and 100", cm)
	}
	return nil
}
