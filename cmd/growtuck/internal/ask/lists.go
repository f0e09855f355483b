package ask

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"growtuck/sizing"
)

// A ListRequest is how a list of children is read, what is written of each child, and
// how sizes are chosen for all of them.
type ListRequest struct {
	Columns string
	Header  bool
	Unit    string // of lengths that name none

	Want   []string // ids of measurements
	Ranges bool

	By           []string // ids of measurements
	Best, Cuts   int
	Halves, Each bool
	SmallWeight  float64
	ToleranceCm  float64
}

func listFields() []Field {
	return []Field{
		{Name: "columns", Help: "`names` of the columns, separated as the list is, instead of its header's", set: text(func(r *Request) *string { return &r.List.Columns })},
		{Name: "header", Kind: YesNo, Usual: "true", Help: "the list begins with a header; where false name the columns", set: yes(func(r *Request, on bool) { r.List.Header = on })},
		{Name: "figures-in", Kind: Choice, Choices: []string{"cm", "mm", "in"}, Usual: "cm",
			Help: "`unit` of lengths without one: cm, mm or in; weights are in kg, with in they are in lb", set: choice(func(r *Request) *string { return &r.List.Unit })},
	}
}

// BatchFields are the fields of a line for each child of a list.
func BatchFields() []Field {
	garment := Field{Name: "garment", Group: Garment, Known: GarmentIDs, set: (*Request).setGarment,
		Listed: "garments", Help: "`garment` to work out the finished measurements of"}
	return slices.Concat(listFields(), []Field{
		{Name: "want", Kind: List, Known: MeasurementsOf, Help: "`measurements` to write, comma-separated (default: those that most garments take, or with a garment none)",
			set: measurements(func(r *Request) *[]string { return &r.List.Want })},
		{Name: "ranges", Kind: YesNo, Help: "write the likely range of estimates, p10–p90", set: yes(func(r *Request, on bool) { r.List.Ranges = on })},
		garment,
	}, without(Of(Garment), "garment"))
}

// OrderFields are the fields of how many of each size to make for a list.
func OrderFields() []Field {
	sizes := Named("sizes")[0]
	sizes.Help = "the `sizes` to choose from, comma-separated: 2,4,6"
	sex := Named("sex")[0]
	sex.Usual, sex.Help = string(sizing.Both), "whose `sizes`, m, f or both, of a chart that has boys and girls apart"
	return slices.Concat(listFields(), Named("chart"), []Field{
		sex,
		{Name: "by", Kind: List, Known: MeasurementsOf, Usual: "chest,hip,arm_length,inside_leg", Help: "`measurements` that a size has to fit, comma-separated",
			set: measurements(func(r *Request) *[]string { return &r.List.By })},
		sizes,
		{Name: "best", Kind: Number, Low: 1, High: 100, Help: "choose at most this `many` sizes", set: whole(func(r *Request) *int { return &r.List.Best })},
		{Name: "halves", Kind: YesNo, Help: "choose from half sizes too", set: yes(func(r *Request, on bool) { r.List.Halves = on })},
		{Name: "cuts", Kind: Number, Low: 1, High: 100, Help: "cut the list into this `many` groups, without a chart", set: whole(func(r *Request) *int { return &r.List.Cuts })},
		{Name: "each", Kind: YesNo, Help: "a line for each child, with its size", set: yes(func(r *Request, on bool) { r.List.Each = on })},
		{Name: "small-weight", Kind: Number, Low: 0.01, High: 1000, Usual: "4", Help: "how many centimetres too big `count` as much as one too small",
			set: number(func(r *Request) *float64 { return &r.List.SmallWeight })},
		{Name: "tolerance", Kind: Number, Low: 0, High: 100, Usual: "2.5", Help: "how many `cm` a size may be off; the default is half the step between sizes 2, 4 and 6",
			set: number(func(r *Request) *float64 { return &r.List.ToleranceCm })},
	})
}

// measurements keeps the ids of measurements.
func measurements(into func(*Request) *[]string) func(*Request, []string) error {
	return func(r *Request, texts []string) (err error) {
		*into(r), err = MeasurementIDs(r.ref, texts)
		return err
	}
}

// whole keeps a whole number, whose bounds Read has checked.
func whole(into func(*Request) *int) func(*Request, []string) error {
	return func(r *Request, texts []string) error {
		v, err := sizing.ParseNumber(texts[0])
		if err == nil && v != math.Trunc(v) {
			err = fmt.Errorf("%q is not a whole number", texts[0])
		}
		*into(r) = int(v)
		return err
	}
}

// CheckList refuses a list without columns.
func (r *Request) CheckList() error {
	if !r.List.Header && r.List.Columns == "" {
		return &Fault{Field: "columns", Err: errors.New("the list has no header; name its columns, such as columns id,sex,height,chest")}
	}
	return nil
}

// CheckBatch refuses how a garment is made where none is named.
func (r *Request) CheckBatch() error {
	for _, f := range Of(Garment) {
		if r.Given(f.Name) && r.Spec.Garment == "" {
			return &Fault{Field: f.Name, Err: fmt.Errorf("%s needs a garment; name it with garment", f.Name)}
		}
	}
	return nil
}

// CheckOrder refuses what excludes each other in an order.
func (r *Request) CheckOrder() error {
	fault := func(field, words string) error { return &Fault{Field: field, Err: errors.New(words)} }
	l := r.List
	switch {
	case l.Cuts > 0 && (l.Best > 0 || len(r.Run) > 0 || l.Halves || r.Given("chart") || r.Given("sex")):
		return fault("cuts", "cuts uses no chart; leave best, sizes, halves, chart and sex out")
	case l.Cuts > 0 && len(l.By) != 1:
		return fault("by", "cuts uses one measurement; name it with by, such as chest")
	case l.Halves && (l.Best == 0 || len(r.Run) > 0):
		return fault("halves", "halves adds to the chart's sizes that best chooses from")
	case len(l.By) == 0:
		return fault("by", "by names no measurement")
	}
	return nil
}
