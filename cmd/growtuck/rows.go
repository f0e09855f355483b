package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/data"
	"growtuck/validate"
)

type rowsFlags struct {
	format, failOn, write string
	review                bool
}

func newRowsCommand(a *app) *cobra.Command {
	var f rowsFlags
	cmd := &cobra.Command{
		Use:     "rows [FILE]",
		GroupID: groupLookUp,
		Short:   "Check rows of the tables before they are merged",
		Long: `rows checks proposed rows of body measurements, a table with the columns of
body.csv, against the tables as they stand: form, keys and sources first, then
whether the figures make sense beside their neighbours, beside each other and
beside measured children. FILE may be - for standard input. Without a file it
checks all tables, those of the folder that --tables names or the built-in ones.
growtuck rules lists the rules.

--review prints a sheet in Markdown for the reader of the proposal: each new or
changed value beside its neighbours, and every reading that it would move.
--write rewrites one table into canonical form, and nothing else.

It exits with 0 where there is nothing at or above --fail-on, with 1 where there
is, and with 2 where a file cannot be used.`,
		Example: `  growtuck rows proposed.csv
  growtuck rows proposed.csv --review
  growtuck rows --tables my-tables
  growtuck rows --tables my-tables --write my-tables/body.csv`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return fmt.Errorf("%d files given; rows takes one, or none for all tables", len(args))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return a.rows(args, f) },
	}
	cmd.Flags().StringVar(&f.format, "format", "text", "`how` to print: text, json or annotations (for a code forge)")
	cmd.Flags().StringVar(&f.failOn, "fail-on", "warn", "the least `severity` to exit with 1 for: stop, warn or note")
	cmd.Flags().BoolVar(&f.review, "review", false, "print a review sheet in Markdown, with the findings at its end")
	cmd.Flags().StringVar(&f.write, "write", "", "rewrite this `table` into canonical form")
	complete(cmd, "format", checkFormats...)
	complete(cmd, "fail-on", "stop", "warn", "note")
	return cmd
}

func (a *app) rows(args []string, f rowsFlags) error {
	failOn, err := validate.ParseSeverity(f.failOn)
	switch {
	case !slices.Contains(checkFormats, f.format):
		return usagef("unknown format %q; known are %s", f.format, strings.Join(checkFormats, ", "))
	case err != nil:
		return usagef("--fail-on: %v", err)
	case f.write != "" && (f.review || len(args) > 0):
		return usagef("--write names the one table to rewrite; it takes no other file and no --review")
	case f.review && len(args) == 0:
		return usagef("--review is of proposed rows; give their file, as in growtuck rows proposed.csv --review")
	case f.review && f.format != "text":
		return usagef("--review prints Markdown; leave --format out")
	case f.write != "":
		return a.rewriteTable(f.write)
	}
	var findings []validate.Finding
	var sheet []byte
	if len(args) == 0 {
		findings, err = a.checkTables()
	} else {
		findings, sheet, err = a.checkProposal(args[0], f.review)
	}
	if err != nil {
		if f.format != "text" {
			if err := a.printFindings(validate.Unreadable(err), f.format, 0, true); err != nil {
				return err
			}
		}
		return unusable{flatten(err)}
	}
	if err := a.printRows(findings, sheet, f); err != nil {
		return err
	}
	if err := work.Headless(findings); err != nil {
		return unusable{faults{err}}
	}
	return failing(findings, failOn)
}

// checkTables checks the built-in tables, or those of a folder, also against
// the built-in ones.
func (a *app) checkTables() ([]validate.Finding, error) {
	if a.tables == "" {
		return validate.CheckTables(data.Embedded(), "", nil)
	}
	before, err := data.Load(data.Embedded())
	if err != nil {
		return nil, err
	}
	findings, err := validate.CheckTables(os.DirFS(a.tables), filepath.ToSlash(filepath.Clean(a.tables))+"/", before)
	return findings, inFolder(a.tables, err)
}

// checkProposal checks proposed rows, and writes the review sheet if asked to.
func (a *app) checkProposal(path string, review bool) ([]validate.Finding, []byte, error) {
	raw, err := a.readTable(path)
	if err != nil {
		return nil, nil, err
	}
	tables, err := a.standing()
	if err != nil {
		return nil, nil, err
	}
	if path == "-" {
		path = "standard input"
	}
	findings, err := work.CheckProposal(raw, path, tables)
	if err != nil || !review {
		return findings, nil, err
	}
	sheet, err := work.ReviewProposal(raw, path, tables)
	return findings, sheet, err
}

// readTable reads a file whole, if it is not too big.
func (a *app) readTable(path string) ([]byte, error) {
	in := a.stdin
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		if info, err := f.Stat(); err == nil && info.IsDir() {
			return nil, fmt.Errorf("%s is a folder; growtuck rows --tables %s checks the tables in it", path, path)
		}
		in = f
	}
	raw, err := io.ReadAll(io.LimitReader(in, data.MaxBytes+1))
	if err == nil && len(raw) > data.MaxBytes {
		err = fmt.Errorf("%s is too big: at most %d bytes are read", path, data.MaxBytes)
	}
	return raw, err
}

// standing returns the tables as they stand.
func (a *app) standing() (*data.Tables, error) {
	if a.tables == "" {
		return data.Load(data.Embedded())
	}
	t, err := data.Load(os.DirFS(a.tables))
	if err == nil {
		err = t.Check()
	}
	return t, inFolder(a.tables, err)
}

func (a *app) printRows(findings []validate.Finding, sheet []byte, f rowsFlags) error {
	if sheet == nil && len(findings) == 0 && f.format == "text" {
		_, err := fmt.Fprintln(a.stdout, "No problems found.")
		return err
	}
	if sheet == nil {
		return a.printFindings(findings, f.format, 0, true)
	}
	_, err := a.stdout.Write(tell.ReviewSheet(sheet, findings))
	return err
}

// rewriteTable puts one table into canonical form.
func (a *app) rewriteTable(path string) error {
	raw, err := a.readTable(path)
	if path == "-" {
		err = errors.New("--write takes a file, not standard input")
	}
	if err != nil {
		return unusable{flatten(err)}
	}
	name := validate.TableOf(raw)
	if name == "" {
		return unusable{faults{fmt.Errorf("%s has the columns of no table", path)}}
	}
	tables, err := a.orders(name, raw)
	if err != nil {
		return unusable{flatten(err)}
	}
	canonical, err := validate.Canonical(name, raw, tables)
	if err != nil {
		return unusable{flatten(inFolder(filepath.Dir(path), err))}
	}
	said := "is in canonical form already"
	if !bytes.Equal(raw, canonical) {
		if err := save.One(save.File{Path: path, Content: canonical}, true); err != nil {
			return err
		}
		said = "rewritten"
	}
	_, err = fmt.Fprintf(a.stdout, "%s: %s\n", path, said)
	return err
}

// orders returns the tables whose order the rows of a table follow. The table
// itself may be in another form than Load reads.
func (a *app) orders(name string, raw []byte) (*data.Tables, error) {
	if a.tables == "" {
		return data.Load(data.Embedded())
	}
	loose, err := validate.Canonical(name, raw, new(data.Tables))
	if err != nil {
		return nil, err
	}
	t, err := data.Load(overlay{os.DirFS(a.tables), name, loose})
	return t, inFolder(a.tables, err)
}

// An overlay is a folder with one file in it replaced.
type overlay struct {
	fs.FS
	name    string
	content []byte
}

func (o overlay) Open(name string) (fs.File, error) {
	if name != o.name {
		return o.FS.Open(name)
	}
	return replaced{bytes.NewReader(o.content)}, nil
}

type replaced struct{ *bytes.Reader }

func (replaced) Stat() (fs.FileInfo, error) { return nil, errors.New("not on disk") }
func (replaced) Close() error               { return nil }
