package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"syscall"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/list"
	"growtuck/cmd/growtuck/internal/tell"
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
		Short:   "Sizes and measurements for each child of a list",
		Long:    batchHelp,
		Example: `  growtuck batch children.csv
  growtuck batch children.csv --want chest,hip,inside_leg --ranges --rejects rejects.csv
  growtuck batch children.csv --garment pullover --fit loose --layer indoor
  growtuck batch --header=false --columns name,sex,height,chest piece.csv`,
		Args: atMostOneList("batch"),
		RunE: func(_ *cobra.Command, args []string) error {
			for _, field := range f.spec.fields {
				if f.garment == "" && len(f.spec.values[field.Name]) > 0 {
					return usagef("--%s needs a garment; name it with --garment", field.Name)
				}
			}
			rejected, err := a.batch(argument(args, 0), f)
			switch {
			case err != nil:
				return cannotRun(err)
			case f.rejects != "":
				return rejectedError(rejected, "; see "+f.rejects)
			}
			return rejectedError(rejected, "; use --rejects FILE to keep them")
		},
	}
	f.list.add(cmd)
	flags := cmd.Flags()
	flags.StringSliceVar(&f.want, "want", nil, "`measurements` to write, comma-separated (default: those that most garments take, or with --garment none)")
	flags.BoolVar(&f.ranges, "ranges", false, "write the likely range of estimates, p10–p90")
	flags.StringVar(&f.rejects, "rejects", "", "`file` for the lines that are rejected")
	flags.BoolVar(&f.force, "force", false, "overwrite the file of --rejects")
	flags.StringVar(&f.garment, "garment", "", "`garment` to work out the finished measurements of; growtuck garment lists them")
	f.spec = a.asks(cmd, ask.Of(ask.Garment))
	completeWith(cmd, "want", a.measurementIDs)
	completeWith(cmd, "garment", a.garmentIDs)
	return cmd
}

func (a *app) batch(path string, f batchFlags) (rejected int, err error) {
	if a.format == "markdown" {
		return 0, usagef("batch writes CSV or lines of JSON; leave --format out, or use csv or json")
	}
	ref, err := a.reference()
	if err != nil {
		return 0, err
	}
	o := list.BatchOptions{Ranges: f.ranges, Units: a.style().Units(), Format: a.lineFormat(), Rejects: f.rejects, Replace: f.force}
	if f.garment != "" {
		r, err := a.readGarment(ref, f.spec, f.garment, "")
		if err != nil {
			return 0, err
		}
		o.Garment = &r.Spec
	}
	if o.Want, err = ask.MeasurementIDs(ref, f.want); err != nil {
		return 0, err
	}
	batch, err := list.NewBatch(ref, o)
	if err != nil {
		return 0, err
	}
	in, closeList, err := a.openList(ref, path, f.list, batch.Columns())
	if err != nil {
		return 0, err
	}
	defer closeList()
	ctx, restore := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer restore()
	context.AfterFunc(ctx, restore)                   // a second signal ends the program
	to, done := a.listener(in, !isTerminal(a.stdout)) // to a terminal the lines themselves pass by
	result, err := batch.Run(ctx, in, a.stdout, to)
	done()
	if errors.Is(err, syscall.EPIPE) { // again, for the signal that ends other commands
		_, err = a.stdout.Write([]byte("\n"))
	}
	if err != nil {
		return 0, err
	}
	if !result.JSON && f.list.header { // there is no place for credits among the rows
		for _, line := range tell.CreditLines(ref, result.Sources) {
			fmt.Fprintln(a.stderr, line)
		}
	}
	return result.Rejected, nil
}
