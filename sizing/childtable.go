package sizing

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"growtuck/data"
	"growtuck/data/table"
)

// A childTable is a child's table being read.
type childTable struct {
	ref    *Reference
	text   *table.Table
	faults data.Faults

	values []childColumn // columns of values
	id     int           // columns; -1 for none
	unit   int
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
	t.faults.Add(t.text.Fault(line, column, err.Error()))
}

func (t *childTable) read() Child {
	titles, err := t.text.Top()
	if err == io.EOF {
		err = t.text.Fault(0, 0, "is empty; want a header measurement,value,unit and rows under it")
	}
	switch {
	case err != nil:
		t.faults.Add(err)
		return t.child()
	case !t.header(titles):
		return t.child()
	}
	for {
		row, err := t.text.Next()
		switch {
		case err == io.EOF:
			return t.child()
		case err != nil:
			t.faults.Add(err)
		default:
			t.row(row)
		}
	}
}

// header finds the columns. Those that are none of ours are for remarks.
func (t *childTable) header(row table.Row) bool {
	t.unit, t.date = -1, -1
	known := false
	for at, cell := range row.Cells {
		head := strings.ToLower(cell.Text)
		day, err := ParseDate(head, false)
		switch {
		case head == "measurement" && !known:
			known, t.id = true, at
		case head == "value":
			t.values = append(t.values, childColumn{at: at})
		case head == "unit" && t.unit < 0:
			t.unit = at
		case head == "date" && t.date < 0:
			t.date = at
		case err == nil:
			t.values = append(t.values, childColumn{at, day})
		}
	}
	undated := slices.ContainsFunc(t.values, func(c childColumn) bool { return c.day.IsZero() })
	if known && len(t.values) > 0 && !(undated && len(t.values) > 1) && !(t.date >= 0 && !undated) {
		return true
	}
	t.fault(row.Line, row.Cells[0].Column, fmt.Errorf("header is %.80q; want \"measurement,value,unit\", separated by commas, semicolons or tabs, with a column date where measurements are of several days", strings.Join(row.Texts(), string(t.text.Separator))))
	return false
}

func (t *childTable) row(row table.Row) {
	cell := func(i int) table.Cell {
		if i < 0 || i >= len(row.Cells) {
			return table.Cell{}
		}
		return row.Cells[i]
	}
	if len(row.Cells) < 2 {
		t.fault(row.Line, row.Cells[0].Column, fmt.Errorf("%.80q: want measurement,value,unit", row.Cells[0].Text))
		return
	}
	for _, c := range t.values {
		value := cell(c.at)
		if value.Text == "" {
			continue // a form with a cell not filled in
		}
		said := childCell{id: t.ref.idOf(cell(t.id).Text), value: value.Text, unit: cell(t.unit).Text, day: c.day, line: row.Line, column: value.Column, idColumn: cell(t.id).Column}
		if said.unit != "" {
			said.unitColumn = cell(t.unit).Column
		}
		if date := cell(t.date); date.Text != "" {
			var err error
			if said.day, err = ParseDate(date.Text, false); err != nil {
				t.fault(row.Line, date.Column, err)
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
		c.Where = withPlace(c.Where, s.id, fmt.Sprintf("%s:%d:%d", t.text.Name, s.line, s.column))
	}
}

func withPlace(where map[string]string, id, place string) map[string]string {
	if where == nil {
		where = make(map[string]string)
	}
	where[id] = place
	return where
}
