package validate

import (
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/go-playground/validator/v10"

	"growtuck/data"
)

// A tableForm is the shape of one table: its columns with what they may hold,
// its key, and what it refers to.
type tableForm struct {
	name    string // as "body.csv"
	columns []tableColumn
	row     reflect.Type
	joins   bool // some tag joins two columns
	key     []string
	refs    []data.Ref
	fields  map[string]string // Go field → column
	check   *validator.Validate
}

type tableColumn struct {
	name     string
	field    int    // of the row type
	tag      string // what the tag says of this column alone
	numeric  bool
	required bool
	free     bool // any text or none; not kept by value
	words    map[string]*tableWord
	last     *tableWord
}

// A tableWord is a cell's text, looked at once however often it stands in the
// column.
type tableWord struct {
	text   string
	number float64
	faults []wordFault
	width  int  // bytes in canonical form
	id     int  // what it names in another table, from 1; 0 before it is looked up, -1 if nothing
	idle   bool // it says nothing: a placeholder
}

type wordFault struct{ rule, found, expected, fix string }

// maxWords is how many different cells of a column are kept.
const maxWords = 1 << 14

// maxTableCell is the longest cell, in bytes.
const maxTableCell = 2000

// newTableForms makes the forms of all tables but the log of changes.
func newTableForms() []*tableForm {
	check := data.NewValidator()
	var forms []*tableForm
	for _, schema := range data.Schemas() {
		if schema.Row != reflect.TypeFor[data.Change]() {
			forms = append(forms, newTableForm(check, schema))
		}
	}
	return forms
}

const bodyTable = "body.csv"

func formOf(forms []*tableForm, name string) *tableForm {
	i := slices.IndexFunc(forms, func(f *tableForm) bool { return f.name == name })
	if i < 0 {
		return nil
	}
	return forms[i]
}

// A plain number: no sign but a minus, no exponent, no leading noughts.
var plainNumber = regexp.MustCompile(`^-?(0|[1-9][0-9]{0,8})(\.[0-9]{1,9})?$`)

func newTableForm(check *validator.Validate, schema data.Schema) *tableForm {
	f := &tableForm{name: schema.File, row: schema.Row, key: schema.Key, refs: schema.Refs, fields: make(map[string]string), check: check}
	for _, column := range schema.Columns {
		f.fields[schema.Row.Field(column.Field).Name] = column.Name
		c := tableColumn{name: column.Name, field: column.Field, numeric: column.Numeric, words: make(map[string]*tableWord)}
		c.required = column.Required && column.Words() == nil // else its tag says so
		var alone []string
		for rule := range strings.SplitSeq(column.Rule, ",") {
			name, _, _ := strings.Cut(rule, "=")
			switch name {
			case "", "required":
			case "required_if", "required_unless", "gtfield", "gtefield":
				f.joins = true
			default:
				alone = append(alone, rule)
			}
		}
		c.tag = strings.Join(alone, ",")
		c.free = c.tag == "" && !c.numeric && !c.required
		f.columns = append(f.columns, c)
	}
	return f
}

// names lists the columns.
func (f *tableForm) names() []string {
	var names []string
	for _, c := range f.columns {
		names = append(names, c.name)
	}
	return names
}

func (f *tableForm) index(column string) int {
	return slices.IndexFunc(f.columns, func(c tableColumn) bool { return c.name == column })
}

// word returns the column's word for a cell.
func (f *tableForm) word(i int, text string, scratch *tableWord) *tableWord {
	c := &f.columns[i]
	if c.free {
		*scratch = tableWord{text: text}
		f.examine(c, scratch)
		return scratch
	}
	if c.last != nil && c.last.text == text {
		return c.last
	}
	w := c.words[text]
	if w == nil {
		w = &tableWord{text: strings.Clone(text)}
		f.examine(c, w)
		if len(c.words) < maxWords {
			c.words[w.text] = w
		}
	}
	c.last = w
	return w
}

// examine looks at a cell apart from the rest of its row.
func (f *tableForm) examine(c *tableColumn, w *tableWord) {
	w.width = quotedWidth(w.text)
	if w.text == "" {
		if c.required {
			w.fault("R05", "is empty", c.allowed(), "")
		} else if c.tag != "" && !strings.HasPrefix(c.tag, "omitempty") {
			f.examineTag(c, w, w.text)
		}
		return
	}
	if !plainCell(w) {
		return
	}
	w.idle = placeholder.MatchString(w.text)
	if !c.numeric {
		if c.tag != "" {
			f.examineTag(c, w, w.text)
		}
		return
	}
	if !plainNumber.MatchString(w.text) || w.text[0] == '-' && parsePlain(w.text) == 0 {
		w.fault("R04", fmt.Sprintf("%q is no plain number", w.text), "digits with a point, as 24.5", "")
		return
	}
	w.number = parsePlain(w.text)
	if c.tag != "" {
		f.examineTag(c, w, w.number)
	}
}

func (f *tableForm) examineTag(c *tableColumn, w *tableWord, value any) {
	var ve validator.ValidationErrors
	if !errors.As(f.check.Var(value, c.tag), &ve) {
		return
	}
	for _, e := range ve {
		w.fault("R05", fmt.Sprintf("%q %s", w.text, f.breach(e.Tag(), e.Param())), c.allowed(), "")
	}
}

func (w *tableWord) fault(rule, found, expected, fix string) {
	w.faults = append(w.faults, wordFault{rule, found, expected, fix})
}

// plainCell checks the characters of a cell.
func plainCell(w *tableWord) bool {
	s := w.text
	switch {
	case len(s) > maxTableCell:
		w.text = s[:40] + "…"
		w.fault("R04", fmt.Sprintf("is %d bytes long", len(s)), fmt.Sprintf("at most %d", maxTableCell), "")
	case !utf8.ValidString(s):
		w.fault("R04", fmt.Sprintf("%q is not UTF-8", s), "", "save the file as UTF-8")
	case strings.ContainsFunc(s, func(r rune) bool { return unicode.IsControl(r) || r == '\u00a0' || r == '\ufeff' || r == '\u200b' }):
		w.fault("R04", fmt.Sprintf("%q holds a character that cannot be seen", s), "plain text on one line", "")
	case strings.TrimSpace(s) != s:
		w.fault("R04", fmt.Sprintf("%q has space around it", s), fmt.Sprintf("%q", strings.TrimSpace(s)), "")
	default:
		return true
	}
	return false
}

// allowed says in words what a column may hold.
func (c *tableColumn) allowed() string {
	var words []string
	for rule := range strings.SplitSeq(c.tag, ",") {
		name, param, _ := strings.Cut(rule, "=")
		switch name {
		case "oneof":
			words = append(words, "one of "+strings.ReplaceAll(param, " ", ", "))
		case "id":
			words = append(words, "small letters and digits, joined by - or _")
		case "max":
			words = append(words, "at most "+param+" characters")
		case "gt":
			words = append(words, "above "+param)
		case "gte":
			words = append(words, "at least "+param)
		case "lt":
			words = append(words, "below "+param)
		case "lte":
			words = append(words, "at most "+param)
		}
	}
	switch {
	case c.numeric && len(words) > 0:
		return "a number " + strings.Join(words, " and ")
	case c.numeric:
		return "a number"
	case len(words) == 0:
		return "some text"
	}
	return strings.Join(words, ", ")
}

// breach says in words how a tag is broken.
func (f *tableForm) breach(tag, param string) string {
	switch tag {
	case "required_if", "required_unless":
		field, value, _ := strings.Cut(param, " ")
		if tag == "required_unless" {
			value = "anything but " + value
		}
		return fmt.Sprintf("is empty, and %s is %s", f.fields[field], value)
	case "gtfield":
		return "is not above " + f.fields[param]
	case "gtefield":
		return "is below " + f.fields[param]
	}
	return "is not allowed"
}

// quotedWidth is the length of a cell as encoding/csv writes it.
func quotedWidth(s string) int {
	if s == "" || s != `\.` && s[0] != ' ' && s[0] != '\t' && !strings.ContainsAny(s, ",\"\r\n") {
		if r, _ := utf8.DecodeRuneInString(s); !unicode.IsSpace(r) {
			return len(s)
		}
	}
	return len(s) + 2 + strings.Count(s, `"`)
}
