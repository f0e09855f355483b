// Package ask has one table of what can be asked: of each field its name, how it is
// read, its bounds and choices, its words of help, and what it applies to. The
// flags of commands, the parameters of the API, the form of the page, the cells of
// a workbook and the rows of a draft are made from it, and [Read] turns what was
// given on any of them into a [Request].
package ask

import (
	"slices"

	"growtuck/sizing"
)

// A Kind says how the text of a field is read.
type Kind int

// The kinds of fields.
const (
	Text   Kind = iota // as its field reads it: a size, an age, a multiple, a ball
	Choice             // one of Choices
	YesNo              // true or false
	Number             // from Low to High
	List               // comma-separated
	Pairs              // name=value, any number of times
	Gauge              // stitches x rows over a length
)

// A Group says what a field is about.
type Group string

// The groups of fields, in the order in which they are asked for.
const (
	Child    Group = "The child"
	Sizes    Group = "Sizes of the chart"
	Garment  Group = "The garment"
	Swatch   Group = "Gauge, of the washed swatch"
	Making   Group = "How it is worked"
	Progress Group = "How far the work is"
	Shown    Group = "What is shown"
)

// A Field is something that can be asked for.
type Field struct {
	Name      string // of the flag and the parameter
	Group     Group
	Kind      Kind
	Low, High float64                                // of a number
	Choices   []string                               // of a choice
	Called    []Answer                               // the choices as a form words them, where it does so otherwise
	Known     func(ref *sizing.Reference) []string   // what may be said, from the tables
	Usual     string                                 // what holds where nothing is said
	Argument  bool                                   // of a command, not a flag
	Required  bool                                   // of a question
	Many      bool                                   // may be given more than once
	Help      string                                 // of the flag; a word in backquotes names the value
	Listed    string                                 // the question that lists what may be said: /api/charts, growtuck charts
	Label     string                                 // on the form and in the workbook
	Hint      string                                 // beside it there
	Parts     []string                               // it applies to garments with one of these parts; none: to all
	For       string                                 // those garments, in words
	Crochet   bool                                   // it does nothing in knitting
	With      string                                 // another field without which it does nothing
	Beside    bool                                   // of how it is worked, but no count follows from it: yarn, colours, time
	Cell      bool                                   // a workbook carries it
	Draft     string                                 // the field of a draft that carries it
	set       func(r *Request, texts []string) error // reads what was said
}

// Of lists the fields of some groups, in the order of the table.
func Of(groups ...Group) []Field {
	all := make([]Field, 0, len(fields()))
	for _, f := range fields() {
		if slices.Contains(groups, f.Group) {
			all = append(all, f)
		}
	}
	return all
}

// Named lists the fields of some names.
func Named(names ...string) []Field {
	var all []Field
	for _, f := range fields() {
		if slices.Contains(names, f.Name) {
			all = append(all, f)
		}
	}
	return all
}

// Lookup finds a field.
func Lookup(fields []Field, name string) (Field, bool) {
	i := slices.IndexFunc(fields, func(f Field) bool { return f.Name == name })
	if i < 0 {
		return Field{}, false
	}
	return fields[i], true
}

// Names are the names of fields.
func Names(fields []Field) []string {
	var all []string
	for _, f := range fields {
		all = append(all, f.Name)
	}
	return all
}
