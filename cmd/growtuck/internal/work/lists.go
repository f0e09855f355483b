package work

import (
	"io"

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
