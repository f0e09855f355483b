package main

import (
	"slices"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/list"
	"growtuck/sizing"
)

// orderFlags say how a list is read, which sizes it is fitted to, and what a misfit
// costs.
type orderFlags struct {
	read  listFlags
	order list.OrderOptions
	by    []string
	sex   string
}

func newOrderCommand(a *app) *cobra.Command {
	var f orderFlags
	cmd := &cobra.Command{
		Use:     "order [children.csv]",
		GroupID: groupWork,
		Short:   "How many of each size to make for a list of children",
		Long:    orderHelp,
		Example: `  growtuck order children.csv
  growtuck order children.csv --sizes 2,4,6 --by chest,height
  growtuck order children.csv --best 3 --halves
  growtuck order children.csv --cuts 3 --by chest
  growtuck order children.csv --best 2 --each`,
		Args: atMostOneList("order"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := f.check(cmd); err != nil {
				return err
			}
			rejected, err := a.order(argument(args, 0), f)
			if err != nil {
				return cannotRun(err)
			}
			return rejectedError(rejected, "")
		},
	}
	f.read.add(cmd)
	flags := cmd.Flags()
	flags.StringVar(&f.order.Chart, "chart", "child", "`chart` of the sizes; growtuck charts lists them")
	flags.StringVar(&f.sex, "sex", "both", "whose `sizes`, m, f or both, of a chart that has boys and girls apart")
	flags.StringSliceVar(&f.by, "by", []string{"chest", "hip", "arm_length", "inside_leg"}, "`measurements` that a size has to fit, comma-separated")
	flags.StringSliceVar(&f.order.Sizes, "sizes", nil, "the `sizes` to choose from, comma-separated: 2,4,6")
	flags.IntVar(&f.order.Best, "best", 0, "choose at most this `many` sizes")
	flags.BoolVar(&f.order.Halves, "halves", false, "choose from half sizes too")
	flags.IntVar(&f.order.Cuts, "cuts", 0, "cut the list into this `many` groups, without a chart")
	flags.BoolVar(&f.order.Each, "each", false, "print a line for each child, with its size")
	flags.Float64Var(&f.order.SmallWeight, "small-weight", 4, "how many centimetres too big `count` as much as one too small")
	flags.Float64Var(&f.order.ToleranceCm, "tolerance", 2.5, "how many `cm` a size may be off; the default is half the step between sizes 2, 4 and 6")
	complete(cmd, "sex", "m", "f", "both")
	completeWith(cmd, "chart", a.chartIDs)
	completeWith(cmd, "by", a.measurementIDs)
	return cmd
}

func (f *orderFlags) check(cmd *cobra.Command) error {
	changed := cmd.Flags().Changed
	o := f.order
	switch {
	case changed("best") && o.Best < 1:
		return usagef("--best %d: must be at least 1", o.Best)
	case changed("cuts") && o.Cuts < 1:
		return usagef("--cuts %d: must be at least 1", o.Cuts)
	case o.Cuts > 0 && (o.Best > 0 || len(o.Sizes) > 0 || o.Halves || changed("chart") || changed("sex")):
		return usagef("--cuts uses no chart; leave --best, --sizes, --halves, --chart and --sex out")
	case o.Cuts > 0 && len(f.by) != 1:
		return usagef("--cuts uses one measurement; name it, for example --by chest")
	case o.Halves && (o.Best == 0 || len(o.Sizes) > 0):
		return usagef("--halves adds to the chart's sizes that --best chooses from")
	case o.Each && !slices.Contains([]string{"table", "csv", "json"}, cmd.Flag("format").Value.String()):
		return usagef("--each writes CSV or lines of JSON; leave --format out, or use csv or json")
	case len(f.by) == 0:
		return usagef("--by names no measurement")
	}
	return nil
}

// order plans for a list, and returns how many lines were rejected.
func (a *app) order(path string, f orderFlags) (rejected int, err error) {
	ref, err := a.reference()
	if err != nil {
		return 0, err
	}
	if f.order.By, err = ask.MeasurementIDs(ref, f.by); err != nil {
		return 0, err
	}
	if f.order.Sex, err = sizing.ParseSex(f.sex); err != nil {
		return 0, usagef("--sex: %v", err)
	}
	f.order.Format = a.lineFormat()
	order, err := list.NewOrder(ref, f.order)
	if err != nil {
		return 0, err
	}
	var computed []string
	if f.order.Each {
		computed = order.Columns()
	}
	in, closeList, err := a.openList(ref, path, f.read, computed)
	if err != nil {
		return 0, err
	}
	defer closeList()
	to, done := a.listener(in, true)
	result, err := order.Run(in, to)
	done()
	switch {
	case err != nil:
		return 0, err
	case f.order.Each:
		return result.Rejected, result.WriteEach(a.stdout)
	}
	return result.Rejected, a.print(a.style().Order(ref, result))
}
