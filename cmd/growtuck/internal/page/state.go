package page

import (
	"maps"
	"net/url"
	"slices"
	"strings"

	"growtuck/data"
	"growtuck/sizing/plan"
)

// A state is what the address of the page says: the raw texts of its fields,
// kept as they were typed.
type state struct {
	raw     url.Values
	usual   map[string]string // what fields are when the address does not say
	Garment string
	faults  map[string]string // field → what is wrong with it, and what would be right
}

// defaults are the fields of the maker's view and the values that they have
// when the address does not say. Measurements, and extra.PART for more or less
// of a part, come beside them.
var defaults = map[string]string{
	"tape": "cm", "sex": "both", "age": "", "size": "", "widths": "", "lengths": "",
	"garment": "pullover", "fit": "classic", "layer": "skin", "nappy": "", "growth": "0", "option": "",
	"craft": "crochet", "stitches": "", "rows": "", "over": "10cm", "rib-stitches": "", "rib-rows": "", "before-stitches": "", "before-rows": "",
	"yoke": "circular", "multiple": "", "stretch": "", "hood": "shaped-crown", "closure": "zipper", "turned": "", "yarn": "", "swatch": "",
}

const extraPrefix = "extra."

// maxText bounds the text of a field.
const maxText = 200

// readState reads the fields that the page knows from the query of an address;
// what is not known, or cannot be read, is passed over.
func (s *site) readState(query string) *state {
	st, given := readFields(query, defaults, "option", func(name string) bool {
		return s.isMeasurement(name) || strings.HasPrefix(name, extraPrefix)
	})
	s.keepFitting(st)
	if was := given.Get("was"); was == "cm" || was == "in" {
		st.changeTape(was)
	}
	return st
}

// readFields reads the usual fields, and others, from the query of an address.
// Of each the first text counts, but of the one named many all.
func readFields(query string, usual map[string]string, many string, other func(name string) bool) (*state, url.Values) {
	given, _ := url.ParseQuery(query) // what can be read is returned beside the error
	st := &state{raw: url.Values{}, faults: map[string]string{}, usual: usual}
	for name, values := range given {
		if _, known := usual[name]; !known && !other(name) {
			continue
		}
		for _, v := range values {
			if v = strings.TrimSpace(clean(v)); v != "" {
				st.raw.Add(name, v)
			}
			if name != many && st.raw.Has(name) {
				break
			}
		}
	}
	st.Garment = st.Value("garment")
	return st, given
}

// changeTape writes the unit of the tape that the form was filled in by after
// the numbers without one, where the tape is another now.
func (st *state) changeTape(was string) {
	if was == st.Value("tape") {
		return
	}
	before := &state{raw: url.Values{"tape": {was}}, usual: st.usual}
	for name, values := range st.raw {
		if _, plain := st.usual[name]; !plain {
			st.raw[name] = []string{withUnit(values[0], before.tapeUnit(unitOf(name)))}
		}
	}
}

// unitOf is the unit that a field is kept in: that of a measurement or, for
// more or less of a part, cm.
func unitOf(field string) string {
	if field == "weight" {
		return "kg"
	}
	return "cm"
}

// keepFitting passes over what belongs to another garment than the one chosen,
// which the form no longer shows.
func (s *site) keepFitting(st *state) {
	ref := s.engine.Reference
	parts, err := ref.Parts(st.Garment)
	if err != nil {
		st.fault("garment", err)
	}
	for name := range st.raw {
		if part, ok := strings.CutPrefix(name, extraPrefix); ok && !slices.ContainsFunc(parts, func(p data.Part) bool { return p.Part == part }) {
			st.raw.Del(name)
		}
	}
	its, _ := ref.GarmentOptions(st.Garment) // the garment's fault is said
	st.raw["option"] = slices.DeleteFunc(st.raw["option"], func(o string) bool {
		return !slices.Contains(its, o) && slices.ContainsFunc(ref.Garments(), func(g data.Garment) bool {
			others, err := ref.GarmentOptions(g.ID)
			return err == nil && slices.Contains(others, o)
		})
	})
	if len(st.raw["option"]) == 0 {
		st.raw.Del("option")
	}
}

func (s *site) isMeasurement(id string) bool {
	_, err := s.engine.Reference.Measurement(id)
	return err == nil
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

// Value is the text of a field.
func (st *state) Value(name string) string {
	if v := st.raw.Get(name); v != "" {
		return v
	}
	return st.usual[name]
}

// Has reports whether a field that may have several values has this one.
func (st *state) Has(name, value string) bool { return slices.Contains(st.raw[name], value) }

// fault says what is wrong with a field; the first that is said stays.
func (st *state) fault(name string, err error) {
	if _, said := st.faults[name]; !said && err != nil {
		st.faults[name] = strings.TrimPrefix(err.Error(), "stitch: ") // a package, no word for makers
	}
}

// Fault is what is wrong with a field; "" where nothing is.
func (st *state) Fault(name string) string { return st.faults[name] }

// Query is the address of the state, without what need not be said.
func (st *state) Query() string {
	short := url.Values{}
	for name, values := range st.raw {
		for _, v := range values {
			if v != st.usual[name] {
				short.Add(name, v)
			}
		}
	}
	return short.Encode()
}

// tapeUnit is the unit of a number without one.
func (st *state) tapeUnit(measurementUnit string) string {
	switch {
	case st.Value("tape") != "in":
		return measurementUnit
	case measurementUnit == "kg":
		return "lb"
	}
	return "in"
}

// gauge writes two fields as the gauge they are counted over; "" where neither
// has anything in it.
func (st *state) gauge(prefix string) string {
	sts, rows := st.Value(prefix+"stitches"), st.Value(prefix+"rows")
	if sts == "" && rows == "" {
		return ""
	}
	dot := strings.NewReplacer(",", ".", " ", "")
	return dot.Replace(sts) + "x" + dot.Replace(rows) + "/" + st.Value("over")
}

// question puts the state into the words of a command.
func (st *state) question(q question) url.Values {
	all := url.Values{}
	takes := func(name string) bool {
		return q.takes(name)
	}
	add := func(name, value string) {
		if value != "" && takes(name) {
			all.Add(name, value)
		}
	}
	if size := st.Value("size"); size != "" && !takes("size") {
		add("widths", size)
		add("lengths", size)
	}
	add("unit", st.Value("tape"))
	for _, name := range []string{"sex", "age", "size", "widths", "lengths", "garment", "fit", "layer", "growth", "craft", "yoke", "multiple", "hood", "closure", "yarn", "swatch"} {
		add(name, st.Value(name))
	}
	for _, name := range []string{"nappy", "turned"} {
		if st.Value(name) != "" {
			add(name, "true")
		}
	}
	for _, o := range st.raw["option"] {
		add("option", o)
	}
	add("gauge", st.gauge(""))
	add("rib", st.gauge("rib-"))
	add("before-washing", st.gauge("before-"))
	for _, s := range st.stretches() {
		add("stretch", s)
	}
	for _, name := range slices.Sorted(maps.Keys(st.raw)) {
		v := st.Value(name)
		if part, ok := strings.CutPrefix(name, extraPrefix); ok {
			add("extra", part+"="+withUnit(v, st.tapeUnit("cm")))
		} else if _, plain := st.usual[name]; !plain {
			add("set", name+"="+withUnit(v, st.tapeUnit(unitOf(name))))
		}
	}
	return all
}

func (st *state) stretches() []string { return plan.SplitStretch(st.Value("stretch")) }

// withUnit writes the unit after a number that has none.
func withUnit(text, unit string) string {
	if text == "" || strings.ContainsAny(strings.ToLower(text), "abcdefghijklmnopqrstuvwxyz\"″”'′") {
		return text
	}
	return text + " " + unit
}
