package page

import (
	"fmt"
	"slices"
	"strconv"

	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// cautions are those for the care of the child that follow from what is known
// where there is no plan to check yet: the garment, what it is worn over, the
// age. They must not wait for a gauge.
func (s *site) cautions(st *state, r *result, m sizing.Spec) []validate.Finding {
	for _, name := range []string{"garment", "fit", "layer", "age"} {
		if st.Fault(name) != "" {
			return nil
		}
	}
	rows := []plan.Row{{Field: "garment", Value: m.Garment}, {Field: "fit", Value: string(m.Fit)}, {Field: "layer", Value: string(m.Layer)}}
	if m.Nappy {
		rows = append(rows, plan.Row{Field: "nappy", Value: "yes"})
	}
	if r.child.AgeYears > 0 {
		rows = append(rows, plan.Row{Field: "age", Value: exact(r.child.AgeYears), Unit: "years"})
	}
	for _, who := range s.wearers(st, r) {
		found, err := work.CheckPlan(s.engine.Reference, append(slices.Clone(rows), who...))
		if err != nil {
			continue // this says too little of the body, or what cannot be used
		}
		return slices.DeleteFunc(found, func(f validate.Finding) bool { return !f.Caution() })
	}
	return nil
}

// wearers are the ways to say who it is for, the surest first: a draft is
// checked for somebody. Cautions go by the age and not by the size, so that for
// a newborn the least size will do.
func (s *site) wearers(st *state, r *result) [][]plan.Row {
	var ways [][]plan.Row
	if v := st.Value("size"); v != "" {
		ways = append(ways, []plan.Row{{Field: "size", Value: v}})
	}
	if w, l := st.Value("widths"), st.Value("lengths"); w != "" && l != "" {
		ways = append(ways, []plan.Row{{Field: "widths", Value: w}, {Field: "lengths", Value: l}})
	}
	if r.body != nil {
		if h, ok := r.body.Get("height"); ok {
			ways = append(ways, []plan.Row{{Field: "body", Part: "height", Value: exact(h.Value), Unit: "cm"}})
		}
	}
	if age := r.child.AgeYears; age > 0 && age < 2 {
		ways = append(ways, []plan.Row{{Field: "size", Value: fmt.Sprintf("%gm", max(3, age*12))}})
	} else if age > 0 {
		ways = append(ways, []plan.Row{{Field: "size", Value: exact(age)}})
	}
	return ways
}

func exact(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
