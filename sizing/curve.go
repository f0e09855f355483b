package sizing

import (
	"fmt"
	"math"
	"slices"
	"sync/atomic"
)

// Method is a way to read a chart between its sizes.
type Method uint8

const (
	// Monotone is a piecewise cubic that passes through every size, bends
	// smoothly, and never leaves the range of the two sizes beside it
	// (F. N. Fritsch and J. Butland, "A method for constructing local monotone
	// piecewise cubic interpolants", SIAM J. Sci. Stat. Comput. 5, 1984).
	Monotone Method = iota
	// Linear is the average of two sizes by hand, in proportion.
	Linear
)

// A Curve reads a measurement between known points. It is safe for concurrent
// use and does not allocate.
type Curve struct {
	x, y   []float64
	rising bool // each value is above the one before
	// segments are nil until so many values between points were read that keeping them
	// is worth it: most runs of the program read a few.
	segments atomic.Pointer[[]segment]
	reads    atomic.Int32
}

// A segment is the cubic y + d·(slope + d·(square + d·cube)) at a distance d
// above its lower point.
type segment struct {
	x, y                float64 // its lower point
	low, high           float64 // of the values of its two points
	slope, square, cube float64
}

// newSegment makes the segment between two points, with the slopes there.
func newSegment(x0, x1, y0, y1, slope0, slope1 float64) segment {
	h := x1 - x0
	chord := (y1 - y0) / h
	return segment{x0, y0, min(y0, y1), max(y0, y1), slope0, (3*chord - 2*slope0 - slope1) / h, (slope0 + slope1 - 2*chord) / (h * h)}
}

// at reads the segment.
func (s *segment) at(x float64) float64 {
	// Rounding must not carry a reading outside its two points.
	return min(max(s.past(x-s.x), s.low), s.high)
}

// past is the cubic at a distance above the lower point, and rise its slope there.
func (s *segment) past(d float64) float64 { return s.y + d*(s.slope+d*(s.square+d*s.cube)) }
func (s *segment) rise(d float64) float64 { return s.slope + d*(2*s.square+d*3*s.cube) }

// NewCurve fits a curve through the points (x[i], y[i]). There must be at
// least one, all finite, with x strictly increasing.
func NewCurve(x, y []float64) (*Curve, error) {
	return curveOf(slices.Clone(x), slices.Clone(y))
}

// curveOf is NewCurve, and keeps x and y.
func curveOf(x, y []float64) (*Curve, error) {
	if len(x) == 0 || len(x) != len(y) {
		return nil, fmt.Errorf("%d positions and %d values do not make a curve", len(x), len(y))
	}
	for i := range x {
		if !finite(x[i]) || !finite(y[i]) {
			return nil, fmt.Errorf("point %d (%g, %g) is not finite", i, x[i], y[i])
		}
		if i > 0 && x[i] <= x[i-1] {
			return nil, fmt.Errorf("positions do not increase: %g after %g", x[i], x[i-1])
		}
	}
	c := &Curve{x: x, y: y, rising: true}
	for i := range len(y) - 1 {
		c.rising = c.rising && y[i] < y[i+1]
	}
	return c, nil
}

// kept are the segments from each point to the next; the last point has one of its own.
func (c *Curve) kept() []segment {
	if made := c.segments.Load(); made != nil {
		return *made
	}
	all := make([]segment, len(c.x))
	for i := range all {
		all[i] = c.segment(i)
	}
	c.segments.Store(&all)
	return all
}

// read is a segment, kept or not.
func (c *Curve) read(i int) segment {
	if c.segments.Load() == nil && int(c.reads.Add(1)) <= len(c.x) {
		return c.segment(i)
	}
	return c.kept()[i]
}

// segment makes the segment from a point to the next.
func (c *Curve) segment(i int) segment {
	x, y := c.x, c.y
	if i == len(x)-1 {
		return segment{x: x[i], y: y[i], low: y[i], high: y[i]}
	}
	return newSegment(x[i], x[i+1], y[i], y[i+1], c.slope(i), c.slope(i+1))
}

// slope is the slope of the curve at a point.
func (c *Curve) slope(i int) float64 {
	x, y, last := c.x, c.y, len(c.x)-1
	chord := func(i int) float64 { return (y[i+1] - y[i]) / (x[i+1] - x[i]) }
	switch {
	case last == 1:
		return chord(0)
	case i == 0:
		return edgeSlope(x[1]-x[0], x[2]-x[1], chord(0), chord(1))
	case i == last:
		return edgeSlope(x[i]-x[i-1], x[i-1]-x[i-2], chord(i-1), chord(i-2))
	}
	return innerSlope(x[i]-x[i-1], x[i+1]-x[i], chord(i-1), chord(i))
}

var inf = math.Inf(1)

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// innerSlope is Fritsch and Butland's weighted harmonic mean of the slopes on
// the two sides, and level where the points turn.
func innerSlope(hl, hr, left, right float64) float64 {
	if left*right <= 0 {
		return 0
	}
	wl, wr := 2*hr+hl, hr+2*hl
	return (wl + wr) / (wl/left + wr/right)
}

// edgeSlope is the three-point slope at an end, held to the shape of the data.
func edgeSlope(h0, h1, d0, d1 float64) float64 {
	s := ((2*h0+h1)*d0 - h0*d1) / (h0 + h1)
	switch {
	case s*d0 <= 0:
		return 0
	case d0*d1 <= 0 && math.Abs(s) > 3*math.Abs(d0):
		return 3 * d0
	}
	return s
}

// Range returns the lowest and the highest position the curve can be read at.
func (c *Curve) Range() (low, high float64) { return c.x[0], c.x[len(c.x)-1] }

// At reads the curve. Outside its range, and at NaN, it returns NaN: nothing
// is extrapolated.
func (c *Curve) At(x float64) float64 {
	i := c.find(x)
	switch {
	case i < 0:
		return math.NaN()
	case x == c.x[i]:
		return c.y[i]
	}
	if made := c.segments.Load(); made != nil {
		return (*made)[i].at(x)
	}
	s := c.read(i)
	return s.at(x)
}

// LinearAt reads straight between the two nearest points.
func (c *Curve) LinearAt(x float64) float64 {
	i := c.find(x)
	if i < 0 {
		return math.NaN()
	}
	if x == c.x[i] {
		return c.y[i]
	}
	t := (x - c.x[i]) / (c.x[i+1] - c.x[i])
	return c.y[i] + t*(c.y[i+1]-c.y[i])
}

// Read reads the curve by the method.
func (c *Curve) Read(x float64, m Method) float64 {
	if m == Linear {
		return c.LinearAt(x)
	}
	return c.At(x)
}

// find returns i such that x lies in [x[i], x[i+1]), the last point being a
// segment of its own, or -1.
func (c *Curve) find(x float64) int { return findIn(c.x, x) }

// findIn returns the index of the last of some rising numbers that is not above
// v, or -1 where v is outside all of them.
func findIn(x []float64, v float64) int {
	if !(v >= x[0] && v <= x[len(x)-1]) {
		return -1
	}
	low, high := 0, len(x) // x[low] <= v < x[high], could x[len(x)] be read
	for high-low > 1 {
		if middle := (low + high) / 2; v >= x[middle] {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// Inverse returns the positions at which the curve has the value v: the lowest
// and the highest, which differ where the curve is level at v or turns. ok is
// false where it never has it.
func (c *Curve) Inverse(v float64) (low, high float64, ok bool) {
	if c.rising { // it has a value once
		i := findIn(c.y, v)
		switch {
		case i < 0:
			return inf, -inf, false
		case c.y[i] == v:
			return c.x[i], c.x[i], true
		}
		x := c.solve(i, v)
		return x, x, true
	}
	low, high = inf, -inf
	found := func(x float64) { low, high = min(low, x), max(high, x) }
	for i, y := range c.y {
		if y == v {
			found(c.x[i])
		}
		if i+1 < len(c.y) && (v-y)*(v-c.y[i+1]) < 0 {
			found(c.solve(i, v))
		}
	}
	return low, high, low <= high
}

// solve finds x in segment i with value v: the curve is monotone there. It
// steps along the slope, and halves what is left where that leads outside.
func (c *Curve) solve(i int, v float64) float64 {
	s, a, b := c.read(i), 0.0, c.x[i+1]-c.x[i]
	rising := c.y[i+1] > c.y[i]
	d := b * (v - c.y[i]) / (c.y[i+1] - c.y[i])
	for range 60 {
		miss := s.past(d) - v
		if (miss < 0) == rising {
			a = d
		} else {
			b = d
		}
		next := d - miss/s.rise(d)
		if !(next >= a && next <= b) {
			next = (a + b) / 2
		}
		if math.Abs(next-d) < 1e-15*c.x[i+1] {
			break
		}
		d = next
	}
	return c.x[i] + d
}
