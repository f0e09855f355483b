package page

import (
	"fmt"
	"slices"

	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// cautions are those for the care of the child that follow from what is known
// where there is no plan to check yet: the garment, what it is worn over, the
// age. They must not wait for a gauge.
func (s *site) cautions(st *state, r *result) []validate.Finding {
	if st.Fault("garment") != "" {
		return nil
	}
	spec, age := r.request.Spec, r.request.Child.AgeYears
	rows := []plan.Row{{Field: "garment", Value: spec.Garment}, {Field: "fit", Value: string(spec.Fit)}, {Field: "layer", Value: string(spec.Layer)}}
	if spec.Nappy {
		rows = append(rows, plan.Row{Field: "nappy", Value: "yes"})
	}
	if age > 0 {
		rows = append(rows, plan.Row{Field: "age", Value: sizing.FormatExact(age), Unit: "years"})
	}
	for _, who := range wearers(r) {
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
func wearers(r *result) [][]plan.Row {
	var ways [][]plan.Row
	z := r.request.Sizes
	if z.All != "" {
		ways = append(ways, []plan.Row{{Field: "size", Value: z.All}})
	}
	if z.Widths != "" && z.Lengths != "" {
		ways = append(ways, []plan.Row{{Field: "widths", Value: z.Widths}, {Field: "lengths", Value: z.Lengths}})
	}
	if r.body != nil {
		if h, ok := r.body.Get("height"); ok {
			ways = append(ways, []plan.Row{{Field: "body", Part: "height", Value: sizing.FormatExact(h.Value), Unit: "cm"}})
		}
	}
	if age := r.request.Child.AgeYears; age > 0 && age < 2 {
		ways = append(ways, []plan.Row{{Field: "size", Value: fmt.Sprintf("%gm", max(3, age*12))}})
	} else if age > 0 {
		ways = append(ways, []plan.Row{{Field: "size", Value: sizing.FormatExact(age)}})
	}
	return ways
}
