package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strconv"

	"growtuck/data"
)

// A variable is one measurement of the relations tables: its identifier, and
// the column of the survey file it is read from. A variable without a column
// is derived from others.
type variable struct {
	id     string
	column string
}

// variables lists the measurements in the order the tables are written.
var variables = []variable{
	{"weight", "weight_kg"},
	{"head", "head_circumference"},
	{"neck", "neck"},
	{"shoulder_breadth", "shoulder_breadth_biacromial"},
	{"chest", "chest"},
	{"waist", "waist_natural"},
	{"waist_navel", "waist_umbilicus_level"},
	{"hip", "hips"},
	{"upper_arm", "upper_arm"},
	{"forearm", "forearm"},
	{"wrist", "wrist"},
	{"thigh", "upper_thigh"},
	{"calf", "calf"},
	{"ankle", "ankle"},
	{"arm_length", ""},
	{"inside_leg", ""},
	{"suprasternale_height", "suprasternale_height"},
	{"waist_height", "waist_height"},
	{"hand_length", "hand_length"},
	{"hand_breadth", "hand_breadth"},
	{"foot_length", "foot_length"},
	{"foot_breadth", "foot_breadth"},
}

// variableIndex returns the place of an identifier in variables, or -1.
func variableIndex(id string) int {
	return slices.IndexFunc(variables, func(v variable) bool { return v.id == id })
}

// A child is one record of the survey. Lengths and girths are in centimetres,
// weight in kilograms; a value that was not measured is NaN.
type child struct {
	cycle  string    // of the examinations; "" in the survey
	sex    string    // m or f
	age    float64   // years
	height float64   // standing height
	values []float64 // parallel to variables
}

// youngest is the age in years from which the survey measured standing height.
const youngest = 2.0

// insideLegShare turns the leg length below the seat (stature less sitting
// height) into an inside leg. The survey has no crotch height; the charts use
// the same share.
const insideLegShare = 0.97

// openSurvey reads the survey file at path.
func openSurvey(path string) ([]child, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return readSurvey(f, path)
}

// readSurvey reads the survey file described in the package comment. Children
// without a standing height, or under two years, are left out; those whose age
// was not noted are kept, because every record of this survey file is of a
// child who was measured standing. A fault is a [*data.Error] in the file named.
func readSurvey(r io.Reader, name string) ([]child, error) {
	cr := csv.NewReader(r)
	column, err := readHeader(cr, name, requiredColumns())
	if err != nil {
		return nil, err
	}

	var children []child
	var limbs []limb
	for {
		record, err := cr.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, csvFault(name, err)
		}
		row := surveyRow{name: name, csv: cr, record: record, column: column}
		c, l, err := row.child()
		if err != nil {
			return nil, err
		}
		if c.age < youngest || math.IsNaN(c.height) {
			continue
		}
		children = append(children, c)
		limbs = append(limbs, l)
	}
	if len(children) == 0 {
		return nil, &data.Error{File: name, Msg: "no child of two years or more with a height"}
	}
	setArmLengths(children, limbs)
	return children, nil
}

// csvFault places an error of the CSV reader in the file.
func csvFault(name string, err error) error {
	var p *csv.ParseError
	switch {
	case errors.As(err, &p):
		return &data.Error{File: name, Line: p.Line, Column: p.Column, Msg: p.Err.Error()}
	case errors.Is(err, io.EOF):
		return &data.Error{File: name, Line: 1, Msg: "no header; want columns sex, age_years, stature and the others"}
	}
	return &data.Error{File: name, Msg: err.Error()}
}

// readHeader reads the header of a file of records: the place of each column by its
// name. A column that is wanted and not there is a [*data.Error].
func readHeader(cr *csv.Reader, name string, wanted []string) (map[string]int, error) {
	header, err := cr.Read()
	if err != nil {
		return nil, csvFault(name, err)
	}
	column := make(map[string]int, len(header))
	for i, h := range header {
		column[h] = i
	}
	for _, want := range wanted {
		if _, ok := column[want]; !ok {
			return nil, &data.Error{File: name, Line: 1, Msg: fmt.Sprintf("the header has no column %q", want)}
		}
	}
	return column, nil
}

// requiredColumns names every column that readSurvey uses.
func requiredColumns() []string {
	names := []string{"sex", "age_years", "stature", "sitting_height", "shoulder_elbow_length",
		"elbow_hand_length", "acromion_radiale_length", "radiale_stylion_length"}
	for _, v := range variables {
		if v.column != "" {
			names = append(names, v.column)
		}
	}
	return names
}

// A surveyRow is the record that csv last read.
type surveyRow struct {
	name   string
	csv    *csv.Reader
	record []string
	column map[string]int
}

func (r surveyRow) fault(column, want string) error {
	i := r.column[column]
	line, at := r.csv.FieldPos(i)
	return &data.Error{File: r.name, Line: line, Column: at, Msg: fmt.Sprintf("%s: %q; want %s", column, r.record[i], want)}
}

// number returns a cell, or NaN if it is empty or zero, which is how the
// survey marks what was not measured.
func (r surveyRow) number(column string) (float64, error) {
	text := r.record[r.column[column]]
	if text == "" {
		return math.NaN(), nil
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || v < 0 || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, r.fault(column, "a positive number, or nothing if not measured")
	}
	if v == 0 {
		return math.NaN(), nil
	}
	return v, nil
}

func (r surveyRow) child() (child, limb, error) {
	sex := r.record[r.column["sex"]]
	if sex != "m" && sex != "f" {
		return child{}, limb{}, r.fault("sex", "m or f")
	}
	var firstErr error
	number := func(column string) float64 {
		v, err := r.number(column)
		if err != nil && firstErr == nil {
			firstErr = err
		}
		return v
	}
	c := child{sex: sex, age: number("age_years"), height: number("stature"), values: make([]float64, len(variables))}
	for i, v := range variables {
		c.values[i] = math.NaN()
		if v.column != "" {
			c.values[i] = number(v.column)
		}
	}
	c.values[variableIndex("inside_leg")] = insideLegShare * (c.height - number("sitting_height"))
	l := limb{
		bones:    number("acromion_radiale_length") + number("radiale_stylion_length"),
		segments: number("shoulder_elbow_length") + number("elbow_hand_length") - number("hand_length"),
	}
	return c, l, firstErr
}

// A limb holds the two ways the survey gives the length of an arm: bone to
// bone, on a third of the children; and on nearly all of them the segments from
// shoulder to elbow and elbow to fingertip, less the hand.
type limb struct {
	bones    float64
	segments float64
}

// setArmLengths gives each child the arm length from shoulder bone to wrist
// bone where it was measured, and elsewhere the segments times the median ratio
// of the two among the children of the same sex who have both. (Boys' shoulders
// differ from girls': 0.924 against 0.902 in the survey.)
func setArmLengths(children []child, limbs []limb) {
	ratios := make(map[string][]float64)
	for i, l := range limbs {
		if q := l.bones / l.segments; !math.IsNaN(q) {
			ratios[children[i].sex] = append(ratios[children[i].sex], q)
		}
	}
	share := make(map[string]float64)
	for _, sex := range []string{"m", "f"} {
		slices.Sort(ratios[sex])
		share[sex] = percentile(ratios[sex], 0.5)
	}
	arm := variableIndex("arm_length")
	for i, l := range limbs {
		children[i].values[arm] = l.bones
		if math.IsNaN(l.bones) {
			children[i].values[arm] = share[children[i].sex] * l.segments
		}
	}
}

// value returns a measurement by its identifier, height included, or NaN
// where the child has none.
func (c child) value(id string) float64 {
	if id == "height" {
		return c.height
	}
	if v := variableIndex(id); v >= 0 {
		return c.values[v]
	}
	return math.NaN()
}

// ofSex returns the children of one sex; "both" returns all of them.
func ofSex(children []child, sex string) []child {
	if sex == "both" {
		return children
	}
	var some []child
	for _, c := range children {
		if c.sex == sex {
			some = append(some, c)
		}
	}
	return some
}
