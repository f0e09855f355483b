package data

import (
	"encoding/csv"
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"sync"

	"github.com/go-playground/validator/v10"
)

// columns lists the csv tags of a row type's fields, in order.
func columns(row any) []string {
	var names []string
	t := reflect.TypeOf(row)
	for i := range t.NumField() {
		if name, ok := t.Field(i).Tag.Lookup("csv"); ok {
			names = append(names, name)
		}
	}
	return names
}

// Check checks every row against its struct tags, every table for rows with
// the same key, and every reference to another table. All faults are returned
// together, joined, each an [*Error].
func (t *Tables) Check() error {
	c := newChecker(t.text)
	check(c, "sources.csv", t.Sources, func(r Source) (int, string) { return r.Line, r.ID })
	check(c, "measurements.csv", t.Measurements, func(r Measurement) (int, string) { return r.Line, r.ID })
	check(c, "charts.csv", t.Charts, func(r Chart) (int, string) { return r.Line, r.ID })
	check(c, "sizes.csv", t.Sizes, func(r Size) (int, string) { return r.Line, key(r.Chart, r.Size) })
	check(c, "body.csv", t.Body, func(r Body) (int, string) {
		return r.Line, key(r.Chart, r.Size, r.Sex, r.Measurement, r.Statistic, r.Unit)
	})
	check(c, "derivations.csv", t.Derivations, func(r Derivation) (int, string) {
		return r.Line, key(r.Chart, r.Scale, r.Measurement)
	})
	check(c, "relations.csv", t.Relations, func(r Relation) (int, string) {
		return r.Line, key(r.Sex, r.A, r.B, fmt.Sprint(deref(r.LowCm)))
	})
	check(c, "ratios.csv", t.Ratios, func(r Ratio) (int, string) {
		return r.Line, key(r.Sex, r.Measurement, fmt.Sprint(r.LowCm))
	})
	check(c, "garments.csv", t.Garments, func(r Garment) (int, string) { return r.Line, r.ID })
	check(c, "parts.csv", t.Parts, func(r Part) (int, string) { return r.Line, key(r.Garment, r.Part) })
	check(c, "ease.csv", t.Ease, func(r Ease) (int, string) {
		return r.Line, key(r.Rule, r.Garment, r.Fit, r.Layer, r.Measurement)
	})
	check(c, "lengths.csv", t.Lengths, func(r Length) (int, string) {
		return r.Line, key(r.Garment, r.Part, r.Role, r.Option, r.Why)
	})
	check(c, "yarns.csv", t.Yarns, func(r Yarn) (int, string) { return r.Line, r.Class })
	check(c, PracticeFile, t.Practice, func(r Practice) (int, string) { return r.Line, r.ID })
	t.checkReferences(c)
	return errors.Join(c.errs...)
}

func deref(v *float64) float64 {
	if v == nil {
		return 0
	}
	return *v
}

func key(parts ...string) string { return strings.Join(parts, ", ") }

// checkReferences checks that what a row names exists.
func (t *Tables) checkReferences(c *checker) {
	for _, r := range t.Measurements {
		if r.Relation != "" {
			c.refer("measurements.csv", r.Line, "measurements.csv", "relation", r.Relation)
		}
	}
	for _, r := range t.Charts {
		c.refer("charts.csv", r.Line, "sources.csv", "source", r.Source)
	}
	for _, r := range t.Sizes {
		c.refer("sizes.csv", r.Line, "charts.csv", "chart", r.Chart)
	}
	for _, r := range t.Body {
		c.refer("body.csv", r.Line, "sizes.csv", "chart, size", key(r.Chart, r.Size))
		c.refer("body.csv", r.Line, "measurements.csv", "measurement", r.Measurement)
		c.refer("body.csv", r.Line, "sources.csv", "source", r.Source)
	}
	for _, r := range t.Derivations {
		c.refer("derivations.csv", r.Line, "charts.csv", "chart", r.Chart)
		c.refer("derivations.csv", r.Line, "measurements.csv", "measurement", r.Measurement)
		c.refer("derivations.csv", r.Line, "sources.csv", "source", r.Source)
	}
	for _, r := range t.Relations {
		c.refer("relations.csv", r.Line, "measurements.csv", "measurement_a", r.A)
		c.refer("relations.csv", r.Line, "measurements.csv", "measurement_b", r.B)
		c.refer("relations.csv", r.Line, "sources.csv", "source", r.Source)
	}
	for _, r := range t.Ratios {
		c.refer("ratios.csv", r.Line, "measurements.csv", "measurement", r.Measurement)
		c.refer("ratios.csv", r.Line, "sources.csv", "source", r.Source)
	}
	groups := make(map[string]bool)
	for _, r := range t.Garments {
		groups[r.Group] = true
	}
	for _, r := range t.Parts {
		c.refer("parts.csv", r.Line, "garments.csv", "garment", r.Garment)
		c.refer("parts.csv", r.Line, "measurements.csv", "measurement", r.Measurement)
	}
	for _, r := range t.Ease {
		if !groups[r.Garment] {
			c.refer("ease.csv", r.Line, "garments.csv", "garment (or group)", r.Garment)
		}
		c.refer("ease.csv", r.Line, "measurements.csv", "measurement", r.Measurement)
		c.refer("ease.csv", r.Line, "sources.csv", "source", r.Source)
	}
	for _, r := range t.Lengths {
		c.refer("lengths.csv", r.Line, "parts.csv", "garment, part", key(r.Garment, r.Part))
		c.refer("lengths.csv", r.Line, "sources.csv", "source", r.Source)
	}
	for _, r := range t.Yarns {
		c.refer("yarns.csv", r.Line, "sources.csv", "source", r.Source)
	}
	for _, r := range t.Practice {
		c.refer(PracticeFile, r.Line, "sources.csv", "source", r.Source)
	}
}

// A checker collects faults and, for each table, the keys seen so far.
type checker struct {
	v     *validator.Validate
	keys  map[string]map[string]int // table → key → line
	lines map[string][]string       // table → its lines, where its text is known
	errs  []error
}

// idForm is compiled on first use: most runs of the program check nothing.
var idForm = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[a-z0-9]+([-_][a-z0-9]+)*$`) })

func newChecker(text map[string]string) *checker {
	lines := make(map[string][]string)
	for table, t := range text {
		lines[table] = strings.Split(t, "\n")
	}
	v := validator.New(validator.WithRequiredStructEnabled())
	v.RegisterTagNameFunc(func(f reflect.StructField) string { return f.Tag.Get("csv") })
	// The error can only be an empty tag or a nil function.
	_ = v.RegisterValidation("id", func(f validator.FieldLevel) bool { return idForm().MatchString(f.Field().String()) })
	return &checker{v: v, keys: make(map[string]map[string]int), lines: lines}
}

func (c *checker) refer(file string, line int, table, column, k string) {
	if _, ok := c.keys[table][k]; !ok {
		first, _, _ := strings.Cut(column, ",")
		first, _, _ = strings.Cut(first, " ")
		c.errs = append(c.errs, &Error{file, line, c.column(file, line, first), fmt.Sprintf("%s: %q is not in %s", column, k, table)})
	}
}

func check[T any](c *checker, file string, rows []T, keyOf func(T) (int, string)) {
	seen := make(map[string]int, len(rows))
	c.keys[file] = seen
	for _, row := range rows {
		line, k := keyOf(row)
		if first, dup := seen[k]; dup {
			c.errs = append(c.errs, &Error{file, line, 0, fmt.Sprintf("%s is already on line %d", k, first)})
		} else {
			seen[k] = line
		}
		for _, f := range c.rowFaults(row) {
			c.errs = append(c.errs, &Error{file, line, c.column(file, line, f.column), f.msg})
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
	var ve validator.ValidationErrors
	if !errors.As(c.v.Struct(row), &ve) {
		return nil
	}
	names := make(map[string]string) // Go field → column
	t := reflect.TypeOf(row)
	for i := range t.NumField() {
		names[t.Field(i).Name] = t.Field(i).Tag.Get("csv")
	}
	var faults []rowFault
	for _, fe := range ve {
		faults = append(faults, rowFault{fe.Field(),
			fmt.Sprintf("%s: %v %s", fe.Field(), quoted(fe.Value()), inWords(fe.Tag(), fe.Param(), names))})
	}
	return faults
}

func quoted(v any) string {
	switch v := v.(type) {
	case string:
		return fmt.Sprintf("%q", v)
	case *float64:
		if v == nil {
			return "nothing"
		}
		return fmt.Sprint(*v)
	}
	return fmt.Sprint(v)
}

// inWords says what a tag asks for. names turns a field named by the tag into
// its column.
func inWords(tag, param string, names map[string]string) string {
	switch tag {
	case "required", "required_unless", "required_if":
		return "is missing"
	case "id":
		return "is no id: small letters and digits, joined by - or _"
	case "oneof":
		return "is none of " + strings.ReplaceAll(param, " ", ", ")
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
