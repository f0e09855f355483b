package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/sizing"
)

// onlyFlags say which measurements to show. Without them tables leave out what
// garments seldom need; CSV and JSON leave out nothing.
type onlyFlags struct {
	only []string
	all  bool
}

func (f *onlyFlags) add(a *app, cmd *cobra.Command) {
	cmd.Flags().StringSliceVar(&f.only, "only", nil, "show only these `measurements`, comma-separated: chest,hip")
	completeWith(cmd, "only", a.measurementIDs)
	cmd.Flags().BoolVar(&f.all, "all", false, "show in tables what garments seldom need, too")
}

// wanted returns the ids that were asked for by name, nil for all.
func (f *onlyFlags) wanted(ref *sizing.Reference) ([]string, error) {
	var ids []string
	for _, name := range f.only {
		id := strings.ReplaceAll(strings.TrimSpace(name), "-", "_")
		m, err := ref.Measurement(id)
		if err != nil {
			return nil, err
		}
		ids = append(ids, m.ID)
	}
	return ids, nil
}

// keep reduces a body to the ids; nil keeps all.
func keep(b *sizing.Body, ids []string) {
	if ids == nil {
		return
	}
	b.Readings = slices.DeleteFunc(b.Readings, func(r sizing.Reading) bool {
		return !slices.Contains(ids, r.Measurement.ID)
	})
}
