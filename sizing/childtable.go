package sizing

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"growtuck/data"
)

// A childTable is a child's table being read.
type childTable struct {
	ref  *Reference
	name string
	r    *csv.Reader
	errs []error

	values []childColumn // columns of values
	unit   int           // columns; -1 for none
	date   int
	said   []childCell
}

// A childColumn is a column of values, of one day where the header says so.
type childColumn struct {
	at  int
	day time.Time
}

// A childCell is something said of the child: on a day, or on none in particular.
type childCell struct {
	id, value, unit string
	day             time.Time
	line, column    int
	idColumn        int
	unitColumn      int // 0 where there is no unit
}

func (t *childTable) fault(line, column int, err error) {
	t.errs = append(t.errs, &data.Error{File: t.name, Line: line, Column: column, Msg: err.Error()})
}

func (t *childTable) read() Child {
	for first := true; ; first = false {
		row, err := t.r.Read()
		if err == io.EOF {
			if first {
				t.fault(0, 0, errors.New("is empty; want a header measurement,value,unit and rows under it"))
			}
			break
		}
		var p *csv.ParseError
		if errors.As(err, &p) {
			t.fault(p.Line, p.Column, p.Err)
			break
		}
		if first {
			if !t.header(row) {
				break
			}
			continue
		}
		t.row(row)
	}
	return t.child()
}

// header finds the columns.
func (t *childTable) header(row []string) bool {
	t.unit, t.date = -1, -1
	known := len(row) > 1 && row[0] == "measurement"
	for i, head := range row[min(1, len(row)):] {
		at := i + 1
		day, err := ParseDate(head, false)
		switch {
		case head == "value":
			t.values = append(t.values, childColumn{at: at})
		case head == "unit" && t.unit < 0:
			t.unit = at
		case head == "date" && t.date < 0:
			t.date = at
		case err == nil:
			t.values = append(t.values, childColumn{at, day})
		case strings.TrimSpace(head) != "":
			known = known && i >= 2 && len(t.values) > 0 // a remark's column, told when it is filled in
		}
	}
	undated := slices.ContainsFunc(t.values, func(c childColumn) bool { return c.day.IsZero() })
	if known && t.unit > 0 && len(t.values) > 0 && !(undated && len(t.values) > 1) && !(t.date > 0 && !undated) {
		return true
	}
	line, column := t.r.FieldPos(0)
	t.fault(line, column, fmt.Errorf("header is %q; want \"measurement,value,unit\", comma-separated, with a column date where measurements are of several days", strings.Join(row, ",")))
	return false
}

func (t *childTable) row(row []string) {
	cell := func(i int) string {
		if i < 0 || i >= len(row) {
			return ""
		}
		return strings.TrimSpace(row[i])
	}
	line, first := t.r.FieldPos(0)
	if len(row) < 2 {
		t.fault(line, first, fmt.Errorf("%q: want measurement,value,unit", strings.Join(row, ",")))
		return
	}
	isValue := func(i int) bool { return slices.ContainsFunc(t.values, func(c childColumn) bool { return c.at == i }) }
	for i := 1; i < len(row); i++ {
		if !isValue(i) && i != t.unit && i != t.date && cell(i) != "" {
			line, column := t.r.FieldPos(i)
			t.fault(line, column, fmt.Errorf("%q after the unit; want measurement,value,unit; quote a number with a comma, and put remarks on lines that start with #", cell(i)))
			return
		}
	}
	for _, c := range t.values {
		if cell(c.at) == "" {
			continue // a form with a cell not filled in
		}
		_, column := t.r.FieldPos(c.at)
		said := childCell{id: cell(0), value: cell(c.at), unit: cell(t.unit), day: c.day, line: line, column: column, idColumn: first}
		if said.unit != "" {
			_, said.unitColumn = t.r.FieldPos(t.unit)
		}
		if text := cell(t.date); text != "" {
			var err error
			if said.day, err = ParseDate(text, false); err != nil {
				line, column := t.r.FieldPos(t.date)
				t.fault(line, column, err)
				continue
			}
		}
		t.said = append(t.said, said)
	}
}

// child is the child as it was measured last, with what was measured before. What was
// said of no day is of the last.
func (t *childTable) child() Child {
	var days []time.Time
	for _, s := range t.said {
		if !s.day.IsZero() && !slices.Contains(days, s.day) {
			days = append(days, s.day)
		}
	}
	slices.SortFunc(days, func(a, b time.Time) int { return b.Compare(a) })
	last := time.Time{}
	if len(days) > 0 {
		last = days[0]
	}
	c := Child{Sex: Both, Own: make(map[string]float64), Measured: last}
	t.set(&c, func(day time.Time) bool { return day.IsZero() || day.Equal(last) })
	if c.Measured.Before(last) {
		t.fault(0, 0, fmt.Errorf("measured on %s, and has measurements of %s", c.Measured.Format(Day), last.Format(Day)))
	}
	for _, day := range days[min(1, len(days)):] {
		before := Child{Own: make(map[string]float64), Born: c.Born, Measured: day}
		t.set(&before, day.Equal)
		if before.AgeYears > 0 && c.AgeYears == 0 { // the age then tells that of now
			c.AgeYears = before.AgeYears + MonthsBetween(day, c.Measured)/12
		}
		for id, v := range before.Own {
			if _, since := c.Own[id]; !since { // the newest of each counts
				c.Own[id], c.Where = v, withPlace(c.Where, id, before.Where[id])
			}
		}
		c.Earlier = append(c.Earlier, Earlier{c.Measured.Sub(day).Hours() / 24 / 365.25, before.Own})
	}
	return c
}

// set sets what was said on some days.
func (t *childTable) set(c *Child, of func(time.Time) bool) {
	lines := make(map[string]int)
	for _, s := range t.said {
		if !of(s.day) {
			continue
		}
		if before, dup := lines[s.id]; dup {
			t.fault(s.line, s.idColumn, fmt.Errorf("%s is given again; the first is on line %d", s.id, before))
			continue
		}
		lines[s.id] = s.line
		if err := t.ref.Set(c, s.id, s.value, s.unit); err != nil {
			var u *UnknownError
			var wrong *unitError
			switch {
			case errors.As(err, &u):
				t.fault(s.line, s.idColumn, err)
			case errors.As(err, &wrong) && strings.EqualFold(wrong.unit, s.unit):
				t.fault(s.line, s.unitColumn, fmt.Errorf("%s: %w", s.id, err))
			default:
				t.fault(s.line, s.column, fmt.Errorf("%s: %w", s.id, err))
			}
			continue
		}
		c.Where = withPlace(c.Where, s.id, fmt.Sprintf("%s:%d:%d", t.name, s.line, s.column))
	}
}

func withPlace(where map[string]string, id, place string) map[string]string {
	if where == nil {
		where = make(map[string]string)
	}
	where[id] = place
	return where
}
