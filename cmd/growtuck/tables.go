package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
)

func newTablesCommand(a *app) *cobra.Command {
	var force bool
	var before string
	cmd := &cobra.Command{
		Use:     "tables FOLDER",
		GroupID: groupLookUp,
		Short:   "Write the built-in tables out as CSV files",
		Long: `tables writes the reference tables, one CSV file each, and datapackage.json, which
describes them to other tools. The folder is created if it does not exist. No file
is overwritten without --force; with it the folder is replaced as one, with links to
all else in it: a run that is killed leaves the old files or the new. --tables FOLDER makes
the other commands read such a folder. One written by an older edition has no
practice.csv: the built-in figures of practice are then used.

--compare FOLDER writes nothing: it prints which readings differ between the
tables of the folder (before) and the built-in ones or those of --tables (after).
Compared are the charts at their sizes, estimates of children of 70 to 170 cm, the
ease and lengths of every garment in every fit over every layer, and the figures
of practice.`,
		Example: `  growtuck tables my-tables
  growtuck size 3 --tables my-tables
  growtuck tables --compare my-tables`,
		Args: func(cmd *cobra.Command, args []string) error {
			if before != "" {
				if len(args) > 0 || force {
					return usagef("--compare writes nothing; it takes no other folder and no --force")
				}
				return nil
			}
			if len(args) != 1 {
				return fmt.Errorf("tables takes one folder to write to; for example growtuck tables my-tables")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if before != "" {
				return a.compareTables(before)
			}
			if a.tables != "" {
				return usagef("growtuck tables writes the built-in tables; leave --tables out")
			}
			return a.writeTables(args[0], force)
		},
	}
	cmd.Flags().BoolVar(&force, "force", false, "overwrite existing files")
	cmd.Flags().StringVar(&before, "compare", "", "print which readings differ from the tables of this `folder`")
	return cmd
}

// writeTables writes the embedded files to a folder.
func (a *app) writeTables(dir string, force bool) error {
	files, err := work.BuiltIn(dir)
	if err != nil {
		return err
	}
	ref, err := a.reference()
	if err != nil {
		return err
	}
	var used []string
	for _, s := range ref.Sources() {
		used = append(used, s.ID)
	}
	return a.writeInto(dir, files, force, []string{fmt.Sprintf("Wrote %d files", len(files))}, tell.CreditLines(ref, used))
}

// compareTables prints which readings differ between the tables of a folder,
// before, and those in use, after.
func (a *app) compareTables(dir string) error {
	after, err := a.reference()
	if err != nil {
		return err
	}
	old := work.Tables{Folder: dir}
	before, err := old.Reference()
	if err != nil {
		return err
	}
	moved, err := after.Compare(before)
	if err != nil {
		return err
	}
	from, err := old.Edition()
	if err != nil {
		return err
	}
	to, err := a.tablesInUse().Edition()
	if err != nil {
		return err
	}
	return a.print(tell.Compare(from, to, moved))
}
