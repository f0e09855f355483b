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
	"growtuck/cmd/growtuck/internal/work"
)

func newBatchCommand(a *app) *cobra.Command {
	var rejects string
	var force bool
	var q *question
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
			rejected, err := a.batch(argument(args, 0), q, list.BatchOptions{Rejects: rejects, Replace: force})
			switch {
			case err != nil:
				return cannotRun(err)
			case rejects != "":
				return rejectedError(rejected, "; see "+rejects)
			}
			return rejectedError(rejected, "; use --rejects FILE to keep them")
		},
	}
	q = a.asks(cmd, ask.BatchFields())
	cmd.Flags().StringVar(&rejects, "rejects", "", "`file` for the lines that are rejected")
	cmd.Flags().BoolVar(&force, "force", false, "overwrite the file of --rejects")
	return cmd
}

func (a *app) batch(path string, q *question, o list.BatchOptions) (rejected int, err error) {
	if a.format == "markdown" {
		return 0, usagef("batch writes CSV or lines of JSON; leave --format out, or use csv or json")
	}
	ref, err := a.reference()
	if err != nil {
		return 0, err
	}
	r, err := a.read(ref, q, "")
	if err != nil {
		return 0, err
	}
	o.Format = a.lineFormat()
	batch, err := work.NewBatch(ref, r, a.style().Units(), o)
	if err != nil {
		return 0, err
	}
	in, closeList, err := a.openList(ref, r, path, batch.Columns())
	if err != nil {
		return 0, err
	}
	defer closeList()
	a.sweep(o.Rejects)
	ctx, restore := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer restore()
	context.AfterFunc(ctx, restore)                       // a second signal ends the program
	to, done := a.listener(in, terminal(a.stdout) == nil) // to a terminal the lines themselves pass by
	result, err := batch.Run(ctx, in, a.stdout, to)
	done()
	if errors.Is(err, syscall.EPIPE) { // again, for the signal that ends other commands
		_, err = a.stdout.Write([]byte("\n"))
	}
	if err != nil {
		return 0, err
	}
	if !result.JSON && r.List.Header { // there is no place for credits among the rows
		for _, line := range tell.CreditLines(ref, result.Sources) {
			fmt.Fprintln(a.stderr, line)
		}
	}
	return result.Rejected, nil
}
