package sizing

import (
	"fmt"
	"math"
)

// Span is the sizes at which a chart has a value: positions on a run. From and
// To differ where the chart is level there, or turns.
type Span struct {
	Run      *Run
	From, To float64
}

// Label says the sizes, such as "4.8" or "18m–24m".
func (s Span) Label() string {
	if s.Run == nil {
		return ""
	}
	from, to := s.Run.near(s.From), s.Run.near(s.To)
	if from == to {
		return from
	}
	return from + "–" + to
}

// near labels a position to a tenth of a size.
func (r *Run) near(position float64) string {
	for _, m := range r.Sizes {
		if math.Abs(m.Position-position) < 0.05 {
			return m.Size
		}
	}
	return r.label(math.Round(position*10) / 10)
}

// SizeOf finds the size that has a value (cm, or kg) of a measurement: on the
// scale of years, else by height, else of months. Where it finds one it does
// not allocate. A value outside all of them is a [RangeError].
func (c *Chart) SizeOf(measurement string, value float64, sex Sex) (Span, error) {
	var first *Run
	for _, scale := range []Scale{Years, Height, Months} {
		run, ok := c.Run(scale, sex)
		if !ok {
			continue
		}
		if from, to, ok := run.inverse(measurement, value); ok {
			return Span{run, from, to}, nil
		}
		if first == nil {
			first = run
		}
	}
	if first == nil {
		if err := c.CheckSex(sex); err != nil {
			return Span{}, err
		}
		return Span{}, fmt.Errorf("chart %s has no sizes to find a measurement between", c.ID)
	}
	_, _, err := first.Inverse(measurement, value)
	return Span{}, err
}

// Standing is the place of one of a child's measurements on a chart. Run is nil
// where the chart does not have it.
type Standing struct {
	Reading Reading // the child's own
	Span
	Err error // why the chart does not have it
}

// Profile says, for each of the child's own measurements, at which size the
// chart has it, as [Chart.SizeOf] does.
func (ref *Reference) Profile(chart *Chart, c Child) ([]Standing, error) {
	if err := ref.checkChild(c); err != nil {
		return nil, err
	}
	var out []Standing
	for _, id := range ref.ownIDs(c) {
		s := Standing{Reading: ref.own(id, c.Own[id])}
		s.Span, s.Err = chart.SizeOf(id, c.Own[id], c.Sex)
		out = append(out, s)
	}
	return out, nil
}
