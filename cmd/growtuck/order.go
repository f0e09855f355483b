package main

import (
	"slices"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/list"
)

// orderFlags say how a list is read, which sizes it is fitted to, and what a misfit
// costs.
type orderFlags struct {
	read  listFlags
	order list.OrderOptions
	by    []string
}

const orderHelp = `order reads a list of children as growtuck batch does, or what that has written
in one unit, gives every child the size of a chart that fits best, and says how
many of each size to make and what misfit is left: for how many children a size
is too small or too big in each measurement by more than --tolerance, and by how
much.

The best size has the least misfit: the sum, over the measurements of --by, of how
many centimetres it is off. A centimetre too small counts --small-weight times one
too big: a garment that is too big can be taken in and grown into, one that is too
small is of no use. All are body measurements; both sides get the same ease.

By default all sizes of the chart are offered. --sizes names the sizes to choose
from. --best K chooses at most K sizes that leave the list the least misfit, with
--halves also from the sizes halfway between. --cuts K uses no chart: it cuts the
list at the best places along the one measurement of --by, and says what to make
each group for.

--each prints a line for each child instead, as growtuck batch does: its size, and
by how many centimetres that is more than the child in each measurement.

A line that cannot be used is named on standard error and left out. Exit status: 0
if every child was sized, 1 if a line was rejected, 2 if the list could not be read
to its end.`

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
	flags.StringSliceVar(&f.by, "by", []string{"chest", "hip", "arm_length", "inside_leg"}, "`measurements` that a size has to fit, comma-separated")
	flags.StringSliceVar(&f.order.Sizes, "sizes", nil, "the `sizes` to choose from, comma-separated: 2,4,6")
	flags.IntVar(&f.order.Best, "best", 0, "choose at most this `many` sizes")
	flags.BoolVar(&f.order.Halves, "halves", false, "choose from half sizes too")
	flags.IntVar(&f.order.Cuts, "cuts", 0, "cut the list into this `many` groups, without a chart")
	flags.BoolVar(&f.order.Each, "each", false, "print a line for each child, with its size")
	flags.Float64Var(&f.order.SmallWeight, "small-weight", 4, "how many centimetres too big `count` as one too small")
	flags.Float64Var(&f.order.ToleranceCm, "tolerance", 2.5, "how many `cm` a size may be off: by itself half a step between the sizes 2, 4 and 6")
	completeWith(cmd, "chart", a.chartIDs)
	completeWith(cmd, "by", a.measurementIDs)
	return cmd
}

func (f *orderFlags) check(cmd *cobra.Command) error {
	changed := cmd.Flags().Changed
	o := f.order
	switch {
	case changed("best") && o.Best < 1:
		return usagef("--best %d: choose at least one size", o.Best)
	case changed("cuts") && o.Cuts < 1:
		return usagef("--cuts %d: make at least one group", o.Cuts)
	case o.Cuts > 0 && (o.Best > 0 || len(o.Sizes) > 0 || o.Halves || changed("chart")):
		return usagef("--cuts uses no chart; leave --best, --sizes, --halves and --chart out")
	case o.Cuts > 0 && len(f.by) != 1:
		return usagef("--cuts uses one measurement; name it, as --by chest")
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
