package data

import (
	"encoding/csv"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
)

// RowRules tells each struct tag that a row breaks: the column, the cell's value, the
// tag and its parameter. Package rules makes them.
type RowRules func(row any, broken func(column string, value any, tag, param string))

// Check checks every row against its struct tags, every table for rows with
// the same key, and every reference to another table. All faults are returned
// together, joined, each an [*Error].
func (t *Tables) Check(rules RowRules) error {
	c := newChecker(t.text, rules)
	for i := range Schemas() {
		s := &Schemas()[i]
		if rows := t.Rows(s); rows.IsValid() {
			c.check(s, rows)
		}
	}
	for i := range Schemas() {
		s := &Schemas()[i]
		if rows := t.Rows(s); rows.IsValid() {
			c.checkRefs(s, rows, t)
		}
	}
	return errors.Join(c.errs...)
}

// Rows returns the slice of t that holds the rows of a table, which can be set;
// the zero Value if there is none, as for changes.csv.
func (t *Tables) Rows(s *Schema) reflect.Value {
	v := reflect.ValueOf(t).Elem()
	for i := range v.NumField() {
		if f := v.Field(i); f.Kind() == reflect.Slice && f.Type().Elem() == s.Row {
			return f
		}
	}
	return reflect.Value{}
}

// cells joins what a row has in some columns.
func (s *Schema) cells(row reflect.Value, columns []string) string {
	var parts []string
	for _, name := range columns {
		c, _ := s.Column(name)
		v := row.Field(c.Field)
		if v.Kind() == reflect.Pointer {
			if v.IsNil() {
				parts = append(parts, "")
				continue
			}
			v = v.Elem()
		}
		parts = append(parts, fmt.Sprint(v.Interface()))
	}
	if strings.Join(parts, "") == "" {
		return ""
	}
	return strings.Join(parts, ", ")
}

func lineOf(row reflect.Value) int { return int(row.FieldByName("Line").Int()) }

// A checker collects faults and, for each table, the keys seen so far.
type checker struct {
	rules RowRules
	keys  map[string]map[string]int // table → key → line
	lines map[string][]string       // table → its lines, where its text is known
	errs  []error
}

func newChecker(text map[string]string, rules RowRules) *checker {
	lines := make(map[string][]string)
	for table, t := range text {
		lines[table] = strings.Split(t, "\n")
	}
	return &checker{rules: rules, keys: make(map[string]map[string]int), lines: lines}
}

// check checks the rows of a table and their keys.
func (c *checker) check(s *Schema, rows reflect.Value) {
	seen := make(map[string]int, rows.Len())
	c.keys[s.File] = seen
	for i := range rows.Len() {
		row := rows.Index(i)
		line, k := lineOf(row), s.cells(row, s.Key)
		if first, dup := seen[k]; dup {
			c.errs = append(c.errs, &Error{s.File, line, 0, fmt.Sprintf("%s is already on line %d", k, first)})
		} else {
			seen[k] = line
		}
		for _, f := range c.rowFaults(row.Interface()) {
			c.errs = append(c.errs, &Error{s.File, line, c.column(s.File, line, f.column), f.msg})
		}
	}
}

// checkRefs checks that what the rows of a table name exists.
func (c *checker) checkRefs(s *Schema, rows reflect.Value, t *Tables) {
	others := make([]map[string]bool, len(s.Refs))
	for i, ref := range s.Refs {
		if ref.Or == "" {
			continue
		}
		others[i] = make(map[string]bool)
		target := SchemaOf(ref.File)
		for j, in := 0, t.Rows(target); j < in.Len(); j++ {
			others[i][target.cells(in.Index(j), []string{ref.Or})] = true
		}
	}
	for i := range rows.Len() {
		row := rows.Index(i)
		for j, ref := range s.Refs {
			k := s.cells(row, ref.Columns)
			if _, ok := c.keys[ref.File][k]; ok || k == "" || others[j][k] {
				continue
			}
			names := strings.Join(ref.Columns, ", ")
			if ref.Or != "" {
				names += " (or " + ref.Or + ")"
			}
			c.errs = append(c.errs, &Error{s.File, lineOf(row), c.column(s.File, lineOf(row), ref.Columns[0]), fmt.Sprintf("%s: %.80q is not in %s", names, k, ref.File)})
		}
	}
}

// column finds where a column's cell begins on a line of a table: a byte from 1,
// or 0 where the text is not known.
func (c *checker) column(table string, line int, name string) int {
	lines := c.lines[table]
	if line < 2 || line > len(lines) {
		return 0
	}
	head := csv.NewReader(strings.NewReader(lines[0]))
	names, err := head.Read()
	if err != nil {
		return 0
	}
	row := csv.NewReader(strings.NewReader(lines[line-1]))
	row.FieldsPerRecord = len(names)
	i := slices.Index(names, name)
	if _, err := row.Read(); err != nil || i < 0 {
		return 0 // a cell that holds a line end
	}
	_, column := row.FieldPos(i)
	return column
}

// A rowFault is a cell that breaks its struct tag.
type rowFault struct{ column, msg string }

// rowFaults says in plain words which of a row's struct tags it breaks.
func (c *checker) rowFaults(row any) []rowFault {
	names := make(map[string]string) // Go field → column
	t := reflect.TypeOf(row)
	for i := range t.NumField() {
		names[t.Field(i).Name] = t.Field(i).Tag.Get("csv")
	}
	var faults []rowFault
	c.rules(row, func(column string, value any, tag, param string) {
		faults = append(faults, rowFault{column, fmt.Sprintf("%s: %v %s", column, quoted(value), inWords(tag, param, names))})
	})
	return faults
}

func quoted(v any) string {
	switch v := v.(type) {
	case string:
		return fmt.Sprintf("%.80q", v)
	case *float64:
		if v == nil {
			return "nothing"
		}
		return fmt.Sprint(*v)
	}
	return fmt.Sprint(v)
}

// inWords says what a tag requires. names maps a field named by the tag to its
// column.
func inWords(tag, param string, names map[string]string) string {
	switch tag {
	case "required", "required_unless", "required_if":
		return "is missing"
	case "places":
		return "is not places of a garment, separated by single spaces: " + strings.Join(AddedPlaces(), ", ")
	case "id":
		return "is not an id: lower-case letters and digits, joined by - or _"
	case "oneof":
		return "is not one of " + strings.Join(Alternatives(param), ", ")
	case "max":
		return "is longer than " + param + " characters"
	case "gt":
		return "is not above " + param
	case "gte":
		return "is below " + param
	case "lt":
		return "is not below " + param
	case "lte":
		return "is above " + param
	case "gtfield":
		return "is not above " + names[param]
	case "gtefield":
		return "is below " + names[param]
	}
	return "breaks the rule " + tag + "=" + param
}
