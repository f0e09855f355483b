// Package data holds growtuck's reference tables and reads them.
//
// The tables are CSV files, embedded in the program: one fact a row, values
// exactly as published (number and unit), every row with its source. They are
// described for other people's tools by datapackage.json, a Frictionless Data
// Package. [Embedded] gives the files; [Load] reads them, or any other folder
// of the same shape, into [Tables].
//
// Reading checks form: the columns, numbers, and enumerated words, and reports
// every fault with file, line and column. [Tables.Check] then checks the rows
// against their struct tags and each table's keys against the others.
//
// Importing the package adds about 0.6 MB of tables to a program. Nothing is
// parsed until Load is called.
package data

import (
	"embed"
	"errors"
	"io/fs"
)

//go:embed *.csv datapackage.json
var embedded embed.FS

// Embedded returns the tables built into the program, as files at the root of
// a read-only file system.
func Embedded() fs.FS { return embedded }

// Tables are all reference tables, each in the order of its file.
type Tables struct {
	Sources      []Source
	Measurements []Measurement
	Charts       []Chart
	Sizes        []Size
	Body         []Body
	Derivations  []Derivation
	Relations    []Relation
	Ratios       []Ratio
	Garments     []Garment
	Parts        []Part
	Ease         []Ease
	Lengths      []Length
	Yarns        []Yarn

	text map[string]string // the files read, to find the place of a fault
}

// Load reads every table from the root of fsys. All faults of form are
// returned together, joined; each is an [*Error]. A missing table is a fault.
func Load(fsys fs.FS) (*Tables, error) {
	t := &Tables{text: make(map[string]string)}
	err := errors.Join(
		readTable(fsys, "sources.csv", t.text, &t.Sources, sourceColumns, (*record).source),
		readTable(fsys, "measurements.csv", t.text, &t.Measurements, measurementColumns, (*record).measurement),
		readTable(fsys, "charts.csv", t.text, &t.Charts, chartColumns, (*record).chart),
		readTable(fsys, "sizes.csv", t.text, &t.Sizes, sizeColumns, (*record).size),
		readTable(fsys, "body.csv", t.text, &t.Body, bodyColumns, (*record).body),
		readTable(fsys, "derivations.csv", t.text, &t.Derivations, derivationColumns, (*record).derivation),
		readTable(fsys, "relations.csv", t.text, &t.Relations, relationColumns, (*record).relation),
		readTable(fsys, "ratios.csv", t.text, &t.Ratios, ratioColumns, (*record).ratio),
		readTable(fsys, "garments.csv", t.text, &t.Garments, garmentColumns, (*record).garment),
		readTable(fsys, "parts.csv", t.text, &t.Parts, partColumns, (*record).part),
		readTable(fsys, "ease.csv", t.text, &t.Ease, easeColumns, (*record).ease),
		readTable(fsys, "lengths.csv", t.text, &t.Lengths, lengthColumns, (*record).length),
		readTable(fsys, "yarns.csv", t.text, &t.Yarns, yarnColumns, (*record).yarn),
	)
	if err != nil {
		return nil, err
	}
	return t, nil
}
