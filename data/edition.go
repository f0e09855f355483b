package data

import (
	"bytes"
	"crypto/sha256"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"slices"
)

// An Edition identifies the tables of a folder. Two folders with the same
// checksum have the same tables, byte for byte.
type Edition struct {
	Version  string // of the tables, such as "1.2.0"; see Change
	Date     string // of the version, such as 2026-11-25
	Checksum string // over all tables, in hexadecimal; see EditionOf
	Changed  bool   // the tables differ from those of the version's entry
	Tables   []TableSum
}

// A TableSum is one table of an edition.
type TableSum struct {
	Name   string // as "body.csv"
	Rows   int    // without the header
	SHA256 string // of the file, in hexadecimal
}

// String names the edition in a line.
func (e *Edition) String() string {
	name := "tables without an edition"
	if e.Version != "" {
		name = "tables " + e.Version + " of " + e.Date
		if e.Changed {
			name += ", changed"
		}
	}
	return name + ", SHA-256 " + e.Checksum
}

// EditionOf reads what edition the tables at the root of fsys are. The checksum
// is the SHA-256 of the lines that the usual tool prints for all CSV files but
// changes.csv in the order of their names:
//
//	ls *.csv | grep -v changes.csv | LC_ALL=C sort | xargs sha256sum | sha256sum
//
// A folder without changes.csv has no version.
func EditionOf(fsys fs.FS, rules RowRules) (*Edition, error) {
	names, err := fs.Glob(fsys, "*.csv")
	if err != nil {
		return nil, err
	}
	e := new(Edition)
	all := sha256.New()
	logged := false
	for _, name := range names { // Glob sorts them
		if name == changesFile {
			logged = true
			continue
		}
		raw, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, err
		}
		t := TableSum{name, rowsIn(raw), fmt.Sprintf("%x", sha256.Sum256(raw))}
		fmt.Fprintf(all, "%s  %s\n", t.SHA256, t.Name)
		e.Tables = append(e.Tables, t)
	}
	if len(e.Tables) == 0 {
		return nil, errors.New("no tables here")
	}
	e.Checksum = fmt.Sprintf("%x", all.Sum(nil))
	if !logged {
		return e, nil
	}
	changes, err := Changes(fsys, rules)
	if err != nil {
		return nil, err
	}
	last := changes[len(changes)-1]
	e.Version, e.Date, e.Changed = last.Edition, last.Date, last.Checksum != e.Checksum
	return e, nil
}

// rowsIn counts the records of a table under its header, as far as they can be
// read.
func rowsIn(table []byte) int {
	r := csv.NewReader(bytes.NewReader(table))
	r.FieldsPerRecord = -1
	r.ReuseRecord = true
	n := -1
	for {
		if _, err := r.Read(); err != nil {
			return max(n, 0)
		}
		n++
	}
}

// Differing names the tables that are not the same as before.
func (e *Edition) Differing(before *Edition) []string {
	sums := make(map[string]string)
	for _, t := range before.Tables {
		sums[t.Name] = t.SHA256
	}
	names := []string{}
	for _, t := range e.Tables {
		if sums[t.Name] != t.SHA256 {
			names = append(names, t.Name)
		}
		delete(sums, t.Name)
	}
	for gone := range sums {
		names = append(names, gone)
	}
	slices.Sort(names)
	return names
}
