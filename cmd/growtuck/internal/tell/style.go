package tell

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// A Place is where words are read.
type Place string

// The places that have their own words.
const (
	Terminal Place = ""        // a command's output, and files that it writes
	Page     Place = "page"    // the page in a browser
	Command  Place = "command" // a plan, whose maker has options in place of a draft's rows
	Data     Place = "data"    // JSON, whose differences have a plain minus sign
)

// A Style says how facts are told: in which unit, in the words of which craft,
// and where they are read.
type Style struct {
	Unit  string // cm, in, or both; "" is cm
	Craft string // crochet or knit; "" where it does not matter
	Place Place

	// Of crochet: its stitch and terms, what its first row is worked into, and how
	// its rounds follow each other.
	Stitch     plan.Stitch
	Terms      plan.Terms
	Foundation plan.Foundation
	Rounds     plan.Rounds

	// Over4In says that stitches and rows were counted over 4 in, not 10 cm.
	Over4In bool
}

// Units are what Style.Unit may be.
var Units = []string{"cm", "in", "both"}

// inches reports whether inches are asked for, alone or beside centimetres.
func (st Style) inches() bool { return st.Unit == "in" || st.Unit == "both" }

// Fact tells a fact: the words for its id, with its arguments in their slots.
//
// A slot {form} takes the next argument, {2:form} the second; value (form.go) says
// what the forms are. An id may have other words for a craft or a place: id@knit, id@page.
func (st Style) Fact(f sizing.Fact) string { return st.factAs(f, "") }

// factAs tells a fact whose slots without a form take the one given.
func (st Style) factAs(f sizing.Fact, outer string) string {
	if f.IsZero() {
		return ""
	}
	template, ok := st.template(f.ID)
	if !ok {
		return fmt.Sprint(append([]any{f.ID}, f.Args...)...)
	}
	return fill(template, func(i int, form string) string {
		if i >= len(f.Args) {
			return ""
		}
		if form == "" {
			form = outer
		}
		return st.value(f.Args[i], form)
	})
}

// Facts tells each fact.
func (st Style) Facts(facts []sizing.Fact) []string {
	var all []string
	for _, f := range facts {
		all = append(all, st.Fact(f))
	}
	return all
}

// template finds the words for an id: those of the place or the craft first.
func (st Style) template(id string) (string, bool) {
	if st.Place != "" {
		if t, ok := words(id + "@" + string(st.Place)); ok {
			return t, true
		}
	}
	if st.Craft != "" {
		if t, ok := words(id + "@" + st.Craft); ok {
			return t, true
		}
	}
	return words(id)
}

func words(key string) (string, bool) {
	for _, table := range wordTables {
		if t, ok := table[key]; ok {
			return t, true
		}
	}
	return "", false
}

// wordTables are the words by what they are about.
var wordTables = []map[string]string{
	commonWords,
	draftWords, careWords, remedyWords,
	planNotes,
	readingWords, doubtWords,
	rowFormWords,
	rowSenseWords,
	rowTableWords,
}

var commonWords = map[string]string{
	"text":                 "{}",
	"list.doubtful-column": "column {} is not a measurement and is copied unchanged; did you mean {}?",
	"amount":               "{} {}", // a figure and its unit
}

// fill puts text into the slots of a template. slot is given the index of the
// argument and the form in which it is wanted.
func fill(template string, slot func(i int, form string) string) string {
	var b strings.Builder
	next := 0
	for {
		before, after, found := strings.Cut(template, "{")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		form, rest, _ := strings.Cut(after, "}")
		i := next
		if place, named, ok := strings.Cut(form, ":"); ok {
			if n, err := strconv.Atoi(place); err == nil {
				i, form = n-1, named
			}
		} else {
			next++
		}
		b.WriteString(slot(i, form))
		template = rest
	}
}

// Capital writes the first letter as a capital.
func Capital(s string) string {
	first, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(first)) + s[n:]
}

// Spoken writes an id as words.
func Spoken(id string) string { return strings.NewReplacer("_", " ", "-", " ").Replace(id) }

// List writes names as words: "chest, waist and hip".
func List(names []string) string {
	n := len(names)
	if n < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
}

// Once writes texts one after the other, each once.
func Once(texts []string) string {
	var notes Notes
	notes.marks(texts)
	return strings.Join(notes, "; ")
}
