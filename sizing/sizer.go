package sizing

import (
	"errors"
	"fmt"
	"math"
)

// Bulk says what a [Sizer] is given of each child, and what it fills in.
type Bulk struct {
	Known []string // ids of measurements, in the order in which they are given
	Want  []string // ids of measurements, in the order in which they are filled in
}

// A Figure is a [Reading] without its account. Value is in cm, or kg for
// weight, and NaN where it is not known. Low and High are the range that Spread
// names, and 0 where it is "".
type Figure struct {
	Value, Low, High float64
	Spread           string
	Got              Got
}

// A Sizer estimates the measurements of many children. It gives the figures
// that [Reference.Estimate] gives, without their accounts, and keeps what
// children have in common of whom the same things are known. After the first
// child of each such kind it does not allocate.
//
// A Sizer is for one goroutine at a time; make one for each.
type Sizer struct {
	ref  *Reference
	bulk Bulk
}

// Sizer makes a sizer. It refuses a measurement that is not known, and one that
// is named twice in one list.
func (ref *Reference) Sizer(b Bulk) (*Sizer, error) {
	var errs []error
	for _, ids := range [][]string{b.Known, b.Want} {
		seen := make(map[string]bool)
		for _, id := range ids {
			if ref.measurements[id] == nil {
				errs = append(errs, unknown("measurement", id, keys(ref.order)))
			} else if seen[id] {
				errs = append(errs, fmt.Errorf("measurement %s is named twice", id))
			}
			seen[id] = true
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	return &Sizer{ref, b}, nil
}

// Size fills in one child. own holds the child's measurements in the order of
// Bulk.Known, NaN for what was not taken; ageYears is 0 if not known; out is
// filled in the order of Bulk.Want. Its errors are those of
// [Reference.Estimate]; out then holds nothing of use. questions reports that
// there are doubts about the child's own measurements, which Estimate puts into
// words in Body.Questions.
func (s *Sizer) Size(sex Sex, ageYears float64, own []float64, out []Figure) (questions bool, err error) {
	if len(own) != len(s.bulk.Known) || len(out) != len(s.bulk.Want) {
		return false, fmt.Errorf("%d measurements and %d figures; this sizer takes %d and fills in %d",
			len(own), len(out), len(s.bulk.Known), len(s.bulk.Want))
	}
	c := Child{Sex: sex, AgeYears: ageYears, Own: make(map[string]float64)}
	for i, id := range s.bulk.Known {
		if !math.IsNaN(own[i]) {
			c.Own[id] = own[i]
		}
	}
	b, err := s.ref.Estimate(c)
	if err != nil {
		return false, err
	}
	for i, id := range s.bulk.Want {
		out[i] = Figure{Value: math.NaN()}
		if r, ok := b.Get(id); ok {
			out[i] = Figure{r.Value, r.Low, r.High, r.Spread, r.Got}
		}
	}
	return len(b.Questions) > 0, nil
}
