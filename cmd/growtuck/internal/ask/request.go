package ask

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

// A Request is what was asked for, read and checked.
type Request struct {
	Child sizing.Child
	// FromFile says that something was known of the child before.
	FromFile bool
	Sizes    sizing.Sizes
	Spec     sizing.Spec
	How      plan.How
	Run      []string // sizes to plan side by side

	Trial                plan.Trial // how far the work is, and how it fits
	UsedGrams, HaveGrams float64
	Weighed              []plan.Weighing

	Only     []string // ids of the measurements to show; none: those that tables show
	All, Why bool
	Unit     string // of lengths that are shown; "" is cm

	List ListRequest

	// Context ends long work, as where who asked has gone; nil: nothing does.
	Context context.Context

	ref    *sizing.Reference
	values Values
}

// Given reports whether a field was given.
func (r *Request) Given(name string) bool { return len(r.values[name]) > 0 }

// Said returns the texts that were given for a field.
func (r *Request) Said(name string) []string { return r.values[name] }

// first is the first text given for a field, or its default.
func (r *Request) first(name string) string {
	if v := r.values[name]; len(v) > 0 {
		return v[0]
	}
	f, _ := Lookup(fields(), name)
	return f.Usual
}

// Begun reports whether it was said how far the work is.
func (r *Request) Begun() bool { return r.Given("done") || r.Given("weighed") }

// WeighedYarn reports whether the yarn used so far was given.
func (r *Request) WeighedYarn() bool { return r.Given("used") || r.Given("have") }

// text keeps what was given unchanged.
func text(into func(*Request) *string) func(*Request, []string) error {
	return func(r *Request, texts []string) error {
		*into(r) = strings.TrimSpace(texts[0])
		return nil
	}
}

// choice keeps one of the choices, which Read has looked up.
func choice[T ~string](into func(*Request) *T) func(*Request, []string) error {
	return func(r *Request, texts []string) error {
		*into(r) = T(texts[0])
		return nil
	}
}

// setStitch reads a stitch in the terms given.
func (r *Request) setStitch(texts []string) error {
	if strings.TrimSpace(texts[0]) == "" {
		return nil
	}
	var err error
	r.How.Stitch, err = plan.ParseStitch(texts[0], r.How.Terms)
	return err
}

// setRounds keeps how rounds follow each other; the plan knows what is usual.
func (r *Request) setRounds(texts []string) error {
	if texts[0] != "usual" {
		r.How.Rounds = plan.Rounds(texts[0])
	}
	return nil
}

func yes(set func(*Request, bool)) func(*Request, []string) error {
	return func(r *Request, texts []string) error {
		on, ok := truth(texts[0])
		if !ok {
			return fmt.Errorf("%.80q is not true or false", texts[0])
		}
		set(r, on)
		return nil
	}
}

func truth(s string) (on, ok bool) {
	switch strings.ToLower(s) {
	case "true", "yes", "1", "on":
		return true, true
	case "false", "no", "0", "":
		return false, true
	}
	return false, false
}

// number keeps a number, whose bounds Read has checked.
func number(into func(*Request) *float64) func(*Request, []string) error {
	return func(r *Request, texts []string) error {
		v, err := sizing.ParseNumber(texts[0])
		if err == nil {
			*into(r) = v
		}
		return err
	}
}

// parsed keeps what a parser reads; an empty text is not given.
func parsed[T any](parse func(string) (T, error), into func(*Request, T)) func(*Request, []string) error {
	return func(r *Request, texts []string) error {
		v, err := parse(texts[0])
		if err == nil {
			into(r, v)
		}
		return err
	}
}

func gauge(into func(*Request, *stitch.Gauge)) func(*Request, []string) error {
	return parsed(plan.ParseGauge, func(r *Request, g stitch.Gauge) { into(r, &g) })
}

// setFact reads the sex or the age of the child.
func setFact(name string) func(*Request, []string) error {
	return func(r *Request, texts []string) error {
		return r.ref.Set(&r.Child, name, strings.TrimSpace(texts[0]), "")
	}
}

// setMeasurement reads one measurement of the child.
func (r *Request) setMeasurement(texts []string) error {
	id, value, ok := pair(texts[0])
	if !ok {
		return fmt.Errorf("%.80q: want a measurement and its value, such as chest=53cm", texts[0])
	}
	if err := r.ref.Set(&r.Child, id, value, ""); err != nil {
		return &pairError{texts[0], err}
	}
	return nil
}

// pair reads name=value; hyphens of the name are underscores.
func pair(s string) (name, value string, ok bool) {
	name, value, ok = strings.Cut(s, "=")
	return strings.ReplaceAll(strings.TrimSpace(name), "-", "_"), strings.TrimSpace(value), ok
}

func (r *Request) setChart(texts []string) error {
	r.Sizes.Chart = texts[0]
	_, err := r.ref.Chart(texts[0])
	return err
}

func (r *Request) setGarment(texts []string) error {
	r.Spec.Garment = texts[0]
	_, err := r.ref.Parts(texts[0])
	return err
}

func (r *Request) setOptions(texts []string) error {
	r.Spec.Options = texts
	return nil
}

// setColours reads the colours of sections: each text may name several.
func (r *Request) setColours(texts []string) error {
	r.How.Colours = nil
	for _, t := range texts {
		some, err := plan.ParseColours(t)
		if err != nil {
			return err
		}
		r.How.Colours = append(r.How.Colours, some...)
	}
	return nil
}

// setWeighed reads the grams of yarn that were left after a section; a text may name
// several.
func (r *Request) setWeighed(texts []string) error {
	for _, one := range (Field{Name: "weighed"}).SplitPairs(texts[0], "") {
		if err := r.addWeighed(one); err != nil {
			return err
		}
	}
	return nil
}

func (r *Request) addWeighed(text string) error {
	section, value, ok := pair(text)
	if !ok {
		return fmt.Errorf("weighed %.80q: want a section and grams, such as yoke=240", text)
	}
	v, err := sizing.ParseNumber(strings.TrimSuffix(value, "g"))
	if err != nil || !(v >= 0 && v <= maxGrams) {
		return &pairError{"weighed " + section, fmt.Errorf("%.80q: want grams from 0 to %d, such as 240", value, maxGrams)}
	}
	r.Weighed = append(r.Weighed, plan.Weighing{Section: strings.ReplaceAll(section, "_", "-"), Grams: v})
	return nil
}

func (r *Request) setEase(texts []string) error {
	r.Spec.Ease = make(map[string]sizing.OwnEase)
	for _, t := range texts {
		part, value, ok := pair(t)
		if !ok {
			return fmt.Errorf("ease %.80q: want a part and its ease, such as chest=4in, chest=10%% or girths=5%%", t)
		}
		if _, twice := r.Spec.Ease[part]; twice {
			return fmt.Errorf("ease %s is given twice", part)
		}
		var own sizing.OwnEase
		value = strings.TrimPrefix(value, "+")
		if percent, is := strings.CutSuffix(value, "%"); is {
			v, err := sizing.ParseNumber(strings.TrimSpace(percent))
			if err != nil {
				return &pairError{"ease " + part, err}
			}
			own.Share = v / 100
		} else {
			l, err := sizing.ParseLength(value, "cm")
			if err != nil {
				return &pairError{"ease " + part, err}
			}
			own.Cm = float64(l)
		}
		r.Spec.Ease[part] = own
	}
	r.Spec.FitByEase = !r.Given("fit")
	return nil
}

func (r *Request) setExtra(texts []string) error {
	part, value, ok := pair(texts[0])
	if !ok {
		return fmt.Errorf("extra %.80q: want a part and a length, such as sleeve_length=2", texts[0])
	}
	l, err := sizing.ParseLength(strings.TrimPrefix(value, "+"), "cm")
	if err != nil {
		return &pairError{"extra " + part, err}
	}
	r.Spec.Extra[part] = float64(l)
	return nil
}

func (r *Request) setHold(texts []string) (err error) {
	r.How.Hold, err = plan.ParseHold(texts)
	return err
}

func (r *Request) setAdd(texts []string) error {
	for _, t := range texts {
		kind, size, ok := strings.Cut(t, "=")
		if !ok {
			return fmt.Errorf("add %.80q: want a part and its size, such as ear=6cm or pad:knee=8x10cm", t)
		}
		a, err := plan.ParseAddition(kind, size)
		if err != nil {
			return err
		}
		if _, err := r.ref.AddedPart(a.Kind); err != nil {
			return err
		}
		if slices.ContainsFunc(r.How.Add, func(b plan.Addition) bool { return b.Name() == a.Name() }) {
			return fmt.Errorf("add %s is given twice", a.Name())
		}
		r.How.Add = append(r.How.Add, a)
	}
	return nil
}

func (r *Request) setPorts(texts []string) error {
	for _, t := range texts {
		if known := plan.PortPlaces(); !slices.Contains(known, t) {
			return &sizing.UnknownError{Kind: "place of an opening", Name: t, Nearest: sizing.Nearest(t, known), Known: known}
		}
		if slices.Contains(r.How.Ports, t) {
			return fmt.Errorf("port %s is given twice", t)
		}
		r.How.Ports = append(r.How.Ports, t)
	}
	return nil
}

func (r *Request) setZippers(texts []string) error {
	for _, s := range texts {
		v, err := sizing.ParseNumber(s)
		if err != nil {
			return fmt.Errorf("zippers: %w; want inches, such as 12,14,16", err)
		}
		r.How.ZippersIn = append(r.How.ZippersIn, v)
	}
	return nil
}

func (r *Request) setStretch(texts []string) error {
	r.How.Stretch = make(map[string]float64)
	for _, s := range texts {
		edges, v, err := plan.ParseStretch(s)
		if err != nil {
			return err
		}
		for _, e := range edges {
			if err := plan.CheckStretch(e, v); err != nil {
				return err
			}
			r.How.Stretch[e] = v
		}
	}
	return nil
}

// MeasurementIDs are the ids of measurements by names or ids.
func MeasurementIDs(ref *sizing.Reference, names []string) ([]string, error) {
	var ids []string
	for _, s := range names {
		m, err := ref.Measurement(strings.ReplaceAll(strings.TrimSpace(s), "-", "_"))
		if err != nil {
			return nil, err
		}
		ids = append(ids, m.ID)
	}
	return ids, nil
}

// ErrNoChild says that nothing is known of a child, and no size is named.
var ErrNoChild = errors.New("no child; give a file, - for standard input, or measurements with --set chest=53cm")

// CheckBody refuses what no body can be made from: a chart without a size, or no
// child at all.
func (r *Request) CheckBody() error {
	switch z := r.Sizes; {
	case z.Named():
		return nil
	case !r.FromFile && !r.Given("sex") && !r.Given("age") && !r.Given("born") && !r.Given("set"):
		return &Fault{Field: "set", Err: ErrNoChild}
	case z.Chart != "" && z.Chart != sizing.DefaultChart:
		return &Fault{Field: "chart", Err: fmt.Errorf("chart needs a size; estimates use the survey and the default chart")}
	}
	return nil
}

// Ended is why the work is to end; nil while it is not.
func (r *Request) Ended() error {
	if r.Context == nil {
		return nil
	}
	return r.Context.Err()
}

// CheckRun refuses a child, or another size, beside a run of sizes.
func (r *Request) CheckRun() error {
	if r.Sizes.Named() || r.Child.AgeYears > 0 || len(r.Child.Own) > 0 {
		return &Fault{Field: "sizes", Err: fmt.Errorf("sizes takes sizes of a chart; leave the child and the other sizes out")}
	}
	return nil
}

// CheckWorking refuses a plan without a craft or a gauge.
func (r *Request) CheckWorking() error {
	if r.How.Craft == "" {
		return &Fault{Field: "craft", Err: errors.New("no craft given; want crochet or knit")}
	}
	if !r.Given("gauge") {
		return &Fault{Field: "gauge", Err: errors.New("no gauge given; want stitches and rows of the washed swatch, such as 18x24/10cm")}
	}
	return nil
}
