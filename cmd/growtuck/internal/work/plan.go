package work

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
	"growtuck/validate"
)

// Finish works out the garment that was asked for.
func Finish(ref *sizing.Reference, r *ask.Request) (*sizing.Finished, error) {
	body, err := Body(ref, r)
	if err != nil {
		return nil, err
	}
	finished, err := ref.Finish(body, r.Spec)
	return finished, inDoubt(body, err)
}

// Garment reports the finished measurements of a garment.
func Garment(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	finished, err := Finish(ref, r)
	if err != nil {
		return tell.Document{}, err
	}
	return st.Garment(ref, r.Child, finished, r.Why), nil
}

// FinishedOf reports the finished measurements of a garment for a child, or at a run of
// sizes.
func FinishedOf(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	if len(r.Run) == 0 {
		return Garment(ref, r, st)
	}
	all, err := FinishRun(ref, r)
	if err != nil {
		return tell.Document{}, err
	}
	return st.GarmentSizes(ref, r.Run, all), nil
}

// FinishRun works a garment out at a run of sizes.
func FinishRun(ref *sizing.Reference, r *ask.Request) ([]*sizing.Finished, error) {
	bodies, err := run(ref, r)
	if err != nil {
		return nil, err
	}
	var all []*sizing.Finished
	for i, body := range bodies {
		if err := r.Ended(); err != nil {
			return nil, err
		}
		finished, err := ref.Finish(body, r.Spec)
		if err != nil {
			return nil, fmt.Errorf("size %s: %w", r.Run[i], err)
		}
		all = append(all, finished)
	}
	return all, nil
}

// A Planned is a plan, its draft, and what the checks found in it.
type Planned struct {
	*plan.Plan
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
	if err := r.Ended(); err != nil {
		return nil, err
	}
	how, err := timed(r.How)
	if err != nil {
		return nil, inDoubt(finished.Body, err)
	}
	p, err := plan.Make(finished, how)
	if err != nil {
		return nil, coloured(r, err)
	}
	out := &Planned{Plan: p, Draft: tell.Style{}.DraftNotes(p.Draft(r.DraftRows()...))}
	out.Findings, err = CheckPlan(ref, out.Draft)
	return out, inDoubt(finished.Body, err)
}

// timed begins work today that should be ready by a day, where it was not said when it
// is begun.
func timed(how plan.How) (plan.How, error) {
	if !how.Pace.By.IsZero() && how.Pace.From.IsZero() {
		year, month, day := time.Now().Date()
		how.Pace.From = time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
	}
	if err := how.Pace.Check(); err != nil {
		return how, &ask.Fault{Field: "by", Err: err}
	}
	return how, nil
}

// coloured names the field of a colour for a section that the garment does not have.
func coloured(r *ask.Request, err error) error {
	var unknown *sizing.UnknownError
	if errors.As(err, &unknown) && unknown.Kind == "section" && r.Given("colour") {
		return &ask.Fault{Field: "colour", Err: unknown}
	}
	return err
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
	if !r.Begun() {
		return PatternOf(ref, r, st, p), nil
	}
	return Left(p.Plan, r, st)
}

// Left reports what is left of a plan that is begun.
func Left(p *plan.Plan, r *ask.Request, st tell.Style) (tell.Document, error) {
	if !r.Given("done") {
		return weighed(p, r, st)
	}
	left, err := p.Remaining(r.Trial)
	if err != nil {
		return tell.Document{}, err
	}
	yarn, err := yarnLeft(p, left, r)
	if err != nil {
		return tell.Document{}, err
	}
	d := st.Progress(p, left, yarn)
	d.Remarks = append(d.Remarks, st.TimeLeft(p, left)...)
	if len(r.Weighed) == 0 {
		return d, nil
	}
	w, err := weighed(p, r, st)
	d.Tables, d.Remarks = append(d.Tables, w.Tables...), append(d.Remarks, w.Remarks...)
	return d, err
}

// weighed reports whether the yarn that was weighed is enough for the rest.
func weighed(p *plan.Plan, r *ask.Request, st tell.Style) (tell.Document, error) {
	w, err := p.Weigh(r.Weighed)
	if err != nil {
		return tell.Document{}, &ask.Fault{Field: "weighed", Err: err}
	}
	return st.Weighed(p, w), nil
}

// PatternOf is a plan as a document to work from.
func PatternOf(ref *sizing.Reference, r *ask.Request, st tell.Style, p *Planned) tell.Document {
	d := st.Plan(ref, r.Child, p.Plan, p.Findings)
	d.Drawing = drawing(p.Plan, st, true)
	return d
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

// graded reports a run of sizes.
func graded(ref *sizing.Reference, r *ask.Request, st tell.Style) (tell.Document, error) {
	g, err := gradePlans(ref, r)
	if err != nil {
		return tell.Document{}, err
	}
	d := st.Graded(ref, g)
	d.Drawing = drawing(g.Plans[len(g.Plans)/2], st, false)
	return d, nil
}

// gradePlans plans a run of sizes.
func gradePlans(ref *sizing.Reference, r *ask.Request) (*plan.Graded, error) {
	for _, name := range []string{"done", "weighed"} {
		if r.Given(name) {
			return nil, &ask.Fault{Field: name, Err: errors.New(name + " is for one size; leave sizes out")}
		}
	}
	if err := r.CheckWorking(); err != nil {
		return nil, err
	}
	all, err := FinishRun(ref, r)
	if err != nil {
		return nil, err
	}
	return GradeRun(r, all)
}

// GradeRun plans finished measurements at a run of sizes.
func GradeRun(r *ask.Request, all []*sizing.Finished) (*plan.Graded, error) {
	how, err := timed(r.How)
	if err != nil {
		return nil, err
	}
	g, err := plan.Grade(r.Run, all, how)
	if err != nil {
		return nil, coloured(r, err)
	}
	return g, nil
}

// CheckRun checks each plan of a run of sizes, as CheckPlan does.
func CheckRun(ref *sizing.Reference, r *ask.Request, g *plan.Graded) ([][]validate.Finding, error) {
	var all [][]validate.Finding
	for i, p := range g.Plans {
		if err := r.Ended(); err != nil {
			return nil, err
		}
		sizes := r.Sizes
		sizes.All = g.Labels[i]
		findings, err := CheckPlan(ref, tell.Style{}.DraftNotes(p.Draft(ask.DraftRows(ref, r.Child, sizes)...)))
		if err != nil {
			return nil, err
		}
		all = append(all, findings)
	}
	return all, nil
}
