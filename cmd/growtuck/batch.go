package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"slices"
	"syscall"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/sizing"
)

// batchFlags say how a list of children is read and what is written of each.
type batchFlags struct {
	list    listFlags
	want    []string
	ranges  bool
	rejects string
	force   bool
	garment string
	spec    *question
}

func newBatchCommand(a *app) *cobra.Command {
	var f batchFlags
	cmd := &cobra.Command{
		Use:     "batch [children.csv]",
		GroupID: groupWork,
		Short:   "Sizes and measurements for a list of children, a line each",
		Long: `batch reads a list of children, a line for each, and writes a line for each in
the same order: the size by height (for lengths) and the size by chest (for
widths), the nearest of the chart and the place to a tenth of a size, both empty
where the chart has none, as between the baby's sizes and those in years; then the
measurements, those not taken estimated; with --garment also the finished
measurements of a garment. check names a child's own measurements that hardly any
child of that height has; yes is another doubt: see growtuck blend.

Estimates are by the survey of measured children, of about 87 to 181 cm, girls
to 175: smaller and taller children, babies too, are set aside.

The list is CSV (cells parted by commas, semicolons or tabs) with a header, or a
line of JSON for each child; without a file it is standard input. Columns are
named sex, age, or as growtuck measurements lists them: height, chest_in,
"arm length (cm)". Other columns, as id and name, are written again as they stand.
A cell may be empty. What is written has the form of what was read; --format json
turns CSV into lines of JSON. A list parted by semicolons gets decimal commas.
Figures are written in cm and kg; --unit in writes inches and pounds instead,
--unit both all of them.

A line that cannot be used is named on standard error, with its number and its
column but not what it says, and set aside: --rejects FILE takes such lines,
unchanged, under the header of the list. The file gets its name when the whole
list has been read, and is there also when no line was set aside.

Each line is sized for itself, so a list can be cut anywhere between lines:
--header=false with --columns reads and writes a piece without a header.

It exits with 0 where every child was sized, with 1 where a line was set aside,
and with 2 where the list could not be read or written to its end.`,
		Example: `  growtuck batch children.csv
  growtuck batch children.csv --want chest,hip,inside_leg --ranges --rejects rejects.csv
  growtuck batch children.csv --garment pullover --fit loose --layer indoor
  growtuck batch --header=false --columns name,sex,height,chest piece.csv`,
		Args: atMostOneList("batch"),
		RunE: func(cmd *cobra.Command, args []string) error {
			for _, name := range []string{"fit", "layer", "nappy", "growth", "option", "extra"} {
				if f.garment == "" && cmd.Flags().Changed(name) {
					return usagef("--%s is of a garment; name it with --garment", name)
				}
			}
			refused, err := a.batch(argument(args, 0), f)
			if err != nil {
				return cannot(err)
			}
			return refusedError(refused, f.rejects)
		},
	}
	f.list.add(cmd)
	flags := cmd.Flags()
	flags.StringSliceVar(&f.want, "want", nil, "`measurements` to write, parted by commas; without it those that most garments take, or with --garment none")
	flags.BoolVar(&f.ranges, "ranges", false, "write the likely range of what was estimated: eight of ten such children are in it")
	flags.StringVar(&f.rejects, "rejects", "", "`file` for the lines that are set aside")
	flags.BoolVar(&f.force, "force", false, "write over the file of --rejects")
	flags.StringVar(&f.garment, "garment", "", "`garment` to work out the finished measurements of; growtuck garment lists them")
	f.spec = a.asks(cmd, ask.Of(ask.Garment))
	completeWith(cmd, "want", a.measurementIDs)
	completeWith(cmd, "garment", a.garmentIDs)
	return cmd
}

func (f *listFlags) add(cmd *cobra.Command) {
	flags := cmd.Flags()
	flags.StringVar(&f.columns, "columns", "", "`names` of the columns, parted as the list is, instead of its header's")
	flags.BoolVar(&f.header, "header", true, "the list begins with a header; with =false name the --columns")
	flags.StringVar(&f.figuresIn, "figures-in", "cm", "`unit` of lengths that name none: cm, mm or in; weights are then in kg, or with in in lb")
	complete(cmd, "figures-in", figureUnits...)
}

func atMostOneList(command string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) > 1 {
			return fmt.Errorf("%d lists given; %s takes one, or standard input", len(args), command)
		}
		return nil
	}
}

func (a *app) garmentIDs() []string {
	return a.lookUp(func(ref *sizing.Reference) (ids []string) {
		for _, g := range ref.Garments() {
			ids = append(ids, g.ID)
		}
		return ids
	})
}

// cannot makes of an error one that the program exits with 2 for, so that 1 says
// one thing alone: lines were set aside.
func cannot(err error) error {
	var usage *usageError
	if errors.As(err, &usage) {
		return err
	}
	return unusable{flatten(err)}
}

// refusedError says how many lines were set aside; nil for none.
func refusedError(refused int, path string) error {
	where := "; --rejects FILE keeps them"
	if path != "" {
		where = " in " + path
	}
	switch {
	case refused == 1:
		return fmt.Errorf("1 line was set aside%s", where)
	case refused > 1:
		return fmt.Errorf("%d lines were set aside%s", refused, where)
	}
	return nil
}

// batch sizes a list, and returns how many lines were set aside.
func (a *app) batch(path string, f batchFlags) (refused int, err error) {
	if a.format == "markdown" {
		return 0, usagef("batch writes CSV or lines of JSON; leave --format out, or use csv or json")
	}
	ref, err := a.reference()
	if err != nil {
		return 0, err
	}
	s, err := a.newSheet(ref, f)
	if err != nil {
		return 0, err
	}
	f.list.own = s.headers
	list, err := a.openList(ref, path, f.list)
	if err != nil {
		return 0, err
	}
	defer list.close()
	if list.json && a.format == "csv" {
		return 0, usagef("a list of JSON lines is written as JSON lines; leave --format out")
	}
	s.json, s.sep, s.comma = list.json || a.format == "json", list.sep, list.sep == ';'
	if s.json && !list.json {
		if err := list.oneName(); err != nil {
			return 0, err
		}
	}
	if there, err := os.Stat(f.rejects); err == nil && list.file != nil && os.SameFile(there, list.file) {
		return 0, usagef("--rejects %s is the list itself", f.rejects)
	}
	// Signals are minded from before the file of rejects is begun until it is
	// finished, so that none leaves it behind.
	ctx, restore := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer restore()
	context.AfterFunc(ctx, restore) // a second signal ends the program
	aside, err := openRejects(f.rejects, f.force)
	if err != nil {
		return 0, err
	}
	for _, doubt := range list.doubts(ref) {
		a.say("note: " + doubt)
	}
	if refused, err = a.sizeList(ctx, ref, list, s, f, aside); err != nil {
		aside.drop()
		if errors.Is(err, syscall.EPIPE) { // once more, for the signal that ends other commands
			_, err = a.stdout.Write([]byte("\n"))
		}
		return 0, err
	}
	if err := aside.keep(); err != nil {
		return 0, err
	}
	if !s.json && f.list.header { // there is no place for them among the rows
		for _, line := range s.credits() {
			fmt.Fprintln(a.stderr, line)
		}
	}
	return refused, nil
}

// newSheet turns the flags into what is written.
func (a *app) newSheet(ref *sizing.Reference, f batchFlags) (*sheet, error) {
	chart, err := ref.Chart("child")
	if err != nil {
		return nil, err
	}
	s := &sheet{ref: ref, chart: chart, ranges: f.ranges, units: a.style().Units()}
	wanted := f.want
	if f.garment != "" {
		r, err := a.readGarment(ref, f.spec, f.garment, "")
		if err != nil {
			return nil, err
		}
		s.making = &r.Spec
	} else if len(wanted) == 0 {
		wanted = wantedByDefault
	}
	ids, err := ask.MeasurementIDs(ref, wanted)
	if err != nil {
		return nil, err
	}
	for _, id := range ids {
		if !slices.Contains(s.want, id) {
			s.want = append(s.want, id)
		}
	}
	return s, s.prepare()
}

// sizeList takes the list through the sizers and writes it. The context stops it
// between blocks.
func (a *app) sizeList(ctx context.Context, ref *sizing.Reference, list *childList, s *sheet, f batchFlags, aside *rejects) (refused int, err error) {
	if err := aside.write(list.head); err != nil {
		return 0, err
	}
	if !s.json && f.list.header {
		if _, err := a.stdout.Write(s.headLine(list)); err != nil {
			return 0, err
		}
	}
	var bar *progress
	if !isTerminal(a.stdout) { // there the lines themselves pass by
		bar = a.newProgress(list.file)
	}
	defer bar.clear()
	p := pipeline{list: list.lines, name: list.name, stop: ctx.Done()}
	p.handler = func() (handler, error) {
		sizer, err := newChildSizer(s, list.known)
		if err != nil {
			return nil, err
		}
		r := newChildReader(ref, list)
		return func(b *block, line []byte) *fault {
			if f := r.readLine(line); f != nil {
				return f
			}
			doubts, f := sizer.size(r)
			if f == nil {
				b.out = sizer.write(b.out, r, doubts)
			}
			return f
		}, nil
	}
	p.write = func(b *block) error {
		refused += a.sayRefused(b, bar)
		if err := aside.write(b.rejects); err != nil {
			return err
		}
		if _, err := a.stdout.Write(b.out); err != nil {
			return err
		}
		bar.add(b.children, b.read)
		return nil
	}
	err = p.run()
	return refused, err
}

// sayRefused says which lines of a block were refused, and how many.
func (a *app) sayRefused(b *block, bar *progress) int {
	if len(b.faults) > 0 {
		bar.clear()
		a.sayAll(b.faults)
	}
	return b.refused
}

// sayAll says messages, a line each, in one piece.
func (a *app) sayAll(lines []byte) {
	var out bytes.Buffer
	for line := range bytes.Lines(lines) {
		fmt.Fprintf(&out, "growtuck: %s\n", tell.Printable(string(bytes.TrimSuffix(line, []byte("\n")))))
	}
	a.stderr.Write(out.Bytes())
}

// credits are the credit lines that the sources of the columns ask for.
func (s *sheet) credits() []string {
	var used []string
	if place, err := s.chart.Place("4", sizing.Both); err == nil {
		for _, id := range s.asked {
			if r, err := s.ref.Read(place, id, sizing.Monotone); err == nil {
				used = append(used, r.Sources...)
			}
		}
	}
	return tell.CreditLines(s.ref, used)
}
