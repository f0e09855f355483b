package page

import (
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// A field is an input of a form, as it was typed.
type field struct {
	Name, ID, Label, Hint, Value, Usual, Fault, Help, Unit string
	Choices                                                []choice
	Checked                                                bool
}

// A choice is one of the values of a field.
type choice struct {
	Value, Label string
	Chosen       bool
}

// A form gives the fields of the maker's view.
type form struct {
	st  *state
	ref *sizing.Reference
}

// Field is an input for text.
func (f form) Field(name, label, hint string) field {
	return field{Name: name, ID: name, Label: label, Hint: hint, Value: f.st.Value(name), Fault: f.st.Fault(name)}
}

// Check is a box to tick.
func (f form) Check(name, label, hint string) field {
	return field{Name: name, ID: name, Label: label, Hint: hint, Value: "yes", Checked: f.st.Value(name) != "", Fault: f.st.Fault(name)}
}

// firstMeasures are the measurements that are worth most, in the order in which
// they are asked for.
var firstMeasures = []string{"height", "weight", "chest", "waist", "hip", "head", "arm_length", "inside_leg"}

// First are the measurements that are worth most.
func (f form) First() []field {
	var all []field
	for _, id := range firstMeasures {
		if m, err := f.ref.Measurement(id); err == nil {
			all = append(all, f.measure(m))
		}
	}
	return all
}

// Others are all other measurements.
func (f form) Others() []field {
	var all []field
	for _, m := range f.ref.Measurements() {
		if !slices.Contains(firstMeasures, m.ID) {
			all = append(all, f.measure(m))
		}
	}
	return all
}

// OthersGiven reports whether any of them has something in it.
func (f form) OthersGiven() bool {
	return slices.ContainsFunc(f.Others(), func(x field) bool { return x.Value != "" })
}

func (f form) measure(m data.Measurement) field {
	x := f.Field(m.ID, capital(m.Name), "")
	x.Help, x.Unit = m.How, f.st.tapeUnit(m.Unit)
	return x
}

// Pick is a field with a choice of values.
func (f form) Pick(name, label, hint string) field {
	x := f.Field(name, label, hint)
	x.Usual = f.st.usual[name]
	words := func(values []string) {
		for _, v := range values {
			x.Choices = append(x.Choices, choice{Value: v, Label: spoken(v)})
		}
	}
	switch name {
	case "tape":
		x.Choices = []choice{{Value: "cm", Label: "cm and kg"}, {Value: "in", Label: "inches and pounds"}}
	case "sex":
		x.Choices = []choice{{Value: "both", Label: "not said"}, {Value: "f", Label: "girl"}, {Value: "m", Label: "boy"}}
	case "garment":
		for _, g := range f.ref.Garments() {
			x.Choices = append(x.Choices, choice{Value: g.ID, Label: g.Title})
		}
	case "fit":
		words(sizing.Words(sizing.Fits))
	case "layer":
		x.Choices = []choice{{Value: "skin", Label: "skin or underwear"}, {Value: "indoor", Label: "indoor clothes"}, {Value: "winter", Label: "winter clothes"}}
	case "growth":
		x.Choices = []choice{{Value: "0", Label: "none"}, {Value: "1", Label: "half a year"}, {Value: "2", Label: "a year"}, {Value: "3", Label: "a year and a half"}, {Value: "4", Label: "two years"}}
	case "craft":
		words(sizing.Words(plan.Crafts))
	case "over":
		x.Choices = []choice{{Value: "10cm", Label: "10 cm"}, {Value: "4in", Label: "4 inches"}}
	case "yoke":
		words(sizing.Words(plan.Constructions))
	case "hood":
		words(sizing.Words(plan.Hoods))
	case "closure":
		words(sizing.Words(plan.Closures))
	}
	known := false
	for i, c := range x.Choices {
		x.Choices[i].Chosen = c.Value == x.Value
		known = known || c.Value == x.Value
	}
	if !known { // from an address: kept, and said to be wrong
		x.Choices = append(x.Choices, choice{Value: x.Value, Label: x.Value, Chosen: true})
	}
	return x
}

// Options are what the garment can have.
func (f form) Options() []field {
	ids, err := f.ref.GarmentOptions(f.st.Garment)
	if err != nil {
		return nil
	}
	var all []field
	for _, o := range ids {
		all = append(all, field{Name: "option", ID: "option-" + o, Label: capital(spoken(o)), Value: o, Checked: f.st.Has("option", o)})
	}
	return all
}

// OptionFault is what is wrong with the options.
func (f form) OptionFault() string { return f.st.Fault("option") }

// Extras are the parts of the garment, to make more or less of.
func (f form) Extras() []field {
	parts, err := f.ref.Parts(f.st.Garment)
	if err != nil {
		return nil
	}
	var all []field
	for _, p := range parts {
		x := f.Field(extraPrefix+p.Part, capital(p.Name), "")
		x.ID, x.Unit = "extra-"+p.Part, f.st.tapeUnit("cm")
		all = append(all, x)
	}
	return all
}

// ExtrasGiven reports whether any of them has something in it.
func (f form) ExtrasGiven() bool {
	return slices.ContainsFunc(f.Extras(), func(x field) bool { return x.Value != "" })
}

// Given reports whether any of the fields, parted by blanks, differs from what
// is usual: its group is then shown open.
func (f form) Given(names string) bool {
	for _, n := range strings.Fields(names) {
		if f.st.Value(n) != f.st.usual[n] || f.st.Fault(n) != "" {
			return true
		}
	}
	return false
}

// Hooded reports whether the garment has a hood.
func (f form) Hooded() bool { return f.has("hood_round") }

// Opening reports whether it opens down the front.
func (f form) Opening() bool { return f.has("front_opening") }

// Sleeved reports whether body and sleeves meet.
func (f form) Sleeved() bool { return f.has("sleeve_length") }

func (f form) has(part string) bool {
	parts, err := f.ref.Parts(f.st.Garment)
	return err == nil && slices.ContainsFunc(parts, func(p data.Part) bool { return p.Part == part })
}
