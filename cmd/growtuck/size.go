package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/work"
)

func newSizeCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "size SIZE...",
		GroupID: groupWork,
		Short:   "Body measurements at a size, or at several side by side",
		Long: `size shows the body measurements of a chart at a size, before ease: as the chart
has them, or interpolated between two of its sizes. Nothing is extrapolated beyond
the chart.

A SIZE is one of the chart (4, 18m, toddler), a number between (5.5), an age
(18m, 3y6m), a height (104cm, 41in) or what a label says (4T, 4-5y, 98/104, EU 110);
heights stands for every sixth height that the chart has, as sizes by height go
(EN 13402-3). One size is shown with where each number
comes from, the range of the children measured, and the sources; several sizes are
shown side by side.`,
		Example: `  growtuck size 3
  growtuck size 2 3 4 --only chest,waist,hip --unit in
  growtuck size 104cm --chart measured --sex f
  growtuck size heights --only chest,hip,inside_leg
  growtuck size toddler --chart craft-head`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return fmt.Errorf("no size given; for example growtuck size 3")
			}
			return nil
		},
		ValidArgsFunction: cobra.NoFileCompletions,
	}
	q := a.asks(cmd, ask.SizeFields())
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		ref, err := a.reference()
		if err != nil {
			return err
		}
		r, err := a.read(ref, q, "")
		if err != nil {
			return err
		}
		return a.printed(work.Sizes(ref, r, args, a.style()))
	}
	return cmd
}
