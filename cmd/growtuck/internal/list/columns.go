package list

import (
	"fmt"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

// A role is what a column holds.
type role uint8

const (
	copiedColumn   role = iota // anything else: copied to the output
	computedColumn             // recalculated: left out
	sexColumn                  // m, f or both
	ageColumn                  // years, or months
	measuredColumn             // a measurement
)

// A column is a column of a list.
type column struct {
	raw   string // the header's cell, unchanged
	name  string // as an id
	role  role
	unit  string // of numbers that name none
	named bool   // the unit is in the header: a cell may name no other
	id    string // of a measurement
	index int    // among the list's measurements
}

// isCopied reports whether a column is copied to the output: everything that is
// not a measurement and not worked out.
func (c *column) isCopied() bool {
	return c.role == copiedColumn || c.role == sexColumn || c.role == ageColumn
}

// same reports whether two columns hold the same thing. Columns that are only
// copied may.
func (c *column) same(o column) bool {
	switch c.role {
	case copiedColumn:
		return false
	case measuredColumn:
		return o.id == c.id
	case computedColumn:
		return o.role == c.role && o.name == c.name
	}
	return o.role == c.role
}

// plainName puts a header's cell into the form of ids: "Chest girth (cm)" is
// chest_girth_cm.
func plainName(s string) string {
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return strings.ContainsRune(" _-.,()[]/", r) })
	return strings.Join(words, "_")
}

var columnUnits = []string{"cm", "mm", "m", "in", "inches", "ft", "feet", "kg", "g", "lb", "lbs", "st", "years", "months", "weeks"}

var weightUnits = []string{"kg", "g", "lb", "st"}

// cutUnit takes a unit off the end of a plain name: height_cm, height_in_cm.
func cutUnit(name string) (string, string) {
	for _, u := range columnUnits {
		if short, ok := strings.CutSuffix(name, "_"+u); ok {
			return strings.TrimSuffix(short, "_in"), sizing.UnitName(u)
		}
	}
	return name, ""
}

// newColumn reads the name of a column.
func newColumn(ref *sizing.Reference, raw, text string, o Options) (column, error) {
	c := column{raw: raw, name: plainName(text)}
	short, unit := cutUnit(c.name)
	c.named = unit != ""
	switch short {
	case "sex":
		c.role = sexColumn
		return c, nil
	case "age":
		c.role, c.unit = ageColumn, unit
		return c, nil
	}
	if slices.Contains(o.Computed, c.name) && !slices.ContainsFunc(ref.Measurements(), func(m data.Measurement) bool { return m.ID == short }) {
		c.role = computedColumn
		return c, nil
	}
	for _, m := range ref.Measurements() {
		if short != m.ID && short != plainName(m.Name) {
			continue
		}
		c.role, c.id = measuredColumn, m.ID
		switch isWeight := m.Unit == "kg"; {
		case unit == "" && isWeight:
			c.unit = map[string]string{"cm": "kg", "mm": "kg", "in": "lb"}[o.Unit]
		case unit == "":
			c.unit = o.Unit
		case isWeight != slices.Contains(weightUnits, unit), unit == "years", unit == "months", unit == "weeks":
			return c, fmt.Errorf("column %s: a %s is not in %s", text, m.Kind, unit)
		default:
			c.unit = unit
		}
		return c, nil
	}
	return c, nil
}
