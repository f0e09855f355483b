package sizing

import "math"

// Standing is where one of a child's measurements stands on a chart: the size
// that has it. From and To differ where the chart is level there.
type Standing struct {
	Reading  Reading // the child's own
	Run      *Run    // nil where the chart does not have it
	From, To float64 // positions on the run
	Err      error   // why not
}

// Label says the size, as "4.8" or "18m–24m".
func (s Standing) Label() string {
	if s.Run == nil {
		return ""
	}
	label := func(p float64) string {
		for _, m := range s.Run.Sizes {
			if math.Abs(m.Position-p) < 0.05 {
				return m.Size
			}
		}
		return s.Run.label(math.Round(p*10) / 10)
	}
	if label(s.From) == label(s.To) {
		return label(s.From)
	}
	return label(s.From) + "–" + label(s.To)
}

// Profile says, for each of the child's own measurements, at which size the
// chart has it: on the scale of years, else by height, else of months.
func (ref *Reference) Profile(chart *Chart, c Child) ([]Standing, error) {
	if err := ref.checkChild(c); err != nil {
		return nil, err
	}
	var out []Standing
	for _, id := range ref.ownIDs(c) {
		s := Standing{Reading: ref.own(id, c.Own[id])}
		for _, scale := range []Scale{Years, Height, Months} {
			run, ok := chart.Run(scale, c.Sex)
			if !ok {
				continue
			}
			from, to, err := run.Inverse(id, c.Own[id])
			if err == nil {
				s.Run, s.From, s.To, s.Err = run, from, to, nil
				break
			}
			if s.Err == nil {
				s.Err = err
			}
		}
		out = append(out, s)
	}
	return out, nil
}
