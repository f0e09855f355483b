package main

import (
	"growtuck/cmd/growtuck/internal/tell"

	"github.com/spf13/cobra"
)

func newRulesCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "rules",
		GroupID: groupLookUp,
		Short:   "The rules that drafts and tables are checked by",
		Long: `rules lists every rule with its code, which stays the same from one edition to
the next, and the worst that it reports: stop (do not start), warn (likely to
disappoint) or note (worth knowing).`,
		Example: `  growtuck rules
  growtuck rules --format markdown`,
		Args: noArguments,
		RunE: func(cmd *cobra.Command, args []string) error { return a.print(tell.Rules()) },
	}
}
