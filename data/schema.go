package data

import (
	"reflect"
	"regexp"
	"slices"
	"strings"
	"sync"
)

// A Schema is what a table holds: its columns, its key and what its rows refer
// to. [Tables.Check], the rules for rows in package validate, and
// datapackage.json are made from it.
type Schema struct {
	File    string // such as "body.csv"
	Title   string
	About   string   // what a row is
	Key     []string // columns that no two rows have alike
	Refs    []Ref
	Columns []Column
	Row     reflect.Type
}

// A Ref is columns that name the key of a row of another table, or hold
// nothing.
type Ref struct {
	Columns []string
	File    string
	Or      string // or, if not "", what a row of it has in this column
}

// A Column is a column of a table, as the struct tags of its row type say.
type Column struct {
	Name     string
	Doc      string
	Rule     string // in the words of package validator
	Field    int    // of the row type
	Numeric  bool
	Required bool // it is never empty
}

// Words are the values the column may hold, nil where it is not such a list.
func (c Column) Words() []string {
	for rule := range strings.SplitSeq(c.Rule, ",") {
		if list, ok := strings.CutPrefix(rule, "oneof="); ok {
			return Alternatives(list)
		}
	}
	return nil
}

// Alternatives are the words of a rule oneof, in which those with a space are in
// single quotes.
func Alternatives(list string) []string {
	var words []string
	for i, part := range strings.Split(list, "'") {
		if i%2 == 1 {
			words = append(words, part)
		} else {
			words = append(words, strings.Fields(part)...)
		}
	}
	return words
}

// Schemas are the schemas of all tables, each after those that it refers to.
var Schemas = sync.OnceValue(func() []Schema {
	source, measurement := to("sources.csv", "source"), to("measurements.csv", "measurement")
	chart, garment := to("charts.csv", "chart"), to("garments.csv", "garment")
	return []Schema{
		schemaOf("sources.csv", Source{}, "Sources",
			"Published documents that the values come from, with rights and the credit line to show beside them.", keys("id")),
		schemaOf("measurements.csv", Measurement{}, "Measurements",
			"What is measured on a body, and how.", keys("id"), to("measurements.csv", "relation")),
		schemaOf(PitfallsFile, Pitfall{}, "Pitfalls of measuring",
			"What commonly goes wrong when something is measured.", keys("measurement"), measurement, source),
		schemaOf("charts.csv", Chart{}, "Charts",
			"Size charts: tables of sizes by one publisher, or worked out from others.", keys("id"), source),
		schemaOf("sizes.csv", Size{}, "Sizes",
			"Sizes of each chart and their positions on its scale.", keys("chart", "size"), chart),
		schemaOf("body.csv", Body{}, "Body measurements",
			"One value of one measurement at one size, exactly as published.",
			keys("chart", "size", "sex", "measurement", "statistic", "unit"), to("sizes.csv", "chart", "size"), measurement, source),
		schemaOf("derivations.csv", Derivation{}, "Derivations",
			"How a chart's column is worked out from other columns.", keys("chart", "scale", "measurement", "formula"), chart, measurement, source),
		schemaOf("relations.csv", Relation{}, "Relations",
			"Spread and correlation of measurements' log departures from the survey's median at the child's height, and how today's children differ.",
			keys("sex", "measurement_a", "measurement_b", "statistic", "height_low_cm"),
			to("measurements.csv", "measurement_a"), to("measurements.csv", "measurement_b"), source),
		schemaOf("ratios.csv", Ratio{}, "Ratios to height",
			"Percentiles of measurement divided by height (cm per cm, kg per cm for weight) among surveyed children.",
			keys("sex", "measurement", "height_low_cm"), measurement, source),
		schemaOf("garments.csv", Garment{}, "Garments",
			"Garments whose finished measurements can be worked out.", keys("id")),
		schemaOf("parts.csv", Part{}, "Parts of garments",
			"Finished measurements of each garment and the body measurement behind each.", keys("garment", "part"), garment, measurement),
		schemaOf("ease.csv", Ease{}, "Ease",
			"What is added to a body measurement for fit and for the clothes underneath.",
			keys("rule", "garment", "fit", "layer", "measurement"), garment.or("group"), measurement, source),
		schemaOf("lengths.csv", Length{}, "Adjustments of parts",
			"What is added to or taken from a part of a garment for style, options and growth.",
			keys("garment", "part", "role", "option", "why"), to("parts.csv", "garment", "part"), source, to("measurements.csv", "instead")),
		schemaOf("abbreviations.csv", Abbreviation{}, "Abbreviations",
			"Abbreviations of crochet and knitting that the trade standard lists, and what they stand for.", keys("craft", "terms", "abbreviation"), source),
		schemaOf("yarns.csv", Yarn{}, "Weight classes of yarn",
			"What yarns of each weight class of the trade are usually worked to: stitches over 4 in, needles and hooks.", keys("class"), source),
		schemaOf(HeightsFile, HeightForAge{}, "Heights by age",
			"How the heights of children of one age are spread, as the growth charts give it.", keys("sex", "months", "posture"), source),
		schemaOf(GrowthFile, Growth{}, "Keeping a place",
			"How surely children keep their place among children of their age as they grow.", keys("age_years"), source),
		schemaOf(PracticeFile, Practice{}, "Common practice",
			"Figures that garments are planned with and drafts are checked against.", keys("id"), source),
		schemaOf(AddedFile, AddedPart{}, "Added parts",
			"Kinds of parts that are worked on their own and sewn to a garment.", keys("id"), source),
		schemaOf(ExceptionsFile, Exception{}, "Exceptions",
			"Findings of the rules for tables that are known and right: the source has it so.", keys("rule", "table", "subject")),
		schemaOf(changesFile, Change{}, "Changes of the tables",
			"What each edition of the tables changed, and the checksum of all the other tables in it.", keys("edition", "table", "what")),
	}
})

// SchemaOf returns the schema of a table by its file, nil if there is none.
func SchemaOf(file string) *Schema {
	all := Schemas()
	if i := slices.IndexFunc(all, func(s Schema) bool { return s.File == file }); i >= 0 {
		return &all[i]
	}
	return nil
}

// Names lists the columns.
func (s *Schema) Names() []string {
	names := make([]string, len(s.Columns))
	for i, c := range s.Columns {
		names[i] = c.Name
	}
	return names
}

// Column returns a column by its name.
func (s *Schema) Column(name string) (Column, bool) {
	i := slices.IndexFunc(s.Columns, func(c Column) bool { return c.Name == name })
	if i < 0 {
		return Column{}, false
	}
	return s.Columns[i], true
}

// Words lists the words that a column of a row type holds, as
// Words[Ease]("fit"), in the order of its tag.
func Words[Row any](column string) []string {
	row := reflect.TypeFor[Row]()
	for i := range row.NumField() {
		if tag := row.Field(i).Tag; tag.Get("csv") == column {
			return Column{Rule: tag.Get("validate")}.Words()
		}
	}
	return nil
}

func keys(columns ...string) []string { return columns }

func to(file string, columns ...string) Ref { return Ref{Columns: columns, File: file} }

func (r Ref) or(column string) Ref {
	r.Or = column
	return r
}

func schemaOf(file string, row any, title, about string, key []string, refs ...Ref) Schema {
	t := reflect.TypeOf(row)
	return Schema{file, title, about, key, refs, columnsOf(t), t}
}

// columnsOf reads the struct tags of a row type.
func columnsOf(row reflect.Type) []Column {
	var columns []Column
	for i := range row.NumField() {
		field := row.Field(i)
		name, ok := field.Tag.Lookup("csv")
		if !ok {
			continue
		}
		c := Column{Name: name, Doc: field.Tag.Get("doc"), Rule: field.Tag.Get("validate"), Field: i, Numeric: field.Type.Kind() != reflect.String}
		c.Required = field.Type.Kind() == reflect.Float64 || c.Words() != nil || slices.Contains(strings.Split(c.Rule, ","), "required")
		columns = append(columns, c)
	}
	return columns
}

// IDPattern is the form of an id.
const IDPattern = `^[a-z0-9]+([-_][a-z0-9]+)*$`

// idForm is compiled on first use: most runs of the program check nothing.
var idForm = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(IDPattern) })

// Forms are the tags of our own that rows of the tables have, and what they ask of a
// text.
func Forms() map[string]func(string) bool {
	return map[string]func(string) bool{"places": placesKnown, "id": func(s string) bool { return idForm().MatchString(s) }}
}
