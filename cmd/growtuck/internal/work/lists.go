package work

import (
	"errors"
	"io"
	"slices"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/list"
	"growtuck/sizing"
)

// OpenList opens a list of children. The columns computed are not copied.
func OpenList(ref *sizing.Reference, r *ask.Request, name string, in io.Reader, f list.Format, computed []string) (*list.List, error) {
	if err := r.CheckList(); err != nil {
		return nil, err
	}
	return list.Open(ref, name, in, list.Options{Columns: r.List.Columns, Header: r.List.Header, Unit: r.List.Unit, JSON: f == list.JSON, Computed: computed})
}

// mostListed bounds the children of a list who are looked at one by one.
const mostListed = 10000

// ListedWearers are the children of a list who may wear a garment, measured when the
// child of the request was, and the lines of those whose growth cannot be forecast.
func ListedWearers(ref *sizing.Reference, r *ask.Request, in *list.List) (wearers []Wearer, rejected []*list.LineError, err error) {
	children, rejected, err := in.Children(ref, mostListed)
	if err != nil {
		return nil, nil, err
	}
	for _, c := range children {
		c.Child.Measured = r.Child.Measured
		b, err := ref.Estimate(c.Child)
		if err == nil {
			_, err = ref.Growth(b)
		}
		if err != nil {
			rejected = append(rejected, in.Reject(c, err))
			continue
		}
		wearers = append(wearers, Wearer{Name: c.Name, Child: c.Child, Body: b})
	}
	slices.SortStableFunc(rejected, func(a, b *list.LineError) int { return a.Line - b.Line })
	if len(wearers) == 0 {
		err = errors.New("no child of the list can be sized")
	}
	return wearers, rejected, err
}

// NewBatch is what is written of each child of a list that was asked for.
func NewBatch(ref *sizing.Reference, r *ask.Request, units []string, o list.BatchOptions) (*list.Batch, error) {
	if err := r.CheckBatch(); err != nil {
		return nil, err
	}
	o.Want, o.Ranges, o.Units = r.List.Want, r.List.Ranges, units
	if r.Spec.Garment != "" {
		o.Garment = &r.Spec
	}
	return list.NewBatch(ref, o)
}

// NewOrder is the order that was asked for.
func NewOrder(ref *sizing.Reference, r *ask.Request, f list.Format) (*list.Order, error) {
	if err := r.CheckOrder(); err != nil {
		return nil, err
	}
	chart, err := ref.Chart(r.Sizes.Chart)
	if err != nil {
		return nil, err
	}
	for _, size := range r.Run {
		if _, err := chart.Place(size, r.Child.Sex); err != nil {
			return nil, &ask.Fault{Field: "sizes", Err: err}
		}
	}
	l := r.List
	o, err := list.NewOrder(ref, list.OrderOptions{Chart: r.Sizes.Chart, Sex: r.Child.Sex, By: l.By, Sizes: r.Run, Best: l.Best, Halves: l.Halves, Cuts: l.Cuts,
		SmallWeight: l.SmallWeight, ToleranceCm: l.ToleranceCm, Each: l.Each, Format: f})
	switch {
	case err != nil && len(r.Run) > 0:
		err = &ask.Fault{Field: "sizes", Err: err}
	case err != nil && l.Best > 0:
		err = &ask.Fault{Field: "best", Err: err}
	case err != nil:
		err = &ask.Fault{Field: "by", Err: err}
	}
	return o, err
}
