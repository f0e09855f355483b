package main

import (
	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/sizing"
)

// complete offers the values of a flag to the shell.
func complete(cmd *cobra.Command, flag string, values ...string) {
	register(cmd, flag, cobra.FixedCompletions(values, cobra.ShellCompDirectiveNoFileComp))
}

func register(cmd *cobra.Command, flag string, offer cobra.CompletionFunc) {
	if err := cmd.RegisterFlagCompletionFunc(flag, offer); err != nil {
		panic(err) // no such flag: a mistake in this program that shows on every start
	}
}

// lookUp lists something of the tables; nothing where they cannot be read.
func (a *app) lookUp(list func(*sizing.Reference) []string) []string {
	ref, err := a.reference()
	if err != nil {
		return nil
	}
	return list(ref)
}

// completeGarment offers garments, then files.
func (a *app) completeGarment(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveDefault
	}
	return a.garmentIDs(), cobra.ShellCompDirectiveNoFileComp
}

func (a *app) garmentIDs() []string { return a.lookUp(ask.GarmentIDs) }

// completeExport completes the file by the shell, then as garment does.
func (a *app) completeExport(cmd *cobra.Command, args []string, word string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 0 {
		return nil, cobra.ShellCompDirectiveDefault
	}
	return a.completeGarment(cmd, args[1:], word)
}
