package workbook

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/data"
	"growtuck/sizing"
	"growtuck/sizing/plan"
)

// Names of the sheets. They are not read back: tables are found by their
// headers, settings by defined names.
const (
	startName   = "Start"
	patternName = "Pattern"
	rowsName    = "Rows"
	pictureName = "Picture"
	childName   = "Child"
	bodyName    = "Body"
	inchesName  = "Body in inches"
	easeName    = "Ease and lengths"
	countsName  = "Counts"
	checkName   = "Check"
	gradedName  = "Graded"
	chartName   = "Chart"
	sourcesName = "Sources"
	draftName   = "Draft"
	easesName   = "Ease table"
)

// First rows of tables that formulas on other sheets refer to.
const (
	childFirst  = 6 // of the facts: name, sex, age, born, measured
	factCount   = 5
	bodyFirst   = 5
	easeFirst   = 5
	countsFirst = 5
	checkFirst  = 5
	easesFirst  = 5
)

// A layout lays one plan out. Its methods lay out a sheet each.
type layout struct {
	Content
	unitCm       float64 // of columns to fill in
	measurements []data.Measurement
	combos       []combo
	nappies      []bool
	splits       []split     // of lines
	monthly      [][]float64 // growth room of lines in cm, in whole months
}

// A combo is a fit, what is worn underneath, and whether over a nappy.
type combo struct {
	fit   sizing.Fit
	layer sizing.Layer
	nappy bool
}

func newLayout(c Content) (*layout, error) {
	if c.Reference == nil || c.Finished == nil || c.Plan == nil {
		return nil, errors.New("a workbook needs a plan; there is none")
	}
	l := &layout{Content: c, unitCm: 1, measurements: worthFirst(c.Reference.Measurements()), nappies: []bool{false, true}}
	switch c.Unit {
	case "in":
		l.unitCm = sizing.CmPerInch
	case "cm":
	default:
		return nil, fmt.Errorf("unit %q is not cm or in", c.Unit)
	}
	if !l.nappyMatters() {
		l.nappies = l.nappies[:1]
	}
	for _, f := range sizing.Fits {
		for _, layer := range sizing.Layers {
			for _, n := range l.nappies {
				l.combos = append(l.combos, combo{f, layer, n})
			}
		}
	}
	l.splits = l.lengthSplits()
	l.monthly = l.growthByMonth()
	return l, nil
}

// lines are the finished measurements.
func (l *layout) lines() []sizing.Line { return l.Finished.Lines }

// planned returns the part as planned, by its place in lines.
func (l *layout) planned(i int) (plan.Part, bool) { return l.Plan.Part(l.lines()[i].Part.Part) }

// childRow is the row of a measurement on the child's sheet, below its heading.
func (l *layout) childRow(measurement string) int {
	i := l.order(measurement)
	headings := 1
	if i >= len(ask.WorthMost) {
		headings = 2
	}
	return childFirst + factCount + headings + i
}

// factRow is the row of a fact of the child.
func (l *layout) factRow(fact string) int {
	return childFirst + slices.Index([]string{"name", "sex", "age", "born", "measured"}, fact)
}

func (l *layout) order(measurement string) int {
	return slices.IndexFunc(l.measurements, func(m data.Measurement) bool { return m.ID == measurement })
}

// bodyRow is the row of a measurement among those that are known.
func (l *layout) bodyRow(measurement string) int {
	return bodyFirst + slices.IndexFunc(l.Finished.Body.Readings, func(r sizing.Reading) bool { return r.Measurement.ID == measurement })
}

// wearer is the heading of the child's column.
func wearer(c sizing.Child) string {
	switch {
	case c.Name != "":
		return shortened(c.Name)
	case len(c.Own) > 0:
		return "the child"
	}
	return "this body"
}

// shortened is a name that fits over a column, whole words where it can be. The
// whole name is on the first sheet and on that of the child.
func shortened(name string) string {
	const most = 24
	letters := []rune(name)
	if len(letters) <= most {
		return name
	}
	short := string(letters[:most-1])
	if i := strings.LastIndexByte(short, ' '); i > len(short)/2 {
		short = short[:i]
	}
	return strings.TrimRight(short, " ,-") + "…"
}

// Formulas ask cell&""="" whether a cell is empty: excelize's own calculation
// does not take an empty cell for "".

// perUnit is the formula that brings a length in cm into the unit chosen.
const perUnit = "/unit_cm"

// inUnit brings cm to the unit that is shown at first.
func (l *layout) inUnit(cm float64) float64 { return cm / l.unitCm }

// finished is a finished measurement in that unit.
func (l *layout) finished(line sizing.Line) float64 {
	if l.Unit == "in" {
		return line.FinishedIn
	}
	return line.Finished
}

// factor is the formula that brings a cell to fill in into cm.
func (l *layout) factor() string {
	if l.unitCm == 1 {
		return ""
	}
	return "*" + literal(l.unitCm)
}

// unitNote says in titles where the unit is chosen.
const unitNote = "in the unit chosen on " + startName

// lengths makes the conditions by which cells follow the unit chosen.
func lengths(cells string, inInches style) condition {
	return condition{cells, `in_unit="in"`, inInches}
}

// lineOf finds the line of a part.
func lineOf(part string) func(sizing.Line) bool {
	return func(line sizing.Line) bool { return line.Part.Part == part }
}
