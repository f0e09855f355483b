package main

import (
	"errors"

	"github.com/spf13/cobra"

	"growtuck/sizing"
)

func newProfileCommand(a *app) *cobra.Command {
	var (
		child childFlags
		name  string
	)
	cmd := &cobra.Command{
		Use:     "profile [child.csv]",
		GroupID: groupWork,
		Short:   "Which size each of a child's measurements is",
		Long: `profile says at which size of a chart each of the child's measurements stands: a
tall, slim child may have the chest of a size 2 and the arms of a size 5. Sizes
that lie far apart say which two to name in growtuck blend. The last column says
how tall the child is in whom the measurement would be the usual one, by the
survey of measured children.`,
		Example: `  growtuck profile child.csv
  growtuck profile --set chest=53cm --set arm_length=37cm
  growtuck profile child.csv --chart measured`,
		Args: atMostOneChild(0),
		RunE: func(cmd *cobra.Command, args []string) error {
			path := argument(args, 0)
			if path == "" && child.none() {
				return usagef("no child; give a file, - for standard input, or measurements with --set chest=53cm")
			}
			return a.profile(path, child, name)
		},
	}
	child.add(cmd)
	cmd.Flags().StringVar(&name, "chart", "child", "`chart` to find the measurements in; growtuck charts lists them")
	completeWith(cmd, "chart", a.chartIDs)
	return cmd
}

var errNothingToFind = errors.New("the child has no measurements to find in a chart")

func (a *app) profile(path string, child childFlags, name string) error {
	ref, err := a.reference()
	if err != nil {
		return err
	}
	c, err := a.readChild(ref, path, child)
	if err != nil {
		return err
	}
	if len(c.Own) == 0 {
		return errNothingToFind
	}
	chart, err := ref.Chart(name)
	if err != nil {
		return err
	}
	standings, err := ref.Profile(chart, c)
	if err != nil {
		return err
	}
	var survey []sizing.Standing
	if measured, err := ref.Chart("measured"); err == nil && chart.ID != measured.ID {
		if survey, err = ref.Profile(measured, c); err != nil {
			return err
		}
	}
	return a.print(a.style().Profile(ref, c, chart, standings, survey))
}
