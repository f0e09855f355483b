package page

import (
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
	raw     url.Values
	fields  []ask.Field       // that the controls are of
	usual   map[string]string // what controls are when the address does not say
	units   map[string]string // of numbers without one, in controls that take them
	Garment string
	kept    url.Values        // what the other view's form says, kept for it
	unknown []string          // names in the address that no form has
	faults  map[string]string // control → what is wrong with it, and what would be right
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

// readState reads the maker's form from the query of an address.
func (s *site) readState(query string) *state {
	return s.readForm(query, ask.FormFields(), makerStart, ask.RunFields())
}

// readForm reads the controls of a form from the query of an address. What it does not
// have for its garment is ignored, what the other view's form has is kept for that, and
// names that neither has are noted. Of each control the first text counts, of those with
// several boxes all.
func (s *site) readForm(query string, fields []ask.Field, start map[string]string, others []ask.Field) *state {
	ref := s.engine.Reference
	given, _ := url.ParseQuery(query) // what can be read is returned beside the error
	st := &state{raw: make(url.Values), kept: make(url.Values), fields: fields, usual: maps.Clone(start), units: make(map[string]string), faults: make(map[string]string)}
	st.take(given, "garment")
	st.Garment = st.Value("garment")
	for _, f := range fields {
		if f.Name == "option" {
			st.usual[f.Name] = ""
		}
		if !f.AppliesTo(ref, st.Garment) {
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
		if name != "garment" {
			st.take(given, name)
		}
	}
	st.raw["option"] = slices.DeleteFunc(st.raw["option"], func(o string) bool { return isOfAnother(ref, st.Garment, o) })
	if len(st.raw["option"]) == 0 {
		st.raw.Del("option")
	}
	s.keep(st, given, others)
	if was := given.Get("was"); was == "cm" || was == "in" {
		st.changeTape(was)
	}
	return st
}

// keep keeps what the other view's form says, and notes names that no form has.
func (s *site) keep(st *state, given url.Values, others []ask.Field) {
	own, other := s.controls(st.fields), s.controls(others)
	for _, name := range slices.Sorted(maps.Keys(given)) {
		_, here := own[name]
		unit, there := other[name]
		switch {
		case here || name == "was" || st.usual[name] != "":
		case there || name == "curve":
			if _, shown := st.usual[name]; shown {
				continue
			}
			into := state{raw: st.kept}
			into.take(given, name)
			if unit != "" {
				st.units[name] = unit
			}
		default:
			if name = clean(name); name != "" && len(st.unknown) < 5 {
				st.unknown = append(st.unknown, name)
			}
		}
	}
}

// controls are the units of the controls that fields have for some garment, by name.
func (s *site) controls(fields []ask.Field) map[string]string {
	all := make(map[string]string)
	for _, f := range fields {
		for _, g := range s.engine.Reference.Garments() {
			for _, c := range f.Controls(s.engine.Reference, g.ID) {
				all[c.Name] = c.Unit
			}
			if f.Name != "extra" && f.Name != "option" { // others have the same for all
				break
			}
		}
	}
	return all
}

// take takes the texts of one control.
func (st *state) take(given url.Values, name string) {
	for _, v := range given[name] {
		if v = strings.TrimSpace(clean(v)); v != "" {
			st.raw.Add(name, v)
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
		for _, said := range []url.Values{st.raw, st.kept} {
			if said.Has(name) {
				said.Set(name, ask.WithUnit(said.Get(name), ask.TapeUnit(was, unit)))
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

// faulty reports whether anything is wrong with the controls of some fields.
func (s *site) faulty(st *state, fields ...ask.Field) bool {
	return slices.ContainsFunc(fields, func(f ask.Field) bool {
		return slices.ContainsFunc(f.Controls(s.engine.Reference, st.Garment), func(c ask.Control) bool { return st.Fault(c.Name) != "" })
	})
}

// Query is the address of the state, without what need not be said.
func (st *state) Query() string {
	short := maps.Clone(st.kept)
	for name, values := range st.raw {
		for _, v := range values {
			if v != st.usual[name] {
				short.Add(name, v)
			}
		}
	}
	return short.Encode()
}

// With is the address of the state with other texts of some controls.
func (st *state) With(texts map[string]string) string {
	other := *st
	other.raw = maps.Clone(st.raw)
	for control, text := range texts {
		other.raw[control] = []string{text}
	}
	return "?" + other.Query()
}

// read reads what is asked. Fields that are wrong are left out, and say so at their
// controls.
func (s *site) read(st *state) *ask.Request {
	r, faults := s.request(st, st.fields)
	for _, f := range faults {
		st.fault(f.Control(), f.Words())
	}
	return r
}

// request reads of a state what some fields ask.
func (s *site) request(st *state, fields []ask.Field) (*ask.Request, ask.Faults) {
	form := make(url.Values)
	for name, usual := range st.usual {
		if values := st.raw[name]; len(values) > 0 {
			form[name] = values
		} else if usual != "" {
			form.Set(name, usual)
		}
	}
	values, faults := ask.FromForm(s.engine.Reference, fields, form, st.Value("tape"))
	r, more := ask.Read(s.engine.Reference, fields, values, sizing.Child{})
	r.FromFile = true // nobody need be known yet
	return r, append(faults, more...)
}
