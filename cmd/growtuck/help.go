package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
)

// wantCommand refuses a command line without a command that is known.
func (a *app) wantCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return fmt.Errorf("no command given; growtuck --help lists them")
	}
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		return fmt.Errorf("unknown command %.80q; did you mean %.80q?", args[0], near[0])
	}
	return fmt.Errorf("unknown command %.80q; growtuck --help lists them", args[0])
}

func wantShell(cmd *cobra.Command, args []string) error {
	var shells []string
	for _, c := range cmd.Commands() {
		shells = append(shells, c.Name())
	}
	return fmt.Errorf("completion is for one of %s", strings.Join(shells, ", "))
}

// flagError leaves out of a flag's error how the number was parsed.
func flagError(_ *cobra.Command, err error) error {
	if short, _, ok := strings.Cut(err.Error(), ": strconv."); ok {
		return errors.New(short)
	}
	return err
}

func newHelpCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Help about a command",
		Args: func(cmd *cobra.Command, args []string) error {
			if _, rest, err := cmd.Root().Find(args); err != nil || len(rest) > 0 {
				return fmt.Errorf("unknown command %.80q; growtuck --help lists them", args[0])
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			about, _, err := cmd.Root().Find(args)
			if err != nil {
				return err
			}
			about.InitDefaultHelpFlag()
			return about.Help()
		},
	}
}
