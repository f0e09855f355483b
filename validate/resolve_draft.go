package validate

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// resolve works out from the rows who wears the garment and how it is worn.
func (r *draftReader) resolve() {
	r.making()
	r.gauge()
	r.wearer()
	if d := r.draft; d.Garment.ID != "" {
		if e, ok := d.get("opening", "front"); ok {
			if _, _, ok := d.size("front_opening"); ok {
				r.at(e, partCell, "the front of a %s is a finished part: give front_opening alone", d.Garment.ID)
			}
		}
	}
}

// wearer finds out whose body it is made for, or takes it from a draft that says the
// same of the child.
func (r *draftReader) wearer() {
	d := r.draft
	who := ""
	if r.wearers != nil {
		for _, e := range d.entries {
			if slices.Contains([]string{"child", "size", "widths", "lengths", "chart", "sex", "age", "body"}, e.Field) {
				who += strings.Join([]string{e.Field, e.Part, e.Value, e.Unit}, "\x00") + "\n"
			}
		}
		if known, ok := r.wearers[who]; ok {
			d.Child, d.Body, d.ages, d.ageFrom = known.Child, known.Body, known.ages, known.ageFrom
			return
		}
	}
	r.child()
	if r.faults.Len() == 0 {
		r.body()
	}
	if r.wearers != nil && r.faults.Len() == 0 {
		r.wearers[who] = Draft{Child: d.Child, Body: d.Body, ages: d.ages, ageFrom: d.ageFrom}
	}
}

func (r *draftReader) making() {
	d := r.draft
	m := sizing.Spec{Garment: d.Garment.ID, Extra: make(map[string]float64), Ease: make(map[string]sizing.OwnEase)}
	if e, ok := d.get("fit", ""); ok {
		m.Fit = sizing.Fit(e.Value)
	}
	if e, ok := d.get("layer", ""); ok {
		m.Layer = sizing.Layer(e.Value)
	}
	m.Nappy = d.has("nappy", "yes")
	if e, ok := d.get("growth", ""); ok {
		m.Seasons = e.Number
	}
	if e, ok := d.get("first_worn", ""); ok {
		m.Wear = e.Number
	}
	options, err := r.ref.GarmentOptions(d.Garment.ID)
	if err != nil {
		r.fault(0, 0, "%v", err)
		return
	}
	for _, e := range d.all("option") {
		if !slices.Contains(options, e.Value) {
			known := strings.Join(options, ", ")
			if known == "" {
				known = "none"
			}
			r.at(e, valueCell, "%s is not an option of %s; it has: %s", clip(e.Value), d.Garment.ID, known)
		}
		m.Options = append(m.Options, e.Value)
	}
	for _, e := range d.all("ease") {
		m.Ease[e.Part] = sizing.OwnEase{Cm: e.Cm}
	}
	for _, e := range d.all("extra") {
		m.Extra[e.Part] = e.Cm
	}
	d.Spec = m
}

func (r *draftReader) gauge() {
	d := r.draft
	s, hasStitches := d.get("stitch_gauge", "")
	w, hasRows := d.get("row_gauge", "")
	switch {
	case hasStitches && hasRows:
		g, err := stitch.Per10Cm(s.Number, w.Number)
		if err != nil {
			r.at(s, valueCell, "%s stitches to %s rows is not a gauge: %v", s.Value, w.Value, err)
		}
		d.Gauge = g
	case hasStitches:
		r.at(s, fieldCell, "is given without row_gauge; count the rows of the swatch too")
	case hasRows:
		r.at(w, fieldCell, "is given without stitch_gauge; count the stitches of the swatch too")
	default:
		for _, e := range d.entries {
			if e.counted() || e.Field == "increase" {
				r.at(e, valueCell, "is a count, but the draft has no gauge; add rows stitch_gauge and row_gauge")
				return
			}
		}
	}
	for _, e := range d.all("stitch_gauge") {
		if g := d.gaugeOf(e.Part); e.Part != "" && hasStitches && hasRows && g.Validate() != nil {
			r.at(e, valueCell, "%v", g.Validate())
		}
	}
	for _, e := range d.all("row_gauge") {
		if g := d.gaugeOf(e.Part); e.Part != "" && hasStitches && hasRows && g.Validate() != nil {
			r.at(e, valueCell, "%v", g.Validate())
		}
	}
}

func (r *draftReader) child() {
	d := r.draft
	d.Child = sizing.Child{Sex: sizing.Both, Own: make(map[string]float64)}
	if e, ok := d.get("child", ""); ok {
		r.childFile(e)
	}
	if e, ok := d.get("sex", ""); ok {
		if s := sizing.Sex(e.Value); d.Child.Sex != sizing.Both && d.Child.Sex != s {
			r.at(e, valueCell, "is %s, and %s in the child's table", s, d.Child.Sex)
		} else {
			d.Child.Sex = s
		}
	}
	if e, ok := d.get("age", ""); ok {
		if before := d.Child.AgeYears; before > 0 && (e.Number < before-1 || e.Number > before+1) {
			r.at(e, valueCell, "is %.3g years, and %.3g in the child's table", e.Number, before)
		}
		d.Child.AgeYears = e.Number
	}
	for _, field := range []string{"born", "measured"} {
		if e, ok := d.get(field, ""); ok {
			if err := r.ref.Set(&d.Child, field, e.Value, ""); err != nil {
				r.at(e, valueCell, "%v", err)
			}
		}
	}
	for _, e := range d.all("body") {
		if before, ok := d.Child.Own[e.Part]; ok && before != e.Cm {
			r.at(e, valueCell, "%s is %s %s, and %.4g in the child's table", e.Part, e.Value, e.Unit, before)
		}
		d.Child.Own[e.Part] = e.Cm
	}
	if d.Child.AgeYears > 0 {
		d.ages, d.ageFrom = d.Child.AgeYears, fact("age.given")
	}
}

func (r *draftReader) childFile(e *Entry) {
	p := path.Clean(strings.ReplaceAll(e.Value, `\`, "/"))
	if !fs.ValidPath(p) || strings.Contains(p, ":") { // nor up from it
		r.at(e, valueCell, "%s is not a path inside the draft's folder", clip(e.Value))
		return
	}
	if r.open == nil {
		r.at(e, valueCell, "%s cannot be opened here", clip(e.Value))
		return
	}
	f, err := r.open(p)
	if err != nil {
		r.at(e, valueCell, "%v", err)
		return
	}
	defer f.Close()
	c, err := r.ref.ReadChild(f, p)
	if err != nil {
		r.at(e, valueCell, "the child's table has faults")
		for _, one := range problems(err) {
			r.faults.Add(one)
		}
		return
	}
	r.draft.Child = c
	if c.Own == nil {
		r.draft.Child.Own = make(map[string]float64)
	}
}

// body reads or estimates the body the garment is for.
func (r *draftReader) body() {
	d := r.draft
	id := "child"
	if e, ok := d.get("chart", ""); ok {
		id = e.Value
		if _, err := r.ref.Chart(id); err != nil {
			r.at(e, valueCell, "%v", err)
			return
		}
	}
	chart, err := r.ref.Chart(id)
	if err != nil {
		r.fault(0, 0, "%v", err)
		return
	}
	size, one := d.get("size", "")
	widths, wide := d.get("widths", "")
	lengths, long := d.get("lengths", "")
	switch {
	case one && (wide || long):
		r.at(size, fieldCell, "is given with widths or lengths; give the size, or both of those")
		return
	case wide != long:
		e := widths
		if long {
			e = lengths
		}
		r.at(e, fieldCell, "give widths and lengths together, or neither")
		return
	case one:
		widths, lengths = size, size
	case !wide && len(d.Child.Own) == 0:
		r.fault(0, 0, "does not say who it is for; add a row child or size, or a row body with the child's height")
		return
	case !wide:
		if d.Body, err = r.ref.Estimate(d.Child); err != nil {
			r.fault(0, 0, "the child: %v", err)
		}
		return
	}
	places := [2]sizing.Place{}
	for i, e := range []*Entry{widths, lengths} {
		places[i], err = chart.Place(e.Value, d.Child.Sex)
		if err != nil {
			r.at(e, valueCell, "%v", err)
			return
		}
	}
	if d.ages == 0 {
		r.ageOfSize(places[1])
	}
	if d.Body, err = r.ref.Blend(places[0], places[1], d.Child, sizing.Monotone); err != nil {
		r.at(widths, valueCell, "%v", err)
	}
}

func (r *draftReader) ageOfSize(p sizing.Place) {
	d := r.draft
	switch p.Run.Scale {
	case sizing.Years:
		d.ages, d.ageFrom = p.Position, fact("age.of-size")
	case sizing.Months:
		d.ages, d.ageFrom = p.Position/12, fact("age.of-size")
	}
}
