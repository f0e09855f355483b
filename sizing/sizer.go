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

	Values bool // fill in what was estimated without its range
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
	doubts      []Doubt // about the last child
	sex         Sex
	ageYears    float64
}

// Sizer makes a sizer. It refuses a measurement that is not known, and one that
// is named twice in one list.
func (ref *Reference) Sizer(b Bulk) (*Sizer, error) {
	known, errKnown := ref.numbers(b.Known)
	want, errWant := ref.numbers(b.Want)
	if err := errors.Join(errKnown, errWant); err != nil {
		return nil, err
	}
	s := &Sizer{ref: ref, known: known, want: want, e: newEstimator(ref, known, want)}
	s.e.valuesAlone = b.Values
	return s, nil
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
	s.doubts, s.sex, s.ageYears = nil, sex, ageYears
	sound := sex == Boy || sex == Girl || sex == Both || sex == ""
	for i, m := range s.known {
		if v := own[i]; !math.IsNaN(v) {
			sound = sound && v > 0 && v <= mostMeasured
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
	if !s.e.doubtful(ageYears) {
		return false, nil
	}
	s.doubts = s.e.amend(s.ref.Doubts(s.e.child(sex, ageYears)))
	return len(s.doubts) > 0, nil
}

// Growth is how the last child grows, whose figures were filled in. Height is among
// what was wanted.
func (s *Sizer) Growth(figures []Figure) (*Growth, error) {
	b := &Body{child: s.e.child(s.sex, s.ageYears)}
	for i, m := range s.want {
		if f := figures[i]; !math.IsNaN(f.Value) {
			b.Readings = append(b.Readings, Reading{Measurement: s.ref.tables.Measurements[m],
				Value: f.Value, Low: f.Low, High: f.High, Spread: f.Spread, Provenance: f.Provenance})
		}
	}
	return s.ref.Growth(b)
}

// Meant is what may be wrong with the last child, who could not be sized.
func (s *Sizer) Meant() []Doubt { return s.ref.doubts(s.e.child(s.sex, s.ageYears), true) }

// Doubts are what is hardly to be believed of the last child sized, as
// [Body.Questions] has them.
func (s *Sizer) Doubts() []Doubt { return s.doubts }
