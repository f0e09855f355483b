package sizing

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Bulk says what a [Sizer] is given of each child, and what it fills in.
type Bulk struct {
	Known []string // ids of measurements, in the order in which they are given
	Want  []string // ids of measurements, in the order in which they are filled in
}

// A Sizer estimates the measurements of many children. It gives the figures
// that [Reference.Estimate] gives, without their origins, and reuses what it
// worked out for children with the same measurements known. After the first few
// children of each such kind it does not allocate.
//
// A Sizer is for one goroutine at a time; make one for each.
type Sizer struct {
	ref         *Reference
	known, want []int // measurements, numbered as in their table
	e           *estimator
}

// Sizer makes a sizer. It refuses a measurement that is not known, and one that
// is named twice in one list.
func (ref *Reference) Sizer(b Bulk) (*Sizer, error) {
	known, errKnown := ref.numbers(b.Known)
	want, errWant := ref.numbers(b.Want)
	if err := errors.Join(errKnown, errWant); err != nil {
		return nil, err
	}
	return &Sizer{ref, known, want, newEstimator(ref, known, want)}, nil
}

// numbers returns the places of measurements in their table.
func (ref *Reference) numbers(ids []string) ([]int, error) {
	var numbers []int
	var errs []error
	seen := make(map[string]bool)
	for _, id := range ids {
		m, ok := ref.order[id]
		switch {
		case !ok:
			errs = append(errs, unknown("measurement", id, keys(ref.order)))
		case seen[id]:
			errs = append(errs, fmt.Errorf("measurement %s is named twice", id))
		}
		seen[id] = true
		numbers = append(numbers, m)
	}
	return numbers, errors.Join(errs...)
}

// Size fills in one child. own holds the child's measurements in the order of
// Bulk.Known, NaN for what was not taken; ageYears is 0 if not known; out is
// filled in the order of Bulk.Want. Its errors are those of
// [Reference.Estimate]; out is then undefined. questions reports that
// there are doubts about the child's own measurements, which Estimate names in
// Body.Questions.
func (s *Sizer) Size(sex Sex, ageYears float64, own []float64, out []Figure) (questions bool, err error) {
	if len(own) != len(s.known) || len(out) != len(s.want) {
		return false, fmt.Errorf("%d measurements and %d figures; this sizer takes %d and fills in %d",
			len(own), len(out), len(s.known), len(s.want))
	}
	s.e.forget()
	sound := sex == Boy || sex == Girl || sex == Both || sex == ""
	for i, m := range s.known {
		if v := own[i]; !math.IsNaN(v) {
			sound = sound && v > 0 && v <= maxAmount
			s.e.own[m] = v
		}
	}
	if !sound {
		return false, s.ref.checkChild(s.e.child(sex, ageYears))
	}
	if err := s.e.estimate(sex, ageYears); err != nil {
		return false, err
	}
	for i, m := range s.want {
		if f := &s.e.figures[m]; f.known {
			out[i] = f.Figure
		} else {
			out[i] = Figure{Value: math.NaN()}
		}
	}
	return s.e.doubtful(), nil
}

// Doubted reports whether hardly any child of the measured height has what the
// last child sized has of Bulk.Known[i], or the child's others contradict it.
func (s *Sizer) Doubted(i int) bool {
	m := s.known[i]
	return s.e.group != nil && s.e.took(m) &&
		(s.e.doubted(m) || slices.ContainsFunc(s.e.limited, func(l limit) bool { return l.m == m }))
}
