package sizing

// Sizes are the sizes of a chart that a body is taken from, as a maker writes
// them. With none the body is estimated from the child's own measurements.
type Sizes struct {
	Chart           string // its id; "" is the default chart
	All             string // one size for all that was not measured
	Widths, Lengths string // or one for widths and girths and one for lengths
	Method          Method // of reading between sizes
}

// DefaultChart is the chart that sizes are read from unless another is named.
const DefaultChart = "child"

// Named reports whether any size is named.
func (z Sizes) Named() bool { return z.All != "" || z.Widths != "" || z.Lengths != "" }

// Body makes the body of a child: read at the sizes named, the child's own
// measurements before them, or, without any, estimated.
func (ref *Reference) Body(c Child, z Sizes) (*Body, error) {
	if !z.Named() {
		return ref.Estimate(c)
	}
	id := z.Chart
	if id == "" {
		id = DefaultChart
	}
	chart, err := ref.Chart(id)
	if err != nil {
		return nil, err
	}
	wide, long := z.Widths, z.Lengths
	if z.All != "" {
		wide, long = z.All, z.All
	}
	widths, err := chart.Place(wide, c.Sex)
	if err != nil {
		return nil, &SizeFieldError{z.fieldOf("widths"), err}
	}
	lengths, err := chart.Place(long, c.Sex)
	if err != nil {
		return nil, &SizeFieldError{z.fieldOf("lengths"), err}
	}
	if z.All != "" && len(c.Own) == 0 {
		return ref.BodyAt(widths, z.Method), nil
	}
	return ref.Blend(widths, lengths, c, z.Method)
}

// fieldOf is the field that a size is from: one for all, or its own.
func (z Sizes) fieldOf(own string) string {
	if z.All != "" {
		return "size"
	}
	return own
}

// SizeFieldError says which of the sizes a chart does not have: size, widths or lengths.
type SizeFieldError struct {
	Field string
	Err   error
}

func (e *SizeFieldError) Error() string { return e.Err.Error() }

func (e *SizeFieldError) Unwrap() error { return e.Err }
