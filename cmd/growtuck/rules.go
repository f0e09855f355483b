package main

import (
	"growtuck/cmd/growtuck/internal/tell"

	"github.com/spf13/cobra"
)

func newRulesCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "rules",
		GroupID: groupLookUp,
		Short:   "The rules for drafts and for tables",
		Long: `rules lists every rule with its code, which never changes its meaning, and the
highest severity that it reports: stop (do not start), warn (likely to
disappoint) or note (worth knowing).`,
		Example: `  growtuck rules
  growtuck rules --format markdown`,
		Args: noArguments,
		RunE: func(cmd *cobra.Command, args []string) error { return a.print(tell.Rules()) },
	}
}
