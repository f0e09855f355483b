package workbook_test

import (
	"bytes"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
	"growtuck/testdata/proof"
	"growtuck/testdata/samples"
)

// written is how far a computed cell may be from the engine's number: numbers are written
// to nine decimals, and a formula sums several.
const written = 5e-9

// A change is made to cells of a workbook, and to what the engine is asked.
type change struct {
	name  string
	cells map[string]any // by defined name
	ask   func(*request)
}

var changes = []change{
	{"as made", nil, func(*request) {}},
	{"gauge", map[string]any{"in_stitch_gauge": 15.5, "in_row_gauge": 19.25, "in_rib_stitch_gauge": 17.0, "in_rib_row_gauge": 21.0}, func(r *request) {
		r.how.Gauge = stitch.Gauge{StitchesPer10Cm: 15.5, RowsPer10Cm: 19.25}
		r.how.Rib = &stitch.Gauge{StitchesPer10Cm: 17, RowsPer10Cm: 21}
	}},
	{"gauge over 4 in, no ribbing", map[string]any{"in_gauge_over": "4 in", "in_stitch_gauge": 20, "in_row_gauge": 28, "in_rib_stitch_gauge": "", "in_rib_row_gauge": ""}, func(r *request) {
		g, _ := stitch.Swatch{Stitches: 20, WidthCm: stitch.FourInchesCm, Rows: 28, HeightCm: stitch.FourInchesCm}.Gauge()
		r.how.Gauge, r.how.Rib = g, &g
	}},
	{"unit", map[string]any{"in_unit": "in"}, func(r *request) { r.unit = "in" }},
	{"fit, layer, growth", map[string]any{"in_fit": "loose", "in_layer": "winter", "in_growth": 2, "in_nappy": "yes"}, func(r *request) {
		r.making.Fit, r.making.Layer, r.making.Seasons, r.making.Nappy = "loose", "winter", 2, true
	}},
	{"tight over skin, in inches", map[string]any{"in_fit": "very-close", "in_layer": "skin", "in_unit": "in"}, func(r *request) {
		r.making.Fit, r.making.Layer, r.unit = "very-close", "skin", "in"
	}},
	{"ease of one's own", map[string]any{"in_ease_first": 5}, func(*request) {}}, // see ownEase
	{"options", map[string]any{"options": "yes"}, func(r *request) {}},
}

// Every computed cell equals the engine's number, as made and after changes,
// by excelize's own calculation. By default each workbook is changed once, so
// that each change is made to one or two of them; in the proof all are made to all.
func TestFormulasAgree(t *testing.T) {
	ref := samples.Reference(t)
	n := 0
	for _, g := range garments {
		planned := usual(g, "cm").content(t).Plan
		for _, unit := range []string{"cm", "in"} {
			if unit == "in" && g != "one-piece-hooded" && g != "hat" {
				continue
			}
			raw := usual(g, unit).xlsx(t)
			few := changes[n%len(changes):][:1]
			if n++; proof.Whole() {
				few = changes
			}
			for _, ch := range few {
				t.Run(strings.Join([]string{g, unit, ch.name}, " "), func(t *testing.T) {
					t.Parallel()
					f, err := excelize.OpenReader(bytes.NewReader(raw), excelize.Options{RawCellValue: true})
					require.NoError(t, err)
					defer f.Close()
					r := usual(g, unit)
					ch.ask(&r)
					change := applied(t, ref, f, ch, &r)
					agree(t, ref, r, planned, change, func(sheet, cell string) (string, error) {
						return f.CalcCellValue(sheet, cell, excelize.Options{RawCellValue: true})
					})
				})
			}
		}
	}
}

// applied writes a change into the workbook, and returns the ease in cm that
// takes the place of a part's, if any.
func applied(t *testing.T, ref *sizing.Reference, f *excelize.File, ch change, r *request) (own map[string]float64) {
	t.Helper()
	parts, err := ref.Parts(r.garment)
	require.NoError(t, err)
	own = make(map[string]float64)
	for name, v := range ch.cells {
		switch name {
		case "in_ease_first":
			name = "in_ease_" + parts[0].Part
			own[parts[0].Part] = 5
			if usualUnit(t, f) == "in" {
				own[parts[0].Part] = 5 * sizing.CmPerInch
			}
		case "options":
			options, err := ref.GarmentOptions(r.garment)
			require.NoError(t, err)
			for _, o := range options {
				with := append(slices.Clone(r.making.Options), o)
				if ref.CheckOptions(r.garment, with) != nil {
					continue // it does not go with those before
				}
				r.making.Options = with
				set(t, f, "in_"+ask.OptionCell(o), v)
			}
			continue
		}
		set(t, f, name, v)
	}
	return own
}

func usualUnit(t *testing.T, f *excelize.File) string {
	sheet, cell := named(t, f, "in_entry_unit")
	v, err := f.GetCellValue(sheet, cell)
	require.NoError(t, err)
	return v
}

func set(t *testing.T, f *excelize.File, name string, v any) {
	t.Helper()
	sheet, cell := named(t, f, name)
	if v == "" {
		v = nil
	}
	require.NoError(t, f.SetCellValue(sheet, cell, v))
}

func named(t *testing.T, f *excelize.File, name string) (sheet, cell string) {
	t.Helper()
	for _, n := range f.GetDefinedName() {
		if n.Name == name {
			sheet, cell, _ = strings.Cut(n.RefersTo, "!")
			return strings.Trim(sheet, "'"), strings.ReplaceAll(cell, "$", "")
		}
	}
	t.Fatalf("no name %s", name)
	return "", ""
}

// agree compares the sheets of ease and counts with the engine.
func agree(t *testing.T, ref *sizing.Reference, r request, planned *plan.Plan, own map[string]float64, value func(sheet, cell string) (string, error)) {
	t.Helper()
	read := func(sheet, col string, row int) float64 {
		s, err := value(sheet, col+strconv.Itoa(row))
		require.NoError(t, err, "%s!%s%d", sheet, col, row)
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err, "%s!%s%d: %q", sheet, col, row, s)
		return v
	}
	body, err := ref.Estimate(r.child)
	require.NoError(t, err)
	finished, err := ref.Finish(body, r.making)
	require.NoError(t, err)
	settled := r.making // without what may change yet
	settled.Seasons, settled.Extra = 0, nil
	bare, err := ref.Finish(body, settled)
	require.NoError(t, err)
	per := 1.0
	if r.unit == "in" {
		per = sizing.CmPerInch
	}
	const ease, counts, check = "Ease and lengths", "Counts", "Check"
	for i, line := range finished.Lines {
		row, part := 5+i, line.Part.Part
		cm, inches := line.Finished, line.FinishedIn
		if v, ok := own[part]; ok {
			for _, a := range line.Ease {
				v -= a.Cm
			}
			cm, inches = cm+v, inches+v/sizing.CmPerInch
		}
		shown := cm
		if r.unit == "in" {
			shown = inches
		}
		require.InDelta(t, shown, read(ease, "J", row), written, part)
		step := map[string]float64{"cm": 0.5, "in": 0.25}[r.unit]
		require.InDelta(t, shown, read(ease, "K", row), step/2+written, part)
		require.InDelta(t, cm, read(ease, "L", row), written, part)
		require.InDelta(t, shown, read(check, "B", row), written, part)

		gauge, m, edges := r.how.Gauge, stitch.Plain, 0.0
		if p, ok := planned.Part(part); ok {
			if p.EdgesCm > 0 { // a centimetre at each side in whole rows of the gauge as it is now, and a zipper of one
				edges = 2 * gauge.HeightCm(max(2, int(math.Round(gauge.Rows(1)))))
				if part != "hood_round" {
					edges++
				}
			}
			if p.Ribbed {
				gauge = *r.how.Rib
			}
			m = p.Multiple
		}
		least := 0.0
		if len(line.Ease) > 0 {
			l, ok := bare.Line(part)
			require.True(t, ok)
			least = l.Body.Value + l.EaseLow
			for _, a := range l.Adjust {
				least += a.Cm
			}
			least = max(min(least, cm), 0)
		}
		want, err := gauge.FitWidthAtLeast(cm-edges, max(least-edges, 0), m)
		if line.Part.Dimension == "length" {
			want, err = gauge.FitHeightAtLeast(cm, least, m)
		}
		require.NoError(t, err)
		require.Equal(t, float64(want.Count), read(counts, "H", row), "%s: %v of %g cm, least %g", part, m, cm, least)
		require.InDelta(t, (want.SizeCm+edges)/per, read(counts, "I", row), written, part)
		require.InDelta(t, (want.SizeCm+edges)/per-shown, read(counts, "J", row), written, part)
		if p, ok := planned.Part(part); ok && p.Count > 0 {
			size := gauge.WidthCm(p.Count) + edges
			if p.Unit == "rows" {
				size = gauge.HeightCm(p.Count)
			}
			require.InDelta(t, size/per, read(check, "F", row), written, part)
		}
	}
}

// Every formula has its value beside it: what excelize works out, as a number
// where it is one.
func TestStoredValuesAreTheFormulas(t *testing.T) {
	few := []string{"one-piece-hooded", "hat"}
	if proof.Whole() {
		few = garments
	}
	for _, g := range few {
		f, err := excelize.OpenReader(bytes.NewReader(usual(g, "cm").xlsx(t)), excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		formulas := 0
		for _, sheet := range f.GetSheetList() {
			rows, err := f.GetRows(sheet)
			require.NoError(t, err)
			for y := range len(rows) {
				for x := range 16 {
					cell, err := excelize.CoordinatesToCellName(x+1, y+1)
					require.NoError(t, err)
					formula, err := f.GetCellFormula(sheet, cell)
					require.NoError(t, err)
					if formula == "" {
						continue
					}
					formulas++
					onlyKnown(t, formula)
					kind, err := f.GetCellType(sheet, cell)
					require.NoError(t, err)
					stored, err := f.GetCellValue(sheet, cell)
					require.NoError(t, err)
					got, err := f.CalcCellValue(sheet, cell)
					require.NoError(t, err, "%s!%s: %s", sheet, cell, formula)
					a, errA := strconv.ParseFloat(stored, 64)
					b, errB := strconv.ParseFloat(got, 64)
					if errA == nil && errB == nil && kind == excelize.CellTypeUnset {
						require.InDelta(t, a, b, written, "%s!%s: %s", sheet, cell, formula)
					} else {
						require.Equal(t, got, stored, "%s!%s: %s", sheet, cell, formula)
					}
				}
			}
		}
		require.Greater(t, formulas, 60, g)
		f.Close()
	}
}

var function = regexp.MustCompile(`([A-Z]+)\(`)

// onlyKnown keeps to the functions that every program has.
func onlyKnown(t *testing.T, formula string) {
	t.Helper()
	for _, m := range function.FindAllStringSubmatch(formula, -1) {
		require.Contains(t, []string{"INDEX", "MATCH", "ROUND", "MROUND", "IFERROR", "SUMPRODUCT", "IF", "OR", "ABS", "INT", "MIN"}, m[1], formula)
	}
}
