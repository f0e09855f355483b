package page

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
	"growtuck/validate"
)

// A result is what comes out of a state, as far as its fields go.
type result struct {
	child     sizing.Child
	standings []sizing.Standing
	survey    []sizing.Standing
	body      *sizing.Body
	finished  *sizing.Finished
	plan      *plan.Plan
	findings  []validate.Finding

	bodyFault, finishedFault, planFault string // why there is none, where no field is to blame
}

// compute works a state out. Fields that are wrong are left out and say so.
func (s *site) compute(st *state) *result {
	r := &result{}
	r.child = s.child(st)
	s.stand(r)
	s.makeBody(st, r)
	making := s.making(st)
	s.finish(st, r, making)
	if r.plan == nil {
		r.findings = s.cautions(st, r, making)
	}
	return r
}

// finish works out the finished measurements and the plan, as far as may be.
func (s *site) finish(st *state, r *result, making sizing.Spec) {
	if r.body == nil || st.Fault("garment") != "" || st.Fault("fit") != "" || st.Fault("layer") != "" || st.Fault("option") != "" {
		return
	}
	var err error
	if r.finished, err = s.engine.Reference.Finish(r.body, making); err != nil {
		r.finishedFault = st.shower().style().Error(err)
		return
	}
	s.makePlan(st, r)
}

// child reads what is known of the child.
func (s *site) child(st *state) sizing.Child {
	ref := s.engine.Reference
	c := sizing.Child{Sex: sizing.Both, Own: map[string]float64{}}
	for _, fact := range []string{"sex", "age"} {
		if v := st.Value(fact); v != "" {
			before := c
			if err := ref.Set(&c, fact, v, ""); err != nil {
				c = before
				st.fault(fact, err)
			}
		}
	}
	for _, m := range ref.Measurements() {
		if v := st.Value(m.ID); v != "" {
			st.fault(m.ID, ref.Set(&c, m.ID, v, st.tapeUnit(m.Unit)))
		}
	}
	return c
}

// stand finds the child's own measurements in the default chart and in the
// survey.
func (s *site) stand(r *result) {
	ref := s.engine.Reference
	for id, into := range map[string]*[]sizing.Standing{"child": &r.standings, "measured": &r.survey} {
		chart, err := ref.Chart(id)
		if err != nil {
			continue
		}
		if found, err := ref.Profile(chart, r.child); err == nil {
			*into = found
		}
	}
}

// makeBody fills in what was not measured.
func (s *site) makeBody(st *state, r *result) {
	ref := s.engine.Reference
	size, widths, lengths := st.Value("size"), st.Value("widths"), st.Value("lengths")
	switch {
	case size != "" && widths+lengths != "":
		st.fault("size", errors.New("one size for everything, or one for widths and one for lengths: empty the others"))
		return
	case widths != "" && lengths == "":
		st.fault("lengths", errors.New("give the size for lengths too"))
		return
	case lengths != "" && widths == "":
		st.fault("widths", errors.New("give the size for widths too"))
		return
	case size == "" && widths == "":
		var err error
		if r.body, err = ref.Estimate(r.child); err != nil && !errors.Is(err, sizing.ErrNothingKnown) {
			r.bodyFault = st.shower().style().Error(err)
		}
		return
	}
	chart, err := ref.Chart("child")
	if err != nil {
		r.bodyFault = err.Error()
		return
	}
	place := func(field string) (sizing.Place, bool) {
		p, err := chart.Place(st.Value(field), r.child.Sex)
		if err != nil {
			st.fault(field, errors.New(st.shower().style().Error(err)))
		}
		return p, err == nil
	}
	if size != "" {
		p, ok := place("size")
		switch {
		case !ok:
			return
		case len(r.child.Own) == 0:
			r.body = ref.BodyAt(p, sizing.Monotone)
		default:
			if r.body, err = ref.Blend(p, p, r.child, sizing.Monotone); err != nil {
				r.bodyFault = err.Error()
			}
		}
		return
	}
	wide, ok1 := place("widths")
	long, ok2 := place("lengths")
	if ok1 && ok2 {
		if r.body, err = ref.Blend(wide, long, r.child, sizing.Monotone); err != nil {
			r.bodyFault = err.Error()
		}
	}
}

// making reads how the garment is to be made.
func (s *site) making(st *state) sizing.Spec {
	m := sizing.Spec{Garment: st.Garment, Nappy: st.Value("nappy") != "", Options: st.raw["option"], Extra: map[string]float64{}}
	var err error
	m.Fit, err = sizing.ParseFit(st.Value("fit"))
	st.fault("fit", err)
	m.Layer, err = sizing.ParseLayer(st.Value("layer"))
	st.fault("layer", err)
	if options, err := s.engine.Reference.GarmentOptions(st.Garment); err == nil {
		for _, o := range m.Options {
			if !slices.Contains(options, o) {
				st.fault("option", fmt.Errorf("%s has no option %q; it has %s", st.Garment, o, strings.Join(options, ", ")))
			}
		}
	}
	if v, ok := st.number("growth", 0, 4, "half-years, 0 to 4"); ok {
		m.Seasons = v
	}
	for _, name := range slices.Sorted(maps.Keys(st.raw)) {
		part, ok := strings.CutPrefix(name, extraPrefix)
		if !ok {
			continue
		}
		l, err := sizing.ParseLength(strings.TrimPrefix(st.Value(name), "+"), st.tapeUnit("cm"))
		if err != nil {
			st.fault(name, err)
			continue
		}
		m.Extra[part] = float64(l)
	}
	return m
}

// number reads a field with a plain number in it.
func (st *state) number(name string, low, high float64, want string) (float64, bool) {
	text := st.Value(name)
	if text == "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if err != nil || !(v >= low && v <= high) {
		st.fault(name, fmt.Errorf("%q: want %s", text, want))
		return 0, false
	}
	return v, true
}

// makePlan plans the work, where the gauge is known, and checks the plan.
func (s *site) makePlan(st *state, r *result) {
	how, ok := s.how(st)
	if !ok {
		return
	}
	var err error
	if r.plan, err = plan.Make(r.finished, how); err != nil {
		r.planFault = s.noPlan(st.Garment, err)
		return
	}
	rows := tell.Style{}.DraftNotes(r.plan.Draft(ask.DraftRows(s.engine.Reference, r.child, sizing.Sizes{All: st.Value("size"), Widths: st.Value("widths"), Lengths: st.Value("lengths")})...))
	if r.findings, err = work.CheckPlan(s.engine.Reference, rows); err != nil {
		r.planFault = err.Error()
	}
}

// how reads how the garment is worked; ok is false where it cannot be planned
// yet.
func (s *site) how(st *state) (plan.How, bool) {
	h := plan.How{Craft: plan.Craft(st.Value("craft")), Construction: plan.Construction(st.Value("yoke")), Closure: plan.Closure(st.Value("closure")),
		Hood: plan.Hood(st.Value("hood")), Turned: st.Value("turned") != ""}
	among(st, "craft", plan.Crafts)
	among(st, "yoke", plan.Constructions)
	among(st, "closure", plan.Closures)
	among(st, "hood", plan.Hoods)
	if over := st.Value("over"); over != "10cm" && over != "4in" {
		st.fault("over", fmt.Errorf("%q: want 10cm or 4in", over))
	}
	gauge, counted := s.gauge(st, "")
	h.Gauge = gauge
	if g, ok := s.gauge(st, "rib-"); ok {
		h.Rib = &g
	}
	if g, ok := s.gauge(st, "before-"); ok {
		h.Before = &g
	}
	var err error
	h.Multiple, err = stitch.ParseMultiple(st.Value("multiple"))
	st.fault("multiple", err)
	if v := st.Value("yarn"); v != "" {
		h.Ball, err = plan.ParseBall(v)
		st.fault("yarn", err)
	}
	if v := st.Value("swatch"); v != "" {
		h.Swatch, err = plan.ParseSwatch(v)
		st.fault("swatch", err)
	}
	h.Stretch = st.readStretch()
	for _, name := range []string{"craft", "yoke", "closure", "hood", "over", "multiple", "yarn", "swatch", "stretch"} {
		if st.Fault(name) != "" {
			return h, false
		}
	}
	return h, counted
}

func among[T ~string](st *state, name string, known []T) {
	if !slices.Contains(known, T(st.Value(name))) {
		var words []string
		for _, k := range known {
			words = append(words, string(k))
		}
		st.fault(name, fmt.Errorf("%q is none of %s", st.Value(name), strings.Join(words, ", ")))
	}
}

// gauge reads the two counts of a gauge.
func (s *site) gauge(st *state, prefix string) (stitch.Gauge, bool) {
	sts, ok1 := st.number(prefix+"stitches", 1, 120, "stitches from 1 to 120, as 16 or 16.5")
	rows, ok2 := st.number(prefix+"rows", 1, 200, "rows from 1 to 200, as 18 or 18.5")
	if !ok1 || !ok2 {
		if ok1 && st.Value(prefix+"rows") == "" {
			st.fault(prefix+"rows", errors.New("count the rows too"))
		}
		if ok2 && st.Value(prefix+"stitches") == "" {
			st.fault(prefix+"stitches", errors.New("count the stitches too"))
		}
		return stitch.Gauge{}, false
	}
	over := 10.0
	if st.Value("over") == "4in" {
		over = 4 * sizing.CmPerInch
	}
	g, err := stitch.Swatch{Stitches: sts, WidthCm: over, Rows: rows, HeightCm: over}.Gauge()
	st.fault(prefix+"stitches", err)
	return g, err == nil
}

// readStretch reads how far edges stretch: 1.5 for all, neck=1.4 for one.
func (st *state) readStretch() map[string]float64 {
	all := map[string]float64{}
	for _, text := range st.stretches() {
		edges, v, err := plan.ParseStretch(text)
		switch {
		case err != nil || !(v >= 1 && v <= 3):
			st.fault("stretch", fmt.Errorf("%q: want how many times it stretches, 1 to 3, as 1.5 or neck=1.4", text))
		case len(edges) == 1 && !slices.Contains(plan.Edges, edges[0]):
			st.fault("stretch", fmt.Errorf("%q is none of the edges %s", edges[0], strings.Join(plan.Edges, ", ")))
		default:
			for _, e := range edges {
				all[e] = v
			}
		}
	}
	return all
}
