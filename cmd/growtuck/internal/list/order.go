package list

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/order"
)

// OrderOptions say which sizes a list is fitted to, and what a misfit costs.
type OrderOptions struct {
	Chart       string
	By          []string // ids of the measurements that a size has to fit
	Sizes       []string // to choose from; nil for all of the chart
	Best        int      // choose at most so many of them; 0 for all
	Halves      bool     // choose from the sizes halfway between, too
	Cuts        int      // cut the list into so many groups instead, without a chart
	SmallWeight float64  // how many cm too big count as one too small
	ToleranceCm float64
	Each        bool // write a line for each child
	Format      Format
}

// An Order says how many of each size to make for a list.
type Order struct {
	ref     *sizing.Reference
	options OrderOptions
	misfit  order.Misfit
	sizes   []SizeCount // to choose from
}

// A SizeCount is a size, or a group of the list, and how many of it to make.
type SizeCount struct {
	Label         string
	Place         sizing.Place // of a size
	BodyCm        []float64    // what it is made for, in the order of By
	Children      int
	LowCm, HighCm float64 // of a group: the least and the most that its children measure
}

// NewOrder finds the sizes to choose from.
func NewOrder(ref *sizing.Reference, o OrderOptions) (*Order, error) {
	for i, id := range o.By {
		if slices.Contains(o.By[:i], id) {
			return nil, fmt.Errorf("%s is named twice", id)
		} else if id == "weight" {
			return nil, fmt.Errorf("weight: a size is fitted to lengths and girths")
		}
	}
	r := &Order{ref: ref, options: o, misfit: order.Misfit{Small: o.SmallWeight}}
	if err := r.misfit.Check(); err != nil {
		return nil, err
	}
	if err := order.CheckTolerance(o.ToleranceCm); err != nil {
		return nil, err
	}
	if o.Cuts > 0 {
		return r, nil
	}
	return r, r.findSizes()
}

// Columns are the names of the columns that are written of each child.
func (o *Order) Columns() []string {
	columns := []string{"size"}
	for _, id := range o.options.By {
		columns = append(columns, id+"_off_cm")
	}
	return columns
}

// findSizes lists the sizes to choose from.
func (o *Order) findSizes() error {
	chart, err := o.ref.Chart(o.options.Chart)
	if err != nil {
		return err
	}
	if len(o.options.Sizes) == 0 {
		o.sizes = chartSizes(chart, o.options.By, o.options.Halves)
	} else if o.sizes, err = namedSizes(o.ref, chart, o.options.Sizes, o.options.By); err != nil {
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

func namedSizes(ref *sizing.Reference, chart *sizing.Chart, names, ids []string) ([]SizeCount, error) {
	var sizes []SizeCount
	for _, name := range names {
		p, err := chart.Place(name, sizing.Both)
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
func chartSizes(chart *sizing.Chart, ids []string, halves bool) []SizeCount {
	var sizes []SizeCount
	for _, scale := range []sizing.Scale{sizing.Months, sizing.Years, sizing.Height} {
		run, ok := chart.Run(scale, sizing.Both)
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

// An OrderResult is what to make for a list.
type OrderResult struct {
	List     string // its name
	Options  OrderOptions
	Children *order.List
	Rejected int // lines
	Sizes    []SizeCount
	Plan     *order.Plan
	Choice   *order.Choice // how sizes were chosen; nil where they were not
	Sources  []string      // ids of the sources of the sizes

	each *eachLines
}

// Run reads the list, estimates what was not measured, and gives every child a
// size.
func (o *Order) Run(in *List, to Listener) (*OrderResult, error) {
	r := &OrderResult{List: in.name, Options: o.options}
	for _, doubt := range in.doubts(o.ref) {
		to.Doubt(doubt)
	}
	if o.options.Each {
		inJSON, err := in.writesJSON(o.options.Format)
		if err != nil {
			return nil, err
		}
		r.each = &eachLines{list: in, json: inJSON, columns: o.Columns()}
	}
	if err := o.read(in, r, to); err != nil {
		return nil, err
	}
	if r.Children.Len() == 0 {
		return nil, fmt.Errorf("%s has no child to plan for", in.name)
	}
	if err := o.choose(r); err != nil {
		return nil, err
	}
	var err error
	if r.Plan, err = order.Assign(r.Children, bodies(r.Sizes), o.misfit, o.options.ToleranceCm); err != nil {
		return nil, err
	}
	for i := range r.Sizes {
		r.Sizes[i].Children = r.Plan.Counts[i]
	}
	r.Sources = o.sources(r.ToMake())
	return r, nil
}

// ToMake are the sizes or groups that children were given, and all sizes that
// were named.
func (r *OrderResult) ToMake() []SizeCount {
	if len(r.Options.Sizes) > 0 {
		return r.Sizes
	}
	return slices.DeleteFunc(slices.Clone(r.Sizes), func(s SizeCount) bool { return s.Children == 0 })
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

// choose finds the sizes to make, or cuts the list into groups.
func (o *Order) choose(r *OrderResult) error {
	var err error
	switch {
	case o.options.Cuts > 0:
		groups, err := order.Cut(r.Children.Column(0), o.options.Cuts, o.misfit)
		if err != nil {
			return err
		}
		for i, g := range groups {
			r.Sizes = append(r.Sizes, SizeCount{Label: strconv.Itoa(i + 1), BodyCm: []float64{g.Size}, LowCm: g.Low, HighCm: g.High})
		}
	case o.options.Best > 0:
		if r.Choice, err = order.Best(r.Children, bodies(o.sizes), o.options.Best, o.misfit); err != nil {
			return err
		}
		for _, i := range r.Choice.Sizes {
			r.Sizes = append(r.Sizes, o.sizes[i])
		}
	default:
		r.Sizes = slices.Clone(o.sizes)
	}
	return nil
}

func bodies(sizes []SizeCount) [][]float64 {
	all := make([][]float64, len(sizes))
	for i, s := range sizes {
		all[i] = s.BodyCm
	}
	return all
}

// maxOrder bounds the children of an order: all their measurements are held.
const maxOrder = 2_000_000

// read reads the list, and estimates what was not measured.
func (o *Order) read(in *List, r *OrderResult, to Listener) (err error) {
	by := o.options.By
	if r.Children, err = order.NewList(len(by)); err != nil {
		return err
	}
	p := pipeline{list: in.lines, name: in.name}
	p.handler = func() (handler, error) {
		sizer, err := o.ref.Sizer(sizing.Bulk{Known: in.measured, Want: by})
		if err != nil {
			return nil, err
		}
		child := newChildReader(o.ref, in)
		figures := make([]sizing.Figure, len(by))
		return func(b *block, line []byte) *LineError {
			if wrong := child.readLine(line); wrong != nil {
				return wrong
			}
			if _, err := sizer.Size(child.sex, child.age, child.measured, figures); err != nil {
				return sizeError(err)
			}
			for i, f := range figures {
				if math.IsNaN(f.Value) {
					return &LineError{Reason: by[i] + ": cannot be estimated for this child; measure it"}
				}
				b.figures = append(b.figures, f.Value)
			}
			if r.each != nil {
				r.each.copy(b, child)
			}
			return nil
		}, nil
	}
	p.write = func(b *block) error {
		if r.Rejected += b.rejected; b.rejected > 0 {
			to.Rejected(b.errors)
		}
		if r.Children.Len()+b.children > maxOrder {
			return fmt.Errorf("%s has more than %d children; plan for a part of them, drawn at random", in.name, maxOrder)
		}
		if r.each != nil {
			r.each.lines = append(r.each.lines, b.out...)
		}
		to.Read(b.children, b.read)
		return r.Children.Add(b.figures...)
	}
	return p.run()
}
