package main

import (
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/sizing"
)

// A question is what a command asks: its fields, and what was given for them.
type question struct {
	fields []ask.Field
	values ask.Values
	// sizesBeside says that sizes are asked for beside a child, not in its place.
	sizesBeside bool
}

// asks adds a flag for each field to the command.
func (a *app) asks(cmd *cobra.Command, fields []ask.Field) *question {
	return &question{fields: fields, values: ask.AddFlags(cmd, fields, a.reference)}
}

// read reads what was given with flags, for the child of a file, "-" for standard
// input, or "" for no file.
func (a *app) read(ref *sizing.Reference, q *question, path string) (*ask.Request, error) {
	child, err := a.readChild(ref, path)
	if err != nil {
		return nil, err
	}
	r, faults := ask.Read(ref, q.fields, q.values, child)
	if len(faults) > 0 {
		return nil, faults
	}
	r.FromFile = path != ""
	a.notes(r.Unused(q.fields))
	return r, nil
}

// readGarment reads what was given for a garment and for the child of a file.
func (a *app) readGarment(ref *sizing.Reference, q *question, garment, path string) (*ask.Request, error) {
	if len(q.values["sizes"]) > 0 && path != "" && !q.sizesBeside {
		return nil, usagef("--sizes takes sizes of a chart; leave the child and the other sizes out")
	}
	q.values["garment"] = []string{garment}
	return a.read(ref, q, path)
}

// ofChild makes a command ask for a child, in a file or with flags, and print the answer.
func (a *app) ofChild(cmd *cobra.Command, fields []ask.Field, answer func(*sizing.Reference, *ask.Request, tell.Style) (tell.Document, error)) {
	q := a.asks(cmd, fields)
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		ref, err := a.reference()
		if err != nil {
			return err
		}
		r, err := a.read(ref, q, argument(args, 0))
		if err != nil {
			return err
		}
		return a.printed(answer(ref, r, a.style()))
	}
}

// readBook reads a request from the workbook of a plan, which says how the garment
// is made and for whom; no flag may say so beside it but sizes.
func (a *app) readBook(ref *sizing.Reference, q *question, path string) (*ask.Request, error) {
	for _, f := range q.fields {
		if len(q.values[f.Name]) > 0 && f.Name != "sizes" && f.Group != ask.Progress {
			return nil, usagef("%s already says how it is made; change it there, and leave --%s out", path, f.Name)
		}
	}
	if len(q.values["sizes"]) > 0 && !q.sizesBeside {
		return nil, usagef("%s is for one body; leave --sizes out, or give it to growtuck export", path)
	}
	cells, fault, err := bookCells(path)
	if err != nil {
		return nil, err
	}
	child, err := a.readChild(ref, path)
	if err != nil {
		return nil, err
	}
	values, faults := ask.FromCells(ref, cells)
	for _, f := range q.fields {
		if said := q.values[f.Name]; len(said) > 0 {
			values[f.Name] = said
		}
	}
	if !q.sizesBeside {
		delete(values, "sizes")
	}
	if len(faults) == 0 {
		var r *ask.Request
		if r, faults = ask.Read(ref, q.fields, values, child); len(faults) == 0 {
			r.FromFile = true
			a.notes(r.Unused(q.fields))
			return r, nil
		}
	}
	var errs []error
	for _, f := range faults {
		errs = append(errs, fault(f))
	}
	return nil, errors.Join(errs...)
}

// bookCells are the cells of a workbook that say how a garment is made, and what a
// fault in one of them is called.
func bookCells(path string) (map[string]string, func(*ask.Fault) error, error) {
	in, err := os.Open(path)
	if err != nil {
		return nil, nil, err
	}
	defer in.Close()
	w, err := workbook.Open(in, path)
	if err != nil {
		return nil, nil, err
	}
	defer w.Close()
	cells, err := w.Settings()
	if err != nil {
		return nil, nil, err
	}
	places := w.SettingPlaces()
	return cells, func(f *ask.Fault) error { return places.Error(f.CellOf(), f.Error()) }, nil
}

// readChild reads the child of a file; of none, nothing is known.
func (a *app) readChild(ref *sizing.Reference, path string) (sizing.Child, error) {
	switch path {
	case "":
		return sizing.Child{Sex: sizing.Both}, nil
	case "-":
		return work.ReadChild(ref, a.decoder()(a.stdin), "standard input")
	}
	f, err := os.Open(path)
	if err != nil {
		return sizing.Child{}, err
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return sizing.Child{}, usagef("%s is a folder; want the file of a child", path)
	}
	return work.ReadChild(ref, a.decoder()(f), path)
}

// atMostOneChild is the argument check of commands that take a child's file after
// other arguments, or none.
func atMostOneChild(before int) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > before+1 {
			return fmt.Errorf("one child at a time; leave %.80q out", args[before+1])
		}
		return nil
	}
}

// argument returns the argument at i, "" where there is none.
func argument(args []string, i int) string {
	if i < len(args) {
		return args[i]
	}
	return ""
}

// noGarment is the error of a command line without a garment.
func noGarment() error { return usagef("no garment given; growtuck garment lists them") }
