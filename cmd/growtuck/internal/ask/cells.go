package ask

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// A Cell is a field as a cell of a workbook. It is read back by its name.
type Cell struct {
	Group, Name, Label string
	Value              any      // string, float64 or nil
	Words              []string // that it takes; none: free
	Low, High          float64  // that a number lies between; both 0: free
	Hint               string
}

var yesNo = []string{"yes", "no"}

// OptionCell names the cell of an option of the garment.
func OptionCell(option string) string { return "option_" + underscored(option) }

// The prefixes of the cells of extra length of a part, and of its own ease.
const (
	ExtraCell = "extra_"
	EaseCell  = "ease_"
)

func underscored(name string) string { return strings.ReplaceAll(name, "-", "_") }

// CellOf names the cell that a fault is about.
func (f *Fault) CellOf() string {
	switch f.Field {
	case "gauge":
		return "stitch_gauge"
	case "rib":
		return "rib_stitch_gauge"
	case "extra":
		return ExtraCell + f.Key
	}
	return underscored(f.Field)
}

// Cells are the fields as cells of a workbook whose lengths are in unit: the
// garment, the gauge, how it is worked and the sizes, as they were asked for. sizes
// are those of the graded table.
func (r *Request) Cells(unit string, sizes []string) []Cell {
	all := []Cell{
		{Group: string(Garment), Name: "unit", Label: "show lengths in", Value: unit, Words: []string{"cm", "in"}, Hint: "changes only what is shown"},
		{Group: string(Garment), Name: "entry_unit", Label: "own lengths are in", Value: unit, Words: []string{unit}, Hint: "unit of the ease, extra and lengths that you fill in; fixed when this was made"},
	}
	for _, group := range []Group{Garment, Swatch, Making, Sizes, Progress} {
		for _, f := range Of(group) {
			if f.Cell {
				all = append(all, r.cells(f, sizes)...)
			}
		}
	}
	return all
}

func (r *Request) cells(f Field, sizes []string) []Cell {
	c := Cell{Group: string(f.Group), Name: underscored(f.Name), Label: f.Label, Words: f.Choices, Low: f.Low, High: f.High, Hint: f.Hint}
	switch {
	case f.Name == "gauge":
		return r.gaugeCells()
	case f.Name == "rib":
		return r.ribCells(f)
	case f.Name == "option":
		return r.optionCells()
	case f.Name == "extra", f.Name == "ease": // they are on the sheet of ease
		return nil
	case f.Name == "fit": // it may follow the ease that was asked for
		c.Value = string(r.Spec.Fit)
	case f.Name == "growth": // it may follow the dates that were asked for
		c.Value = r.Spec.Seasons
	case f.Name == "wear":
		if r.Spec.Wear > 0 {
			c.Value = sizing.FormatExact(r.Spec.Wear) + "m"
		}
	case f.Name == "until", f.Name == "grow": // they are in the growth room
	case f.Name == "garment":
		c.Value, c.Words, c.Hint = r.Spec.Garment, f.Known(r.ref), "after a change run growtuck plan THIS-FILE"
	case f.Name == "sizes":
		c.Value = strings.Join(sizes, ", ")
	case f.Kind == YesNo:
		c.Value, c.Words = "no", yesNo
		if on, _ := truth(r.first(f.Name)); on {
			c.Value = "yes"
		}
	case f.Kind == Number:
		if v, err := sizing.ParseNumber(r.first(f.Name)); err == nil {
			c.Value = v
		}
	case f.Kind == List:
		c.Value = strings.Join(split(r.values[f.Name]), ", ")
	case f.Many:
		c.Value = strings.Join(r.values[f.Name], ", ")
	default:
		c.Value = r.first(f.Name)
	}
	return []Cell{c}
}

const fourInches = 4 * sizing.CmPerInch / 10 // in widths of 10 cm

func (r *Request) gaugeCells() []Cell {
	stitches, rows := r.counted(r.How.Gauge)
	over := "10 cm"
	if r.Over4In() {
		over = "4 in"
	}
	group := string(Swatch)
	return []Cell{
		{Group: group, Name: "stitch_gauge", Label: "stitches", Value: stitches, Low: 1, High: 200},
		{Group: group, Name: "row_gauge", Label: "rows", Value: rows, Low: 1, High: 200},
		{Group: group, Name: "gauge_over", Label: "over", Value: over, Words: []string{"10 cm", "4 in"}},
	}
}

// counted are the stitches and rows of a gauge over the width that was counted.
func (r *Request) counted(g stitch.Gauge) (stitches, rows float64) {
	if r.Over4In() {
		return neat(g.StitchesPer10Cm * fourInches), neat(g.RowsPer10Cm * fourInches)
	}
	return g.StitchesPer10Cm, g.RowsPer10Cm
}

// Over4In reports whether the gauge was counted over 4 inches.
func (r *Request) Over4In() bool {
	_, over, _ := strings.Cut(r.first("gauge"), "/")
	l, err := sizing.ParseLength(over[strings.LastIndexByte(over, '/')+1:], "cm")
	return err == nil && l == 4*sizing.CmPerInch
}

func (r *Request) ribCells(f Field) []Cell {
	var stitches, rows any
	if rib := r.How.Rib; rib != nil {
		stitches, rows = r.counted(*rib)
	}
	return []Cell{
		{Group: string(Swatch), Name: "rib_stitch_gauge", Label: "ribbing, stitches", Value: stitches, Low: 1, High: 200, Hint: f.Hint},
		{Group: string(Swatch), Name: "rib_row_gauge", Label: "ribbing, rows", Value: rows, Low: 1, High: 200, Hint: f.Hint},
	}
}

func (r *Request) optionCells() []Cell {
	options, err := r.ref.GarmentOptions(r.Spec.Garment)
	if err != nil {
		return nil
	}
	var all []Cell
	for _, o := range options {
		c := Cell{Group: string(Garment), Name: OptionCell(o), Label: spaced(o), Value: "no", Words: yesNo}
		if slices.Contains(r.Spec.Options, o) {
			c.Value = "yes"
		}
		all = append(all, c)
	}
	return all
}

// neat removes the rounding error of the division by the width.
func neat(v float64) float64 {
	n, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 12, 64), 64)
	if err != nil {
		return v
	}
	return n
}

// FromCells turns the cells of a workbook, by their names, into what was given for
// the fields.
func FromCells(ref *sizing.Reference, cells map[string]string) (Values, Faults) {
	c := cellReader{cells: cells, values: make(Values)}
	c.over = strings.ReplaceAll(c.word("gauge_over", []string{"10 cm", "4 in"}), " ", "")
	for _, group := range []Group{Garment, Swatch, Making, Sizes, Progress} {
		for _, f := range Of(group) {
			if f.Cell {
				c.read(ref, f)
			}
		}
	}
	for part, cm := range c.lengths(EaseCell) {
		c.values.Add("ease", part+"="+sizing.FormatExact(cm)+"cm")
	}
	slices.Sort(c.values["ease"])
	for part, cm := range c.lengths(ExtraCell) {
		c.values.Add("extra", part+"="+sizing.FormatExact(cm)+"cm")
	}
	slices.Sort(c.values["extra"])
	return c.values, c.faults
}

type cellReader struct {
	cells  map[string]string
	over   string // that gauges are counted over
	values Values
	faults Faults
}

func (c *cellReader) fault(cell, format string, args ...any) {
	c.faults = append(c.faults, &Fault{Field: cell, Err: fmt.Errorf(format, args...)})
}

func (c *cellReader) read(ref *sizing.Reference, f Field) {
	name := underscored(f.Name)
	said, there := c.cells[name]
	switch {
	case f.Name == "gauge":
		c.values.Add("gauge", c.gauge("stitch_gauge", "row_gauge"))
	case f.Name == "rib":
		if c.cells["rib_stitch_gauge"] != "" || c.cells["rib_row_gauge"] != "" {
			c.values.Add("rib", c.gauge("rib_stitch_gauge", "rib_row_gauge"))
		}
	case f.Name == "option":
		c.options(ref)
	case f.Name == "garment":
		c.values.Add(f.Name, c.word(name, f.Known(ref)))
	case f.Kind == Choice && there:
		c.values.Add(f.Name, c.word(name, f.Choices))
	case f.Kind == YesNo && said != "":
		c.values.Add(f.Name, c.word(name, yesNo))
	case f.Name == "stretch":
		for _, s := range SplitStretch(said) {
			c.values.Add(f.Name, s)
		}
	case f.Group == Progress && f.Kind == Pairs:
		for _, s := range f.SplitPairs(said, c.cells["entry_unit"]) {
			c.values.Add(f.Name, s)
		}
	default:
		c.values.Add(f.Name, said)
	}
}

// word reads one of some words; like the formulas it ignores case.
func (c *cellReader) word(cell string, words []string) string {
	said := c.cells[cell]
	for _, w := range words {
		if strings.EqualFold(said, w) {
			return w
		}
	}
	if said == "" {
		c.fault(cell, "is empty; want one of %s", strings.Join(words, ", "))
	} else {
		c.fault(cell, "%.80q: want one of %s", said, strings.Join(words, ", "))
	}
	return ""
}

func (c *cellReader) options(ref *sizing.Reference) {
	options, err := ref.GarmentOptions(c.cells["garment"])
	if err != nil {
		return // the fault of the garment is reported
	}
	for _, o := range options {
		if cell := OptionCell(o); c.cells[cell] != "" && c.word(cell, yesNo) == "yes" {
			c.values.Add("option", o)
		}
	}
}

// gauge joins the counts of a gauge; "" where one is missing or wrong.
func (c *cellReader) gauge(stitches, rows string) string {
	counts := [2]string{}
	for i, cell := range []string{stitches, rows} {
		said := strings.Replace(c.cells[cell], ",", ".", 1)
		if said == "" {
			c.fault(cell, "is empty; want the count over the washed swatch")
			return ""
		}
		if _, err := sizing.ParseNumber(said); err != nil {
			c.fault(cell, "%w", err)
			return ""
		}
		counts[i] = said
	}
	return Join(counts[0], counts[1], c.over)
}

// Join writes a gauge: stitches x rows over a length.
func Join(stitches, rows, over string) string { return stitches + "x" + rows + "/" + over }

// lengths are the lengths of the cells of parts that are filled in.
func (c *cellReader) lengths(prefix string) map[string]float64 {
	all := make(map[string]float64)
	for name, said := range c.cells {
		part, ok := strings.CutPrefix(name, prefix)
		if !ok || said == "" {
			continue
		}
		l, err := sizing.ParseLength(said, c.cells["entry_unit"])
		if err != nil {
			c.fault(name, "%w", err)
			continue
		}
		all[part] = float64(l)
	}
	return all
}

// SplitStretch splits a list of stretches, such as "1.5" or "neck=1,4, cuff=1.3": a
// comma between digits is a decimal comma.
func SplitStretch(s string) []string {
	var all []string
	start := 0
	for i, r := range s {
		if r == ',' && i > 0 && i+1 < len(s) && digit(s[i-1]) && digit(s[i+1]) || r != ',' && r != ';' && r != ' ' {
			continue
		}
		if start < i {
			all = append(all, s[start:i])
		}
		start = i + 1
	}
	if start < len(s) {
		all = append(all, s[start:])
	}
	for i := range all {
		all[i] = strings.Replace(all[i], ",", ".", 1)
	}
	return all
}

func digit(b byte) bool { return b >= '0' && b <= '9' }
