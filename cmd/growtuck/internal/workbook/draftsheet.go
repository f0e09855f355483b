package workbook

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// draft lays out the draft: the form that growtuck check reads. Cells to fill in
// on the other sheets are formulas here.
func (l *layout) draft() *sheet {
	s := &sheet{name: draftName, widths: []float64{18, 20, 18, 12, 66}, freeze: 1, value: 3, unprinted: true}
	s.heading("The draft", "The table that growtuck check THIS-FILE reads, one fact in each row. Fill in the yellow cells; the others follow the other sheets. Rows without a value are ignored. "+
		"Add rows at the end for what else the garment has: cord, button, pompom … (growtuck export --blank draft.xlsx lists the fields).")
	s.head = s.header(plan.DraftColumns...)
	for _, r := range l.draftRows() {
		value := valueCell(r.Value)
		if r.formula != "" {
			value = calc(r.formula, r.now, stFact)
			if r.Unit == "cm" || r.Unit == "kg" {
				value.style = stValue
			}
		}
		unit := styled(r.Unit, stWrap)
		unit.formula = r.unit
		s.add(text(r.Field), text(r.Part), value, unit, styled(r.Note, stWrap))
	}
	for range 12 {
		s.add(blank(stInput), blank(stInput), blank(stInput), blank(stInput), blank(stInput))
	}
	return s
}

// valueCell is a number where the text is one, so that formulas can use it.
func valueCell(s string) cell {
	if v, err := strconv.ParseFloat(s, 64); err == nil && sizing.FormatExact(v) == s {
		if v == math.Trunc(v) {
			return cell{value: v, style: stInputWhole}
		}
		return cell{value: v, style: stInputNumber}
	}
	return styled(s, stInput)
}

// A liveRow is a row of a draft. Where it follows another sheet, formula is how
// and now its value; unit is how its unit follows.
type liveRow struct {
	plan.Row
	formula string
	now     any
	unit    string
}

func following(row plan.Row, formula string, now any) liveRow {
	return liveRow{Row: row, formula: formula, now: now}
}

// draftRows are the plan's rows, and those that have no value as planned but
// take one from the other sheets: nappy, growth, options, extra, body.
func (l *layout) draftRows() []liveRow {
	making := l.Finished.Spec
	nappy := "no"
	if making.Nappy {
		nappy = "yes"
	}
	rows := []liveRow{
		following(plan.Row{Field: "garment"}, "in_garment", making.Garment),
		following(plan.Row{Field: "fit"}, "in_fit", string(making.Fit)),
		following(plan.Row{Field: "layer"}, "in_layer", string(making.Layer)),
		following(plan.Row{Field: "nappy"}, "in_nappy", nappy),
		following(plan.Row{Field: "growth", Unit: "seasons"}, "in_growth", making.Seasons),
	}
	for _, o := range l.Options {
		now := ""
		if slices.Contains(making.Options, o) {
			now = o
		}
		rows = append(rows, following(plan.Row{Field: "option"}, `IF(`+settingName(ask.OptionCell(o))+`="yes",`+quoted(o)+`,"")`, now))
	}
	notes := make(map[string]string)
	for _, r := range l.Draft {
		if r.Field == "extra" {
			notes[r.Part] = r.Note
		}
	}
	for i, line := range l.lines() {
		part := line.Part.Part
		meant := l.meant(part)
		formula := on(easeName, fixed(easeExtra, easeFirst+i)) + l.factor()
		own := on(easeName, fixed(easeOwn, easeFirst+i))
		formula += fmt.Sprintf(`+IF(%s&""="",0,%s%s-%s*unit_cm)`, own, own, l.factor(), on(easeName, fixed(easeByFit, easeFirst+i)))
		if meant != 0 {
			formula += "+" + literal(meant)
		}
		rows = append(rows, following(plan.Row{Field: "extra", Part: part, Unit: "cm", Note: notes[part]}, formula, making.Extra[part]+meant))
	}
	rows = append(rows, l.facts()...)
	before := []string{"garment", "fit", "layer", "nappy", "growth", "option", "extra", "sex", "age"}
	for _, r := range l.Draft {
		if !slices.Contains(before, r.Field) {
			rows = append(rows, l.follow(r))
		}
	}
	return append(rows, l.unmeasured()...)
}

// facts are the rows of the child's sex and age, which follow the child's sheet.
func (l *layout) facts() []liveRow {
	fact := func(name, unit string, now any) liveRow {
		value, units := on(childName, fixed(2, l.factRow(name))), on(childName, fixed(3, l.factRow(name)))
		row := following(plan.Row{Field: name, Unit: unit, Note: "follows the sheet " + childName}, "IF("+value+`&""="","",`+value+")", now)
		if unit != "" {
			row.unit = "IF(" + units + `&""="",` + quoted(unit) + "," + units + ")"
		}
		return row
	}
	var sex, age any = "", ""
	if l.Child.Sex == sizing.Boy || l.Child.Sex == sizing.Girl {
		sex = string(l.Child.Sex)
	}
	if l.Child.AgeYears > 0 {
		age = l.Child.AgeYears
	}
	return []liveRow{fact("sex", "", sex), fact("age", "years", age)}
}

// follow makes a row of the plan's draft follow the sheet it is filled in on.
func (l *layout) follow(r plan.Row) liveRow {
	orNothing := func(cell, factor string) string { return "IF(" + cell + `&""="","",` + cell + factor + ")" }
	row := liveRow{Row: r}
	how := l.Plan.How
	switch r.Field {
	case "craft":
		row.formula, row.now = "in_craft", r.Value
	case "stitch_gauge":
		row.formula, row.now = "stitches_per_10", how.Gauge.StitchesPer10Cm
		if r.Part != "" && how.Rib != nil {
			row.formula, row.now = "rib_stitches_per_10", how.Rib.StitchesPer10Cm
		}
	case "row_gauge":
		row.formula, row.now = "rows_per_10", how.Gauge.RowsPer10Cm
		if r.Part != "" && how.Rib != nil {
			row.formula, row.now = "rib_rows_per_10", how.Rib.RowsPer10Cm
		}
	case "body":
		if v, own := l.Child.Own[r.Part]; own {
			cell, inCm := l.ownCm(r.Part)
			row.formula, row.now = "IF("+cell+`&""="","",`+inCm+")", v
		}
	case "edges":
		i := slices.IndexFunc(l.Finished.Lines, lineOf(r.Part))
		if p, ok := l.Plan.Part(r.Part); ok && i >= 0 {
			row.formula, row.now = on(countsName, fixed(countEdges, countsFirst+i)), p.EdgesCm
		}
	case "finished":
		i := slices.IndexFunc(l.Finished.Lines, lineOf(r.Part))
		p, ok := l.Plan.Part(r.Part)
		if i < 0 || !ok {
			break
		}
		if p.Count > 0 {
			row.formula, row.now = orNothing(on(checkName, fixed(checkCount, checkFirst+i)), ""), p.Count
		} else {
			row.formula, row.now = orNothing(on(checkName, fixed(checkLength, checkFirst+i)), l.factor()), p.SizeCm
		}
	}
	return row
}

// unmeasured are rows for what was not measured on the child, and may be filled in.
func (l *layout) unmeasured() []liveRow {
	named := make(map[string]bool)
	for _, r := range l.Draft {
		if r.Field == "body" {
			named[r.Part] = true
		}
	}
	var rows []liveRow
	for _, m := range l.measurements {
		if !named[m.ID] {
			cell, inCm := l.ownCm(m.ID)
			rows = append(rows, following(plan.Row{Field: "body", Part: m.ID, Unit: m.Unit, Note: "follows the sheet " + childName}, "IF("+cell+`&""="","",`+inCm+")", ""))
		}
	}
	return rows
}

// meant is what the construction adds to a part on purpose, in cm.
func (l *layout) meant(part string) float64 {
	for _, r := range l.Draft {
		if r.Field == "extra" && r.Part == part {
			if v, err := strconv.ParseFloat(r.Value, 64); err == nil {
				return tidy(v - l.Finished.Spec.Extra[part])
			}
		}
	}
	return 0
}
