package main

import (
	"io"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/data/table"
	"growtuck/sizing"
)

// An app is one run of the program: its streams and its global flags.
type app struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	format, unit   string
	tables         string // a folder to read instead of the built-in tables
	latin1         bool   // files of text are in Latin-1
	started        bool   // the command line was understood
}

// run runs the program and returns its exit code.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	out := &resultWriter{to: stdout}
	a := &app{stdin: stdin, stdout: out, stderr: stderr}
	root := rootFor(a, args)
	root.SetArgs(args)
	err := root.Execute()
	if err == nil {
		err = out.err
	}
	if err != nil {
		return a.fail(err)
	}
	return 0
}

// commands are the program's own, by name; a new one is added here.
func commands() map[string]func(*app) *cobra.Command {
	all := map[string]func(*app) *cobra.Command{
		"size":    newSizeCommand,
		"profile": newProfileCommand,
		"blend":   newBlendCommand,
		"grow":    newGrowCommand,
		"garment": newGarmentCommand,
		"wears":   newWearsCommand,
		"plan":    newPlanCommand,
		"draw":    newDrawCommand,
		"batch":   newBatchCommand,
		"order":   newOrderCommand,
		"check":   newCheckCommand,
		"export":  newExportCommand,
		"tables":  newTablesCommand,
		"rows":    newRowsCommand,
		"page":    newPageCommand,
		"manual":  newManualCommand,
		"schema":  newSchemaCommand,
		"version": newVersionCommand,
	}
	for _, l := range lookUps {
		all[l.name] = l.command
	}
	return all
}

// rootFor is the program with the one command that is to run, where that is clear:
// each makes its flags, and all of them take longer than most answers.
func rootFor(a *app, args []string) *cobra.Command {
	all := commands()
	for _, arg := range args {
		if build := all[arg]; build != nil && arg != "manual" { // which is about the others
			root := newRoot(a, build(a))
			if found, _, err := root.Find(args); err == nil && found.Name() == arg {
				return root
			}
		}
	}
	return wholeRoot(a)
}

// wholeRoot is the program with every command.
func wholeRoot(a *app) *cobra.Command {
	var all []*cobra.Command
	for _, build := range commands() {
		all = append(all, build(a))
	}
	return newRoot(a, all...)
}

// The groups that help lists the commands in.
const (
	groupWork   = "work"
	groupLookUp = "look-up"
)

func newRoot(a *app, commands ...*cobra.Command) *cobra.Command {
	root := &cobra.Command{
		Use:   "growtuck",
		Short: "Children's body measurements by size, and garments to fit a child",
		Long: `growtuck reads children's body measurements by size, between sizes too, fills
in what was not measured of a child from what was, and adds the ease and the
lengths that a garment needs. Every number names its source.

Measure the child where you can. This is not a medical growth chart.

Exit status: 0 success, 1 problems found in the input, 2 usage or file error.`,
		Example: `  growtuck size 3 5.5 18m
  growtuck garment cardigan child.csv --widths 6 --lengths 10`,
		SilenceErrors:              true,
		SilenceUsage:               true,
		SuggestionsMinimumDistance: 2,
		Args:                       a.wantCommand,
		RunE:                       func(*cobra.Command, []string) error { return nil },
		PersistentPreRunE: func(cmd *cobra.Command, args []string) error {
			a.started = true
			return a.checkOutput()
		},
	}
	root.AddGroup(
		&cobra.Group{ID: groupWork, Title: "Measurements and garments:"},
		&cobra.Group{ID: groupLookUp, Title: "Reference:"},
	)
	flags := root.PersistentFlags()
	flags.StringVar(&a.format, "format", "table", "`how` to print: table, csv, json or markdown")
	flags.StringVar(&a.unit, "unit", "cm", "`unit` of tables and markdown: cm, in or both; csv and json give both")
	flags.StringVar(&a.tables, "tables", "", "read the tables of this `folder` instead of the built-in ones")
	flags.BoolVar(&a.latin1, "latin-1", false, "read tables and lists that you give as Latin-1 (Windows-1252), not UTF-8")
	complete(root, "format", tell.Formats...)
	complete(root, "unit", tell.Units...)
	root.SetHelpCommand(newHelpCommand())
	root.AddCommand(commands...)
	root.SetFlagErrorFunc(flagError)
	root.SetIn(a.stdin)
	root.SetOut(a.stdout) // before completion, which keeps it
	root.SetErr(a.stderr)
	root.InitDefaultCompletionCmd("")
	for _, c := range root.Commands() {
		if c.Name() == "completion" {
			c.Args, c.RunE = wantShell, func(*cobra.Command, []string) error { return nil }
		}
	}
	return root
}

// tablesInUse are the built-in tables, or those of the folder asked for.
func (a *app) tablesInUse() work.Tables { return work.Tables{Folder: a.tables} }

// reference returns the tables in use, made ready.
func (a *app) reference() (*sizing.Reference, error) { return a.tablesInUse().Reference() }

// decoder gives the text of the tables that the user names.
func (a *app) decoder() work.Decoder {
	if a.latin1 {
		return table.Latin1Unless
	}
	return func(in io.Reader) io.Reader { return in }
}

// text is the text of a list that the user names, which may be long.
func (a *app) text(in io.Reader) io.Reader {
	if a.latin1 {
		return table.Latin1(in)
	}
	return in
}
