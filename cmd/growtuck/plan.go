package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// planFlags say what to plan, how it is worked and how far it is.
type planFlags struct {
	garmentFlags
	how      howFlags
	progress progressFlags
	sizes    []string
	draft    bool
}

func newPlanCommand(a *app) *cobra.Command {
	var f planFlags
	cmd := &cobra.Command{
		ValidArgsFunction: a.completeGarment,
		Use:               "plan GARMENT [child.csv]",
		GroupID:           groupWork,
		Short:             "Stitches and rows for a garment, to be worked",
		Long: `plan turns the finished measurements of a garment and the gauge of a swatch into
work: sections in the order they are worked, with stitches, rows, shaping and the
size that each count gives. Garments are worked from the top down.

The body, the fit and the lengths are those of growtuck garment. --sizes plans a
run of sizes, with every count in brackets. --done says how far the work is, and
shows what remains. --draft prints the plan as a draft for growtuck check.

Give --stretch as you measured it on the swatch: without it nothing is built on
how far an edge stretches.`,
		Example: `  growtuck plan one-piece-hooded child.csv --layer winter --craft crochet --gauge 16x18/10cm
  growtuck plan pullover child.csv --craft knit --gauge 18x24/10cm --yarn "50g 125m" --swatch "10x10cm 4g"
  growtuck plan cardigan --sizes 2,4,6,8,10 --craft crochet --gauge 20x22/4in
  growtuck plan pullover child.csv --craft knit --gauge 18x24/10cm --done sleeve=30 --lower sleeve=12cm
  growtuck plan hat child.csv --craft knit --gauge 22x30/10cm --draft`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usagef("no garment given; growtuck garment lists them")
			}
			return atMostOneChild(1)(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			garment, path, err := a.planSource(cmd, args, &f)
			if err != nil {
				return err
			}
			return a.plan(garment, path, f)
		},
	}
	f.add(a, cmd)
	cmd.Flags().BoolVar(&f.draft, "draft", false, "print the plan as the table of a draft")
	f.progress.add(cmd)
	return cmd
}

// add adds the flags that say what is planned and how it is worked.
func (f *planFlags) add(a *app, cmd *cobra.Command) {
	f.body.add(a, cmd)
	f.body.addSize(cmd)
	f.addMaking(cmd)
	f.how.add(cmd)
	cmd.Flags().StringSliceVar(&f.sizes, "sizes", nil, "plan this run of `sizes` of the chart, parted by commas: 2,4,6")
}

func (a *app) plan(garment, path string, f planFlags) error {
	ref, err := a.reference()
	if err != nil {
		return err
	}
	making, err := f.making(ref, garment)
	if err != nil {
		return err
	}
	how, err := f.how.how()
	if err != nil {
		return err
	}
	if len(f.sizes) > 0 {
		return a.planSizes(ref, path, making, how, f)
	}
	child, finished, err := a.finish(ref, path, f.body, making)
	if err != nil {
		return err
	}
	p, err := plan.Make(finished, how)
	if err != nil {
		return err
	}
	rows := tell.Style{}.DraftNotes(p.Draft(wearerRows(ref, child, f.body)...))
	switch {
	case f.draft && f.progress.given():
		return usagef("--draft and --done are two outputs; ask for one")
	case f.draft:
		return a.printDraft(rows)
	case f.progress.given():
		return a.planProgress(p, f.progress)
	case f.progress.yarn():
		return usagef("--used and --have go with --done, as --done yoke=12: how far the work is")
	}
	findings, err := checkedPlan(ref, rows)
	if err != nil {
		return err
	}
	return a.print(a.style().Plan(ref, child, p, findings))
}

// planSizes plans a run of sizes of the chart.
func (a *app) planSizes(ref *sizing.Reference, path string, making sizing.Spec, how plan.How, f planFlags) error {
	bodies, err := f.body.ofSizes(ref, path, f.sizes)
	if err != nil {
		return err
	}
	if f.draft || f.progress.given() {
		return usagef("--draft and --done are for one size; leave --sizes out")
	}
	var run []*sizing.Finished
	for _, body := range bodies {
		finished, err := ref.Finish(body, making)
		if err != nil {
			return err
		}
		run = append(run, finished)
	}
	graded, err := plan.Grade(f.sizes, run, how)
	if err != nil {
		return err
	}
	return a.print(a.style().Graded(ref, graded))
}

// ofSizes are the bodies of sizes of the chart, each another, beside which no
// child and no other size is named.
func (f *bodyFlags) ofSizes(ref *sizing.Reference, path string, sizes []string) ([]*sizing.Body, error) {
	if path != "" || f.size != "" || f.widths != "" || f.lengths != "" || len(f.child.set) > 0 || f.child.age != "" {
		return nil, usagef("--sizes is for sizes of a chart; leave the child and the other sizes out")
	}
	chart, err := ref.Chart(f.chart)
	if err != nil {
		return nil, err
	}
	sex := sizing.Both
	if f.child.sex != "" {
		if sex, err = sizing.ParseSex(f.child.sex); err != nil {
			return nil, err
		}
	}
	places, err := placesOf(chart, sizes, sex)
	if err != nil {
		return nil, err
	}
	var bodies []*sizing.Body
	for _, place := range places {
		bodies = append(bodies, ref.BodyAt(place, f.method()))
	}
	return bodies, nil
}

// placesOf finds sizes on a chart, each another.
func placesOf(chart *sizing.Chart, sizes []string, sex sizing.Sex) ([]sizing.Place, error) {
	var places []sizing.Place
	for i, size := range sizes {
		place, err := chart.Place(size, sex)
		if err != nil {
			return nil, err
		}
		if j := slices.Index(places, place); j >= 0 {
			return nil, usagef("--sizes %s: %s is the same size as %s; name each once", strings.Join(sizes, ","), sizes[i], sizes[j])
		}
		places = append(places, place)
	}
	return places, nil
}
