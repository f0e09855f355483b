package page

import (
	"math"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/data"
	"growtuck/sizing"
)

// A field is an input of a form, as it was filled in.
type field struct {
	ask.Control
	ID, Value, Fault string
	Choices          []choice
	Checked          bool
	Doubt            *doubtView // nil for none
	Number           int        // in the picture of where to measure; 0 for none
	Pitfall          string     // what goes wrong when it is measured
}

// A doubtView is a doubt beside its field, with buttons that set what may have been
// meant.
type doubtView struct {
	Text   string
	Likely []likely
}

// A likely reading is what may have been meant: the controls that it sets, as a query.
type likely struct{ Set, Text string }

// A choice is one of the values of a field.
type choice struct {
	Value, Label string
	Chosen       bool
}

// A form gives the inputs of a view.
type form struct {
	st     *state
	ref    *sizing.Reference
	doubts []sizing.Doubt
}

// field is a control as it was filled in.
func (f form) field(c ask.Control) field {
	x := field{Control: c, ID: strings.ReplaceAll(c.Name, ".", "-"), Value: f.st.Value(c.Name), Fault: f.st.Fault(c.Name)}
	x.Label, x.Usual = tell.Capital(c.Label), f.st.usual[c.Name]
	if c.Unit != "" {
		x.Unit = ask.TapeUnit(f.st.Value("tape"), c.Unit)
	}
	x.Doubt = f.doubtOf(c.Name)
	if x.Pitfall = f.ref.Pitfall(c.Name); x.Pitfall != "" {
		x.Number = 1 + slices.IndexFunc(f.ref.MeasuringOrder(), func(m data.Measurement) bool { return m.ID == c.Name })
	}
	if c.Tick != "" {
		x.Value, x.Checked = c.Tick, x.Value != "" && x.Value != "no"
		if slices.Contains(manyTicks, c.Name) {
			x.ID, x.Checked = c.Name+"-"+c.Tick, f.st.Has(c.Name, c.Tick)
		}
		return x
	}
	if len(c.Choices) == 0 {
		return x
	}
	known := false
	for _, a := range c.Choices {
		x.Choices = append(x.Choices, choice{a.Value, a.Label, a.Value == x.Value})
		known = known || a.Value == x.Value
	}
	if !known { // from an address: kept, and said to be wrong
		x.Choices = append(x.Choices, choice{x.Value, x.Value, true})
	}
	return x
}

// doubtOf is the doubt about what a control says; nil for none.
func (f form) doubtOf(control string) *doubtView {
	i := slices.IndexFunc(f.doubts, func(d sizing.Doubt) bool { return d.Measurement == control })
	if i < 0 {
		return nil
	}
	style := f.st.style()
	v := &doubtView{Text: style.Fact(f.doubts[i].Fact)}
	for _, c := range f.doubts[i].Likely {
		set := make(url.Values)
		var said []string
		for _, value := range c.Values {
			text := f.typed(value)
			set.Set(value.Measurement, text)
			said = append(said, text)
		}
		v.Likely = append(v.Likely, likely{set.Encode(), "Set to " + strings.Join(said, " and ")})
	}
	return v
}

// typed is a value as it is typed into its control: in the unit of the tape.
func (f form) typed(v sizing.Value) string {
	inches := f.st.Value("tape") == "in"
	switch {
	case v.Unit == "years" && v.Amount < 2:
		return strconv.Itoa(int(math.Round(v.Amount*12))) + "m"
	case v.Unit == "years":
		return sizing.FormatExact(v.Amount)
	case v.Unit == "kg" && inches:
		return tell.Figure(v.Amount/sizing.KgPerPound).String() + " lb"
	case inches:
		return sizing.FormatQuarters(v.Amount/sizing.CmPerInch) + " in"
	}
	return sizing.FormatExact(v.Amount) + " " + v.Unit
}

// inputs are the controls of the fields that apply to the garment.
func (f form) inputs(of []ask.Field) []field {
	var all []field
	for _, one := range of {
		if _, found := ask.Lookup(f.st.fields, one.Name); found && one.AppliesTo(f.ref, f.st.Garment) {
			for _, c := range one.Controls(f.ref, f.st.Garment) {
				all = append(all, f.field(c))
			}
		}
	}
	return all
}

// Inputs are the controls of the fields of some names.
func (f form) Inputs(names ...string) []field {
	var of []ask.Field
	for _, name := range names {
		if one, found := ask.Lookup(f.st.fields, name); found {
			of = append(of, one)
		}
	}
	return f.inputs(of)
}

// Tape picks the unit of what was measured and of what is shown.
func (f form) Tape(label string) field {
	return f.field(ask.Control{Name: "tape", Label: label, Choices: []ask.Answer{{Value: "cm", Label: "cm and kg"}, {Value: "in", Label: "inches and pounds"}}})
}

// TapeUnit is the unit that the form was filled in by.
func (f form) TapeUnit() string { return f.st.style().Unit }

// dates are the fields of days and months, which are folded together.
var dates = []string{"born", "measured", "wear", "until", "grow"}

// Days are those of the child.
func (f form) Days() []field { return f.inputs(some(ask.Child, isDate)) }

// Worn are those of when the garment is worn.
func (f form) Worn() []field { return f.inputs(some(ask.Garment, isDate)) }

func isDate(f ask.Field) bool { return slices.Contains(dates, f.Name) }

// Child are the fields of the child that are not measured.
func (f form) Child() []field {
	return f.inputs(some(ask.Child, func(x ask.Field) bool { return x.Name != "set" && !isDate(x) }))
}

// first are the names of the measurements that are worth most for the garment:
// the fit of a one-piece rests on the trunk.
func (f form) first() []string {
	garment := f.st.Value("garment")
	if slices.ContainsFunc(f.ref.Garments(), func(g data.Garment) bool { return g.ID == garment && g.Group == "one-piece" }) {
		return slices.Insert(slices.Clone(ask.WorthMost), 1, "trunk")
	}
	return ask.WorthMost
}

// First are the measurements that are worth most.
func (f form) First() []field {
	names := f.first()
	all := slices.DeleteFunc(f.Inputs("set"), func(x field) bool { return !slices.Contains(names, x.Name) })
	slices.SortFunc(all, func(a, b field) int {
		return slices.Index(names, a.Name) - slices.Index(names, b.Name)
	})
	return all
}

// Others are all other measurements.
func (f form) Others() []field {
	names := f.first()
	return slices.DeleteFunc(f.Inputs("set"), func(x field) bool { return slices.Contains(names, x.Name) })
}

// Sizes are the sizes of the chart that may be named.
func (f form) Sizes() []field { return f.inputs(ask.Of(ask.Sizes)) }

// Fit are the fields that every garment has.
func (f form) Fit() []field {
	return f.inputs(some(ask.Garment, func(x ask.Field) bool {
		return len(x.Parts) == 0 && !isDate(x) && !slices.Contains([]string{"garment", "option", "ease", "extra"}, x.Name)
	}))
}

// OfGarment are the fields of garments with certain parts.
func (f form) OfGarment() []field { return f.inputs(some(ask.Garment, hasParts)) }

// Worked are the fields of how garments with certain parts are worked.
func (f form) Worked() []field { return f.inputs(some(ask.Making, hasParts)) }

// Counts are the gauges of other fabric than the garment's own.
func (f form) Counts() []field {
	return f.inputs(some(ask.Swatch, func(x ask.Field) bool { return x.Name != "gauge" }))
}

// Progress are the fields of work that is begun and tried on.
func (f form) Progress() []field { return f.inputs(ask.Of(ask.Progress)) }

// More are the other fields of how a garment is worked.
func (f form) More() []field {
	return f.inputs(some(ask.Making, func(x ask.Field) bool { return !hasParts(x) && x.Name != "craft" && !x.Beside && f.st.has(x) }))
}

// Beside are the fields of the yarn, the colours and the time, from which no count follows.
func (f form) Beside() []field {
	return f.inputs(some(ask.Making, func(x ask.Field) bool { return x.Beside }))
}

func hasParts(f ask.Field) bool { return len(f.Parts) > 0 }

// some are the fields of a group that are wanted.
func some(group ask.Group, want func(ask.Field) bool) []ask.Field {
	return slices.DeleteFunc(ask.Of(group), func(f ask.Field) bool { return !want(f) })
}

// Rest are the entries of other views and garments.
func (f form) Rest() []hidden { return f.st.Rest() }

// Unknown are the parameters of the address that no view has.
func (f form) Unknown() []string { return f.st.Unknown }

// GarmentFault is what is wrong with the garment.
func (f form) GarmentFault() string { return f.st.Fault("garment") }

// OptionFault is what is wrong with the options.
func (f form) OptionFault() string { return f.st.Fault("option") }

// Given reports whether any of the fields differs from what is usual, or is wrong:
// their group is then shown open.
func (f form) Given(fields []field) bool {
	return slices.ContainsFunc(fields, func(x field) bool { return f.st.Value(x.Name) != x.Usual || x.Fault != "" })
}
