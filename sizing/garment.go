package sizing

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"growtuck/data"
)

// Fit is a fit class of the trade standard.
type Fit string

// Fits are the fit classes, from tight to wide.
var Fits []Fit = easeNames[Fit]("fit")

// Layer is what a garment is worn over.
type Layer string

// Layers, from least to most clothing underneath.
var Layers []Layer = easeNames[Layer]("layer")

// easeNames are what ease is looked up by in a column of its table.
func easeNames[T ~string](column string) []T {
	var names []T
	for _, w := range data.Words[data.Ease](column) {
		if w != "any" {
			names = append(names, T(w))
		}
	}
	return names
}

// ParseFit reads a fit class.
func ParseFit(s string) (Fit, error) { return parseName("fit", s, Fits) }

// ParseLayer reads a layer.
func ParseLayer(s string) (Layer, error) { return parseName("layer", s, Layers) }

func parseName[T ~string](kind, s string, known []T) (T, error) {
	var names []string
	for _, k := range known {
		if s == string(k) {
			return k, nil
		}
		names = append(names, string(k))
	}
	return "", unknown(kind, s, names)
}

// A garment is a garment with its parts, ease rules and lengths, gathered when it is
// first asked for.
type garment struct {
	data.Garment
	gathered sync.Once
	parts    []data.Part
	lengths  map[string][]data.Length // part → rows
	ease     map[string][]*data.Ease  // measurement → the garment's own rows before its group's
}

// garmentTables are the tables of garments.
type garmentTables struct {
	tables   *data.Tables
	garments map[string]*garment
}

func (ref *Reference) newGarmentTables(t *data.Tables) (*garmentTables, error) {
	m := &garmentTables{t, make(map[string]*garment)}
	for _, row := range t.Garments {
		m.garments[row.ID] = &garment{Garment: row}
	}
	for _, p := range t.Parts {
		if m.garments[p.Garment] == nil {
			return nil, &data.Error{File: "parts.csv", Line: p.Line, Msg: fmt.Sprintf("no garment %.80q", p.Garment)}
		}
		if ref.measurements[p.Measurement] == nil {
			return nil, &data.Error{File: "parts.csv", Line: p.Line, Msg: fmt.Sprintf("no measurement %.80q", p.Measurement)}
		}
	}
	for _, l := range t.Lengths {
		if m.garments[l.Garment] == nil {
			return nil, &data.Error{File: "lengths.csv", Line: l.Line, Msg: fmt.Sprintf("no garment %.80q", l.Garment)}
		}
	}
	return m, nil
}

// gather gathers what the tables have of a garment.
func (g *garment) gather(t *data.Tables) {
	g.lengths, g.ease = make(map[string][]data.Length), make(map[string][]*data.Ease)
	g.addEase(t.Ease, g.ID)
	if g.Group != g.ID {
		g.addEase(t.Ease, g.Group)
	}
	for _, p := range t.Parts {
		if p.Garment == g.ID {
			g.parts = append(g.parts, p)
		}
	}
	for _, l := range t.Lengths {
		if l.Garment == g.ID {
			g.lengths[l.Part] = append(g.lengths[l.Part], l)
		}
	}
}

// addEase adds the rows of ease of a garment or a group.
func (g *garment) addEase(rows []data.Ease, of string) {
	for i := range rows {
		if e := &rows[i]; e.Garment == of {
			g.ease[e.Measurement] = append(g.ease[e.Measurement], e)
		}
	}
}

// Garments returns the garments in the order of their table.
func (ref *Reference) Garments() []data.Garment {
	m, err := ref.garmentTables()
	if err != nil {
		return nil
	}
	return slices.Clone(m.tables.Garments)
}

// Parts returns the parts of a garment, which are not to be changed.
func (ref *Reference) Parts(id string) ([]data.Part, error) {
	g, err := ref.garment(id)
	if err != nil {
		return nil, err
	}
	return slices.Clip(g.parts), nil
}

// Worn returns the measurements that garments are made to, in the order in which
// the table of their parts comes to them.
func (ref *Reference) Worn() ([]string, error) {
	parts, err := ref.parts()
	var ids []string
	for _, p := range parts {
		if !slices.Contains(ids, p.Measurement) {
			ids = append(ids, p.Measurement)
		}
	}
	return ids, err
}

// GarmentOptions returns the options of a garment, in the order of the table.
func (ref *Reference) GarmentOptions(id string) ([]string, error) {
	g, err := ref.garment(id)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, p := range g.parts {
		for _, l := range g.lengths[p.Part] {
			if l.Role == "option" && !slices.Contains(names, l.Option) {
				names = append(names, l.Option)
			}
		}
	}
	return names, nil
}

func (ref *Reference) garment(id string) (*garment, error) {
	m, err := ref.garmentTables()
	if err != nil {
		return nil, err
	}
	if g, ok := m.garments[id]; ok {
		g.gathered.Do(func() { g.gather(m.tables) })
		return g, nil
	}
	return nil, unknown("garment", id, keys(m.garments))
}

// Spec says which garment is to be made and how it is to be worn.
type Spec struct {
	Garment string
	Fit     Fit
	Layer   Layer
	Nappy   bool               // worn over a nappy
	Seasons float64            // growth room: seasons of half a year, 0 to 4
	Wear    float64            // months from when the child was measured until it is first worn, 0 to 24
	Options []string           // as GarmentOptions lists
	Extra   map[string]float64 // part → cm to add, or take away
	// Ease is asked for in place of the fit's, by part, measurement or [Girths].
	// With FitByEase the fit class is the one that it belongs to.
	Ease      map[string]OwnEase
	FitByEase bool
}

// Fact tells what a garment is worn over.
func (l Layer) Fact() Fact {
	switch l {
	case "indoor":
		return NewFact("over-indoor-clothes")
	case "winter":
		return NewFact("over-winter-clothes")
	}
	return NewFact("over-skin")
}

// Fact tells the fit, what is worn underneath, growth room and options.
func (m Spec) Fact() Fact {
	facts := []Fact{NewFact("fit-over", string(m.Fit), m.Layer.Fact())}
	if m.Nappy {
		facts = append(facts, NewFact("over-nappy"))
	}
	switch {
	case m.Seasons == 1:
		facts = append(facts, NewFact("growth-half-year"))
	case m.Seasons > 0 && m.Seasons == math.Trunc(m.Seasons):
		facts = append(facts, NewFact("growth-half-years", m.Seasons))
	case m.Seasons > 0:
		facts = append(facts, NewFact("growth-months", math.Round(m.Seasons*60)/10))
	}
	if m.Wear > 0 {
		facts = append(facts, NewFact("worn-in-months", math.Round(m.Wear*10)/10))
	}
	for _, o := range slices.Sorted(slices.Values(m.Options)) {
		facts = append(facts, NewFact("option", o))
	}
	return NewFact("specification", facts)
}

func (ref *Reference) checkSpec(g *garment, m Spec) error {
	if _, err := ParseFit(string(m.Fit)); err != nil {
		return err
	}
	if _, err := ParseLayer(string(m.Layer)); err != nil {
		return err
	}
	if !(m.Seasons >= 0 && m.Seasons <= 4) {
		return fmt.Errorf("growth room for %g seasons is not between 0 and 4 (two years)", m.Seasons)
	}
	if !(m.Wear >= 0 && m.Wear <= mostWear) {
		return fmt.Errorf("first worn in %g months is not between 0 and %d", m.Wear, mostWear)
	}
	if err := ref.CheckOptions(g.ID, m.Options); err != nil {
		return err
	}
	if err := g.checkEase(m); err != nil {
		return err
	}
	var parts []string
	for _, p := range g.parts {
		parts = append(parts, p.Part)
	}
	for _, p := range keys(m.Extra) {
		if !slices.Contains(parts, p) {
			return unknown("part of "+g.ID, p, parts)
		}
		if v := m.Extra[p]; !finite(v) || v < -50 || v > 50 {
			return &FactError{NewFact("extra-too-much", p, Length(v)), fmt.Errorf("%s: %g cm extra is not between -50 and 50", p, v)}
		}
	}
	return nil
}

// mostWear is how many months ahead a garment may be made.
const mostWear = 24

// CheckOptions refuses options that a garment does not have, and two of which
// each says how long a part is.
func (ref *Reference) CheckOptions(garment string, options []string) error {
	known, err := ref.GarmentOptions(garment)
	if err != nil {
		return err
	}
	for _, o := range options {
		if len(known) == 0 {
			return fmt.Errorf("%s has no options; %.80q is not known", garment, o)
		}
		if !slices.Contains(known, o) {
			return unknown("option of "+garment, o, known)
		}
	}
	g, err := ref.garment(garment)
	if err != nil {
		return err
	}
	for _, p := range g.parts {
		first := ""
		for _, l := range g.lengths[p.Part] {
			switch {
			case l.Role != "option" || l.Option == first || !slices.Contains(options, l.Option):
			case first != "":
				return fmt.Errorf("%s and %s both say how long the %s is; want one of them", first, l.Option, p.Name)
			default:
				first = l.Option
			}
		}
	}
	return nil
}

// bySeason is the growth room of a part by season, for a body of whose growth nothing
// is known.
func (g *garment) bySeason(part string, m Spec) []Amount {
	var out []Amount
	for _, l := range g.lengths[part] {
		if l.Role == "growth" && m.Seasons > 0 {
			out = append(out, Amount{l.Adjustment * m.Seasons, GrowthRoom, "", l.Why, l.Source, l.Basis})
		}
	}
	return out
}

// adjustments gathers what is added to a part's length, but for growth.
func (g *garment) adjustments(part string, m Spec) []Amount {
	var out []Amount
	for _, l := range g.lengths[part] {
		a := Amount{Cm: l.Adjustment, Kind: StyleLength, Note: l.Why, Source: l.Source, Basis: l.Basis}
		if l.Unit == "in" {
			a.Cm *= CmPerInch
		}
		switch l.Role {
		case "style":
			out = append(out, a)
		case "option":
			if l.Adjustment == 0 {
				continue // it is made from another measurement, and that is all
			}
			if slices.Contains(m.Options, l.Option) {
				a.Kind, a.Of = OptionAdds, l.Option
				out = append(out, a)
			}
		}
	}
	if v := m.Extra[part]; v != 0 {
		out = append(out, Amount{Cm: v, Kind: AskedFor})
	}
	return out
}
