package main

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

// Groups of settings on the first sheet of a workbook.
const (
	groupGarment = "The garment"
	groupGauge   = "Gauge, of the washed swatch"
	groupMake    = "How it is worked"
	groupFrom    = "Sizes of the chart"
)

// settings are the flags of a plan as cells of a workbook.
func (f *planFlags) settings(ref *sizing.Reference, garment, unit string, making sizing.Spec, how plan.How) []workbook.Setting {
	yes := func(b bool) string {
		if b {
			return "yes"
		}
		return "no"
	}
	yesNo := []string{"yes", "no"}
	var garments []string
	for _, g := range ref.Garments() {
		garments = append(garments, g.ID)
	}
	all := []workbook.Setting{
		{Group: groupGarment, Name: "unit", Label: "show lengths in", Value: unit, Words: []string{"cm", "in"}, Hint: "changes what is shown, never the garment"},
		{Group: groupGarment, Name: "entry_unit", Label: "own lengths are in", Value: unit, Words: []string{unit}, Hint: "what you fill in as ease, extra and length; fixed when this was made"},
		{Group: groupGarment, Name: "garment", Label: "garment", Value: garment, Words: garments, Hint: "another garment needs growtuck plan THIS-FILE"},
		{Group: groupGarment, Name: "fit", Label: "fit", Value: string(making.Fit), Words: sizing.Words(sizing.Fits), Hint: "fit classes of the trade standard"},
		{Group: groupGarment, Name: "layer", Label: "worn over", Value: string(making.Layer), Words: sizing.Words(sizing.Layers)},
		{Group: groupGarment, Name: "nappy", Label: "worn over a nappy", Value: yes(making.Nappy), Words: yesNo},
		{Group: groupGarment, Name: "growth", Label: "growth room, half-years", Value: making.Seasons, Low: 0, High: 4},
	}
	options, err := ref.GarmentOptions(garment)
	if err == nil {
		for _, o := range options {
			all = append(all, workbook.Setting{Group: groupGarment, Name: workbook.OptionName(o), Label: strings.ReplaceAll(o, "-", " "),
				Value: yes(slices.Contains(making.Options, o)), Words: yesNo})
		}
	}
	gauge, over := gaugeCells(how.Gauge.StitchesPer10Cm, how.Gauge.RowsPer10Cm, f.how.gauge)
	all = append(all,
		workbook.Setting{Group: groupGauge, Name: "stitch_gauge", Label: "stitches", Value: gauge[0], Low: 1, High: 200},
		workbook.Setting{Group: groupGauge, Name: "row_gauge", Label: "rows", Value: gauge[1], Low: 1, High: 200},
		workbook.Setting{Group: groupGauge, Name: "gauge_over", Label: "over", Value: over, Words: []string{"10 cm", "4 in"}})
	rib := [2]any{}
	if how.Rib != nil {
		per := 1.0
		if over == "4 in" {
			per = 1.016
		}
		rib = [2]any{how.Rib.StitchesPer10Cm * per, how.Rib.RowsPer10Cm * per}
	}
	return append(all,
		workbook.Setting{Group: groupGauge, Name: "rib_stitch_gauge", Label: "ribbing, stitches", Value: rib[0], Low: 1, High: 200, Hint: "empty: as the fabric"},
		workbook.Setting{Group: groupGauge, Name: "rib_row_gauge", Label: "ribbing, rows", Value: rib[1], Low: 1, High: 200, Hint: "empty: as the fabric"},
		workbook.Setting{Group: groupGauge, Name: "before_washing", Label: "before washing", Value: f.how.before, Hint: "stitches x rows, as 18x24/10cm; may be empty"},

		workbook.Setting{Group: groupMake, Name: "craft", Label: "craft", Value: f.how.craft, Words: sizing.Words(plan.Crafts)},
		workbook.Setting{Group: groupMake, Name: "yoke", Label: "body and sleeves meet in", Value: f.how.yoke, Words: sizing.Words(plan.Constructions)},
		workbook.Setting{Group: groupMake, Name: "multiple", Label: "form of the body's stitches", Value: f.how.multiple, Hint: "4n, 6n+2, even, odd; may be empty"},
		workbook.Setting{Group: groupMake, Name: "closure", Label: "a front closes with", Value: f.how.closure, Words: sizing.Words(plan.Closures)},
		workbook.Setting{Group: groupMake, Name: "hood", Label: "the top of a hood", Value: f.how.hood, Words: sizing.Words(plan.Hoods), Hint: "where there is one"},
		workbook.Setting{Group: groupMake, Name: "turned", Label: "narrow tubes in turned rows", Value: yes(f.how.turned), Words: yesNo},
		workbook.Setting{Group: groupMake, Name: "rib_share", Label: "share of stitches for ribbing", Value: orEmpty(f.how.ribShare), Low: 0.5, High: 1, Hint: "empty: 0.9"},
		workbook.Setting{Group: groupMake, Name: "stretch", Label: "how many times edges stretch", Value: strings.Join(f.how.stretch, ", "), Hint: "as measured: 1.5, or neck=1.4, cuff=1.3; may be empty"},
		workbook.Setting{Group: groupMake, Name: "zippers", Label: "stocked zippers, in", Value: joinNumbers(f.how.zippers), Hint: "12, 14, 16; may be empty"},
		workbook.Setting{Group: groupMake, Name: "yarn", Label: "a ball", Value: f.how.yarn, Hint: "50g 125m; may be empty"},
		workbook.Setting{Group: groupMake, Name: "swatch", Label: "a swatch", Value: f.how.swatch, Hint: "10x10cm 4g; may be empty"},
		workbook.Setting{Group: groupMake, Name: "margin", Label: "share of yarn to spare", Value: orEmpty(f.how.margin), Low: 0, High: 1, Hint: "empty: 0.1, with a hood 0.2"},
		workbook.Setting{Group: groupMake, Name: "knits_to", Label: "stitches over 4 in it knits to", Value: orEmpty(f.how.knitPer4In), Low: 0, High: 60, Hint: "on the yarn's band; may be empty"},

		workbook.Setting{Group: groupFrom, Name: "size", Label: "all not measured from size", Value: f.body.size, Hint: "empty: estimated from the child"},
		workbook.Setting{Group: groupFrom, Name: "widths", Label: "or widths from size", Value: f.body.widths},
		workbook.Setting{Group: groupFrom, Name: "lengths", Label: "and lengths from size", Value: f.body.lengths},
		workbook.Setting{Group: groupFrom, Name: "chart", Label: "chart", Value: f.body.chart},
		workbook.Setting{Group: groupFrom, Name: "linear", Label: "straight between sizes", Value: yes(f.body.linear), Words: yesNo},
		workbook.Setting{Group: groupFrom, Name: "sizes", Label: "sizes of the graded table", Value: strings.Join(f.sizes, ", ")})
}

// gaugeCells are the counts of a gauge as they were counted.
func gaugeCells(stitches, rows float64, flag string) (counts [2]any, over string) {
	if strings.HasSuffix(strings.Join(strings.Fields(flag), ""), "/4in") {
		return [2]any{neat(stitches * 1.016), neat(rows * 1.016)}, "4 in"
	}
	return [2]any{stitches, rows}, "10 cm"
}

// neat takes off what the division by the width left.
func neat(v float64) float64 {
	s := strconv.FormatFloat(v, 'g', 12, 64)
	n, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return v
	}
	return n
}

func orEmpty(v float64) any {
	if v == 0 {
		return nil
	}
	return v
}

func joinNumbers(values []float64) string {
	var out []string
	for _, v := range values {
		out = append(out, strconv.FormatFloat(v, 'f', -1, 64))
	}
	return strings.Join(out, ", ")
}

// splitList reads words parted by commas or blanks.
func splitList(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ';' || r == ' ' })
}

// A settingsReader reads the cells of a workbook. It keeps the first fault.
type settingsReader struct {
	book *workbook.File
	in   map[string]string
	err  error
}

func (r *settingsReader) fault(name, format string, args ...any) {
	if r.err == nil {
		r.err = r.book.SettingError(name, fmt.Sprintf(format, args...))
	}
}

// word reads one of some words, in capitals or not, as the formulas take it.
func (r *settingsReader) word(name string, into *string, words []string) {
	for _, w := range words {
		if strings.EqualFold(r.in[name], w) {
			*into = w
			return
		}
	}
	if r.in[name] == "" {
		r.fault(name, "is empty; want one of %s", strings.Join(words, ", "))
		return
	}
	r.fault(name, "%q: want one of %s", r.in[name], strings.Join(words, ", "))
}

func (r *settingsReader) number(name string, into *float64) {
	if r.in[name] == "" {
		return
	}
	v, err := strconv.ParseFloat(withPoint(r.in[name]), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		r.fault(name, "%q: want a number", r.in[name])
		return
	}
	*into = v
}

func (r *settingsReader) said(name string) bool {
	if r.in[name] == "" {
		return false
	}
	var answer string
	r.word(name, &answer, []string{"no", "yes"})
	return answer == "yes"
}

// parsed reads text that a parser takes, or none.
func parsed[T any](r *settingsReader, name string, into *string, parse func(string) (T, error)) {
	*into = r.in[name]
	if *into == "" {
		return
	}
	if _, err := parse(*into); err != nil {
		r.fault(name, "%v", err)
	}
}

// withPoint writes a decimal comma as a point.
func withPoint(s string) string { return strings.ReplaceAll(s, ",", ".") }

// fromSettings sets the flags from the cells of a workbook.
func (f *planFlags) fromSettings(ref *sizing.Reference, book *workbook.File, in map[string]string) (garment string, err error) {
	r := &settingsReader{book: book, in: in}
	var garments []string
	for _, g := range ref.Garments() {
		garments = append(garments, g.ID)
	}
	r.word("garment", &garment, garments)
	r.word("fit", &f.fit, sizing.Words(sizing.Fits))
	r.word("layer", &f.layer, sizing.Words(sizing.Layers))
	r.word("craft", &f.how.craft, sizing.Words(plan.Crafts))
	r.word("yoke", &f.how.yoke, sizing.Words(plan.Constructions))
	r.word("closure", &f.how.closure, sizing.Words(plan.Closures))
	if in["hood"] != "" {
		r.word("hood", &f.how.hood, sizing.Words(plan.Hoods))
	}
	parsed(r, "multiple", &f.how.multiple, stitch.ParseMultiple)
	parsed(r, "yarn", &f.how.yarn, plan.ParseBall)
	parsed(r, "swatch", &f.how.swatch, plan.ParseSwatch)
	parsed(r, "before_washing", &f.how.before, plan.ParseGauge)
	f.body.size, f.body.widths, f.body.lengths = in["size"], in["widths"], in["lengths"]
	if in["chart"] != "" {
		parsed(r, "chart", &f.body.chart, ref.Chart)
	}
	r.number("growth", &f.growth)
	r.number("rib_share", &f.how.ribShare)
	r.number("margin", &f.how.margin)
	r.number("knits_to", &f.how.knitPer4In)
	if f.growth < 0 || f.growth > 4 {
		r.fault("growth", "%g: want half-years, 0 to 4", f.growth)
	}
	f.nappy, f.how.turned, f.body.linear = r.said("nappy"), r.said("turned"), r.said("linear")
	if r.err != nil {
		return garment, r.err
	}
	options, err := ref.GarmentOptions(garment)
	if err != nil {
		return garment, err
	}
	f.options = nil
	for _, o := range options {
		if r.said(workbook.OptionName(o)) {
			f.options = append(f.options, o)
		}
	}
	f.how.stretch = plan.SplitStretch(in["stretch"])
	if _, err := readStretch(f.how.stretch); err != nil {
		r.fault("stretch", "%q: want how many times, as 1.5 or neck=1.4", in["stretch"])
	}
	f.how.zippers = nil
	for _, z := range splitList(in["zippers"]) {
		v, err := strconv.ParseFloat(z, 64)
		if err != nil {
			r.fault("zippers", "%q is no number; want inches, as 12, 14", z)
		}
		f.how.zippers = append(f.how.zippers, v)
	}
	f.gaugesFrom(r)
	return garment, r.err
}

func (f *planFlags) gaugesFrom(r *settingsReader) {
	var over string // as the formulas know it
	r.word("gauge_over", &over, []string{"10 cm", "4 in"})
	over = strings.ReplaceAll(over, " ", "")
	pair := func(stitches, rows string) string {
		for _, name := range []string{stitches, rows} {
			var v float64
			if r.number(name, &v); r.in[name] == "" {
				r.fault(name, "is empty; want the count over the washed swatch")
			}
		}
		gauge := withPoint(r.in[stitches]) + "x" + withPoint(r.in[rows]) + "/" + over
		if _, err := plan.ParseGauge(gauge); err != nil {
			r.fault(stitches, "%v", err)
		}
		return gauge
	}
	f.how.gauge, f.how.rib = pair("stitch_gauge", "row_gauge"), ""
	if r.in["rib_stitch_gauge"] != "" || r.in["rib_row_gauge"] != "" {
		f.how.rib = pair("rib_stitch_gauge", "rib_row_gauge")
	}
}

// ownEase turns the extra and the ease that were filled in into extra.
func (f *planFlags) ownEase(a *app, ref *sizing.Reference, book *workbook.File, in map[string]string, garment, path string) error {
	unit := in["entry_unit"]
	f.extra = nil
	extra := make(map[string]float64)
	own := make(map[string]float64)
	for _, name := range slices.Sorted(maps.Keys(in)) {
		for prefix, into := range map[string]map[string]float64{"extra_": extra, "ease_": own} {
			part, ok := strings.CutPrefix(name, prefix)
			if !ok {
				continue
			}
			l, err := sizing.ParseLength(in[name], unit)
			if err != nil {
				return book.SettingError(name, err.Error())
			}
			into[part] = float64(l)
		}
	}
	if len(own) > 0 {
		making, err := f.making(ref, garment)
		if err != nil {
			return err
		}
		_, finished, err := a.finish(ref, path, f.body, making)
		if err != nil {
			return err
		}
		for part, ease := range own {
			line, ok := finished.Line(part)
			if ok {
				extra[part] += ease - sizing.TotalCm(line.Ease)
			}
		}
	}
	for _, part := range slices.Sorted(maps.Keys(extra)) {
		if extra[part] != 0 {
			f.extra = append(f.extra, part+"="+strconv.FormatFloat(extra[part], 'f', -1, 64)+"cm")
		}
	}
	return nil
}
