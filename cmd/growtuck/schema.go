package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/page"
)

func newSchemaCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "schema [COMMAND]",
		GroupID: groupLookUp,
		Short:   "Print the JSON Schema of what a command prints as JSON",
		Long: `schema prints the schema (JSON Schema 2020-12) of what a command prints with
--format json, or the names of the commands that have one.`,
		Example:           `  growtuck schema check`,
		Args:              cobra.MaximumNArgs(1),
		ValidArgsFunction: cobra.FixedCompletions(page.SchemaNames(), cobra.ShellCompDirectiveNoFileComp),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				_, err := fmt.Fprintln(a.stdout, strings.Join(page.SchemaNames(), "\n"))
				return err
			}
			schema := page.Schema(args[0])
			if schema == nil {
				return usagef("%q has no schema; known are %s", args[0], strings.Join(page.SchemaNames(), ", "))
			}
			_, err := a.stdout.Write(schema)
			return err
		},
	}
}
