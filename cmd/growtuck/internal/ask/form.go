package ask

import (
	"fmt"
	"net/url"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

// A Control is an input of the page's form. Most fields have one; a gauge has three,
// and of a measurement, an option or more of a part there are many.
type Control struct {
	Name    string // under which the form sends it
	Label   string
	Hint    string
	Help    string   // how a measurement is taken
	Unit    string   // cm or kg of a number without one
	Choices []Answer // to pick from; none: text, or a box to tick
	Usual   string   // where the address says nothing
	Tick    string   // what a ticked box sends
}

// An Answer is a value that can be picked, and what the form calls it.
type Answer struct{ Value, Label string }

// ExtraControl begins the names of the controls of more or less of a part.
const ExtraControl = "extra."

// swatches are the width and height that stitches and rows are counted over.
var swatches = []Answer{{"10cm", "10 cm"}, {"4in", "4 inches"}}

// mostCounted bounds the stitches and rows of a swatch.
const mostCounted = 200

// WorthMost are the ids of the measurements that are worth most, in the order in which
// they are asked for.
var WorthMost = []string{"height", "weight", "chest", "waist", "hip", "head", "arm_length", "inside_leg"}

// FormFields are the fields of the form for a child's garment. The run of sizes, and
// its chart, are of the view of sizes side by side.
func FormFields() []Field { return without(PlanFields(), "chart", "linear", "sizes") }

// RunFields are the fields of the form for sizes side by side: what the other form has
// but for a child, and for work that is begun.
func RunFields() []Field {
	all := slices.Concat(Named("sizes", "chart", "sex", "linear", "all"), Of(Garment, Swatch, Making))
	for i := range all {
		switch f := &all[i]; f.Name {
		case "sizes":
			f.Label, f.Hint = "sizes", "comma-separated: 3, 4, 5.5, 18m, 104cm"
		case "sex":
			f.Label, f.Called = "children", []Answer{{"both", "girls and boys"}, {"f", "girls"}, {"m", "boys"}}
		}
	}
	return all
}

// AppliesTo reports whether the field applies to a garment; to one that is not known
// all fields do.
func (f Field) AppliesTo(ref *sizing.Reference, garment string) bool {
	parts, err := ref.Parts(garment)
	return err != nil || f.applies(parts)
}

func (f Field) applies(parts []data.Part) bool {
	return len(f.Parts) == 0 || slices.ContainsFunc(parts, func(p data.Part) bool { return slices.Contains(f.Parts, p.Part) })
}

// Controls are the inputs of the field on a form for a garment.
func (f Field) Controls(ref *sizing.Reference, garment string) []Control {
	var all []Control
	switch {
	case f.Name == "set":
		for _, m := range ref.Measurements() {
			all = append(all, Control{Name: m.ID, Label: m.Name, Help: m.How, Unit: m.Unit})
		}
	case f.Name == "extra":
		parts, _ := ref.Parts(garment) // of an unknown garment there are none
		for _, p := range parts {
			all = append(all, Control{Name: ExtraControl + p.Part, Label: p.Name, Unit: "cm"})
		}
	case f.Name == "option":
		options, _ := ref.GarmentOptions(garment)
		for _, o := range options {
			all = append(all, Control{Name: f.Name, Label: spaced(o), Tick: o})
		}
	case f.Kind == Gauge:
		return f.gaugeControls()
	case f.Kind == YesNo:
		return []Control{{Name: f.Name, Label: f.Label, Hint: f.Hint, Tick: "yes"}}
	default:
		return []Control{{Name: f.Name, Label: f.Label, Hint: f.Hint, Choices: f.choices(ref), Usual: f.Usual}}
	}
	return all
}

func (f Field) gaugeControls() []Control {
	before := ""
	if f.Name != "gauge" {
		before = f.Label + ", "
	}
	all := []Control{{Name: f.control("stitches"), Label: before + "stitches"}, {Name: f.control("rows"), Label: before + "rows"}}
	if f.Name == "gauge" {
		all = append(all, Control{Name: "over", Label: "over", Choices: swatches, Usual: swatches[0].Value})
	}
	return all
}

// control names a control of a gauge: rows, rib-rows, before-rows.
func (f Field) control(count string) string {
	if f.Name == "gauge" {
		return count
	}
	prefix, _, _ := strings.Cut(f.Name, "-")
	return prefix + "-" + count
}

// choices are what a field can be picked from.
func (f Field) choices(ref *sizing.Reference) []Answer {
	if len(f.Called) > 0 {
		return f.Called
	}
	var all []Answer
	if f.Name == "garment" {
		for _, g := range ref.Garments() {
			all = append(all, Answer{g.ID, g.Title})
		}
	}
	if f.Name == "chart" {
		for _, c := range ref.Charts() {
			all = append(all, Answer{c.ID, c.ID + ": " + c.Title})
		}
	}
	for _, c := range f.Choices {
		all = append(all, Answer{c, spaced(c)})
	}
	return all
}

// spaced writes an id as words.
func spaced(id string) string { return strings.NewReplacer("_", " ", "-", " ").Replace(id) }

// FromForm turns the controls of a form, by their names, into what was given for the
// fields: the counts of a gauge are joined, and numbers without a unit get that of
// the tape, cm or in. What does not apply to the garment is left out: the form does
// not show it.
func FromForm(ref *sizing.Reference, fields []Field, form url.Values, tape string) (Values, Faults) {
	r := formReader{form: form, tape: tape, values: make(Values)}
	garment := form.Get("garment")
	for _, f := range fields {
		if !f.AppliesTo(ref, garment) {
			continue
		}
		switch {
		case f.Name == "set" || f.Name == "extra":
			for _, c := range f.Controls(ref, garment) {
				if text := form.Get(c.Name); text != "" {
					r.values.Add(f.Name, strings.TrimPrefix(c.Name, ExtraControl)+"="+WithUnit(text, TapeUnit(tape, c.Unit)))
				}
			}
		case f.Kind == Gauge:
			r.values.Add(f.Name, r.gauge(f))
		case f.Name == "stretch":
			r.values[f.Name] = SplitStretch(form.Get(f.Name))
		case f.Group == Progress && f.Kind == Pairs:
			r.values[f.Name] = f.SplitPairs(form.Get(f.Name), tape)
		case f.Many:
			r.values[f.Name] = form[f.Name]
		default:
			r.values.Add(f.Name, form.Get(f.Name))
		}
	}
	return r.values, r.faults
}

type formReader struct {
	form   url.Values
	tape   string
	values Values
	faults Faults
}

func (r *formReader) fault(control, format string, args ...any) {
	r.faults = append(r.faults, &Fault{Field: control, Err: fmt.Errorf(format, args...)})
}

// gauge joins the counts of a gauge; "" where one is missing or wrong.
func (r *formReader) gauge(f Field) string {
	var counts [2]string
	good := true
	for i, count := range []string{"stitches", "rows"} {
		name := f.control(count)
		text := r.form.Get(name)
		counts[i] = strings.TrimSpace(strings.ReplaceAll(text, ",", "."))
		if text == "" {
			good = false
		} else if v, err := sizing.ParseNumber(text); err != nil || !(v >= 1 && v <= mostCounted) {
			r.fault(name, "%q: want %s from 1 to %d, such as 18 or 18.5", text, count, mostCounted)
			counts[i], good = "", false
		}
	}
	if counts[0] != "" && r.form.Get(f.control("rows")) == "" {
		r.fault(f.control("rows"), "count the rows too")
	}
	if counts[1] != "" && r.form.Get(f.control("stitches")) == "" {
		r.fault(f.control("stitches"), "count the stitches too")
	}
	over := r.form.Get("over")
	if over == "" {
		over = swatches[0].Value
	}
	if !slices.ContainsFunc(swatches, func(c Answer) bool { return c.Value == over }) {
		if f.Name == "gauge" {
			r.fault("over", "%q: want 10cm or 4in", over)
		}
		good = false
	}
	if !good {
		return ""
	}
	return Join(counts[0], counts[1], over)
}

// Control names the control of the page's form that the fault is about.
func (f *Fault) Control() string {
	switch f.Field {
	case "set":
		return f.Key
	case "extra":
		return ExtraControl + f.Key
	}
	if field, ok := Lookup(fields(), f.Field); ok && field.Kind == Gauge {
		return field.control("stitches")
	}
	return f.Field
}

// TapeUnit is the unit of a number without one, for a measurement in cm or kg and a
// tape in cm or in.
func TapeUnit(tape, unit string) string {
	switch {
	case tape != "in":
		return unit
	case unit == "kg":
		return "lb"
	}
	return "in"
}

// WithUnit writes the unit after a number that has none.
func WithUnit(text, unit string) string {
	if text == "" || strings.ContainsAny(strings.ToLower(text), "abcdefghijklmnopqrstuvwxyz\"″”'′") {
		return text
	}
	return text + " " + unit
}
