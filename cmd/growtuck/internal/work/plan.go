package work

import (
	"errors"
	"maps"
	"slices"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
	"growtuck/validate"
)

// Finish works out the garment that was asked for. Own ease is
// the ease of the fit and an extra amount, in the Spec of what is returned.
func Finish(ref *sizing.Reference, r *ask.Request) (*sizing.Finished, error) {
	body, err := Body(ref, r)
	if err != nil {
		return nil, err
	}
	finished, err := ref.Finish(body, r.Spec)
	if err != nil || len(r.OwnEase) == 0 {
		return finished, err
	}
	spec := r.Spec
	spec.Extra = maps.Clone(r.Spec.Extra)
	for part, ease := range r.OwnEase {
		if line, ok := finished.Line(part); ok {
			spec.Extra[part] += ease - sizing.TotalCm(line.Ease)
		}
	}
	return ref.Finish(body, spec)
}

// Garment reports the finished measurements of a garment.
func Garment(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	finished, err := Finish(ref, r)
	if err != nil {
		return tell.Document{}, err
	}
	return st.Garment(ref, r.Child, finished, r.Why), nil
}

// A Planned is a plan, its draft, and what the checks found in it.
type Planned struct {
	*plan.Plan
	Finished *sizing.Finished // what it was planned from
	Draft    []plan.Row
	Findings []validate.Finding
}

// MakePlan plans a garment and checks the plan.
func MakePlan(ref *sizing.Reference, r *ask.Request) (*Planned, error) {
	if err := r.CheckWorking(); err != nil {
		return nil, err
	}
	finished, err := Finish(ref, r)
	if err != nil {
		return nil, err
	}
	return PlanOf(ref, r, finished)
}

// PlanOf plans finished measurements and checks the plan.
func PlanOf(ref *sizing.Reference, r *ask.Request, finished *sizing.Finished) (*Planned, error) {
	p, err := plan.Make(finished, r.How)
	if err != nil {
		return nil, err
	}
	out := &Planned{Plan: p, Finished: finished, Draft: tell.Style{}.DraftNotes(p.Draft(r.DraftRows()...))}
	out.Findings, err = CheckPlan(ref, out.Draft)
	return out, err
}

// CheckPlan checks a plan by the rules for drafts. It returns the warnings and the
// cautions.
func CheckPlan(ref *sizing.Reference, rows []plan.Row) ([]validate.Finding, error) {
	draft := make([]validate.Row, len(rows))
	for i, r := range rows {
		draft[i] = validate.Row{Field: r.Field, Part: r.Part, Value: r.Value, Unit: r.Unit, Note: r.Note}
	}
	findings, err := validate.CheckDraftRows(ref, draft, "plan", validate.Options{})
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(findings, func(f validate.Finding) bool { return f.Severity < validate.Warn && !f.Caution() }), nil
}

// Plan reports a plan; for a run of sizes, with every count in brackets; or, where
// it was said how far the work is, what is left of it.
func Plan(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	st.Over4In = r.Over4In()
	if len(r.Run) > 0 {
		return graded(ref, r, st)
	}
	p, err := MakePlan(ref, r)
	if err != nil {
		return tell.Document{}, err
	}
	if !r.Given("done") {
		return st.Plan(ref, r.Child, p.Plan, p.Findings), nil
	}
	return Left(p.Plan, r, st)
}

// Left reports what is left of a plan that is begun.
func Left(p *plan.Plan, r *ask.Request, st tell.Style) (tell.Document, error) {
	left, err := p.Remaining(r.Trial)
	if err != nil {
		return tell.Document{}, err
	}
	yarn, err := yarnLeft(p, left, r)
	if err != nil {
		return tell.Document{}, err
	}
	return st.Progress(p, left, yarn), nil
}

// yarnLeft is what yarn the rest takes by what was used so far; nil where that was
// not weighed.
func yarnLeft(p *plan.Plan, left *plan.Remaining, r *ask.Request) (*stitch.YarnLeft, error) {
	if !r.WeighedYarn() {
		return nil, nil
	}
	ball := p.How.Ball
	if !(ball.Grams > 0 && r.UsedGrams > 0) {
		return nil, &ask.Fault{Field: "used", Err: errors.New("used and have: want grams of both, more than 0 used, and yarn with a ball's grams and metres")}
	}
	margin := 0.0
	switch {
	case p.Yarn != nil:
		margin = p.Yarn.Margin
	case p.How.Margin != nil:
		margin = *p.How.Margin
	}
	perGram := ball.Metres / ball.Grams
	y, err := left.Progress.YarnToGo(r.UsedGrams*perGram, r.HaveGrams*perGram, margin, ball)
	return &y, err
}

func graded(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	if r.Given("done") {
		return tell.Document{}, &ask.Fault{Field: "done", Err: errors.New("done is for one size; leave sizes out")}
	}
	if err := r.CheckWorking(); err != nil {
		return tell.Document{}, err
	}
	bodies, err := run(ref, r)
	if err != nil {
		return tell.Document{}, err
	}
	var all []*sizing.Finished
	for _, body := range bodies {
		finished, err := ref.Finish(body, r.Spec)
		if err != nil {
			return tell.Document{}, err
		}
		all = append(all, finished)
	}
	g, err := plan.Grade(r.Run, all, r.How)
	if err != nil {
		return tell.Document{}, err
	}
	return st.Graded(ref, g), nil
}
