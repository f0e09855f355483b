package validate

import (
	"errors"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"github.com/go-playground/validator/v10"

	"growtuck/data"
	"growtuck/data/rules"
	"growtuck/sizing"
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

// A tableWord is a cell's text, looked at once however often it occurs in the
// column.
type tableWord struct {
	text   string
	number float64
	faults []wordFault
	width  int  // bytes in canonical form
	id     int  // what it names in another table, from 1; 0 before it is looked up, -1 if nothing
	idle   bool // it says nothing: a placeholder
	web    bool // it is a page of the web
}

type wordFault struct {
	rule                 string
	found, expected, fix sizing.Fact
	write                string // what the cell should be, where that is clear
}

// maxWords is how many different cells of a column are kept.
const maxWords = 1 << 14

// maxTableCell is the longest cell, in bytes.
const maxTableCell = 2000

// newTableForms makes the forms of all tables but the log of changes.
func newTableForms() []*tableForm {
	check := rules.New(data.Forms())
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

// A plain number: no sign but a minus, no exponent, no leading zeros.
var plainNumber = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^-?(0|[1-9][0-9]{0,8})(\.[0-9]{1,9})?$`) })

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
			w.fault("R05", sizing.NewFact("rows.cell-empty"), c.allowed())
		} else if c.tag != "" && !strings.HasPrefix(c.tag, "omitempty") {
			f.examineTag(c, w, w.text)
		}
		return
	}
	plain := plainCell(w)
	if w.web = webPage(w.text); !plain {
		return
	}
	w.idle = placeholder().MatchString(w.text)
	if !c.numeric {
		if strings.ContainsRune("=+-@", rune(w.text[0])) {
			w.fault("R04", sizing.NewFact("rows.formula", w.text), sizing.NewFact("rows.no-formula"))
			return
		}
		if c.tag != "" {
			f.examineTag(c, w, w.text)
		}
		return
	}
	if !plainNumber().MatchString(w.text) || w.text[0] == '-' && parsePlain(w.text) == 0 {
		w.fault("R04", sizing.NewFact("rows.not-number", w.text), sizing.NewFact("rows.number"))
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
		w.fault("R05", f.breach(w.text, e.Tag(), e.Param()), c.allowed())
	}
}

func (w *tableWord) fault(rule string, found, expected sizing.Fact) {
	w.faults = append(w.faults, wordFault{rule: rule, found: found, expected: expected})
}

// plainCell checks the characters of a cell.
func plainCell(w *tableWord) bool {
	s := w.text
	switch {
	case len(s) > maxTableCell:
		w.text = s[:40] + "…"
		w.fault("R04", sizing.NewFact("rows.cell-long", len(s)), sizing.NewFact("rows.at-most", maxTableCell))
	case !utf8.ValidString(s):
		w.faults = append(w.faults, wordFault{rule: "R04", found: sizing.NewFact("rows.not-utf8", s), fix: sizing.NewFact("rows.save-utf8")})
	case strings.ContainsFunc(s, invisible):
		w.fault("R04", sizing.NewFact("rows.unseen-character", s), sizing.NewFact("rows.plain-text"))
	case strings.TrimSpace(s) != s:
		plain := strings.TrimSpace(s)
		w.faults = append(w.faults, wordFault{rule: "R04", found: sizing.NewFact("rows.space-around", s), expected: sizing.NewFact("rows.cell", plain), write: plain})
	default:
		return true
	}
	return false
}

// invisible reports a character that nobody sees: a control character, a mark of the
// direction or of the joining of text, a space other than the plain one.
func invisible(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Zs, r) && r != ' '
}

// allowed is what a column may hold.
func (c *tableColumn) allowed() sizing.Fact {
	var bounds []sizing.Fact
	for rule := range strings.SplitSeq(c.tag, ",") {
		name, param, _ := strings.Cut(rule, "=")
		switch name {
		case "oneof":
			bounds = append(bounds, oneOf(data.Alternatives(param)))
		case "places":
			bounds = append(bounds, sizing.NewFact("rows.places", data.AddedPlaces()))
		case "id":
			bounds = append(bounds, sizing.NewFact("rows.id"))
		case "max":
			bounds = append(bounds, sizing.NewFact("rows.characters", int(parsePlain(param))))
		case "gt":
			bounds = append(bounds, sizing.NewFact("rows.above", parsePlain(param)))
		case "gte":
			bounds = append(bounds, sizing.NewFact("rows.at-least", parsePlain(param)))
		case "lt":
			bounds = append(bounds, sizing.NewFact("rows.below", parsePlain(param)))
		case "lte":
			bounds = append(bounds, sizing.NewFact("rows.at-most", parsePlain(param)))
		}
	}
	switch {
	case c.numeric && len(bounds) > 0:
		return sizing.NewFact("rows.number-within", bounds)
	case c.numeric:
		return sizing.NewFact("rows.any-number")
	case len(bounds) == 0:
		return sizing.NewFact("rows.some-text")
	}
	return sizing.NewFact("rows.all-of", bounds)
}

// oneOf says that one of these is expected.
func oneOf(names []string) sizing.Fact { return sizing.NewFact("rows.one-of", names) }

// breach says how a cell breaks a tag.
func (f *tableForm) breach(text, tag, param string) sizing.Fact {
	switch tag {
	case "required_if", "required_unless":
		field, value, _ := strings.Cut(param, " ")
		if tag == "required_unless" {
			return sizing.NewFact("rows.empty-unless", text, f.fields[field], value)
		}
		return sizing.NewFact("rows.empty-if", text, f.fields[field], value)
	case "gtfield":
		return sizing.NewFact("rows.not-above", text, f.fields[param])
	case "gtefield":
		return sizing.NewFact("rows.less-than", text, f.fields[param])
	}
	return sizing.NewFact("rows.not-allowed", text)
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
