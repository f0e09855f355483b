// Package data holds growtuck's reference tables and reads them.
//
// The tables are CSV files, embedded in the program: one fact in each row, values
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
	"slices"
	"strings"
)

//go:embed *.csv datapackage.json
var embedded embed.FS

// Embedded returns the tables built into the program, as files at the root of
// a read-only file system.
func Embedded() fs.FS { return embedded }

// Tables are all reference tables, each in the order of its file.
type Tables struct {
	Sources       []Source
	Measurements  []Measurement
	Pitfalls      []Pitfall
	Charts        []Chart
	Sizes         []Size
	Body          []Body
	Derivations   []Derivation
	Relations     []Relation
	Ratios        []Ratio
	Garments      []Garment
	Parts         []Part
	Ease          []Ease
	Lengths       []Length
	Abbreviations []Abbreviation
	Yarns         []Yarn
	Practice      []Practice
	Heights       []HeightForAge
	Growth        []Growth
	AddedParts    []AddedPart
	Exceptions    []Exception

	text map[string]string // the files read, to find the place of a fault
}

// Tables that older editions do not have: practice and exceptions came with 1.1,
// added parts and abbreviations with 2.0, pitfalls, heights by age and growth with 2.1.
const (
	PracticeFile      = "practice.csv"
	ExceptionsFile    = "exceptions.csv"
	AddedFile         = "added.csv"
	AbbreviationsFile = "abbreviations.csv"
	PitfallsFile      = "pitfalls.csv"
	HeightsFile       = "heights.csv"
	GrowthFile        = "growth.csv"
)

// LaterFiles are the tables that older editions do not have.
func LaterFiles() []string {
	return []string{PracticeFile, ExceptionsFile, AddedFile, AbbreviationsFile, PitfallsFile, HeightsFile, GrowthFile}
}

// AddedPlaces are the places of garments at which parts are sewn on.
func AddedPlaces() []string {
	return []string{"hood", "face", "head", "back", "seat", "knee", "elbow", "palm", "sole"}
}

// placesKnown reports a list of places, separated by spaces, each named once.
func placesKnown(list string) bool {
	seen := make(map[string]bool)
	for place := range strings.FieldsSeq(list) {
		if seen[place] || !slices.Contains(AddedPlaces(), place) {
			return false
		}
		seen[place] = true
	}
	return len(seen) > 0 && strings.Join(strings.Fields(list), " ") == list
}

// OpenTable opens a table at the root of fsys: the built-in one where fsys is of
// an edition that does not have it yet. Of pitfalls it is then the header alone: the
// built-in ones may be of measurements that the edition does not have.
func OpenTable(fsys fs.FS, file string) (fs.File, error) {
	f, err := fsys.Open(file)
	if errors.Is(err, fs.ErrNotExist) && file == PitfallsFile {
		return headerOnly{strings.NewReader(strings.Join(SchemaOf(file).Names(), ",") + "\n")}, nil
	}
	if errors.Is(err, fs.ErrNotExist) && slices.Contains(LaterFiles(), file) {
		return embedded.Open(file)
	}
	return f, err
}

// headerOnly is a table without rows.
type headerOnly struct{ *strings.Reader }

func (headerOnly) Stat() (fs.FileInfo, error) { return nil, errors.New("not on disk") }
func (headerOnly) Close() error               { return nil }

// Load reads tables from the root of fsys: those of the files named, or all.
// All faults of form are returned together, joined; each is an [*Error]. A
// missing table is a fault, but see [OpenTable].
func Load(fsys fs.FS, files ...string) (*Tables, error) { return load(fsys, "", files) }

// LoadOf reads tables of the program, and of those whose rows begin with the sex only
// the rows of one.
func LoadOf(sex string, files ...string) (*Tables, error) { return load(embedded, sex+",", files) }

// load reads the rows that begin with something.
func load(fsys fs.FS, begin string, files []string) (*Tables, error) {
	t := &Tables{text: make(map[string]string)}
	l := loader{fsys, files, begin, t.text, make([]byte, 1<<10)}
	err := errors.Join(
		readTable(l, "sources.csv", &t.Sources, (*record).source),
		readTable(l, "measurements.csv", &t.Measurements, (*record).measurement),
		readTable(l, PitfallsFile, &t.Pitfalls, (*record).pitfall),
		readTable(l, "charts.csv", &t.Charts, (*record).chart),
		readTable(l, "sizes.csv", &t.Sizes, (*record).size),
		readTable(l, "body.csv", &t.Body, (*record).body),
		readTable(l, "derivations.csv", &t.Derivations, (*record).derivation),
		readTable(l, "relations.csv", &t.Relations, (*record).relation),
		readTable(l, "ratios.csv", &t.Ratios, (*record).ratio),
		readTable(l, "garments.csv", &t.Garments, (*record).garment),
		readTable(l, "parts.csv", &t.Parts, (*record).part),
		readTable(l, "ease.csv", &t.Ease, (*record).ease),
		readTable(l, "lengths.csv", &t.Lengths, (*record).length),
		readTable(l, "abbreviations.csv", &t.Abbreviations, (*record).abbreviation),
		readTable(l, "yarns.csv", &t.Yarns, (*record).yarn),
		readTable(l, HeightsFile, &t.Heights, (*record).heightForAge),
		readTable(l, GrowthFile, &t.Growth, (*record).growth),
		readTable(l, PracticeFile, &t.Practice, (*record).practice),
		readTable(l, AddedFile, &t.AddedParts, (*record).addedPart),
		readTable(l, ExceptionsFile, &t.Exceptions, (*record).exception),
	)
	if err != nil {
		return nil, err
	}
	return t, nil
}
