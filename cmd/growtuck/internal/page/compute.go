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

	bodyFault, finishedFault, planFault string // why there is none, where no field is to blame
}

// compute works a state out. Fields that are wrong are left out and say so.
func (s *site) compute(st *state) *result {
	r := &result{request: s.read(st)}
	if chart, err := s.engine.Reference.Chart("measured"); err == nil {
		if found, err := s.engine.Reference.Profile(chart, r.request.Child); err == nil {
			r.survey = found
		}
	}
	s.makeBody(st, r)
	s.finish(st, r)
	s.makePlan(st, r)
	if r.plan != nil {
		r.findings = r.plan.Findings
	} else {
		r.findings = s.cautions(st, r)
	}
	return r
}

// makeBody fills in what was not measured.
func (s *site) makeBody(st *state, r *result) {
	if s.faulty(st, ask.Of(ask.Sizes)...) {
		return
	}
	var err error
	r.body, err = work.Body(s.engine.Reference, r.request)
	var field *ask.Fault
	if r.doubts = tell.DoubtsOf(err); r.body != nil {
		r.doubts = r.body.Questions
	}
	switch {
	case errors.As(err, &field):
		st.fault(field.Control(), st.style().Error(field.Err))
	case err != nil && !errors.Is(err, sizing.ErrNothingKnown):
		r.bodyFault = st.style().Error(err)
	}
}

// finish works out the finished measurements.
func (s *site) finish(st *state, r *result) {
	if r.body == nil || s.faulty(st, ask.Named("garment", "fit", "layer")...) || st.Fault("option") != "" {
		return
	}
	var err error
	if r.finished, err = s.engine.Reference.Finish(r.body, r.request.Spec); err != nil {
		r.finishedFault = st.style().Error(err)
	}
}

// counted are the fields that the counts rest on.
func counted() []ask.Field {
	return slices.DeleteFunc(ask.Of(ask.Swatch, ask.Making), func(f ask.Field) bool { return f.Beside })
}

// makePlan plans the work, where the gauge is known, and checks the plan.
func (s *site) makePlan(st *state, r *result) {
	if r.finished == nil || !r.request.Given("gauge") || s.faulty(st, counted()...) {
		return
	}
	var err error
	r.plan, err = work.PlanOf(s.engine.Reference, r.request, r.finished)
	var field *ask.Fault
	if errors.As(err, &field) { // of what is beside the counts: they are planned without it
		st.fault(field.Control(), st.style().Error(field.Err))
		r.request.How.Colours, r.request.How.Pace = nil, plan.Pace{}
		r.plan, err = work.PlanOf(s.engine.Reference, r.request, r.finished)
	}
	if err != nil {
		r.planFault = s.noPlan(st.style(), err)
		return
	}
	if !r.request.Begun() || s.faulty(st, ask.Of(ask.Progress)...) {
		return
	}
	d, err := work.Left(r.plan.Plan, r.request, st.style())
	if err != nil {
		var field *ask.Fault
		if errors.As(err, &field) {
			st.fault(field.Control(), tell.Capital(st.style().Error(field.Err)))
			return
		}
		st.fault("done", tell.Capital(st.style().Error(err)))
		return
	}
	r.left = &d
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
