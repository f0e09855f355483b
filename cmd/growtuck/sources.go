package main

import (
	"growtuck/cmd/growtuck/internal/tell"

	"github.com/spf13/cobra"
)

func newSourcesCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "sources",
		GroupID: groupLookUp,
		Short:   "Where the figures come from, with credit lines",
		Long: `sources lists where the figures come from, by the ids that the other commands
print: the document, its edition, the rights in it, and the credit line.`,
		Example: `  growtuck sources
  growtuck sources --format markdown`,
		Args: noArguments,
		RunE: func(cmd *cobra.Command, args []string) error {
			ref, err := a.reference()
			if err != nil {
				return err
			}
			return a.print(tell.Sources(ref))
		},
	}
}
