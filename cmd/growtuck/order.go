package main

import (
	"context"
	"slices"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/work"
)

func newOrderCommand(a *app) *cobra.Command {
	var q *question
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
		RunE: func(_ *cobra.Command, args []string) error {
			rejected, err := a.order(argument(args, 0), q)
			if err != nil {
				return cannotRun(err)
			}
			return rejectedError(rejected, "")
		},
	}
	q = a.asks(cmd, ask.OrderFields())
	return cmd
}

// order plans for a list, and returns how many lines were rejected.
func (a *app) order(path string, q *question) (rejected int, err error) {
	ref, err := a.reference()
	if err != nil {
		return 0, err
	}
	r, err := a.read(ref, q, "")
	if err != nil {
		return 0, err
	}
	if r.List.Each && !slices.Contains([]string{"table", "csv", "json"}, a.format) {
		return 0, usagef("--each writes CSV or lines of JSON; leave --format out, or use csv or json")
	}
	order, err := work.NewOrder(ref, r, a.lineFormat())
	if err != nil {
		return 0, err
	}
	var computed []string
	if r.List.Each {
		computed = order.Columns()
	}
	in, closeList, err := a.openList(ref, r, path, computed)
	if err != nil {
		return 0, err
	}
	defer closeList()
	to, done := a.listener(in, true)
	result, err := order.Run(context.Background(), in, to)
	done()
	switch {
	case err != nil:
		return 0, err
	case r.List.Each:
		return result.Rejected, result.WriteEach(a.stdout)
	}
	return result.Rejected, a.print(a.style().Order(ref, result))
}
