package list

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"

	"growtuck/sizing"
	"growtuck/sizing/order"
)

// OrderOptions say which sizes a list is fitted to, and what a misfit costs.
type OrderOptions struct {
	Chart       string
	Sex         sizing.Sex // whose sizes, where the chart has boys and girls apart
	By          []string   // ids of the measurements that a size has to fit
	Sizes       []string   // to choose from; nil for all of the chart
	Best        int        // choose at most this many of them; 0 for all
	Halves      bool       // choose from the sizes halfway between, too
	Cuts        int        // cut the list into this many groups instead, without a chart
	SmallWeight float64    // how many cm too big count as one too small
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

// An OrderResult is what to make for a list.
type OrderResult struct {
	List     string // its name
	Options  OrderOptions
	Children *order.List
	Rejected int // lines
	Doubted  int // children of whom something is in doubt
	Sizes    []SizeCount
	Plan     *order.Plan
	Choice   *order.Choice // how sizes were chosen; nil where they were not
	Sources  []string      // ids of the sources of the sizes

	each *eachLines
}

// Run reads the list, estimates what was not measured, and gives every child a
// size.
func (o *Order) Run(ctx context.Context, in *List, to Listener) (*OrderResult, error) {
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
	if err := o.read(ctx, in, r, to); err != nil {
		return nil, err
	}
	if r.Children.Len() == 0 {
		return nil, fmt.Errorf("%s has no child to plan for", in.name)
	}
	if err := o.choose(ctx, r); err != nil {
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

// choose finds the sizes to make, or cuts the list into groups.
func (o *Order) choose(ctx context.Context, r *OrderResult) error {
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
		if r.Choice, err = order.Best(ctx, r.Children, bodies(o.sizes), o.options.Best, o.misfit); err != nil {
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

// maxOrder bounds the children of an order: all their measurements are held.
const maxOrder = 2_000_000

// read reads the list, and estimates what was not measured.
func (o *Order) read(ctx context.Context, in *List, r *OrderResult, to Listener) (err error) {
	by := o.options.By
	if r.Children, err = order.NewList(len(by)); err != nil {
		return err
	}
	p := pipeline{list: in.lines, name: in.name, stop: ctx.Done()}
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
			doubted, err := sizer.Size(child.sex, child.age, child.measured, figures)
			if err != nil {
				return sizeError(err)
			}
			if doubted {
				b.doubted++
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
		r.Doubted += b.doubted
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
