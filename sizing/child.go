package sizing

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"time"

	"growtuck/data"
	"growtuck/data/table"
)

// Child is what is known of a child. Own holds the child's measurements by
// id, in cm, weight in kg.
type Child struct {
	Name     string
	Sex      Sex
	AgeYears float64 // when it was measured; 0 if not known
	Born     time.Time
	Measured time.Time // the day
	Own      map[string]float64
	// Earlier are measurements that were taken before, the newest first.
	Earlier []Earlier
	// Where is the place at which the measurements and the age were given, by id,
	// such as child.csv:3:7.
	Where map[string]string
}

// maxChildBytes bounds a child's file.
const maxChildBytes = 1 << 20

// ReadChild reads a child's table: a header measurement,value,unit and a row
// for each measurement (see measurements.csv for the ids) or fact (name, sex,
// age, born, measured). Lines that start with # are comments; how it may be written is
// in package table. Ages are in years, months, or as 3y6m. Measurements of several days
// have a column date, or a column for each day in place of value:
// measurement,unit,2025-05-01,2026-05. name is the file's name for error messages.
// Faults are returned joined, each a [*data.Error].
func (ref *Reference) ReadChild(in io.Reader, name string) (Child, error) {
	text, err := table.Open(in, name, maxChildBytes)
	if err != nil {
		return Child{Sex: Both}, err
	}
	t := &childTable{ref: ref, text: text, faults: data.Faults{File: name}}
	return t.read(), t.faults.Err()
}

// idOf is the id of a measurement by its id or name, in any case: "Chest girth" is
// chest. Another text is returned as it is.
func (ref *Reference) idOf(s string) string {
	plain := strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return r == ' ' || r == '-' || r == '_' }), "_")
	for id, m := range ref.measurements {
		if plain == id || plain == strings.ReplaceAll(strings.ToLower(m.Name), " ", "_") {
			return id
		}
	}
	if slices.Contains(facts, plain) {
		return plain
	}
	return s
}

var facts = []string{"name", "sex", "age", "born", "measured"}

// Set sets a fact or a measurement of the child from text. unit may be empty:
// cm, kg and years are then meant.
func (ref *Reference) Set(c *Child, id, value, unit string) error {
	if _, placed := c.Where[id]; placed { // it was said elsewhere before
		c.Where = maps.Clone(c.Where)
		delete(c.Where, id)
	}
	switch id {
	case "name":
		c.Name = value
		return nil
	case "sex":
		s, err := ParseSex(value)
		c.Sex = s
		return err
	case "age":
		years, err := parseAge(value, unit)
		c.AgeYears = years
		return err
	case "born", "measured":
		day, err := ParseDate(value, false)
		if err != nil {
			return err
		}
		if id == "born" {
			c.Born = day
		} else {
			c.Measured = day
		}
		return c.setDates()
	}
	m := ref.measurements[id]
	if m == nil {
		return unknown("measurement", id, append(keys(ref.order), facts...))
	}
	v, err := ParseBeside(m.Unit, value, unit)
	if unit == "" {
		v, err = ParseMeasured(m.Unit, value, m.Unit)
	}
	if err != nil {
		return err
	}
	if v <= 0 {
		return fmt.Errorf("%.80q: must be greater than 0", value)
	}
	if c.Own == nil {
		c.Own = make(map[string]float64)
	}
	c.Own[id] = v
	return nil
}

// ParseSex reads m, f or both, or the words boy and girl.
func ParseSex(s string) (Sex, error) {
	switch strings.ToLower(s) {
	case "m", "boy", "male":
		return Boy, nil
	case "f", "girl", "female":
		return Girl, nil
	case "both", "":
		return Both, nil
	}
	return Both, fmt.Errorf("sex %.80q is not one of m, f, both", s)
}

// ids returns the child's measured ids in the order of the table.
func (ref *Reference) ownIDs(c Child) []string {
	return slices.SortedFunc(maps.Keys(c.Own), func(a, b string) int { return ref.order[a] - ref.order[b] })
}
