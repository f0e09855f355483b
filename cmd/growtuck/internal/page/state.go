package page

import (
	"context"
	"maps"
	"net/url"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/data"
	"growtuck/sizing"
)

// A state is what the address of a view says: the raw texts of its controls,
// kept as they were typed.
type state struct {
	ctx     context.Context // of the request; nil: nothing ends the work
	raw     url.Values
	fields  []ask.Field       // that the controls are of
	usual   map[string]string // what controls are when the address does not say
	units   map[string]string // of numbers without one, in controls that take them
	Garment string
	faults  map[string]string // control → what is wrong with it, and what would be right
	left    []string          // controls that the answer leaves out
	rest    url.Values        // what was typed into controls of other views and garments
	Unknown []string          // parameters of the address that no view has
}

// What the forms say before anything is typed, where it is not what is usual of the
// field.
var (
	makerStart    = map[string]string{"tape": "cm", "sex": "both", "garment": "pullover", "craft": "crochet"}
	designerStart = map[string]string{"tape": "cm", "sex": "both", "garment": "pullover", "craft": "crochet", "sizes": "3, 4, 5, 6", "curve": ""}
)

// manyTicks are the controls that have several boxes to tick.
var manyTicks = []string{"option", "curve"}

// maxText bounds the text of a control.
const maxText = 200

// setParameter sets other controls, as a query in the query: a button that corrects an
// entry sends it.
const setParameter = "set"

// controls are all that the views have, for any garment, with the unit of a number
// without one.
func (s *site) controls() map[string]string {
	ref := s.engine.Reference
	all := map[string]string{"tape": "", "was": "", setParameter: ""}
	for _, f := range slices.Concat(ask.FormFields(), ask.RunFields()) {
		for _, garment := range ask.GarmentIDs(ref) {
			for _, c := range f.Controls(ref, garment) {
				all[c.Name] = c.Unit
			}
			if f.Name != "extra" && f.Name != "option" { // the others are the same for each
				break
			}
		}
	}
	all["option"], all["curve"] = "", ""
	return all
}

// readState reads the maker's form from the query of an address.
func (s *site) readState(query string) *state {
	return s.readForm(query, ask.FormFields(), makerStart)
}

// readForm reads the controls of a form from the query of an address. What other views
// and garments have is kept, what no view has is named. Of each control the first text
// counts, of those with several boxes all.
func (s *site) readForm(query string, fields []ask.Field, start map[string]string) *state {
	ref := s.engine.Reference
	given, unread := url.ParseQuery(query) // what can be read is returned beside the error
	for _, more := range given[setParameter] {
		set, _ := url.ParseQuery(more)
		maps.Copy(given, set)
	}
	st := &state{raw: make(url.Values), rest: make(url.Values), fields: fields, usual: maps.Clone(start), units: make(map[string]string), faults: make(map[string]string)}
	st.take(given, "garment")
	st.take(given, "craft")
	st.Garment = st.Value("garment")
	for _, f := range fields {
		if f.Name == "option" {
			st.usual[f.Name] = ""
		}
		if !f.AppliesTo(ref, st.Garment) || !st.has(f) {
			continue
		}
		for _, c := range f.Controls(ref, st.Garment) {
			if _, said := st.usual[c.Name]; !said {
				st.usual[c.Name] = c.Usual
			}
			if c.Unit != "" {
				st.units[c.Name] = c.Unit
			}
		}
	}
	for name := range st.usual {
		if name != "garment" && name != "craft" {
			st.take(given, name)
		}
	}
	if unread != nil {
		st.Unknown = append(st.Unknown, "what stands beside ; or a % that is not followed by two digits (they are written %3B and %25)")
	}
	known := s.controls()
	for _, name := range slices.Sorted(maps.Keys(given)) {
		unit, has := known[name]
		_, here := st.usual[name]
		switch {
		case !has:
			st.Unknown = append(st.Unknown, clean(name))
		case !here && name != "was" && name != setParameter:
			take(st.rest, given, name)
			st.units[name] = unit
		}
	}
	ofAnother := func(o string) bool { return isOfAnother(ref, st.Garment, o) }
	for _, o := range st.raw["option"] {
		if ofAnother(o) {
			st.rest.Add("option", o)
		}
	}
	if st.raw["option"] = slices.DeleteFunc(st.raw["option"], ofAnother); len(st.raw["option"]) == 0 {
		st.raw.Del("option")
	}
	if was := given.Get("was"); was == "cm" || was == "in" {
		st.changeTape(was)
	}
	return st
}

// has reports whether the form has a field for its craft.
func (st *state) has(f ask.Field) bool { return !f.Crochet || st.Value("craft") != "knit" }

// take takes the texts of one control.
func (st *state) take(given url.Values, name string) { take(st.raw, given, name) }

func take(into, given url.Values, name string) {
	for _, v := range given[name] {
		if v = strings.TrimSpace(clean(v)); v != "" {
			into.Add(name, v)
			if !slices.Contains(manyTicks, name) {
				return
			}
		}
	}
}

// isOfAnother reports whether an option is one of other garments alone.
func isOfAnother(ref *sizing.Reference, garment, option string) bool {
	has := func(id string) bool {
		options, err := ref.GarmentOptions(id)
		return err == nil && slices.Contains(options, option)
	}
	return !has(garment) && slices.ContainsFunc(ref.Garments(), func(g data.Garment) bool { return has(g.ID) })
}

// changeTape writes the unit of the tape that the form was filled in by after
// the numbers without one, where the tape is another now.
func (st *state) changeTape(was string) {
	if was == st.Value("tape") {
		return
	}
	for name, unit := range st.units {
		for _, texts := range []url.Values{st.raw, st.rest} {
			if texts.Has(name) && unit != "" {
				texts.Set(name, ask.WithUnit(texts.Get(name), ask.TapeUnit(was, unit)))
			}
		}
	}
}

// clean takes out of a text what cannot be shown, and what is too long.
func clean(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, ""))
	if len(s) > maxText {
		s = strings.ToValidUTF8(s[:maxText], "")
	}
	return s
}

// Value is the text of a control.
func (st *state) Value(name string) string {
	if v := st.raw.Get(name); v != "" {
		return v
	}
	return st.usual[name]
}

// Has reports whether a control that may have several values has this one.
func (st *state) Has(name, value string) bool { return slices.Contains(st.raw[name], value) }

// fault says what is wrong with a control; the first that is said stays.
func (st *state) fault(control, words string) {
	if _, said := st.faults[control]; !said {
		st.faults[control] = words
	}
}

// Fault is what is wrong with a control; "" where nothing is.
func (st *state) Fault(control string) string { return st.faults[control] }

// Query is the address of the state, without what need not be said.
func (st *state) Query() string { return st.query(nil) }

// query is the address of the state without some controls.
func (st *state) query(without []string) string {
	short := make(url.Values)
	for name, values := range st.raw {
		for _, v := range values {
			if v != st.usual[name] && !slices.Contains(without, name) {
				short.Add(name, v)
			}
		}
	}
	for name, values := range st.rest {
		short[name] = append(short[name], values...)
	}
	return short.Encode()
}

// A hidden is an entry of another view or garment, which the form carries along.
type hidden struct{ Name, Value, Unit string }

// Rest are the entries of other views and garments.
func (st *state) Rest() []hidden {
	var all []hidden
	for _, name := range slices.Sorted(maps.Keys(st.rest)) {
		for _, v := range st.rest[name] {
			all = append(all, hidden{name, v, st.units[name]})
		}
	}
	return all
}

// read reads what is asked. Controls that are wrong say so, and what is asked is read
// without them, as far as they are not said to be what is usual.
func (s *site) read(st *state) *ask.Request {
	r, faults := s.request(st, st.fields)
	if len(st.left) > 0 || len(faults) == 0 { // of what is left out others may do nothing
		return r
	}
	for _, f := range faults {
		st.fault(f.Control(), f.Words())
		st.leaveOut(f.Control())
	}
	r, _ = s.request(st, st.fields)
	return r
}

// with are the controls that are left out with one: sizes go together, and the counts of
// a swatch.
func with(control string) []string {
	for _, together := range [][]string{{"size", "widths", "lengths"}, {"stitches", "rows"}, {"rib-stitches", "rib-rows"}, {"before-stitches", "before-rows"}} {
		if slices.Contains(together, control) {
			return together
		}
	}
	return []string{control}
}

// leaveOut leaves a control out of the answer. Without its garment there is none.
func (st *state) leaveOut(control string) {
	for _, name := range with(control) {
		if name != "garment" && !slices.Contains(st.left, name) {
			st.left = append(st.left, name)
		}
	}
}

// request reads of a state what some fields ask.
func (s *site) request(st *state, fields []ask.Field) (*ask.Request, ask.Faults) {
	form := make(url.Values)
	for name, usual := range st.usual {
		if values := st.raw[name]; len(values) > 0 && !slices.Contains(st.left, name) {
			form[name] = values
		} else if usual != "" {
			form.Set(name, usual)
		}
	}
	values, faults := ask.FromForm(s.engine.Reference, fields, form, st.Value("tape"))
	r, more := ask.Read(s.engine.Reference, fields, values, sizing.Child{})
	r.Context = st.ctx
	r.FromFile = true // nobody need be known yet
	return r, append(faults, more...)
}
