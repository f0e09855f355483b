package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"growtuck/sizing"
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
			return a.print(measurementsReport(ref))
		},
	}
}

func noArguments(cmd *cobra.Command, args []string) error {
	if len(args) > 0 {
		return fmt.Errorf("%s takes no arguments, but got %q", cmd.Name(), args[0])
	}
	return nil
}

type measurementRecord struct {
	Measurement string `json:"measurement"`
	Name        string `json:"name"`
	Kind        string `json:"kind"`
	Region      string `json:"region"`
	Follows     string `json:"follows"`
	Unit        string `json:"unit"`
	How         string `json:"how"`
	Clause      string `json:"clause"`
}

type measurementsDocument struct {
	Measurements []measurementRecord `json:"measurements"`
}

func measurementsReport(ref *sizing.Reference) report {
	g := grid{columns: []column{{head: "measurement"}, {head: "name"}, {head: "blends with"}, {head: "how to take it", wrap: true}}}
	records := []measurementRecord{}
	for _, m := range ref.Measurements() {
		records = append(records, measurementRecord{m.ID, m.Name, m.Kind, m.Region, m.Follows, m.Unit, m.How, m.Clause})
		g.rows = append(g.rows, tableRow(m.ID, m.Name, m.Follows, m.How))
	}
	return report{
		heading:  []string{"Body measurements, as files and flags name them"},
		grids:    []grid{g},
		rows:     records,
		document: measurementsDocument{records},
	}
}
