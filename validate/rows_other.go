package validate

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"growtuck/data"
	"growtuck/sizing"
)

// A rowAt is a row of a table other than body.csv as a rule looks at it.
type rowAt struct {
	ts          *tableSet
	rule, table string
	line        int
	subject     string
	fix         sizing.Fact
}

// suspect reports a finding about the row, unless it is a known exception.
func (r rowAt) suspect(column string, found, expected sizing.Fact) {
	if r.ts.rep.excepts(r.rule, r.table, r.subject) {
		return
	}
	f := r.ts.at(r.rule, Warn, r.table, r.line, column)
	f.Subject, f.Found, f.Expected, f.Fix = r.subject, found, expected, r.fix
	r.ts.rep.add(f)
}

// value is a fact of a figure in its unit.
func value(v float64, unit string) sizing.Fact { return sizing.NewFact("rows.value", amount(v, unit)) }

// labelForm is a size as its label says it: a number, two of them, of months or not.
var labelForm = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([0-9.]+)(?:-([0-9.]+))?(m?)$`) })

// checkSizes checks that a size is on its scale where its label says.
func (ts *tableSet) checkSizes() {
	seen := make(map[[2]string]float64)
	for _, z := range ts.t.Sizes {
		if z.Position == nil {
			continue
		}
		at := rowAt{ts, "R41", "sizes.csv", z.Line, z.Chart + " " + z.Size, sizing.NewFact("rows.correct-label")}
		position := *z.Position
		label, scales := labelled(z.Size, z.Scale)
		switch {
		case !slices.Contains(scales, z.Scale):
			on := at
			if len(scales) == 1 {
				on.fix = sizing.NewFact("rows.fix-or-label", at.set("scale", scales[0]))
			}
			on.suspect("scale", sizing.NewFact("rows.on-scale", z.Scale), sizing.NewFact("rows.scales", scales))
		case math.Abs(position-label) > 0.01:
			moved := at.to(sizing.NewFact("rows.fix-or-label", at.set("position", sizing.FormatExact(label))))
			moved.suspect("position", sizing.NewFact("rows.at-position", position), sizing.NewFact("rows.value", label))
		}
		switch {
		case z.Scale == "height" && (position < 40 || position > 210):
			at.suspect("position", sizing.NewFact("rows.height", sizing.Length(position)), sizing.NewFact("rows.value", sizing.Range{Low: 40, High: 210}))
		case z.Scale == "years" && position > 20, z.Scale == "months" && position > 36:
			at.suspect("position", sizing.NewFact("rows.at-age", position, z.Scale), sizing.NewFact("rows.oldest"))
		}
		ages := at
		ages.fix = sizing.Fact{}
		checkAges(ages, z)
		place := [2]string{z.Chart, z.Scale}
		if before, ok := seen[place]; ok && before == position {
			at.suspect("position", sizing.NewFact("rows.place-taken", position), sizing.NewFact("rows.own-place"))
		}
		seen[place] = position
	}
}

// labelled reads a size's label: where it says that the size is, NaN if it
// does not say, and on which scales.
func labelled(label, scale string) (float64, []string) {
	m := labelForm().FindStringSubmatch(label)
	switch {
	case m == nil:
		return math.NaN(), []string{scale}
	case m[2] == "" && m[3] != "":
		return labelNumber(m[1]), []string{"months"}
	case m[2] == "" && scale == "months":
		return labelNumber(m[1]), []string{"years", "height"}
	case m[2] == "":
		return labelNumber(m[1]), []string{scale}
	}
	low, high := labelNumber(m[1]), labelNumber(m[2]) // a band is at its middle
	if m[3] != "" {
		return (low + high + 1) / 2, []string{"months"} // to the end of the last month
	}
	return (low + high) / 2, []string{scale}
}

func labelNumber(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

func checkAges(at rowAt, z data.Size) {
	suspect := func(found, expected sizing.Fact) { at.suspect("age_low_years", found, expected) }
	if (z.AgeLow == nil) != (z.AgeHigh == nil) {
		suspect(sizing.NewFact("rows.one-age"), sizing.NewFact("rows.both-ages"))
	}
	if z.AgeLow == nil || z.AgeHigh == nil {
		return
	}
	low, high := *z.AgeLow, *z.AgeHigh
	years := *z.Position
	if z.Scale == "months" {
		years /= 12
	}
	if low >= high {
		suspect(sizing.NewFact("rows.ages", low, high), sizing.NewFact("rows.lower-first"))
	} else if z.Scale != "height" && (years < low || years > high) {
		suspect(sizing.NewFact("rows.outside-ages", years, low, high), sizing.NewFact("rows.between-them"))
	}
	if m := labelForm().FindStringSubmatch(z.Size); m != nil && m[2] != "" && m[3] == "" && z.Scale == "years" && (labelNumber(m[1]) != low || labelNumber(m[2]) != high) {
		suspect(sizing.NewFact("rows.ages", low, high), sizing.NewFact("rows.label-ages"))
	}
}

// checkLengths checks adjustments against what their role allows, and that
// garments that give the same reason have the same figure.
func (ts *tableSet) checkLengths() {
	type why struct{ part, role, option, why string }
	first := make(map[why]data.Length)
	for _, l := range ts.t.Lengths {
		at := rowAt{ts: ts, rule: "R43", table: "lengths.csv", line: l.Line, subject: strings.Join([]string{l.Garment, l.Part, l.Role}, " ")}
		found := value(l.Adjustment, l.Unit)
		cm := sizing.Length(l.Adjustment)
		if l.Unit == "in" {
			cm *= sizing.CmPerInch
		}
		switch {
		case (l.Role == "share") != (l.Unit == "%"):
			at.suspect("unit", sizing.NewFact("rows.in-unit", l.Role, l.Unit), sizing.NewFact("rows.share-unit"))
		case l.Role == "share" && (l.Adjustment < leastShare || l.Adjustment > mostShare) && l.Adjustment != bothWays:
			at.suspect("adjustment", found, sizing.NewFact("rows.share-range", leastShare, mostShare))
		case l.Role == "growth" && (cm <= 0 || cm > mostGrowth):
			at.suspect("adjustment", found, sizing.NewFact("rows.growth-range", mostGrowth, halfYear))
		case l.Instead != "" && l.Role != "option":
			at.suspect("instead", sizing.NewFact("rows.instead-in-role", l.Instead, l.Role), sizing.NewFact("rows.role-option"))
		case (l.Role == "style" || l.Role == "option") && (cm == 0 && l.Instead == "" || cm > mostStyle || cm < -mostStyle):
			at.suspect("adjustment", found, sizing.NewFact("rows.style-range", mostStyle))
		case l.Role != "option" && l.Option != "":
			at.suspect("option", sizing.NewFact("rows.option-in-role", l.Option, l.Role), sizing.NewFact("rows.role-option"))
		}
		k := why{l.Part, l.Role, l.Option, l.Why}
		if o, ok := first[k]; !ok {
			first[k] = l
		} else if o.Adjustment != l.Adjustment || o.Unit != l.Unit {
			at.suspect("adjustment", found, sizing.NewFact("rows.as-other-garment", amount(o.Adjustment, o.Unit), o.Garment, o.Line))
		}
	}
}

// What an adjustment may be: a share of the body measurement in per cent, the
// growth of one season, a choice of style.
const (
	leastShare, mostShare               = 10.0, 95.0
	bothWays                            = 200.0 // of what goes up the back and down the front
	mostGrowth            sizing.Length = 2.5
	halfYear              sizing.Length = 3 // of height
	mostStyle             sizing.Length = 12
)

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
		at := rowAt{ts: ts, rule: "R44", table: "measurements.csv", line: m.Line, subject: m.ID}
		if (m.Kind == "mass") != (m.Unit == "kg") {
			at.suspect("unit", sizing.NewFact("rows.in-unit", m.Kind, m.Unit), sizing.NewFact("rows.mass-unit"))
		}
		if want := kindByName(m); m.Kind != want {
			at.to(doCell(at.set("kind", want))).suspect("kind", sizing.NewFact("rows.of-kind", m.Name, m.Kind), sizing.NewFact("rows.kind", want))
		}
		if (m.Kind == "mass") != (m.Follows == "none") {
			at.suspect("follows", sizing.NewFact("rows.follows", m.Kind, m.Follows), sizing.NewFact("rows.follows-wanted"))
		}
		if m.Kind == "width" && m.Follows == "lengths" && (m.Region == "torso" || m.Region == "arm" || m.Region == "leg") {
			at.to(doCell(at.set("follows", "widths"))).suspect("follows", sizing.NewFact("rows.width-follows-lengths", m.Region), sizing.NewFact("rows.widths"))
		}
		if m.Relation != "" && !related[m.Relation] && !ts.derived(m.Relation) {
			at.suspect("relation", sizing.NewFact("rows.unknown", m.Relation, "relations.csv"), sizing.NewFact("rows.measured-or-derived"))
		}
	}
	for _, p := range ts.t.Parts {
		kind := kinds[p.Measurement]
		if kind == "" || kind == p.Dimension || kind == "girth" && p.Dimension == "length" && ts.isShare(p) {
			continue
		}
		at := rowAt{ts: ts, rule: "R44", table: "parts.csv", line: p.Line, subject: p.Garment + " " + p.Part}
		at.suspect("dimension", sizing.NewFact("rows.part-from", p.Dimension, p.Measurement, kind), sizing.NewFact("rows.kind-or-share", kind))
	}
}

// kindByName is the kind that a measurement's name says, or the one it has.
func kindByName(m data.Measurement) string {
	name, _, _ := strings.Cut(m.Name, ",")
	ends := func(word string) bool { return strings.HasSuffix(name, word) }
	switch {
	case strings.Contains(m.Name, "girth"):
		return "girth"
	case ends("breadth"):
		return "width"
	case ends("length"), ends("height"), ends("depth"):
		return "length"
	case m.Name == "weight":
		return "mass"
	}
	return m.Kind
}

func (ts *tableSet) derived(measurement string) bool {
	return slices.ContainsFunc(ts.t.Derivations, func(d data.Derivation) bool { return d.Measurement == measurement })
}

func (ts *tableSet) isShare(p data.Part) bool {
	return slices.ContainsFunc(ts.t.Lengths, func(l data.Length) bool {
		return l.Garment == p.Garment && l.Part == p.Part && l.Role == "share"
	})
}
