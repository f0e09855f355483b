package page

import (
	"errors"
	"slices"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// A result is what comes out of a state, as far as its fields go.
type result struct {
	request  *ask.Request
	survey   []sizing.Standing // where the child's measurements are typical
	body     *sizing.Body
	finished *sizing.Finished
	plan     *work.Planned
	findings []validate.Finding
	doubts   []sizing.Doubt // about what was said of the child
	left     *tell.Document // of work that is begun

	err error // what kept it from going further
	// Why there is none, where leaving out no entry helps.
	bodyFault, finishedFault, planFault string
}

// reach is how far it goes: to the body, the finished measurements, the plan.
func (r *result) reach() int {
	switch {
	case r.plan != nil:
		return 3
	case r.finished != nil:
		return 2
	case r.body != nil:
		return 1
	}
	return 0
}

// maxLeftOut bounds the entries that are left out one after another.
const maxLeftOut = 8

// compute works a state out. Entries that it cannot be worked out with are left out,
// and say so.
func (s *site) compute(st *state) *result {
	r := s.attempt(st)
	doubts := tell.DoubtsOf(r.err)
	for range maxLeftOut {
		less := s.leaveOut(st, r)
		if less == nil {
			break
		}
		r = less
		doubts = append(doubts, tell.DoubtsOf(r.err)...)
	}
	if r.body != nil {
		r.doubts = r.body.Questions
		if less, left := s.leaveOutIncredible(st, r); less != nil {
			doubts, r = append(doubts, left...), less
			r.doubts = r.body.Questions
		}
	}
	for _, d := range doubts {
		if !slices.ContainsFunc(r.doubts, func(x sizing.Doubt) bool { return x.Measurement == d.Measurement }) {
			r.doubts = append(r.doubts, d)
		}
	}
	r.say(s, st)
	if chart, err := s.engine.Reference.Chart("measured"); err == nil {
		if found, err := s.engine.Reference.Profile(chart, r.request.Child); err == nil {
			r.survey = found
		}
	}
	s.whatIsLeft(st, r)
	if r.plan != nil {
		r.findings = r.plan.Findings
	} else {
		r.findings = s.cautions(st, r)
	}
	return r
}

// attempt works a state out as far as it goes, without what is left out.
func (s *site) attempt(st *state) *result {
	r := &result{request: s.read(st)}
	if r.body, r.err = work.Body(s.engine.Reference, r.request); r.err != nil || st.Fault("garment") != "" {
		return r
	}
	if r.finished, r.err = s.engine.Reference.Finish(r.body, r.request.Spec); r.err != nil || !r.request.Given("gauge") {
		return r
	}
	if r.plan, r.err = work.PlanOf(s.engine.Reference, r.request, r.finished); r.err != nil {
		r.plan = nil
	}
	return r
}

// leaveOut leaves out the entry that keeps a result from going further: the one that the
// error names or doubts, else the first without which it goes further. It gives what
// then comes out; nil where no entry is to blame.
func (s *site) leaveOut(st *state, r *result) *result {
	if r.err == nil || errors.Is(r.err, sizing.ErrNothingKnown) {
		return nil
	}
	var field *ask.Fault
	if errors.As(r.err, &field) && st.Fault(field.Control()) == "" && st.Value(field.Control()) != "" {
		st.fault(field.Control(), tell.Capital(st.style().Error(field.Err)))
		st.leaveOut(field.Control())
		return s.attempt(st)
	}
	var suspects []string
	for _, d := range tell.DoubtsOf(r.err) {
		suspects = append(suspects, d.Measurement)
	}
	groups := [][]ask.Group{{ask.Child, ask.Sizes}, {ask.Garment}, {ask.Making, ask.Swatch, ask.Garment}}[r.reach()]
	for _, f := range ask.Of(groups...) {
		for _, c := range f.Controls(s.engine.Reference, st.Garment) {
			suspects = append(suspects, c.Name)
		}
	}
	before := slices.Clone(st.left)
	for _, control := range suspects {
		if !st.raw.Has(control) || slices.Contains(st.left, control) {
			continue
		}
		st.leaveOut(control)
		less := s.attempt(st)
		if less.reach() > r.reach() {
			if len(tell.DoubtsOf(r.err)) == 0 {
				st.fault(control, tell.Capital(s.why(st.style(), r)))
			}
			return less
		}
		st.left = slices.Clone(before)
	}
	return nil
}

// leaveOutIncredible leaves out measurements in doubt that no child has, such as a chest
// of 5.3 cm, where enough else is known. It gives what then comes out, nil for none, and
// the doubts about what is left out.
func (s *site) leaveOutIncredible(st *state, r *result) (less *result, left []sizing.Doubt) {
	before := slices.Clone(st.left)
	for _, d := range r.doubts {
		alone := sizing.Child{Sex: r.request.Child.Sex, Own: map[string]float64{d.Measurement: d.Given}}
		if _, err := s.engine.Reference.Body(alone, sizing.Sizes{}); len(tell.DoubtsOf(err)) > 0 {
			st.leaveOut(d.Measurement)
			left = append(left, tell.DoubtsOf(err)...)
		}
	}
	if len(left) > 0 {
		if less = s.attempt(st); less.reach() >= r.reach() {
			return less, left
		}
	}
	st.left = before
	return nil, nil
}

// say says why there is nothing further, where no entry is to blame.
func (r *result) say(s *site, st *state) {
	if r.err == nil || errors.Is(r.err, sizing.ErrNothingKnown) {
		return
	}
	*[]*string{&r.bodyFault, &r.finishedFault, &r.planFault}[r.reach()] = s.why(st.style(), r)
}

// why says why a result goes no further.
func (s *site) why(style tell.Style, r *result) string {
	if r.reach() == 2 {
		return s.noPlan(style, r.err)
	}
	return style.Error(r.err)
}

// whatIsLeft works out what is left of work that is begun.
func (s *site) whatIsLeft(st *state, r *result) {
	wrong := func(f ask.Field) bool { return slices.Contains(st.left, f.Name) }
	if r.plan == nil || !r.request.Begun() || slices.ContainsFunc(ask.Of(ask.Progress), wrong) {
		return
	}
	d, err := work.Left(r.plan.Plan, r.request, st.style())
	if err == nil {
		r.left = &d
		return
	}
	control := "done"
	var field *ask.Fault
	if errors.As(err, &field) {
		control, err = field.Control(), field.Err
	}
	st.fault(control, tell.Capital(st.style().Error(err)))
	st.leaveOut(control)
}

// noPlan says why a garment cannot be planned.
func (s *site) noPlan(style tell.Style, err error) string {
	var unmeasured *plan.UnmeasuredError
	if errors.As(err, &unmeasured) {
		if m, err := s.engine.Reference.Measurement(unmeasured.Part.Measurement); err == nil {
			return style.Unmeasured(unmeasured.Part, m)
		}
	}
	if doubted := (*sizing.DoubtError)(nil); errors.As(err, &doubted) { // which the page shows too
		err = doubted.Err
	}
	if inner := errors.Unwrap(err); inner != nil { // which names the garment, that the page shows
		err = inner
	}
	return style.Error(err)
}
