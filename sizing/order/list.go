package order

import (
	"fmt"
	"math"
)

// A List is what the children of a list measure, in cm, each in the same
// measurements.
type List struct {
	measurements int
	figures      []float64 // child by child
}

// NewList makes an empty list of that many measurements for each child.
func NewList(measurements int) (*List, error) {
	if measurements < 1 {
		return nil, fmt.Errorf("%d measurements; a list has at least one", measurements)
	}
	return &List{measurements: measurements}, nil
}

// Add adds children: one after the other, each with all measurements. It adds
// none where a figure is not above 0 and finite.
func (l *List) Add(figures ...float64) error {
	if len(figures)%l.measurements != 0 {
		return fmt.Errorf("%d figures do not make whole children of %d measurements", len(figures), l.measurements)
	}
	for i, v := range figures {
		if !isLength(v) {
			return fmt.Errorf("figure %d is not a length in cm", i+1)
		}
	}
	l.figures = append(l.figures, figures...)
	return nil
}

// Len is the number of children.
func (l *List) Len() int { return len(l.figures) / l.measurements }

// Child returns the figures of a child. They are shared with the list and must
// not be changed.
func (l *List) Child(i int) []float64 {
	return l.figures[i*l.measurements : (i+1)*l.measurements]
}

// Column returns one measurement of all children.
func (l *List) Column(m int) []float64 {
	out := make([]float64, l.Len())
	for i := range out {
		out[i] = l.Child(i)[m]
	}
	return out
}

func isLength(v float64) bool { return v > 0 && v <= math.MaxFloat64 }

// checkOffer refuses an offer that does not fit the list.
func (l *List) checkOffer(offer [][]float64) error {
	if l.Len() == 0 {
		return fmt.Errorf("no children to plan for")
	}
	if len(offer) == 0 {
		return fmt.Errorf("no sizes to choose from")
	}
	for i, s := range offer {
		if len(s) != l.measurements {
			return fmt.Errorf("size %d has %d measurements, the children %d", i+1, len(s), l.measurements)
		}
		for _, v := range s {
			if !isLength(v) {
				return fmt.Errorf("size %d: a figure is not a length in cm", i+1)
			}
		}
	}
	return nil
}
