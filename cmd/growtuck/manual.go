package main

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

func newManualCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "manual [COMMAND]",
		GroupID: groupLookUp,
		Short:   "Print a page of the manual, for man",
		Long: `manual prints the page of the manual about the program, or about one command, in
the language of man. The repository's .ci/manual writes all of them, and the shell
completions, into a folder.`,
		Example: `  growtuck manual check`,
		Args:    cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			of := cmd.Root()
			if len(args) == 1 {
				found, _, err := cmd.Root().Find(args)
				if err != nil || found == cmd.Root() {
					return usagef("unknown command %q; growtuck help lists them", args[0])
				}
				of = found
			}
			_, err := a.stdout.Write(manualPage(of))
			return err
		},
	}
}

// manualPage is a command's page in roff, with the macros of man(7).
func manualPage(cmd *cobra.Command) []byte {
	var out bytes.Buffer
	name := strings.ReplaceAll(cmd.CommandPath(), " ", "-")
	fmt.Fprintf(&out, ".TH %s 1 \"\" \"growtuck\" \"User Commands\"\n", strings.ToUpper(roff(name)))
	fmt.Fprintf(&out, ".SH NAME\n%s \\- %s\n", roff(name), roff(cmd.Short))
	fmt.Fprintf(&out, ".SH SYNOPSIS\n.B %s\n", roff(cmd.UseLine()))
	fmt.Fprintf(&out, ".SH DESCRIPTION\n%s\n", paragraphs(cmd.Long))
	options := func(title string, flags *pflag.FlagSet) {
		if !flags.HasAvailableFlags() {
			return
		}
		fmt.Fprintf(&out, ".SH %s\n", title)
		flags.VisitAll(func(f *pflag.Flag) {
			value, usage := pflag.UnquoteUsage(f)
			fmt.Fprintf(&out, ".TP\n.B %s\n%s\n", roff(strings.TrimSpace("--"+f.Name+" "+value)), roff(usage))
		})
	}
	options("OPTIONS", cmd.LocalNonPersistentFlags())
	options("GLOBAL OPTIONS", cmd.Root().PersistentFlags())
	if cmd.Example != "" {
		fmt.Fprintf(&out, ".SH EXAMPLES\n.nf\n%s\n.fi\n", roff(cmd.Example))
	}
	if cmd.HasAvailableSubCommands() {
		out.WriteString(".SH COMMANDS\n")
		for _, c := range cmd.Commands() {
			if c.IsAvailableCommand() {
				fmt.Fprintf(&out, ".TP\n.B %s\n%s\n", roff(c.Name()), roff(c.Short))
			}
		}
	}
	return out.Bytes()
}

// paragraphs puts a macro between the paragraphs of a text.
func paragraphs(text string) string {
	return strings.ReplaceAll(roff(strings.TrimSpace(text)), "\n\n", "\n.PP\n")
}

// roff writes text so that none of it is taken for a request.
func roff(text string) string {
	text = strings.NewReplacer("\\", "\\e", "-", "\\-").Replace(text)
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		if strings.HasPrefix(l, ".") || strings.HasPrefix(l, "'") {
			lines[i] = "\\&" + l
		}
	}
	var b strings.Builder
	for _, r := range strings.Join(lines, "\n") {
		if r < utf8.RuneSelf {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, "\\[u%04X]", r)
		}
	}
	return b.String()
}
