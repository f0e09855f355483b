package data

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"strconv"
	"strings"
)

// PendingFolder holds, beside the tables, what was merged since their edition: a
// file for each contribution, so that two of them touch no file in common. A release
// makes rows of changes.csv of them.
const PendingFolder = "pending"

// A PendingChange is a row of a file of the pending folder: what a contribution
// changed in a table, and why. Added says that something came that was not there.
type PendingChange struct {
	Table, What, Why string
	MovedCm          float64 // largest move of a reading, in cm or kg
	Added            bool
}

var pendingColumns = []string{"table", "what", "why", "moved_cm", "added"}

// WritePending is the text of a file of the pending folder.
func WritePending(changes []PendingChange) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	rows := [][]string{pendingColumns}
	for _, c := range changes {
		added := "no"
		if c.Added {
			added = "yes"
		}
		rows = append(rows, []string{c.Table, c.What, c.Why, strconv.FormatFloat(c.MovedCm, 'f', -1, 64), added})
	}
	err := w.WriteAll(rows)
	return b.Bytes(), err
}

// Pending reads the files of the pending folder at the root of fsys, in the order of
// their names.
func Pending(fsys fs.FS) (changes []PendingChange, files []string, err error) {
	names, err := fs.Glob(fsys, PendingFolder+"/*.csv")
	if err != nil {
		return nil, nil, err
	}
	for _, name := range names {
		raw, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, nil, err
		}
		r := csv.NewReader(bytes.NewReader(raw))
		r.FieldsPerRecord = len(pendingColumns)
		rows, err := r.ReadAll()
		if err != nil || len(rows) == 0 || strings.Join(rows[0], ",") != strings.Join(pendingColumns, ",") {
			return nil, nil, &Error{File: name, Line: 1, Msg: "is not a table of " + strings.Join(pendingColumns, ",")}
		}
		for i, row := range rows[1:] {
			moved, err := strconv.ParseFloat(row[3], 64)
			if err != nil || SchemaOf(row[0]) == nil {
				return nil, nil, &Error{File: name, Line: i + 2, Msg: "names no table, or no move in cm"}
			}
			changes = append(changes, PendingChange{row[0], row[1], row[2], moved, row[4] == "yes"})
		}
		files = append(files, name)
	}
	return changes, files, nil
}

// Release makes an edition of the tables at the root of fsys and what is pending: the
// files to write, and those to remove.
func Release(fsys fs.FS, date string, rules RowRules) (write map[string][]byte, remove []string, err error) {
	pending, remove, err := Pending(fsys)
	if err != nil {
		return nil, nil, err
	}
	if len(pending) == 0 {
		return nil, nil, errors.New("nothing is pending: no contribution was merged since the last edition")
	}
	log, err := Changes(fsys, rules)
	if err != nil {
		return nil, nil, err
	}
	edition, err := EditionOf(fsys, rules)
	if err != nil {
		return nil, nil, err
	}
	step := Patch
	for _, c := range pending {
		added := 0
		if c.Added || c.Table == PracticeFile {
			added = 1
		}
		step = max(step, StepFor(0, added, c.MovedCm))
	}
	last, _ := editionNumbers(log[len(log)-1].Edition) // Changes has checked it
	next := nextEdition(last, step)
	version := fmt.Sprintf("%d.%d.%d", next[0], next[1], next[2])
	raw, err := fs.ReadFile(fsys, changesFile)
	if err != nil {
		return nil, nil, err
	}
	b := bytes.NewBuffer(raw)
	w := csv.NewWriter(b)
	for _, c := range pending {
		_ = w.Write([]string{version, date, edition.Checksum, c.Table, c.What, c.Why,
			strconv.FormatFloat(c.MovedCm, 'f', -1, 64)}) // a buffer takes everything
	}
	w.Flush()
	write = map[string][]byte{changesFile: b.Bytes()}
	write[DescriptorFile], err = describe(fsys, version, b.Bytes())
	return write, remove, err
}

// DescriptorFile is the descriptor of the tables.
const DescriptorFile = "datapackage.json"
