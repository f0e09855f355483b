package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
)

func newSizeCommand(a *app) *cobra.Command {
	var (
		chart chartFlags
		only  onlyFlags
		sex   string
		why   bool
	)
	cmd := &cobra.Command{
		Use:     "size SIZE...",
		GroupID: groupWork,
		Short:   "Body measurements at a size, or at several side by side",
		Long: `size shows the body measurements of a chart at a size: before ease, as the chart
has them, or read between two of its sizes. Outside the chart nothing is shown.

A SIZE is one of the chart (4, 18m, toddler), a number between (5.5), an age
(18m, 3y6m) or a height (104cm, 41in). One size shows how each number was got,
the range of the children measured, and the sources; several stand side by side.`,
		Example: `  growtuck size 3
  growtuck size 2 3 4 --only chest,waist,hip --unit in
  growtuck size 104cm --chart measured --sex f
  growtuck size toddler --chart craft-head`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return fmt.Errorf("no size given; as in growtuck size 3")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return a.size(args, chart, sex, only, why) },
	}
	chart.add(a, cmd)
	only.add(a, cmd)
	cmd.Flags().StringVar(&sex, "sex", "both", "m, f or both")
	cmd.Flags().BoolVar(&why, "why", false, "print under each number how it was got")
	complete(cmd, "sex", "m", "f", "both")
	cmd.ValidArgsFunction = cobra.NoFileCompletions
	return cmd
}

func (a *app) size(names []string, chart chartFlags, sex string, only onlyFlags, why bool) error {
	ref, err := a.reference()
	if err != nil {
		return err
	}
	s, err := sizing.ParseSex(sex)
	if err != nil {
		return err
	}
	sizes, err := readSizes(ref, names, chart, s, only)
	if err != nil {
		return err
	}
	shown, err := tell.Shown(ref, only.only, only.all)
	if err != nil {
		return err
	}
	return a.print(a.style().Sizes(ref, chart.chart, chart.method(), sizes, shown, why))
}

// readSizes reads the chart at each size.
func readSizes(ref *sizing.Reference, names []string, f chartFlags, sex sizing.Sex, only onlyFlags) ([]tell.SizeBody, error) {
	chart, err := ref.Chart(f.chart)
	if err != nil {
		return nil, err
	}
	ids, err := only.wanted(ref)
	if err != nil {
		return nil, err
	}
	var sizes []tell.SizeBody
	for _, name := range names {
		p, err := chart.Place(name, sex)
		if err != nil {
			return nil, err
		}
		s := tell.SizeBody{Asked: name, Place: p, Body: ref.BodyAt(p, f.method())}
		keep(s.Body, ids)
		for _, id := range ids {
			if _, err := ref.Read(p, id, f.method()); err != nil {
				m, _ := ref.Measurement(id) // known: wanted has looked it up
				s.Missing = append(s.Missing, tell.Missing{Measurement: m, Err: err})
			}
		}
		if len(s.Body.Readings) == 0 && len(s.Missing) > 0 {
			return nil, fmt.Errorf("size %s: %s", p.Label(), s.Missing[0].Err)
		}
		sizes = append(sizes, s)
	}
	return sizes, nil
}
