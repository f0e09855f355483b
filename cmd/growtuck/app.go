package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/data"
	"growtuck/sizing"
)

// An app is one run of the program: its streams and its global flags.
type app struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	format, unit   string
	tables         string // a folder to read instead of the built-in tables
	started        bool   // the command line was understood

	held *sizing.Reference // tables made ready before; nil: read them
}

// run runs the program and returns its exit code.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	out := &resultWriter{to: stdout}
	a := &app{stdin: stdin, stdout: out, stderr: stderr}
	root := newRoot(a)
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

// commands are the program's own; a new one is added here.
func commands(a *app) []*cobra.Command {
	return []*cobra.Command{
		newSizeCommand(a),
		newProfileCommand(a),
		newBlendCommand(a),
		newGarmentCommand(a),
		newPlanCommand(a),
		newDrawCommand(a),
		newBatchCommand(a),
		newOrderCommand(a),
		newCheckCommand(a),
		newExportCommand(a),
		newChartsCommand(a),
		newMeasurementsCommand(a),
		newSourcesCommand(a),
		newRulesCommand(a),
		newTablesCommand(a),
		newRowsCommand(a),
		newPageCommand(a),
		newVersionCommand(a),
	}
}

// The groups that help lists the commands in.
const (
	groupWork   = "work"
	groupLookUp = "look-up"
)

func newRoot(a *app) *cobra.Command {
	root := &cobra.Command{
		Use:   "growtuck",
		Short: "Children's body measurements by size, and garments to fit a child",
		Long: `growtuck reads children's body measurements by size, between sizes too, fills
in what was not measured of a child from what was, and adds the ease and the
lengths that a garment needs. Every number says where it comes from.

It exits with 0 where all is done, with 1 where what it reads has something wrong
in it, and with 2 where the command line cannot be followed or a file that it
names cannot be read or written.

Measure the child where you can. This is no medical growth chart.`,
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
		&cobra.Group{ID: groupLookUp, Title: "What there is to know:"},
	)
	flags := root.PersistentFlags()
	flags.StringVar(&a.format, "format", "table", "`how` to print: table, csv, json or markdown")
	flags.StringVar(&a.unit, "unit", "cm", "`unit` of tables and markdown: cm, in or both; csv and json give both")
	flags.StringVar(&a.tables, "tables", "", "read the tables of this `folder` instead of the built-in ones")
	complete(root, "format", tell.Formats...)
	complete(root, "unit", tell.Units...)
	root.SetHelpCommand(newHelpCommand())
	root.AddCommand(commands(a)...)
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

// wantCommand refuses a command line without a command that is known.
func (a *app) wantCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return fmt.Errorf("no command given; growtuck --help lists them")
	}
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		return fmt.Errorf("unknown command %q; did you mean %q?", args[0], near[0])
	}
	return fmt.Errorf("unknown command %q; growtuck --help lists them", args[0])
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
				return fmt.Errorf("unknown command %q; growtuck --help lists them", args[0])
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

// reference returns the tables made ready: the built-in ones, or those of the
// folder asked for once they have passed every check.
func (a *app) reference() (*sizing.Reference, error) {
	if a.held != nil {
		return a.held, nil
	}
	if a.tables == "" {
		return sizing.Default()
	}
	if info, err := os.Stat(a.tables); err != nil {
		return nil, err
	} else if !info.IsDir() {
		return nil, usagef("%s is not a folder; --tables takes one, with sources.csv, body.csv and so on in it", a.tables)
	}
	t, err := data.Load(os.DirFS(a.tables))
	if err == nil {
		err = t.Check()
	}
	if err != nil {
		return nil, inFolder(a.tables, err)
	}
	ref, err := sizing.New(t)
	return ref, inFolder(a.tables, err)
}

// inFolder puts the folder before the file name of every fault. Tables that
// cannot be read at all are faults of the folder named.
func inFolder(dir string, err error) error {
	var faults faults
	unread := false
	for _, e := range flatten(err) {
		if fault, ok := e.(*data.Error); ok {
			placed := *fault
			placed.File = filepath.Join(dir, fault.File)
			unread = unread || fault.Line == 0
			e = &placed
		}
		faults = append(faults, e)
	}
	switch {
	case len(faults) == 0:
		return nil
	case unread:
		return unusable{faults}
	}
	return faults
}
