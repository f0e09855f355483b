package main

import (
	"compress/gzip"
	"encoding/csv"
	"errors"
	"io"
	"math"
	"os"
	"slices"
	"strings"

	"growtuck/data"
)

// todayID is the identifier of the examinations among the sources.
const todayID = "nhanes"

// examined are the measurements of the examinations that the charts have too,
// and their columns in its file.
var examined = []variable{
	{"weight", "weight"},
	{"upper_arm", "arm_girth"},
	{"waist_navel", "waist"},
	{"calf", "calf"},
}

// openNHANES reads the file of examined children at path, packed by gzip where
// its name ends in .gz.
func openNHANES(path string) ([]child, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if !strings.HasSuffix(path, ".gz") {
		return readNHANES(f, path)
	}
	z, err := gzip.NewReader(f)
	if err != nil {
		return nil, &data.Error{File: path, Msg: err.Error()}
	}
	defer z.Close()
	return readNHANES(z, path)
}

// readNHANES reads the file described in the package comment. Children without a
// standing height, or under two years, are left out. A fault is a [*data.Error]
// in the file named.
func readNHANES(r io.Reader, name string) ([]child, error) {
	cr := csv.NewReader(r)
	wanted := []string{"cycle", "sex", "age_years", "stature"}
	for _, v := range examined {
		wanted = append(wanted, v.column)
	}
	column, err := readHeader(cr, name, wanted)
	if err != nil {
		return nil, err
	}
	var children []child
	for {
		record, err := cr.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, csvFault(name, err)
		}
		c, err := surveyRow{name: name, csv: cr, record: record, column: column}.examinedChild()
		if err != nil {
			return nil, err
		}
		if !(c.age < youngest) && !math.IsNaN(c.height) {
			children = append(children, c)
		}
	}
	if len(children) == 0 {
		return nil, &data.Error{File: name, Msg: "no child of two years or more with a height"}
	}
	return children, nil
}

func (r surveyRow) examinedChild() (child, error) {
	c := child{cycle: r.record[r.column["cycle"]], sex: r.record[r.column["sex"]],
		values: slices.Repeat([]float64{math.NaN()}, len(variables))}
	if c.sex != "m" && c.sex != "f" {
		return child{}, r.fault("sex", "m or f")
	}
	var err error
	number := func(column string) float64 {
		v, fault := r.number(column)
		if err == nil {
			err = fault
		}
		return v
	}
	c.age, c.height = number("age_years"), number("stature")
	for _, v := range examined {
		c.values[variableIndex(v.id)] = number(v.column)
	}
	return c, err
}
