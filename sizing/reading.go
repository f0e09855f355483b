package sizing

import (
	"fmt"
	"math"
	"slices"

	"growtuck/data"
)

// Provenance says how a reading was got.
type Provenance string

const (
	Measured  Provenance = "measured"  // on the child
	Published Provenance = "published" // a size of the chart, as printed
	Between   Provenance = "between"   // read between two sizes
	Derived   Provenance = "derived"   // worked out from other readings
	Estimated Provenance = "estimated" // from the child's other measurements
)

// Reading is one body measurement and where it comes from. Value is in cm, or
// kg for weight; Imperial is in inches, or pounds, as published where the
// chart prints inches. Low and High, where set, are a range whose meaning
// Spread gives.
type Reading struct {
	Measurement     data.Measurement
	Value, Imperial float64
	Low, High       float64
	Spread          Spread
	Provenance      Provenance
	From            Origin
	Sources         []string // ids
	// Where is the place of the figures in their source, by size where it
	// differs: a page, a table, or of how many children. It is "" for what was
	// measured on the child or estimated.
	Where string
	Notes []Fact
}

// inImperial turns a figure in the measurement's own unit, cm or kg, into inches
// or pounds.
func (r Reading) inImperial(v float64) float64 {
	if r.Measurement.Unit == "kg" {
		return v / KgPerPound
	}
	return v / CmPerInch
}

// Read returns the measurement at the place. It fails with an [UnknownError]
// where no such measurement is known, and with a [MissingError] where the chart
// has no value there.
func (ref *Reference) Read(p Place, measurement string, method Method) (Reading, error) {
	m, err := ref.Measurement(measurement)
	if err != nil {
		return Reading{}, err
	}
	if p.Run == nil {
		return Reading{}, errNoPlace
	}
	run, c := p.Run, p.Run.columnAt(measurement, p.Position)
	if c == nil || c.values == nil {
		return Reading{}, &MissingError{Measurement: m, Where: p.Run.name()}
	}
	ofBoth := run.both != nil && c == run.both.column(measurement)
	if ofBoth {
		run = run.both
	}
	f, ok := run.figure(c, p.Position, method)
	if !ok {
		low, high := c.values.Range()
		return Reading{}, &MissingError{Measurement: m, Where: p.Run.name(),
			From: run.label(low), To: run.label(high)}
	}
	r := Reading{Measurement: m, Value: f.Value, Low: f.Low, High: f.High, Spread: f.Spread, Provenance: f.Provenance,
		Sources: slices.Clone(c.sources)}
	r.Imperial = r.inImperial(r.Value)
	if c.imperial != nil {
		r.Imperial = c.imperial.Read(p.Position, method)
	}
	below, above := run.neighbours(c, p.Position)
	between := r.Provenance == Between
	r.From = Origin{Chart: p.Run.Chart.ID, Below: below, Above: above,
		Linear: between && method == Linear, Middle: !between && c.middle && c.of(below).published}
	if r.Provenance != Published {
		r.From.Formula, r.From.Why = c.formulaOf(below, above)
	}
	for _, s := range []string{below, above} {
		if n := c.of(s).notes; len(n) > 0 {
			r.Notes = append(r.Notes, NewFact("size-note", s, n))
		}
	}
	if ofBoth {
		r.Notes = append(r.Notes, NewFact("of-both"))
	}
	if above != "" { // a size is as it is printed
		r.Notes = append(r.Notes, p.seam(m)...)
	}
	r.Where = c.whereOf(below, above)
	if measurement == backWaist {
		r.Notes = append(r.Notes, p.waistParts(r.Value)...)
	}
	return r, nil
}

// The standard's back waist length, and what the trunk has above the waist.
const (
	backWaist      = "back_waist_length"
	napeToWaist    = "nape_to_waist"
	waistTolerance = 1 // cm, that the two may differ without a word
)

// waistParts says where a printed back waist length ends elsewhere than where the
// trunk of the body at that size divides.
func (p Place) waistParts(printed float64) []Fact {
	body := p.Run.Value(napeToWaist, p.Position)
	switch by := printed - body; {
	case math.IsNaN(by):
	case by >= waistTolerance:
		return []Fact{NewFact("waist-below-body", Length(body), Length(by))}
	case by <= -waistTolerance:
		return []Fact{NewFact("waist-above-body", Length(body), Length(-by))}
	}
	return nil
}

// A Figure is a [Reading] without its origin. Value is in cm, or kg for
// weight, and NaN where it is not known. Low and High are the range that Spread
// names, and 0 where there is none.
type Figure struct {
	Value, Low, High float64
	Spread           Spread
	Provenance       Provenance
}

// figure reads a column at a position; ok is false where it has no value. It
// does not allocate.
func (r *Run) figure(c *column, position float64, method Method) (f Figure, ok bool) {
	f.Value = c.values.Read(position, method)
	if math.IsNaN(f.Value) || r.Scale == Band && !slices.Contains(c.values.x, position) {
		return Figure{}, false
	}
	if c.low != nil && c.high != nil {
		if low, high := c.low.Read(position, method), c.high.Read(position, method); !math.IsNaN(low) && !math.IsNaN(high) {
			f.Low, f.High, f.Spread = low, high, c.spread
		}
	}
	size, above := r.neighbours(c, position)
	switch {
	case above != "":
		f.Provenance = Between
	case c.of(size).published && !c.middle:
		f.Provenance = Published
	default:
		f.Provenance = Derived
	}
	return f, true
}

// MissingError says that a chart has no value for a measurement at a place.
type MissingError struct {
	Measurement data.Measurement
	Where       string
	From, To    string // where it has values; "" where it has none
}

func (e *MissingError) Error() string {
	s := fmt.Sprintf("%s has no %s", e.Where, e.Measurement.Name)
	if e.From != "" {
		s += fmt.Sprintf(" here, only from %s to %s", e.From, e.To)
	}
	return s + "; measure the child: " + e.Measurement.How
}

// Body is a set of body measurements, one reading each, in the order of the
// table of measurements.
type Body struct {
	Readings []Reading
	// Evidence is what is known of the child that the estimates rest on.
	Evidence Evidence
	// Questions are doubts about the child's own measurements: not errors.
	Questions []Doubt
	// Summary tells what the body was made from.
	Summary Fact
	// Apart are girths from a size that differ from those of measured children of
	// the height which the size is for; see [Reference.Apart].
	Apart []Apart
	// The size that they are from, and the height that it is for.
	apartSize   string
	child       Child  // that it was made for
	Read        []Fact // how the labels of its sizes were read
	apartHeight Length
}

// Get returns the reading of a measurement.
func (b *Body) Get(measurement string) (Reading, bool) {
	for _, r := range b.Readings {
		if r.Measurement.ID == measurement {
			return r, true
		}
	}
	return Reading{}, false
}

// Sources returns the ids of all sources that the readings rest on.
func (b *Body) Sources() []string {
	var ids []string
	for _, r := range b.Readings {
		for _, s := range r.Sources {
			if !slices.Contains(ids, s) {
				ids = append(ids, s)
			}
		}
	}
	slices.Sort(ids)
	return ids
}

// BodyAt reads everything the chart has at the place. At the zero Place that is
// nothing.
func (ref *Reference) BodyAt(p Place, method Method) *Body {
	if p.Run == nil {
		return &Body{}
	}
	b := &Body{Summary: NewFact("body-size", p.Label(), p.Run.Chart.ID), child: Child{Sex: p.Run.Sex}, Read: p.read()}
	if h, ok := p.Height(); ok && p.Run.Scale != Height {
		b.Summary = NewFact("body-size-height", p.Label(), p.Run.Chart.ID, Length(h))
	}
	b.Readings = make([]Reading, 0, len(ref.tables.Measurements))
	for _, m := range ref.tables.Measurements {
		if r, err := ref.Read(p, m.ID, method); err == nil {
			b.Readings = append(b.Readings, r)
		}
	}
	b.standApart(ref, p)
	return b
}

// own makes the reading of something measured on the child.
func (ref *Reference) own(id string, v float64) Reading {
	r := Reading{Measurement: *ref.measurements[id], Value: v, Provenance: Measured}
	r.Imperial = r.inImperial(v)
	return r
}
