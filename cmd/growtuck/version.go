package main

import (
	"encoding/json"
	"io/fs"
	"runtime/debug"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/data"
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
			v, err := readVersion()
			if err != nil {
				return err
			}
			return a.print(v.Document())
		},
	}
	cmd.Flags().BoolVar(&checksums, "checksums", false, "print the edition of the tables, and their checksums")
	return cmd
}

// readVersion reads what the build and the tables say of themselves.
func readVersion() (tell.Version, error) {
	v := tell.Version{Program: "unknown"}
	if info, ok := debug.ReadBuildInfo(); ok {
		v.Program, v.Go = info.Main.Version, info.GoVersion
		for _, s := range info.Settings {
			switch {
			case s.Key == "vcs.revision":
				v.Revision = s.Value + v.Revision
			case s.Key == "vcs.modified" && s.Value == "true":
				v.Revision += ", changed"
			}
		}
	}
	text, err := fs.ReadFile(data.Embedded(), "datapackage.json")
	if err != nil {
		return v, err
	}
	var pkg struct {
		Version string `json:"version"`
	}
	if err := json.Unmarshal(text, &pkg); err != nil {
		return v, err
	}
	v.Tables = pkg.Version
	return v, nil
}

// printEdition prints each table with its checksum, and that over all.
func (a *app) printEdition() error {
	e, err := a.tablesInUse().Edition()
	if err != nil {
		return err
	}
	return a.print(tell.Edition(e))
}
