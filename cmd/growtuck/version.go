package main

import (
	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
)

func newVersionCommand(a *app) *cobra.Command {
	var checksums bool
	cmd := &cobra.Command{
		Use:     "version",
		GroupID: groupLookUp,
		Short:   "The versions of the program and of its tables",
		Long: `version prints the version of the program, of the tables built in, and of Go.

--checksums prints the edition of the tables instead, built-in or of --tables: each
table with its rows and its SHA-256, and one checksum over all. Workbooks record
it, so that the tables they were made with can be identified.`,
		Example: `  growtuck version
  growtuck version --checksums`,
		Args: noArguments,
		RunE: func(cmd *cobra.Command, args []string) error {
			if checksums {
				return a.printEdition()
			}
			v, err := work.ReadVersion()
			if err != nil {
				return err
			}
			return a.print(v.Document())
		},
	}
	cmd.Flags().BoolVar(&checksums, "checksums", false, "print the edition of the tables, and their checksums")
	return cmd
}

// printEdition prints each table with its checksum, and that over all.
func (a *app) printEdition() error {
	e, err := a.tablesInUse().Edition()
	if err != nil {
		return err
	}
	return a.print(tell.Edition(e))
}
