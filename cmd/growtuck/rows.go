package main

import (
	"bytes"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/validate"
)

type rowsFlags struct {
	findingFlags
	write   string
	review  bool
	merge   bool
	dryRun  bool
	why     string
	release bool
	picture string
	force   bool
}

func newRowsCommand(a *app) *cobra.Command {
	var f rowsFlags
	cmd := &cobra.Command{
		Use:     "rows [FILE...]",
		GroupID: groupLookUp,
		Short:   "Check rows of the tables before they are merged",
		Long: `rows checks proposed rows of body measurements, a table with the columns of
body.csv, against the current tables: form, keys and sources first, then whether
the figures are plausible beside their neighbours, each other and measured
children. FILE may be - for standard input. Without a file it
checks all tables, those of the folder that --tables names or the built-in ones.
growtuck rules lists the rules.

--merge puts the rows of any tables, a file for each or a workbook with a sheet for
each, called like the table, among the tables of the folder that --tables names:
sources, charts, sizes, measurements, garments, parts, ease, lengths in one go. A row
with the key of one that is there corrects it in its place. It says what is wrong,
what the new charts and garments can be used for, and which readings move, and writes
nothing; --picture draws the columns that change, as they were and as they are, beside
children measured; with --dry-run=false and --why it writes the
tables in canonical form, unless something was found. --release makes an edition of
what was merged since the last: the rows of changes.csv, and datapackage.json.

--review prints a sheet in Markdown for the reviewer of the proposal: each new or
changed value beside its neighbours, and every reading that it would change.
--write rewrites one table into canonical form, and nothing else.

Exit status: 0 no findings of the --fail-on severity or worse, 1 such findings,
2 usage or file error.`,
		Example: `  growtuck rows proposed.csv
  growtuck rows proposed.csv --review
  growtuck rows proposed.csv --merge --tables my-tables --picture columns.svg
  growtuck rows --tables my-tables
  growtuck rows --tables my-tables --write my-tables/body.csv`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 && !f.merge {
				return fmt.Errorf("%d files given; rows takes one, none for all tables, or with --merge one for each table", len(args))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return a.rows(args, f) },
	}
	f.add(cmd, "warn")
	cmd.Flags().BoolVar(&f.review, "review", false, "print a review sheet in Markdown, with the findings at its end")
	cmd.Flags().BoolVar(&f.merge, "merge", false, "put the rows of the files among the tables of the folder --tables")
	cmd.Flags().BoolVar(&f.dryRun, "dry-run", true, "with --merge: only say what would come of it")
	cmd.Flags().StringVar(&f.picture, "picture", "", "with --merge: draw the columns that change into this `file`, .svg or .png")
	cmd.Flags().BoolVar(&f.force, "force", false, "with --picture: replace a file that exists")
	cmd.Flags().StringVar(&f.why, "why", "", "with --merge: the `reason` for the change, as changes.csv will have it")
	cmd.Flags().BoolVar(&f.release, "release", false, "make an edition of what was merged into the folder --tables")
	cmd.Flags().StringVar(&f.write, "write", "", "rewrite this `table` into canonical form")
	return cmd
}

func (a *app) rows(args []string, f rowsFlags) error {
	failOn, err := f.read()
	switch {
	case err != nil:
		return err
	case f.merge || f.release:
		return a.mergeRows(args, f, failOn)
	case f.write != "" && (f.review || len(args) > 0):
		return usagef("--write names the one table to rewrite; it takes no other file and no --review")
	case f.review && len(args) == 0:
		return usagef("--review is for proposed rows; give their file, for example growtuck rows proposed.csv --review")
	case f.review && f.format != "text":
		return usagef("--review prints Markdown; leave --format out")
	case f.write != "":
		return a.rewriteTable(f.write)
	}
	var findings []validate.Finding
	var sheet *validate.Review
	if len(args) == 0 {
		findings, err = a.tablesInUse().Check()
	} else {
		findings, sheet, err = a.tablesInUse().Propose(args[0], a.stdin, f.review, a.decoder())
	}
	if err != nil {
		if f.format != "text" {
			if err := a.printFindings(validate.Unreadable(err), f.format, "", true); err != nil {
				return err
			}
		}
		return work.Unusable{Faults: work.Flatten(err)}
	}
	if sheet != nil {
		_, err = a.stdout.Write(tell.ReviewSheet(sheet, findings))
	} else {
		err = a.printFindings(findings, f.format, "", false)
	}
	if err != nil {
		return err
	}
	if err := work.Headless(findings); err != nil {
		return work.Unusable{Faults: work.Faults{err}}
	}
	return failing(findings, failOn)
}

// rewriteTable puts one table into canonical form.
func (a *app) rewriteTable(path string) error {
	raw, err := work.ReadTable(path, a.stdin, a.decoder())
	if path == "-" {
		err = errors.New("--write takes a file, not standard input")
	}
	var canonical []byte
	if err == nil {
		canonical, err = a.tablesInUse().Canonical(path, raw)
	}
	if err != nil {
		return work.Unusable{Faults: work.Flatten(err)}
	}
	said := "is already in canonical form"
	if !bytes.Equal(raw, canonical) {
		a.sweep(path)
		if err := save.One(save.File{Path: path, Content: canonical}, true); err != nil {
			return err
		}
		said = "rewritten"
	}
	_, err = fmt.Fprintf(a.stdout, "%s: %s\n", path, said)
	return err
}
