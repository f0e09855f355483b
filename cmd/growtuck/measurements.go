package main

import (
	"fmt"
	"growtuck/cmd/growtuck/internal/tell"

	"github.com/spf13/cobra"
)

func newMeasurementsCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "measurements",
		GroupID: groupLookUp,
		Short:   "The measurements, their ids, and how to take them",
		Long: `measurements lists the body measurements by the ids that files and flags use, with
how each is taken on the child.`,
		Example: `  growtuck measurements
  growtuck measurements --format csv`,
		Args: noArguments,
		RunE: func(cmd *cobra.Command, args []string) error {
			ref, err := a.reference()
			if err != nil {
				return err
			}
			return a.print(tell.Measurements(ref))
		},
	}
}

func noArguments(cmd *cobra.Command, args []string) error {
	if len(args) > 0 {
		return fmt.Errorf("%s takes no arguments, but got %q", cmd.Name(), args[0])
	}
	return nil
}
