package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/data"
	"growtuck/sizing"
)

// onlyFlags say which measurements to show. Without them tables leave out what
// garments seldom need; CSV and JSON leave out nothing.
type onlyFlags struct {
	only []string
	all  bool
}

func (f *onlyFlags) add(a *app, cmd *cobra.Command) {
	cmd.Flags().StringSliceVar(&f.only, "only", nil, "show only these `measurements`, parted by commas: chest,hip")
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

// alwaysShown are measurements that makers and patterns speak of, though no
// garment of the tables has a part that is worked out from them.
var alwaysShown = []string{"height", "weight", "shoulder_breadth", "neck_to_wrist", "arm_length"}

// shown reports whether tables show a measurement.
func (f *onlyFlags) shown(ref *sizing.Reference) (func(data.Measurement) bool, error) {
	if f.all || len(f.only) > 0 {
		return func(data.Measurement) bool { return true }, nil
	}
	needed := slices.Clone(alwaysShown)
	for _, g := range ref.Garments() {
		parts, err := ref.Parts(g.ID)
		if err != nil {
			return nil, err
		}
		for _, p := range parts {
			needed = append(needed, p.Measurement)
		}
	}
	return func(m data.Measurement) bool { return slices.Contains(needed, m.ID) }, nil
}
