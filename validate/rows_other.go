package validate

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"growtuck/data"
	"growtuck/sizing"
)

// suspect reports a finding about a row of a table other than body.csv, unless
// it is a known exception.
func (ts *tableSet) suspect(rule, table string, line int, column, subject, found, expected, fix string) {
	if ts.rep.excepts(rule, table, subject) {
		return
	}
	f := ts.at(rule, Warn, table, line, column)
	f.Subject, f.Found, f.Expected, f.Fix = subject, sizing.Text(found), sizing.Text(expected), sizing.Text(fix)
	ts.rep.add(f)
}

var (
	monthLabel = regexp.MustCompile(`^([0-9.]+)m$`)
	plainLabel = regexp.MustCompile(`^([0-9.]+)$`)
	rangeLabel = regexp.MustCompile(`^([0-9.]+)-([0-9.]+)(m?)$`)
)

// checkSizes checks that a size stands on its scale where its label says.
func (ts *tableSet) checkSizes() {
	seen := make(map[[2]string]float64)
	for _, z := range ts.t.Sizes {
		if z.Position == nil {
			continue
		}
		low, high := math.Inf(-1), math.Inf(1) // where it may stand
		scale := z.Scale
		if m := monthLabel.FindStringSubmatch(z.Size); m != nil {
			low, scale = labelNumber(m[1]), "months"
			high = low
		} else if m := plainLabel.FindStringSubmatch(z.Size); m != nil {
			low = labelNumber(m[1])
			high = low
			if scale == "months" {
				scale = "years or height"
			}
		} else if m := rangeLabel.FindStringSubmatch(z.Size); m != nil {
			low, high = labelNumber(m[1]), labelNumber(m[2])
			if m[3] != "" {
				scale, high = "months", high+1 // to the end of the last month
			}
			low, high = (low+high)/2, (low+high)/2 // a band stands at its middle
		}
		subject := z.Chart + " " + z.Size
		at := func(column, found, expected string) {
			ts.suspect("R41", "sizes.csv", z.Line, column, subject, found, expected, "correct the label or the place")
		}
		switch {
		case scale != z.Scale:
			at("scale", "a size on the scale of "+z.Scale, scale)
		case *z.Position < low-0.01 || *z.Position > high+0.01:
			at("position", fmt.Sprintf("at %g", *z.Position), fmt.Sprintf("%g", low))
		}
		if z.Scale == "height" && (*z.Position < 40 || *z.Position > 210) {
			at("position", fmt.Sprintf("a height of %g cm", *z.Position), "40 to 210 cm")
		}
		if z.Scale == "years" && *z.Position > 20 || z.Scale == "months" && *z.Position > 36 {
			at("position", fmt.Sprintf("%g %s", *z.Position, z.Scale), "up to 36 months or 20 years")
		}
		ts.checkAges(z, subject)
		place := [2]string{z.Chart, z.Scale}
		if before, ok := seen[place]; ok && before == *z.Position {
			at("position", fmt.Sprintf("at %g, as another size", *z.Position), "a place of its own")
		}
		seen[place] = *z.Position
	}
}

func labelNumber(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

func (ts *tableSet) checkAges(z data.Size, subject string) {
	at := func(found, expected string) {
		ts.suspect("R41", "sizes.csv", z.Line, "age_low_years", subject, found, expected, "")
	}
	if (z.AgeLow == nil) != (z.AgeHigh == nil) {
		at("one age without the other", "both or neither")
	}
	if z.AgeLow == nil || z.AgeHigh == nil {
		return
	}
	years := *z.Position
	if z.Scale == "months" {
		years /= 12
	}
	if *z.AgeLow >= *z.AgeHigh {
		at(fmt.Sprintf("ages %g to %g", *z.AgeLow, *z.AgeHigh), "the lower first")
	} else if z.Scale != "height" && (years < *z.AgeLow || years > *z.AgeHigh) {
		at(fmt.Sprintf("at %.3g years, outside its ages %g to %g", years, *z.AgeLow, *z.AgeHigh), "between them")
	}
	if m := rangeLabel.FindStringSubmatch(z.Size); m != nil && m[3] == "" && z.Scale == "years" &&
		(labelNumber(m[1]) != *z.AgeLow || labelNumber(m[2]) != *z.AgeHigh) {
		at(fmt.Sprintf("ages %g to %g", *z.AgeLow, *z.AgeHigh), "those of the label")
	}
}

// checkEase checks ranges, and that ease grows with fit and with layer.
func (ts *tableSet) checkEase() {
	type group struct{ rule, garment, layer, measurement string }
	fits := make(map[group][]data.Ease)
	layers := make(map[group][]data.Ease)
	var fitOrder, layerOrder []group
	for _, e := range ts.t.Ease {
		subject := strings.Join([]string{e.Rule, e.Garment, e.Fit, e.Layer, e.Measurement}, " ")
		at := func(column, found, expected string) {
			ts.suspect("R42", "ease.csv", e.Line, column, subject, found, expected, "")
		}
		if e.High != nil && (e.Use > *e.High || e.Low > *e.High) {
			at("high", fmt.Sprintf("low %g, use %g, high %g", e.Low, e.Use, *e.High), "low, use and high in that order")
		}
		if e.High == nil && e.Fit != "oversized" {
			at("high", "no upper end", "an upper end; only oversized is open")
		}
		if e.Unit == "cm" && max(math.Abs(e.Low), math.Abs(e.Use)) > 20 || e.Unit == "in" && max(math.Abs(e.Low), math.Abs(e.Use)) > 8 {
			at("use", fmt.Sprintf("%g %s", e.Use, e.Unit), "at most 20 cm either way")
		}
		if e.High == nil && e.Use > e.Low+5 {
			at("use", fmt.Sprintf("%g %s from %g", e.Use, e.Unit, e.Low), "within 5 of low")
		}
		if e.Rule != "fit" && (e.Low < 0 || e.Use < 0) {
			at("low", fmt.Sprintf("%g %s for clothes underneath", e.Low, e.Unit), "nothing below 0")
		}
		if (e.Rule == "fit") != (e.Layer == "skin") || e.Rule != "fit" && e.Fit != "any" {
			at("layer", fmt.Sprintf("rule %s with fit %s over %s", e.Rule, e.Fit, e.Layer), "fit over skin, the others of any fit over clothes")
		}
		switch {
		case e.Rule == "fit" && e.Fit != "any":
			g := group{e.Rule, e.Garment, e.Layer, e.Measurement}
			if fits[g] == nil {
				fitOrder = append(fitOrder, g)
			}
			fits[g] = append(fits[g], e)
		case e.Rule == "layer" || e.Rule == "least":
			g := group{e.Rule, e.Garment, "", e.Measurement}
			if layers[g] == nil {
				layerOrder = append(layerOrder, g)
			}
			layers[g] = append(layers[g], e)
		}
	}
	for _, g := range fitOrder {
		ts.checkEaseOrder(fits[g], easeFits, func(e data.Ease) string { return e.Fit }, len(easeFits))
	}
	for _, g := range layerOrder {
		want := 2
		if g.rule == "least" {
			want = 0
		}
		ts.checkEaseOrder(layers[g], easeLayers[1:3], func(e data.Ease) string { return e.Layer }, want)
	}
}

// checkEaseOrder checks that rows that differ in one thing alone are all there
// and grow in its order.
func (ts *tableSet) checkEaseOrder(rows []data.Ease, order []string, of func(data.Ease) string, want int) {
	slices.SortStableFunc(rows, func(a, b data.Ease) int { return slices.Index(order, of(a)) - slices.Index(order, of(b)) })
	for i, e := range rows {
		subject := strings.Join([]string{e.Rule, e.Garment, e.Fit, e.Layer, e.Measurement}, " ")
		at := func(column, found, expected string) {
			ts.suspect("R42", "ease.csv", e.Line, column, subject, found, expected, "")
		}
		if i == 0 {
			if len(rows) < want {
				at("measurement", fmt.Sprintf("%d rows", len(rows)), fmt.Sprintf("%d: %s", want, strings.Join(order, ", ")))
			}
			continue
		}
		below := rows[i-1]
		switch {
		case e.Unit != below.Unit:
			at("unit", fmt.Sprintf("%s beside %s", e.Unit, below.Unit), "one unit for all")
		case e.Use < below.Use || e.Rule == "fit" && e.Use == below.Use:
			at("use", fmt.Sprintf("%g %s", e.Use, e.Unit), fmt.Sprintf("more than the %g of %s", below.Use, of(below)))
		case e.Low < below.Low:
			at("low", fmt.Sprintf("from %g %s", e.Low, e.Unit), fmt.Sprintf("no less than the %g of %s", below.Low, of(below)))
		}
	}
}

// checkLengths checks adjustments against what their role allows, and that
// garments that give the same reason have the same figure.
func (ts *tableSet) checkLengths() {
	type why struct{ part, role, option, why string }
	first := make(map[why]data.Length)
	for _, l := range ts.t.Lengths {
		subject := strings.Join([]string{l.Garment, l.Part, l.Role}, " ")
		at := func(column, found, expected string) {
			ts.suspect("R43", "lengths.csv", l.Line, column, subject, found, expected, "")
		}
		amount := fmt.Sprintf("%g %s", l.Adjustment, l.Unit)
		cm := l.Adjustment
		if l.Unit == "in" {
			cm *= 2.54
		}
		switch {
		case (l.Role == "share") != (l.Unit == "%"):
			at("unit", l.Role+" in "+l.Unit, "share in %, all else in cm or in")
		case l.Role == "share" && (l.Adjustment < 10 || l.Adjustment > 95):
			at("adjustment", amount, "10 to 95 % of the body measurement")
		case l.Role == "growth" && (cm <= 0 || cm > 2.5):
			at("adjustment", amount, "above 0 and at most 2.5 cm: half a year is about 3 cm of height")
		case (l.Role == "style" || l.Role == "option") && (cm == 0 || math.Abs(cm) > 12):
			at("adjustment", amount, "not 0, and at most 12 cm either way")
		case l.Role != "option" && l.Option != "":
			at("option", fmt.Sprintf("option %s in a row of role %s", l.Option, l.Role), "role option, or no option")
		}
		k := why{l.Part, l.Role, l.Option, l.Why}
		if o, ok := first[k]; !ok {
			first[k] = l
		} else if o.Adjustment != l.Adjustment || o.Unit != l.Unit {
			at("adjustment", amount, fmt.Sprintf("the %g %s that garment %s has for the same part and reason (line %d)", o.Adjustment, o.Unit, o.Garment, o.Line))
		}
	}
}

// checkMeasurements checks that kind, unit and name go together, and that
// parts go the way their body measurement goes.
func (ts *tableSet) checkMeasurements() {
	kinds := make(map[string]string)
	related := make(map[string]bool)
	for _, r := range ts.t.Relations {
		related[r.A], related[r.B] = true, true
	}
	for _, m := range ts.t.Measurements {
		kinds[m.ID] = m.Kind
		at := func(column, found, expected string) {
			ts.suspect("R44", "measurements.csv", m.Line, column, m.ID, found, expected, "")
		}
		if (m.Kind == "mass") != (m.Unit == "kg") {
			at("unit", m.Kind+" in "+m.Unit, "mass in kg, all else in cm")
		}
		want := m.Kind
		switch name, _, _ := strings.Cut(m.Name, ","); {
		case strings.Contains(m.Name, "girth"):
			want = "girth"
		case strings.HasSuffix(name, "breadth"):
			want = "width"
		case strings.HasSuffix(name, "length"), strings.HasSuffix(name, "height"), strings.HasSuffix(name, "depth"):
			want = "length"
		case m.Name == "weight":
			want = "mass"
		}
		if m.Kind != want {
			at("kind", fmt.Sprintf("%s is of kind %s", m.Name, m.Kind), want)
		}
		if (m.Kind == "mass") != (m.Follows == "none") {
			at("follows", fmt.Sprintf("a %s follows %s", m.Kind, m.Follows), "widths or lengths; none for a mass")
		}
		if m.Kind == "width" && m.Follows == "lengths" && (m.Region == "torso" || m.Region == "arm" || m.Region == "leg") {
			at("follows", "a width of the "+m.Region+" follows lengths", "widths")
		}
		if m.Relation != "" && !related[m.Relation] && !ts.derived(m.Relation) {
			at("relation", fmt.Sprintf("%q is not in relations.csv", m.Relation), "a measurement that the survey has, or one worked out from them")
		}
	}
	for _, p := range ts.t.Parts {
		kind := kinds[p.Measurement]
		if kind == "" || kind == p.Dimension || kind == "girth" && p.Dimension == "length" && ts.isShare(p) {
			continue
		}
		ts.suspect("R44", "parts.csv", p.Line, "dimension", p.Garment+" "+p.Part,
			fmt.Sprintf("a %s from %s, which is a %s", p.Dimension, p.Measurement, kind), kind+"; or a length that is a share of it", "")
	}
}

func (ts *tableSet) derived(measurement string) bool {
	return slices.ContainsFunc(ts.t.Derivations, func(d data.Derivation) bool { return d.Measurement == measurement })
}

func (ts *tableSet) isShare(p data.Part) bool {
	return slices.ContainsFunc(ts.t.Lengths, func(l data.Length) bool {
		return l.Garment == p.Garment && l.Part == p.Part && l.Role == "share"
	})
}
