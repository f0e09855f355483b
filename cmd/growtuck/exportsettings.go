package main

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// Groups of settings on the first sheet of a workbook.
const (
	groupGarment = "The garment"
	groupGauge   = "Gauge, of the washed swatch"
	groupMake    = "How it is worked"
	groupFrom    = "Sizes of the chart"
)

// settings are the flags of a plan as cells of a workbook.
func (f *planFlags) settings(ref *sizing.Reference, garment, unit string, making sizing.Making, how plan.How) []workbook.Setting {
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
		{Group: groupGarment, Name: "fit", Label: "fit", Value: string(making.Fit), Words: names(sizing.Fits), Hint: "fit classes of the trade standard"},
		{Group: groupGarment, Name: "layer", Label: "worn over", Value: string(making.Layer), Words: names(sizing.Layers)},
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

		workbook.Setting{Group: groupMake, Name: "craft", Label: "craft", Value: f.how.craft, Words: names(plan.Crafts)},
		workbook.Setting{Group: groupMake, Name: "yoke", Label: "body and sleeves meet in", Value: f.how.yoke, Words: names(plan.Constructions)},
		workbook.Setting{Group: groupMake, Name: "multiple", Label: "form of the body's stitches", Value: f.how.multiple, Hint: "4n, 6n+2, even, odd; may be empty"},
		workbook.Setting{Group: groupMake, Name: "closure", Label: "a front closes with", Value: f.how.closure, Words: names(plan.Closures)},
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

// fromSettings sets the flags from the cells of a workbook.
func (f *planFlags) fromSettings(ref *sizing.Reference, in map[string]string) error {
	number := func(name string, into *float64) error {
		if in[name] == "" {
			return nil
		}
		v, err := strconv.ParseFloat(strings.ReplaceAll(in[name], ",", "."), 64)
		if err != nil {
			return fmt.Errorf("in_%s is %q: want a number", name, in[name])
		}
		*into = v
		return nil
	}
	said := func(name string) (bool, error) {
		switch in[name] {
		case "yes":
			return true, nil
		case "", "no":
			return false, nil
		}
		return false, fmt.Errorf("in_%s is %q: want yes or no", name, in[name])
	}
	garment := in["garment"]
	if garment == "" {
		return fmt.Errorf("in_garment is empty; growtuck garment lists them")
	}
	f.fit, f.layer = in["fit"], in["layer"]
	f.how.craft, f.how.yoke, f.how.multiple, f.how.closure = in["craft"], in["yoke"], in["multiple"], in["closure"]
	f.how.yarn, f.how.swatch, f.how.before = in["yarn"], in["swatch"], in["before_washing"]
	f.body.size, f.body.widths, f.body.lengths = in["size"], in["widths"], in["lengths"]
	if in["chart"] != "" {
		f.body.chart = in["chart"]
	}
	for _, n := range []struct {
		name string
		into *float64
	}{{"growth", &f.growth}, {"rib_share", &f.how.ribShare}, {"margin", &f.how.margin}, {"knits_to", &f.how.knitPer4In}} {
		if err := number(n.name, n.into); err != nil {
			return err
		}
	}
	for _, n := range []struct {
		name string
		into *bool
	}{{"nappy", &f.nappy}, {"turned", &f.how.turned}, {"linear", &f.body.linear}} {
		var err error
		if *n.into, err = said(n.name); err != nil {
			return err
		}
	}
	options, err := ref.GarmentOptions(garment)
	if err != nil {
		return err
	}
	f.options = nil
	for _, o := range options {
		on, err := said(workbook.OptionName(o))
		if err != nil {
			return err
		}
		if on {
			f.options = append(f.options, o)
		}
	}
	f.how.stretch = splitList(in["stretch"])
	f.how.zippers = nil
	for _, z := range splitList(in["zippers"]) {
		v, err := strconv.ParseFloat(z, 64)
		if err != nil {
			return fmt.Errorf("in_zippers: %q is no number", z)
		}
		f.how.zippers = append(f.how.zippers, v)
	}
	return f.gaugesFrom(in)
}

func (f *planFlags) gaugesFrom(in map[string]string) error {
	over := strings.ReplaceAll(in["gauge_over"], " ", "")
	join := func(stitches, rows string) string {
		return strings.ReplaceAll(stitches, ",", ".") + "x" + strings.ReplaceAll(rows, ",", ".") + "/" + over
	}
	if in["stitch_gauge"] == "" || in["row_gauge"] == "" {
		return fmt.Errorf("in_stitch_gauge and in_row_gauge: the gauge is not filled in")
	}
	f.how.gauge = join(in["stitch_gauge"], in["row_gauge"])
	f.how.rib = ""
	switch st, row := in["rib_stitch_gauge"], in["rib_row_gauge"]; {
	case st != "" && row != "":
		f.how.rib = join(st, row)
	case st != row:
		return fmt.Errorf("in_rib_stitch_gauge and in_rib_row_gauge: fill in both, or neither")
	}
	return nil
}

// ownEase turns the extra and the ease that were filled in into extra.
func (f *planFlags) ownEase(a *app, ref *sizing.Reference, in map[string]string, path string) error {
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
				return fmt.Errorf("%s: in_%s: %w", path, name, err)
			}
			into[part] = float64(l)
		}
	}
	if len(own) > 0 {
		making, err := f.making(in["garment"])
		if err != nil {
			return err
		}
		_, body, err := a.readBody(ref, path, f.body)
		if err != nil {
			return err
		}
		finished, err := ref.Finish(body, making)
		if err != nil {
			return err
		}
		for part, ease := range own {
			line, ok := finished.Line(part)
			if ok {
				extra[part] += ease - sum(line.Ease)
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
