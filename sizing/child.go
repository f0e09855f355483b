package sizing

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"growtuck/data"
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
// age). Lines that start with # are comments. Ages are in years, months, or as
// 3y6m. name is the file's name for error messages. All faults are returned,
// joined, each a [*data.Error].
func (ref *Reference) ReadChild(in io.Reader, name string) (Child, error) {
	c := Child{Sex: Both, Own: make(map[string]float64)}
	text, err := io.ReadAll(io.LimitReader(in, maxChildBytes+1))
	if err != nil {
		return c, &data.Error{File: name, Msg: err.Error()}
	}
	if len(text) > maxChildBytes {
		return c, &data.Error{File: name, Msg: fmt.Sprintf("is more than %d bytes; too long for a child's measurements", maxChildBytes)}
	}
	r := csv.NewReader(strings.NewReader(strings.TrimPrefix(string(text), "\ufeff")))
	r.Comment = '#'
	r.FieldsPerRecord = -1
	r.TrimLeadingSpace = true
	var errs []error
	lines := make(map[string]int)
	for first := true; ; first = false {
		row, err := r.Read()
		if err == io.EOF {
			if first {
				errs = append(errs, &data.Error{File: name, Msg: "is empty; want a header measurement,value,unit and rows under it"})
			}
			break
		}
		var p *csv.ParseError
		if errors.As(err, &p) {
			errs = append(errs, &data.Error{File: name, Line: p.Line, Column: p.Column, Msg: p.Err.Error()})
			break
		}
		at := func(field int, err error) {
			line, col := r.FieldPos(min(field, len(row)-1))
			errs = append(errs, &data.Error{File: name, Line: line, Column: col, Msg: err.Error()})
		}
		if first {
			if len(row) < 3 || row[0] != "measurement" || row[1] != "value" || row[2] != "unit" {
				at(0, fmt.Errorf("header is %q; want \"measurement,value,unit\", comma-separated", strings.Join(row, ",")))
				break
			}
			continue
		}
		if len(row) < 2 {
			at(0, fmt.Errorf("%q: want measurement,value,unit", strings.Join(row, ",")))
			continue
		}
		if i := slices.IndexFunc(row[min(3, len(row)):], func(s string) bool { return strings.TrimSpace(s) != "" }); i >= 0 {
			at(3+i, fmt.Errorf("%q after the unit; want measurement,value,unit; quote a number with a comma, and put remarks on lines that start with #", strings.TrimSpace(row[3+i])))
			continue
		}
		id, value, unit := strings.TrimSpace(row[0]), strings.TrimSpace(row[1]), ""
		if len(row) > 2 {
			unit = strings.TrimSpace(row[2])
		}
		if value == "" {
			continue // a form with a line not filled in
		}
		line, _ := r.FieldPos(0)
		if before, dup := lines[id]; dup {
			at(0, fmt.Errorf("%s is given again; the first is on line %d", id, before))
			continue
		}
		lines[id] = line
		if err := ref.Set(&c, id, value, unit); err != nil {
			var u *UnknownError
			if errors.As(err, &u) {
				at(0, err)
			} else {
				at(1, fmt.Errorf("%s: %w", id, err))
			}
			continue
		}
		if c.Where == nil {
			c.Where = make(map[string]string)
		}
		_, column := r.FieldPos(1)
		c.Where[id] = fmt.Sprintf("%s:%d:%d", name, line, column)
	}
	return c, errors.Join(errs...)
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
		return fmt.Errorf("%q: must be greater than 0", value)
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
	return Both, fmt.Errorf("sex %q is not one of m, f, both", s)
}

// ids returns the child's measured ids in the order of the table.
func (ref *Reference) ownIDs(c Child) []string {
	return slices.SortedFunc(maps.Keys(c.Own), func(a, b string) int { return ref.order[a] - ref.order[b] })
}
