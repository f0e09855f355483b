package main

import (
	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/work"
)

func newGrowCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "grow [child.csv]",
		GroupID: groupWork,
		Short:   "How a child grows, with likely ranges",
		Long: `grow shows a child's measurements as they will be: the height keeps its place on the
published growth charts, all else follows it and keeps how it departs from the usual.
The range is of eight children in ten, at the end. Heights measured earlier, in a column
date of the child's table or a column for each day, tell how fast the child grows.

Without --until or --grow it is shown for a year.`,
		Example: `  growtuck grow child.csv
  growtuck grow child.csv --until 2028-04
  growtuck grow --set height=104 --age 4y3m --sex f --grow 18m`,
		Args: atMostOneChild(0),
	}
	a.ofChild(cmd, ask.GrowFields(), work.Grow)
	return cmd
}
