package list

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"growtuck/sizing"
)

// A SizeCount is a size, or a group of the list, and how many of it to make.
type SizeCount struct {
	Label         string
	Place         sizing.Place // of a size
	BodyCm        []float64    // what it is made for, in the order of By
	Children      int
	LowCm, HighCm float64 // of a group: the least and the most that its children measure
}

// findSizes lists the sizes to choose from.
func (o *Order) findSizes() error {
	chart, err := o.ref.Chart(o.options.Chart)
	if err != nil {
		return err
	}
	if err := chart.CheckSex(o.options.Sex); err != nil {
		return err
	}
	if len(o.options.Sizes) == 0 {
		o.sizes = chartSizes(chart, o.options.Sex, o.options.By, o.options.Halves)
	} else if o.sizes, err = namedSizes(o.ref, chart, o.options.Sex, o.options.Sizes, o.options.By); err != nil {
		return err
	}
	switch n := len(o.sizes); {
	case n == 0:
		return fmt.Errorf("chart %s has no size with all of %s", chart.ID, strings.Join(o.options.By, ", "))
	case o.options.Best > n:
		return fmt.Errorf("%d sizes cannot be chosen: there are only %d to choose from", o.options.Best, n)
	}
	slices.SortStableFunc(o.sizes, func(a, b SizeCount) int {
		if a.Place.Run != b.Place.Run {
			return strings.Compare(string(a.Place.Run.Scale), string(b.Place.Run.Scale)) // months, then years
		}
		return cmp.Compare(a.Place.Position, b.Place.Position)
	})
	return nil
}

func namedSizes(ref *sizing.Reference, chart *sizing.Chart, sex sizing.Sex, names, ids []string) ([]SizeCount, error) {
	var sizes []SizeCount
	for _, name := range names {
		p, err := chart.Place(name, sex)
		if err != nil {
			return nil, err
		}
		size := SizeCount{Label: p.Label(), Place: p}
		for _, id := range ids {
			r, err := ref.Read(p, id, sizing.Monotone)
			if err != nil {
				return nil, fmt.Errorf("size %s: %w", size.Label, err)
			}
			size.BodyCm = append(size.BodyCm, r.Value)
		}
		if slices.ContainsFunc(sizes, func(other SizeCount) bool { return other.Place == p }) {
			return nil, fmt.Errorf("size %s is named twice", size.Label)
		}
		sizes = append(sizes, size)
	}
	return sizes, nil
}

// chartSizes lists the sizes of a chart that have all measurements, with those
// halfway between if asked for.
func chartSizes(chart *sizing.Chart, sex sizing.Sex, ids []string, halves bool) []SizeCount {
	var sizes []SizeCount
	for _, scale := range []sizing.Scale{sizing.Months, sizing.Years, sizing.Height} {
		run, ok := chart.Run(scale, sex)
		if !ok {
			continue
		}
		var positions []float64
		for i, m := range run.Sizes {
			if i > 0 && halves {
				positions = append(positions, (run.Sizes[i-1].Position+m.Position)/2)
			}
			positions = append(positions, m.Position)
		}
		for _, position := range positions {
			p := sizing.Place{Run: run, Position: position}
			size := SizeCount{Label: p.Label(), Place: p}
			for _, id := range ids {
				size.BodyCm = append(size.BodyCm, run.Value(id, position))
			}
			if !slices.ContainsFunc(size.BodyCm, math.IsNaN) {
				sizes = append(sizes, size)
			}
		}
	}
	return sizes
}

func bodies(sizes []SizeCount) [][]float64 {
	all := make([][]float64, len(sizes))
	for i, s := range sizes {
		all[i] = s.BodyCm
	}
	return all
}

// sources are the ids of the sources of sizes of a chart.
func (o *Order) sources(sizes []SizeCount) []string {
	var used []string
	for _, s := range sizes {
		for _, id := range o.options.By {
			if s.Place.Run == nil {
				continue
			}
			if r, err := o.ref.Read(s.Place, id, sizing.Monotone); err == nil {
				used = append(used, r.Sources...)
			}
		}
	}
	return used
}
