package validate

import (
	"growtuck/data"
	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// A Draft is a garment as its maker drafted it: a table of fields, as
// [DraftFields] lists them, read by [ReadDraft].
type Draft struct {
	Name    string // of the file
	Garment data.Garment
	Spec    sizing.Spec
	Child   sizing.Child
	Body    *sizing.Body // of the child, or of the size it is made for; nil only in a zero Draft, never in one that was read
	Gauge   stitch.Gauge // zero where the draft has none

	// Marks and line ends that a spreadsheet leaves: harmless, but reported.
	byteOrderMark, carriageReturns bool

	entries []*Entry
	byKey   map[key]*Entry
	ages    float64 // years, 0 if not known
	ageFrom sizing.Fact
}

// An Entry is a row of a draft. Which of Cm, Count and Number is set follows
// from the field and the unit.
type Entry struct {
	Line                           int
	Field, Part, Value, Unit, Note string

	Cm       float64 // lengths
	Count    int     // stitches, rows or rounds, as Unit says
	Number   float64 // factors, gauges (per 10 cm), seasons, the class of the yarn
	Multiple stitch.Multiple

	columns [5]int // where the cells begin
}

type key struct {
	field, part string
	counted     bool // a finished measurement in stitches or rows, beside one in cm
}

func (e *Entry) key() key {
	return key{e.Field, e.Part, e.Field == "finished" && e.counted()}
}

func (e *Entry) counted() bool { return e.Unit == "stitches" || e.Unit == "rows" }

// Entries returns the rows of the draft, in the order of the file.
func (d *Draft) Entries() []*Entry { return d.entries }

// AgeYears is the wearer's age, as given or as the size says, and where it is
// from.
func (d *Draft) AgeYears() (years float64, from sizing.Fact, ok bool) {
	return d.ages, d.ageFrom, d.ages > 0
}

func (d *Draft) get(field, part string) (*Entry, bool) {
	e, ok := d.byKey[key{field: field, part: part}]
	return e, ok
}

func (d *Draft) all(field string) []*Entry {
	var out []*Entry
	for _, e := range d.entries {
		if e.Field == field {
			out = append(out, e)
		}
	}
	return out
}

// has reports whether a field that may be given more than once has the value.
func (d *Draft) has(field, value string) bool {
	for _, e := range d.all(field) {
		if e.Value == value {
			return true
		}
	}
	return false
}

// count returns a count of stitches, rows or rounds.
func (d *Draft) count(field, part string) (int, *Entry, bool) {
	e, ok := d.byKey[key{field, part, field == "finished"}]
	if !ok {
		return 0, nil, false
	}
	return e.Count, e, true
}

// edges is what edges and closure add to the fabric of a part.
func (d *Draft) edges(part string) float64 {
	e, ok := d.get("edges", part)
	if !ok {
		return 0
	}
	return e.Cm
}

// size returns the finished size of a part in cm: what its count gives at the
// gauge, for that is what will be made, and its edges; where it has no count, as
// written.
func (d *Draft) size(part string) (cm float64, e *Entry, ok bool) {
	if n, e, ok := d.count("finished", part); ok {
		if e.Unit == "rows" {
			return d.gaugeOf(part).HeightCm(n), e, true
		}
		return d.gaugeOf(part).WidthCm(n) + d.edges(part), e, true
	}
	if e, ok := d.get("finished", part); ok {
		return e.Cm, e, true
	}
	return 0, nil, false
}

// Finished are the finished sizes of the parts in cm, of those that the draft has.
func (d *Draft) Finished() map[string]float64 {
	sizes := make(map[string]float64)
	for _, e := range d.all("finished") {
		if cm, _, ok := d.size(e.Part); ok {
			sizes[e.Part] = cm
		}
	}
	return sizes
}

// gaugeOf is the gauge of a part: its own, as of ribbing, or the fabric's.
func (d *Draft) gaugeOf(part string) stitch.Gauge {
	g := d.Gauge
	if e, ok := d.get("stitch_gauge", part); ok {
		g.StitchesPer10Cm = e.Number
	}
	if e, ok := d.get("row_gauge", part); ok {
		g.RowsPer10Cm = e.Number
	}
	return g
}

// multiple is the form that the count of a part must have.
func (d *Draft) multiple(part string) stitch.Multiple {
	if e, ok := d.get("multiple", part); ok {
		return e.Multiple
	}
	return stitch.Plain
}

// opening returns the length of an opening by its place; the front of a
// garment that opens there is one of its finished parts.
func (d *Draft) opening(place string) (cm float64, e *Entry, ok bool) {
	if place == "front" {
		if cm, e, ok := d.size("front_opening"); ok {
			return cm - d.held("front_opening"), e, true
		}
	}
	if e, ok := d.get("opening", place); ok {
		return e.Cm, e, true
	}
	return 0, nil, false
}
