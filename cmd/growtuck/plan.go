package main

import (
	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

func newPlanCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		ValidArgsFunction: a.completeGarment,
		Use:               "plan GARMENT [child.csv]",
		GroupID:           groupWork,
		Short:             "A garment in stitches and rows, section by section",
		Long: `plan turns the finished measurements of a garment and the gauge of a swatch into
work: sections in the order they are worked, with stitches, rows, shaping and the
size that each count gives. Garments are worked from the top down.

Body, fit and lengths are given as for growtuck garment. --sizes plans several
sizes, with the counts in brackets. --done takes the rows worked so far, and shows
what remains. What was tried on, --longer, --wider and --ends change from there: the
answer has the stitches on the work, the new shaping, what else moves, and what must
be ripped back. --draft prints the plan as a draft for growtuck check.

Give --stretch as measured on the swatch: without it the plan does not rely on any
edge to stretch.`,
		Example: `  growtuck plan cardigan child.csv --layer indoor --craft crochet --gauge 16x18/10cm
  growtuck plan pullover child.csv --craft knit --gauge 18x24/10cm --yarn "50g 125m" --swatch "10x10cm 4g"
  growtuck plan cardigan --sizes 2,4,6,8,10 --craft crochet --gauge 20x22/4in
  growtuck plan pullover child.csv --craft knit --gauge 18x24/10cm --done sleeve=30 --longer sleeve=2cm
  growtuck plan hat child.csv --craft knit --gauge 22x30/10cm --draft`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return noGarment()
			}
			return atMostOneChild(1)(cmd, args)
		},
	}
	q := a.asks(cmd, ask.PlanFields())
	draft := cmd.Flags().Bool("draft", false, "print the plan as the table of a draft")
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		ref, err := a.reference()
		if err != nil {
			return err
		}
		r, err := a.readPlan(ref, q, args)
		if err != nil {
			return err
		}
		if *draft {
			return a.printDraft(ref, r)
		}
		return a.printed(work.Plan(ref, r, a.style()))
	}
	return cmd
}

// readPlan reads what to plan and for whom: as the arguments say, or as the workbook
// of a plan given in place of the garment does.
func (a *app) readPlan(ref *sizing.Reference, q *question, args []string) (*ask.Request, error) {
	switch {
	case !work.IsWorkbook(args[0]):
		return a.readGarment(ref, q, args[0], argument(args, 1))
	case len(args) > 1:
		return nil, usagef("%s already has a child; fill in its sheet Child, and leave %.80q out", args[0], args[1])
	}
	return a.readBook(ref, q, args[0])
}

func (a *app) printDraft(ref *sizing.Reference, r *ask.Request) error {
	if r.Begun() || len(r.Run) > 0 {
		return usagef("--draft is for one size and for work not begun; leave --done and --sizes out")
	}
	p, err := work.MakePlan(ref, r)
	if err != nil {
		return err
	}
	text, err := plan.DraftCSV(p.Draft)
	if err != nil {
		return err
	}
	_, err = a.stdout.Write(text)
	return err
}
