package ask

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// Values are the texts given for fields, by name and in order.
type Values map[string][]string

// Add adds a text to a field; an empty text is ignored.
func (v Values) Add(name, text string) {
	if text != "" {
		v[name] = append(v[name], text)
	}
}

// A Fault is what is wrong with one field.
type Fault struct {
	Field string
	Key   string // of a pair, such as chest
	Err   error
}

func (f *Fault) Error() string { return f.Err.Error() }

// Words are the message for where the field is shown beside it: without the name of a
// pair.
func (f *Fault) Words() string {
	var p *pairError
	if errors.As(f.Err, &p) {
		return p.err.Error()
	}
	return f.Err.Error()
}

// A pairError is what is wrong with the value of a pair.
type pairError struct {
	pair string
	err  error
}

func (e *pairError) Error() string { return e.pair + ": " + e.err.Error() }

func (e *pairError) Unwrap() error { return e.err }

func (f *Fault) Unwrap() error { return f.Err }

// Faults are what is wrong with what was asked.
type Faults []*Fault

func (f Faults) Error() string {
	var lines []string
	for _, one := range f {
		lines = append(lines, one.Error())
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns each fault.
func (f Faults) Unwrap() []error {
	var all []error
	for _, one := range f {
		all = append(all, one)
	}
	return all
}

// Of is what is wrong with a field; nil where nothing is.
func (f Faults) Of(name string) error {
	for _, one := range f {
		if one.Field == name {
			return one.Err
		}
	}
	return nil
}

// Read turns what was given for some fields into a request, for a child of whom
// something may already be known. Fields not given have their defaults. Those that
// cannot be read are left out; the error is all [Faults], and the
// request then holds what could be read.
func Read(ref *sizing.Reference, fields []Field, values Values, child sizing.Child) (*Request, Faults) {
	r := &Request{Child: child, ref: ref, values: values}
	if r.Child.Sex == "" {
		r.Child.Sex = sizing.Both
	}
	if r.Child.Own == nil {
		r.Child.Own = make(map[string]float64)
	}
	r.Spec.Extra = make(map[string]float64)
	var faults Faults
	for _, f := range fields {
		texts := values[f.Name]
		if len(texts) == 0 {
			if f.Usual == "" {
				continue
			}
			texts = []string{f.Usual}
		}
		if f.Kind == Pairs {
			faults = append(faults, r.pairs(f, texts)...)
			continue
		}
		before := r.Child
		if err := r.read(f, texts); err != nil {
			r.Child = before
			faults = append(faults, &Fault{Field: f.Name, Err: err})
		}
	}
	if !r.Child.Born.IsZero() && r.Child.Measured.IsZero() {
		if _, err := r.measuredOn(); err != nil {
			faults = append(faults, &Fault{Field: "born", Err: err})
		}
	}
	faults = append(faults, r.contradictions()...)
	if _, named := Lookup(fields, "garment"); named && faults.Of("garment") == nil {
		faults = append(faults, r.misplaced(fields)...)
	}
	return r, faults
}

// pairs reads each pair of a field, each name once.
func (r *Request) pairs(f Field, texts []string) (faults Faults) {
	given := make(map[string]bool)
	for _, t := range texts {
		name, _, _ := pair(t)
		err := fmt.Errorf("%s %s is given twice", f.Name, name)
		if !given[name] {
			err = f.set(r, []string{t})
		}
		given[name] = true
		if err != nil {
			faults = append(faults, &Fault{f.Name, name, err})
		}
	}
	return faults
}

func (r *Request) read(f Field, texts []string) error {
	if !f.Many && f.Kind != List && len(texts) > 1 {
		return fmt.Errorf("%s is given %d times", f.Name, len(texts))
	}
	switch f.Kind {
	case Choice:
		if !slices.Contains(f.Choices, texts[0]) {
			return &sizing.UnknownError{Kind: f.kindName(), Name: texts[0], Nearest: sizing.Nearest(texts[0], f.Choices), Known: f.Choices}
		}
	case Number:
		v, err := sizing.ParseNumber(texts[0])
		if err != nil || !(v >= f.Low && v <= f.High) {
			return fmt.Errorf("%s %.80q: want a number from %g to %g", f.Name, texts[0], f.Low, f.High)
		}
	case List:
		texts = split(texts)
	}
	return f.set(r, texts)
}

// kindName is what a choice is called in a message.
func (f Field) kindName() string {
	if f.Name == "yoke" {
		return "construction"
	}
	return f.Name
}

// split takes comma-separated texts apart.
func split(texts []string) []string {
	var all []string
	for _, t := range texts {
		all = append(all, strings.FieldsFunc(t, func(r rune) bool { return r == ',' || r == ';' || r == ' ' })...)
	}
	return all
}

// contradictions are faults of sizes that exclude each other.
func (r *Request) contradictions() (faults Faults) {
	fault := func(name, format string, args ...any) {
		faults = append(faults, &Fault{Field: name, Err: fmt.Errorf(format, args...)})
	}
	z := r.Sizes
	switch {
	case z.All != "" && (z.Widths != "" || z.Lengths != ""):
		fault("size", "size is for everything, widths and lengths each for a part; give either size or both of those")
	case z.Widths != "" && z.Lengths == "":
		fault("lengths", "widths without lengths; give both sizes")
	case z.Lengths != "" && z.Widths == "":
		fault("widths", "lengths without widths; give both sizes")
	}
	if r.Given("until") && r.Given("grow") {
		fault("grow", "until and grow both say how long there is growth room; give one")
	}
	if r.WeighedYarn() && !r.Given("done") {
		fault("used", "used and have go with done, such as done=yoke=12: how far the work is")
	}
	return faults
}

// misplaced are faults of fields that do not apply to the garment.
func (r *Request) misplaced(fields []Field) (faults Faults) {
	parts, err := r.ref.Parts(r.Spec.Garment)
	if err != nil {
		return nil
	}
	for _, f := range fields {
		if !r.Given(f.Name) || f.applies(parts) || r.says(f, f.Usual) {
			continue
		}
		faults = append(faults, &Fault{Field: f.Name, Err: fmt.Errorf("%s is for %s, not for %s", f.Name, f.For, r.Spec.Garment)})
	}
	if _, asks := Lookup(fields, "option"); asks {
		if err := r.ref.CheckOptions(r.Spec.Garment, r.Spec.Options); err != nil {
			faults = append(faults, &Fault{Field: "option", Err: err})
		}
	}
	return faults
}

// says reports whether a field was given a value, or off.
func (r *Request) says(f Field, value string) bool {
	if f.Kind == YesNo {
		on, ok := truth(r.values[f.Name][0])
		return ok && !on
	}
	return value != "" && r.values[f.Name][0] == value
}

// Unused are fields that were given and do nothing, because another was not.
func (r *Request) Unused(fields []Field) []string {
	var notes []string
	for _, f := range fields {
		if r.Given(f.Name) && f.With != "" && !r.Given(f.With) {
			notes = append(notes, "--"+f.Name+" does nothing without --"+f.With)
		}
		if f.Crochet && r.How.Craft == plan.Knit && r.Given(f.Name) && !r.says(f, f.Usual) {
			notes = append(notes, "--"+f.Name+" does nothing with --craft knit: it is for crochet")
		}
	}
	return notes
}
