package sizing

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/data/table"
)

// Child is what is known of a child. Own holds the child's measurements by
// id, in cm, weight in kg.
type Child struct {
	Name     string
	Sex      Sex
	AgeYears float64 // 0 if not known
	Own      map[string]float64
	// Where is the place at which the measurements and the age were given, by id,
	// such as child.csv:3:7.
	Where map[string]string
}

// maxChildBytes bounds a child's file.
const maxChildBytes = 1 << 20

// ReadChild reads a child's table: a header measurement,value,unit and a row
// for each measurement (see measurements.csv for the ids) or fact (name, sex,
// age). Lines that start with # are comments; how it may be written is in package
// table. Ages are in years, months, or as 3y6m. name is the file's name for error
// messages. Faults are joined, each a [*data.Error].
func (ref *Reference) ReadChild(in io.Reader, name string) (Child, error) {
	c := Child{Sex: Both, Own: make(map[string]float64)}
	t, err := table.Open(in, name, maxChildBytes)
	if err == nil {
		err = t.Header([]string{"measurement", "value", "unit"}, 2)
	}
	if err != nil {
		return c, err
	}
	faults := data.Faults{File: name}
	lines := make(map[string]int)
	for {
		row, err := t.Next()
		if err == io.EOF {
			return c, faults.Err()
		}
		if err == nil {
			err = ref.setRow(&c, t, row, lines)
		}
		if err != nil {
			faults.Add(err)
		}
	}
}

// setRow sets what a row of a child's table says. lines are where each was given.
func (ref *Reference) setRow(c *Child, t *table.Table, row table.Row, lines map[string]int) error {
	id, value, unit := ref.idOf(row.Cells[0].Text), row.Cells[1], row.Cells[2]
	if value.Text == "" {
		return nil // a form with a line not filled in
	}
	if before, dup := lines[id]; dup {
		return t.Fault(row.Line, row.Cells[0].Column, fmt.Sprintf("%s is given again; the first is on line %d", id, before))
	}
	if err := ref.Set(c, id, value.Text, unit.Text); err != nil {
		var u *UnknownError
		if errors.As(err, &u) {
			return t.Fault(row.Line, row.Cells[0].Column, err.Error())
		}
		lines[id] = row.Line
		return t.Fault(row.Line, value.Column, fmt.Sprintf("%s: %v", id, err))
	}
	lines[id] = row.Line
	if c.Where == nil {
		c.Where = make(map[string]string)
	}
	c.Where[id] = fmt.Sprintf("%s:%d:%d", t.Name, row.Line, value.Column)
	return nil
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

var facts = []string{"name", "sex", "age"}

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
