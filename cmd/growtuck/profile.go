package main

import (
	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/work"
)

func newProfileCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:     "profile [child.csv]",
		GroupID: groupWork,
		Short:   "Which size each of a child's measurements is",
		Long: `profile shows the size of a chart that matches each of the child's measurements: a
tall, slim child may have the chest of a size 2 and the arms of a size 5. Where
the sizes are far apart, give growtuck blend two: one for widths, one for lengths.
The last column is the height at which the measurement is typical, by the survey
of measured children.`,
		Example: `  growtuck profile child.csv
  growtuck profile --set chest=53cm --set arm_length=37cm
  growtuck profile child.csv --chart measured`,
		Args: atMostOneChild(0),
	}
	q := a.asks(cmd, ask.ProfileFields())
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		path := argument(args, 0)
		if path == "" && len(q.values) == 0 {
			return usagef("no child; give a file, - for standard input, or measurements with --set chest=53cm")
		}
		ref, err := a.reference()
		if err != nil {
			return err
		}
		r, err := a.read(ref, q, path)
		if err != nil {
			return err
		}
		return a.printed(work.Profile(ref, r, a.style()))
	}
	return cmd
}
