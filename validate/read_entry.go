package validate

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"growtuck/data"
	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// Cells of an entry.
const (
	fieldCell = iota
	partCell
	valueCell
	unitCell
	noteCell
)

const (
	longestCm = 300 // a longer length is a mistake
	mostCount = 2000
)

func (r *draftReader) at(e *Entry, cell int, format string, args ...any) {
	r.fault(e.Line, e.columns[cell], "%s", e.Field+": "+fmt.Sprintf(format, args...))
}

// entries reads the rows that the table of fields knows.
func (r *draftReader) entries(rows []*Entry) {
	fields := draftFields()
	known := fieldNames(fields)
	for _, e := range rows {
		e.Field = asKnown(e.Field, known)
	}
	parts := r.garment(rows)
	for _, e := range rows {
		f, ok := fieldNamed(fields, e.Field)
		if !ok {
			r.fault(e.Line, e.columns[fieldCell], "unknown field %s; known are %s", clip(e.Field), strings.Join(known, ", "))
			continue
		}
		faults := r.faults.Len()
		r.part(f, e, parts)
		r.unit(f, e)
		if r.faults.Len() > faults {
			continue
		}
		r.value(f, e)
		if r.faults.Len() > faults {
			continue
		}
		r.add(f, e)
	}
	for _, f := range fields {
		if f.Required && !slices.ContainsFunc(rows, func(e *Entry) bool { return e.Field == f.Name }) {
			r.fault(0, 0, "has no row %s,,%s: %s", f.Name, orWords(f), f.Means)
		}
	}
}

func orWords(f Field) string {
	if len(f.Words) > 0 {
		return strings.Join(f.Words, "|")
	}
	return "…"
}

func fieldNames(fields []Field) []string {
	var out []string
	for _, f := range fields {
		out = append(out, f.Name)
	}
	return out
}

// asKnown is the word of those known that a text is, but for capitals, and spaces or
// hyphens in place of underscores; else the text.
func asKnown(text string, known []string) string {
	if slices.Contains(known, text) {
		return text
	}
	plain := strings.NewReplacer(" ", "_", "-", "_")
	like := plain.Replace(strings.TrimSpace(text))
	for _, k := range known {
		if strings.EqualFold(like, plain.Replace(k)) {
			return k
		}
	}
	return text
}

// garment finds the garment, whose parts the other rows name.
func (r *draftReader) garment(rows []*Entry) []data.Part {
	for _, e := range rows {
		if e.Field != "garment" {
			continue
		}
		var ids []string
		for _, g := range r.ref.Garments() {
			ids = append(ids, g.ID)
		}
		e.Value = asKnown(e.Value, ids)
		parts, err := r.ref.Parts(e.Value)
		if err != nil {
			r.fault(e.Line, e.columns[valueCell], "%v", err)
			return nil
		}
		for _, g := range r.ref.Garments() {
			if g.ID == e.Value {
				r.draft.Garment = g
			}
		}
		return parts
	}
	return nil
}

func (r *draftReader) add(f Field, e *Entry) {
	for _, b := range r.draft.entries {
		if b.Field == e.Field && b.Part == e.Part && b.Value == e.Value && b.Unit == e.Unit && b.Note == e.Note {
			r.at(e, fieldCell, "the row is given twice; the first is on line %d", b.Line)
			return
		}
	}
	if before, ok := r.draft.byKey[e.key()]; ok && !f.Many {
		what := e.Field
		if e.Part != "" {
			what += " " + e.Part
		}
		r.at(e, fieldCell, "%s is given again; the first is on line %d", what, before.Line)
		return
	}
	r.draft.entries = append(r.draft.entries, e)
	r.draft.byKey[e.key()] = e
}

func (r *draftReader) part(f Field, e *Entry, parts []data.Part) {
	switch f.part {
	case noPart:
		if e.Part != "" {
			r.at(e, partCell, "has the part %s; leave the column empty here", clip(e.Part))
		}
	case wordPart:
		e.Part = asKnown(e.Part, f.Parts)
		if !slices.Contains(f.Parts, e.Part) {
			r.at(e, partCell, "part %s is not one of %s", clip(e.Part), strings.Join(f.Parts, ", "))
		}
	case rowPart:
		if n, err := strconv.Atoi(e.Part); err != nil || n < 1 || n > mostCount {
			r.at(e, partCell, "%s is not the number of a row, 1 to %d", clip(e.Part), mostCount)
		}
	case bodyPart:
		if _, err := r.ref.Measurement(e.Part); err == nil {
			return
		}
		var known []string
		for _, m := range r.ref.Measurements() {
			known = append(known, m.ID)
		}
		e.Part = asKnown(e.Part, known)
		if _, err := r.ref.Measurement(e.Part); err != nil {
			r.at(e, partCell, "%v", err)
		}
	case garmentPart, ownGauge:
		if parts == nil || e.Part == "" && f.part == ownGauge {
			return
		}
		if slices.ContainsFunc(parts, func(p data.Part) bool { return p.Part == e.Part }) {
			return
		}
		var known []string
		for _, p := range parts {
			known = append(known, p.Part)
		}
		if e.Part = asKnown(e.Part, known); !slices.Contains(known, e.Part) {
			r.at(e, partCell, "%v", &sizing.UnknownError{Kind: "part of " + r.draft.Garment.ID, Name: e.Part, Known: known})
		}
	}
}

func (r *draftReader) unit(f Field, e *Entry) {
	if name := unitName(e.Unit); slices.Contains(f.Units, name) {
		e.Unit = name
	}
	if _, word := cutUnit(e.Value); e.Unit == "" && slices.Contains(f.Units, unitName(word)) {
		e.Unit = unitName(word) // 30 rows
	}
	switch {
	case len(f.Units) == 0:
		if e.Unit != "" {
			r.at(e, unitCell, "has the unit %s; leave the column empty here", clip(e.Unit))
		}
	case e.Unit == "" && len(f.Units) == 1:
		e.Unit = f.Units[0]
	case e.Unit == "" && f.kind == ageValue:
	case e.Unit == "":
		r.at(e, unitCell, "has no unit; want %s", strings.Join(f.Units, ", "))
	case !slices.Contains(f.Units, e.Unit):
		r.at(e, unitCell, "unit %s is not one of %s", clip(e.Unit), strings.Join(f.Units, ", "))
	}
}

// countUnits are what stitches and rows are called too.
var countUnits = map[string]string{"st": "stitches", "sts": "stitches", "stitch": "stitches", "stitches": "stitches",
	"row": "rows", "rows": "rows", "rnd": "rows", "rnds": "rows", "round": "rows", "rounds": "rows"}

// unitName is the name of a unit of counts, lengths, weights or ages.
func unitName(word string) string {
	if name, ok := countUnits[strings.ToLower(strings.TrimSpace(word))]; ok {
		return name
	}
	return sizing.UnitName(word)
}

// cutUnit parts a number from the word after it.
func cutUnit(value string) (number, word string) {
	value = strings.TrimSpace(value)
	number = strings.TrimRightFunc(value, unicode.IsLetter)
	return strings.TrimSpace(number), value[len(number):]
}

// figure is the number of a count or a gauge, without the word of its unit.
func (r *draftReader) figure(e *Entry, unit string) (float64, error) {
	number, word := cutUnit(e.Value)
	if word != "" && unitName(word) != unitName(unit) {
		number = e.Value
	}
	return sizing.ParseNumber(number)
}

func (r *draftReader) value(f Field, e *Entry) {
	switch f.kind {
	case textValue:
		if e.Value == "" {
			r.at(e, valueCell, "is empty; want %s", f.Value)
		}
	case wordValue, yesValue:
		e.Value = asKnown(e.Value, f.Words)
		if !slices.Contains(f.Words, e.Value) {
			r.at(e, valueCell, "%s is not one of %s", clip(e.Value), strings.Join(f.Words, ", "))
		}
	case countValue:
		r.count(e)
	case numberValue, gaugeValue:
		r.number(f, e)
	case lengthValue, changeValue:
		r.length(f, e)
	case sizeValue:
		r.size(f, e)
	case multipleValue:
		m, err := stitch.ParseMultiple(e.Value)
		if err != nil || e.Value == "" {
			r.at(e, valueCell, "%s is not a multiple; write 4n, 6n+2, even, odd or plain", clip(e.Value))
		}
		e.Multiple = m
	case dateValue:
		if _, err := sizing.ParseDate(e.Value, false); err != nil {
			r.at(e, valueCell, "%v", err)
		}
	case ageValue, bodyValue:
		var c sizing.Child
		id := e.Part
		if f.kind == ageValue {
			id = "age"
		}
		if err := r.ref.Set(&c, id, e.Value, e.Unit); err != nil {
			r.at(e, valueCell, "%v", err)
		}
		if c.AgeYears > sizing.MostYears {
			r.at(e, valueCell, "age %s is not between 0 and %d years", clip(e.Value), sizing.MostYears)
		}
		e.Number, e.Cm = c.AgeYears, c.Own[id]
	}
}

func (r *draftReader) count(e *Entry) {
	v, err := r.figure(e, e.Unit)
	n := int(v)
	if err != nil || !(v >= 0 && v <= mostCount) || v != float64(n) {
		r.at(e, valueCell, "%s is not a whole number of %s, 0 to %d", clip(e.Value), e.Unit, mostCount)
	}
	e.Count = n
}

// gaugeCounts are what the gauges count.
var gaugeCounts = map[string]string{"stitch_gauge": "stitches", "row_gauge": "rows"}

func (r *draftReader) number(f Field, e *Entry) {
	var err error
	if e.Number, err = r.figure(e, gaugeCounts[f.Name]); err != nil {
		r.at(e, valueCell, "%v; want %s", err, f.Value)
		return
	}
	low, high := f.Low, f.High
	if f.kind == gaugeValue {
		if e.Unit == "4 in" {
			e.Number *= 10 / stitch.FourInchesCm
		}
		low, high = 1, 200
	}
	if e.Number < low || e.Number > high {
		r.at(e, valueCell, "%s is not between %g and %g", clip(e.Value), low, high)
	}
	if e.Field == "yarn" && e.Number != float64(int(e.Number)) {
		r.at(e, valueCell, "%s is not a weight class; they are whole numbers, 0 to 7", clip(e.Value))
	}
}

func (r *draftReader) length(f Field, e *Entry) {
	var err error
	if e.Cm, err = sizing.ParseBeside("cm", e.Value, e.Unit); err != nil {
		r.at(e, valueCell, "%v", err)
		return
	}
	switch {
	case f.kind == changeValue && (e.Cm < -50 || e.Cm > 50):
		r.at(e, valueCell, "%s %s is not between -50 and 50 cm", e.Value, e.Unit)
	case f.kind != changeValue && (e.Cm <= 0 || e.Cm > longestCm):
		r.at(e, valueCell, "%s %s is not above 0 and at most %d cm", e.Value, e.Unit, longestCm)
	}
}

// size reads a finished measurement: lengths are counted in rows, girths and
// widths in stitches.
func (r *draftReader) size(f Field, e *Entry) {
	if !e.counted() {
		r.length(f, e)
		return
	}
	r.count(e)
	parts, err := r.ref.Parts(r.draft.Garment.ID)
	if err != nil {
		return // the garment is a separate fault
	}
	for _, p := range parts {
		if p.Part == e.Part && (p.Dimension == "length") != (e.Unit == "rows") {
			want := "stitches"
			if p.Dimension == "length" {
				want = "rows"
			}
			r.at(e, unitCell, "%s is a %s: count it in %s, not in %s", e.Part, p.Dimension, want, e.Unit)
		}
	}
	if e.Count == 0 && r.faults.Len() == 0 {
		r.at(e, valueCell, "0 %s is not a size", e.Unit)
	}
}

// problems returns the faults joined in an error.
func problems(err error) []error {
	var joined interface{ Unwrap() []error }
	if errors.As(err, &joined) {
		return joined.Unwrap()
	}
	return []error{err}
}
