package main

import (
	"io/fs"
	"os"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/data"
)

// edition says which tables are in use: the built-in ones, or those of the
// folder asked for.
func (a *app) edition() (*data.Edition, error) {
	var tables fs.FS = data.Embedded()
	if a.tables != "" {
		tables = os.DirFS(a.tables)
	}
	e, err := data.EditionOf(tables)
	if a.tables != "" {
		return e, inFolder(a.tables, err)
	}
	return e, err
}

// printEdition prints each table with its checksum, and that over all.
func (a *app) printEdition() error {
	e, err := a.edition()
	if err != nil {
		return err
	}
	return a.print(tell.Edition(e))
}

// compareTables prints which readings differ between the tables of a folder,
// before, and those in use, after.
func (a *app) compareTables(dir string) error {
	after, err := a.reference()
	if err != nil {
		return err
	}
	old := *a
	old.tables = dir
	before, err := old.reference()
	if err != nil {
		return err
	}
	moved, err := after.Compare(before)
	if err != nil {
		return err
	}
	from, err := old.edition()
	if err != nil {
		return err
	}
	to, err := a.edition()
	if err != nil {
		return err
	}
	return a.print(tell.Compare(from, to, moved))
}
