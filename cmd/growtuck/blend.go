package main

import (
	"errors"
	"slices"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/data"
	"growtuck/sizing"
)

func newBlendCommand(a *app) *cobra.Command {
	var (
		body bodyFlags
		only onlyFlags
		why  bool
	)
	cmd := &cobra.Command{
		Use:     "blend [child.csv]",
		GroupID: groupWork,
		Short:   "A child's measurements, those not taken filled in",
		Long: `blend fills in the measurements that were not taken of a child.

With --widths and --lengths it takes widths and girths from one size and lengths
from another; the child's own come before both. Without them it estimates each
from those taken, by how the measurements of surveyed children go together, and
gives the range in which eight of ten such children are. The more is measured,
the narrower the range; height and chest, or height and weight, are worth most.

The file has the columns measurement,value,unit and a line for each measurement
(growtuck measurements lists them) or for name, sex and age; - reads standard
input. A measurement that hardly any child has is used, and questioned.`,
		Example: `  growtuck blend child.csv
  growtuck blend child.csv --widths 2 --lengths 5
  growtuck blend --sex m --age 4y6m --set height=110.5 --set "chest=20 3/4 in"`,
		Args: atMostOneChild(0),
		RunE: func(cmd *cobra.Command, args []string) error { return a.blend(argument(args, 0), body, only, why) },
	}
	body.add(a, cmd)
	only.add(a, cmd)
	cmd.Flags().BoolVar(&why, "why", false, "print under each number how it was got")
	return cmd
}

func (a *app) blend(path string, body bodyFlags, only onlyFlags, why bool) error {
	ref, err := a.reference()
	if err != nil {
		return err
	}
	child, b, err := a.readBody(ref, path, body)
	if err != nil {
		return err
	}
	ids, err := only.wanted(ref)
	if err != nil {
		return err
	}
	keep(b, ids)
	missing := absent(ref, b, ids)
	if len(b.Readings) == 0 {
		return errors.New(tell.NotKnown(missing[0]))
	}
	shown, err := tell.Shown(ref, only.only, only.all)
	if err != nil {
		return err
	}
	return a.print(a.style().Blend(ref, child, b, missing, shown, why))
}

// argument returns the argument at i, "" where there is none.
func argument(args []string, i int) string {
	if i < len(args) {
		return args[i]
	}
	return ""
}

// absent lists what the body lacks of the ids, or of all measurements.
func absent(ref *sizing.Reference, b *sizing.Body, ids []string) []data.Measurement {
	var all []data.Measurement
	for _, m := range ref.Measurements() {
		if _, ok := b.Get(m.ID); !ok && (ids == nil || slices.Contains(ids, m.ID)) {
			all = append(all, m)
		}
	}
	return all
}
