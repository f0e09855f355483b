package main

import (
	"math"

	"growtuck/sizing"
)

// A score sums up how far estimates were from what was measured.
type score struct {
	n          int
	squares    float64 // cm²
	logs       float64 // sum of ln(measured/estimated)
	logSquares float64 // and of its squares
	ranged     int     // estimates with a range p10–p90
	inside     int     // of those, measured values within it
	below      int     // and below it
}

// scoreOf returns the score of one reading.
func scoreOf(value float64, r sizing.Reading) score {
	d, l := value-r.Value, math.Log(value/r.Value)
	s := score{n: 1, squares: d * d, logs: l, logSquares: l * l}
	if r.Spread == sizing.EightInTen {
		s.ranged = 1
		switch {
		case value < r.Low:
			s.below = 1
		case value <= r.High:
			s.inside = 1
		}
	}
	return s
}

func (s *score) add(t score) {
	s.n += t.n
	s.squares += t.squares
	s.logs += t.logs
	s.logSquares += t.logSquares
	s.ranged += t.ranged
	s.inside += t.inside
	s.below += t.below
}

// cm is the root mean square error; NaN of nothing.
func (s score) cm() float64 { return math.Sqrt(s.squares / float64(s.n)) }

// percent is 100 times the root mean square error of the logarithm.
func (s score) percent() float64 { return 100 * math.Sqrt(s.logSquares/float64(s.n)) }

// bias is by how much measured values are larger than estimated ones, in %.
func (s score) bias() float64 { return 100 * s.logs / float64(s.n) }

// coverage is the percentage of measured values within their range.
func (s score) coverage() float64 { return 100 * float64(s.inside) / float64(s.ranged) }
