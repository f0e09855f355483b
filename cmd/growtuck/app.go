package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

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

// A builder makes a command.
type builder struct {
	name  string
	build func(*app) *cobra.Command
}

// commands are the program's own; a new one is added here.
func commands() []builder {
	var all []builder
	for _, l := range lookUps {
		all = append(all, builder{l.name, l.command})
	}
	return append(all,
		builder{"size", newSizeCommand},
		builder{"profile", newProfileCommand},
		builder{"blend", newBlendCommand},
		builder{"grow", newGrowCommand},
		builder{"garment", newGarmentCommand},
		builder{"wears", newWearsCommand},
		builder{"plan", newPlanCommand},
		builder{"draw", newDrawCommand},
		builder{"batch", newBatchCommand},
		builder{"order", newOrderCommand},
		builder{"check", newCheckCommand},
		builder{"export", newExportCommand},
		builder{"tables", newTablesCommand},
		builder{"rows", newRowsCommand},
		builder{"page", newPageCommand},
		builder{"manual", newManualCommand},
		builder{"schema", newSchemaCommand},
		builder{"version", newVersionCommand},
	)
}

// rootFor is the program with the one command that is to run, where that is clear:
// each makes its flags, and all of them take longer than most answers.
func rootFor(a *app, args []string) *cobra.Command {
	for _, c := range commands() {
		if c.name == "manual" || !slices.Contains(args, c.name) { // which is about the others
			continue
		}
		root := newRoot(a, c.build(a))
		if found, _, err := root.Find(args); err == nil && found.Name() == c.name {
			return root
		}
	}
	return wholeRoot(a)
}

// wholeRoot is the program with every command.
func wholeRoot(a *app) *cobra.Command {
	var all []*cobra.Command
	for _, c := range commands() {
		all = append(all, c.build(a))
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
	root.SetUsageTemplate(strings.ReplaceAll(root.UsageTemplate(), ".FlagUsages", fmt.Sprintf(".FlagUsagesWrapped %d", lineWidth(a.stdout))))
	if width := lineWidth(a.stdout); width < usualWidth {
		for _, c := range append(commands, root) {
			c.Long = reflowed(c.Long, width)
		}
		help := root.HelpFunc()
		root.SetHelpFunc(func(c *cobra.Command, args []string) { // flags whose words are longer than their column
			var out strings.Builder
			c.SetOut(&out)
			help(c, args)
			fmt.Fprint(a.stdout, broken(out.String(), width))
		})
	}
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
