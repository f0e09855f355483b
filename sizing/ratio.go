package sizing

import "growtuck/data"

// A ratioKey names the rows of ratios of one measurement.
type ratioKey struct {
	sex         Sex
	measurement string
}

func newRatios(t *data.Tables) map[ratioKey][]data.Ratio {
	ratios := make(map[ratioKey][]data.Ratio)
	for _, r := range t.Ratios {
		k := ratioKey{Sex(r.Sex), r.Measurement}
		ratios[k] = append(ratios[k], r)
	}
	return ratios
}

// rare returns the row of ratios that a value falls outside of: its ratio to
// the height is below the 1st or above the 99th percentile of surveyed children
// of about that height.
func rare(ratios []data.Ratio, value, height float64) (row *data.Ratio, outside bool) {
	for i := range ratios {
		if r := &ratios[i]; height >= r.LowCm && height < r.HighCm {
			v := value / height
			return r, v < r.P1 || v > r.P99
		}
	}
	return nil, false
}
