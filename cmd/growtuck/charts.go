package main

import (
	"growtuck/cmd/growtuck/internal/tell"

	"github.com/spf13/cobra"
)

func newChartsCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "charts",
		GroupID: groupLookUp,
		Short:   "The charts, their sizes and what to know about them",
		Long: `charts lists the size charts: the scale of their sizes (months or years of age,
height in cm, or names only), the first and the last size, and for whom they are.`,
		Example: `  growtuck charts
  growtuck charts --format json`,
		Args: noArguments,
		RunE: func(cmd *cobra.Command, args []string) error {
			ref, err := a.reference()
			if err != nil {
				return err
			}
			return a.print(tell.Charts(ref))
		},
	}
}
