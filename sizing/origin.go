package sizing

import (
	"slices"

	"growtuck/data"
)

// Origin says how a reading was got, beside its [Provenance]. It is the zero
// Origin for what was measured on the child.
type Origin struct {
	// Of what was read on a chart: its id, the size, or both sizes between which
	// it lies, and whether straight from one to the other; whether the chart has a
	// range there, of which this is the middle; and widths or lengths where the
	// size was chosen for those.
	Chart        string
	Below, Above string // Above is "" at a size
	Linear       bool
	Middle       bool
	Follows      string

	// Formula and Why are those of the table of derivations, where it was worked
	// out by one.
	Formula, Why string

	// Of what was estimated: from what, and whether it is moved from the trade
	// chart's figure at the child's height.
	Evidence     Evidence
	ByTradeChart bool

	// AgreesWith are measurements of the body that it was made to agree with, and
	// AgreesWithOwn says that those are the child's own.
	AgreesWith    []data.Measurement
	AgreesWithOwn bool
}

// Evidence is what is known of a child that estimates rest on.
type Evidence struct {
	Measurements []data.Measurement
	Age          bool
}

// IDs are the ids of the measurements, and age.
func (e Evidence) IDs() []string {
	var ids []string
	for _, m := range e.Measurements {
		ids = append(ids, m.ID)
	}
	if e.Age {
		ids = append(ids, "age")
	}
	return ids
}

// Names are the names of the measurements, and age.
func (e Evidence) Names() []string {
	names := namesOf(e.Measurements)
	if e.Age {
		names = append(names, "age")
	}
	return names
}

func namesOf(measurements []data.Measurement) []string {
	var names []string
	for _, m := range measurements {
		names = append(names, m.Name)
	}
	return names
}

// Spread is what the ends of a range are.
type Spread string

const (
	NoSpread         Spread = ""                 // there is no range
	EightInTen       Spread = "p10–p90"          // of children like the child, by estimate
	MiddleHalf       Spread = "p25–p75"          // of the children measured
	NineInTen        Spread = "p5–p95"           // of the children measured
	TenthToNinetieth Spread = "p10–p90 measured" // of the children measured
	ThirdTo97th      Spread = "p3–p97"           // of the children measured
	TwoInThree       Spread = "mean ± sd"        // of the children measured
	AsPublished      Spread = "low–high"         // as the chart prints it
)

// spreadOf is the spread between two statistics of the table of body
// measurements.
func spreadOf(low, high string) Spread {
	if low == "p10" { // not those of an estimate
		return TenthToNinetieth
	}
	return Spread(low + "–" + high)
}

// A FactError is an error that can also be told as a fact, with units and for the
// place where it is read.
type FactError struct {
	Fact Fact
	Err  error // in plain English
}

func (e *FactError) Error() string { return e.Err.Error() }

func (e *FactError) Unwrap() error { return e.Err }

// measurementsOf are measurements by their ids.
func (ref *Reference) measurementsOf(ids []string) []data.Measurement {
	var all []data.Measurement
	for _, id := range ids {
		all = append(all, *ref.measurements[id])
	}
	return all
}

// numbered are measurements by their numbers in the table.
func (ref *Reference) numbered(numbers []int) []data.Measurement {
	var all []data.Measurement
	for _, m := range numbers {
		all = append(all, ref.tables.Measurements[m])
	}
	return slices.Clip(all)
}
