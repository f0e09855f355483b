package main

import (
	"fmt"

	"github.com/spf13/cobra"

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
	r, err := a.sizeReport(ref, sizes, chart, only, why)
	if err != nil {
		return err
	}
	return a.print(r)
}

// A sizeBody is a size and what its chart has there.
type sizeBody struct {
	asked   string // as the maker wrote it
	place   sizing.Place
	body    *sizing.Body
	missing []missingRecord
}

// readSizes reads the chart at each size.
func readSizes(ref *sizing.Reference, names []string, f chartFlags, sex sizing.Sex, only onlyFlags) ([]sizeBody, error) {
	chart, err := ref.Chart(f.chart)
	if err != nil {
		return nil, err
	}
	ids, err := only.wanted(ref)
	if err != nil {
		return nil, err
	}
	var sizes []sizeBody
	for _, name := range names {
		p, err := chart.Place(name, sex)
		if err != nil {
			return nil, err
		}
		s := sizeBody{asked: name, place: p, body: ref.BodyAt(p, f.method()), missing: []missingRecord{}}
		keep(s.body, ids)
		for _, id := range ids {
			if _, err := ref.Read(p, id, f.method()); err != nil {
				m, _ := ref.Measurement(id) // known: wanted has looked it up
				s.missing = append(s.missing, missingRecord{m.ID, m.Name, err.Error()})
			}
		}
		if len(s.body.Readings) == 0 && len(s.missing) > 0 {
			return nil, fmt.Errorf("size %s: %s", p.Label(), s.missing[0].Reason)
		}
		sizes = append(sizes, s)
	}
	return sizes, nil
}
