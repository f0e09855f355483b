package work

import (
	"fmt"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// Program names the program for the properties of documents.
const Program = "growtuck"

// newContent plans the garment and gathers what the workbook shows. edition names the
// tables.
func newContent(ref *sizing.Reference, r *ask.Request, st tell.Style, edition string) (*workbook.Content, error) {
	p, err := MakePlan(ref, r)
	if err != nil {
		return nil, err
	}
	finished := p.Finished
	told := PatternOf(ref, r, tell.Style{Unit: st.Unit, Over4In: r.Over4In()}, p)
	c := &workbook.Content{Pattern: told, Drawn: Lettered(p.Plan, st.Units()[0], true), Reference: ref, Unit: st.Units()[0], Title: p.Garment.Title, Program: Program, Edition: edition,
		Child: r.Child, Finished: finished, Plan: p.Plan, Draft: p.Draft, Findings: p.Findings}
	if who := tell.ChildLine(r.Child); who != "" {
		c.Title += " for " + who
	}
	if c.Options, err = ref.GarmentOptions(r.Spec.Garment); err != nil {
		return nil, err
	}
	sizes, err := addSizes(ref, c, r)
	if err != nil {
		return nil, err
	}
	made := *r
	made.Spec.Fit = finished.Spec.Fit
	c.Settings = made.Cells(c.Unit, sizes)
	used := finished.Body.Sources()
	for _, l := range finished.Lines {
		used = append(used, l.Sources()...)
	}
	for _, z := range c.Sizes {
		used = append(used, z.Body.Sources()...)
	}
	c.Credits = tell.CreditLines(ref, used)
	return c, nil
}

// addSizes adds the sizes of the chart beside the body, and the graded table, and
// returns the sizes. Sizes that were asked for must be planned; those around
// the body may fail.
func addSizes(ref *sizing.Reference, c *workbook.Content, r *ask.Request) ([]string, error) {
	chart, err := ref.Chart(r.Sizes.Chart)
	if err != nil {
		return nil, err
	}
	sizes := r.Run
	if len(sizes) == 0 {
		sizes = sizesAround(chart, c.Finished.Body, c.Child.Sex)
	}
	found, err := places(chart, sizes, c.Child.Sex)
	if err != nil {
		return nil, err
	}
	var all []*sizing.Finished
	for i, place := range found {
		body := ref.BodyAt(place, r.Sizes.Method)
		c.Sizes = append(c.Sizes, workbook.Size{Label: sizes[i], Body: body})
		finished, err := ref.Finish(body, c.Finished.Spec)
		if err != nil {
			c.NotGraded = fmt.Sprintf("size %s: %v", sizes[i], err)
			continue
		}
		all = append(all, finished)
	}
	c.Growth = workbook.NewGrowth(ref, chart, c.Finished.Body, c.Child)
	switch {
	case len(sizes) == 0:
		c.NotGraded = "chart " + chart.ID + " has no sizes of one scale here; name some with --sizes"
	case c.NotGraded == "":
		if c.Graded, err = plan.Grade(sizes, all, r.How); err != nil {
			c.NotGraded = err.Error()
		}
	}
	if len(r.Run) > 0 && c.Graded == nil {
		return nil, fmt.Errorf("--sizes %s: %s", strings.Join(sizes, ","), c.NotGraded)
	}
	return sizes, nil
}

// sizesAround are at most five sizes of the chart around a body's height.
func sizesAround(chart *sizing.Chart, b *sizing.Body, sex sizing.Sex) []string {
	run, ok := chart.Run(sizing.Years, sex)
	position := 6.0
	if h, known := b.Get("height"); known {
		if at, err := chart.AtHeight(h.Value, sex); err == nil {
			run, position, ok = at.Run, at.Position, true
		}
	}
	if !ok || run.Scale == sizing.Band {
		return nil
	}
	const most = 5
	first := 0
	for i, m := range run.Sizes {
		if m.Position <= position {
			first = i
		}
	}
	first = max(0, min(first-most/2, len(run.Sizes)-most))
	var out []string
	for _, m := range run.Sizes[first:min(first+most, len(run.Sizes))] {
		out = append(out, m.Size)
	}
	return out
}
