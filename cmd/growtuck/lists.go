package main

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/list"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
)

func atMostOneList(command string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) > 1 {
			return fmt.Errorf("%d lists given; %s takes one, or standard input", len(args), command)
		}
		return nil
	}
}

// openList opens a list, "" and - being standard input. The columns computed are
// not copied.
func (a *app) openList(ref *sizing.Reference, r *ask.Request, path string, computed []string) (in *list.List, closeList func() error, err error) {
	if path == "" || path == "-" {
		in, err = work.OpenList(ref, r, "standard input", a.text(a.stdin), a.lineFormat(), computed)
		return in, func() error { return nil }, err
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, nil, err
	}
	if in, err = work.OpenList(ref, r, path, a.text(file), a.lineFormat(), computed); err != nil {
		file.Close()
		return nil, nil, err
	}
	return in, file.Close, nil
}

// lineFormat is the format asked for, of output that is a line for each child.
func (a *app) lineFormat() list.Format {
	switch a.format {
	case "csv":
		return list.CSV
	case "json":
		return list.JSON
	}
	return list.AsRead
}

// listener says on standard error what a list is not used for, and shows there how
// far it has been read, if that is a terminal. done is to be called at the end.
func (a *app) listener(in *list.List, showProgress bool) (to list.Listener, done func()) {
	var bar *list.Progress
	if showProgress && terminal(a.stderr) != nil {
		bar = list.NewProgress(a.stderr, in.Size())
	}
	return list.Listener{
		Doubt: func(f sizing.Fact) { a.say("note: " + a.style().Fact(f)) },
		Rejected: func(lines []*list.LineError) {
			bar.Clear()
			var out strings.Builder // said in one piece
			for _, l := range lines {
				fmt.Fprintln(&out, "growtuck: "+tell.Printable(l.Error()))
			}
			fmt.Fprint(a.stderr, fitting(out.String(), a.stderr))
		},
		Read: bar.Add,
	}, bar.Clear
}

// cannotRun makes an error exit the program with 2: for a list, 1 means only that
// lines were rejected.
func cannotRun(err error) error {
	var usage *usageError
	if errors.As(err, &usage) {
		return err
	}
	return work.Unusable{Faults: work.Flatten(err)}
}

// rejectedError says how many lines were rejected; nil for none.
func rejectedError(n int, kept string) error {
	switch {
	case n == 1:
		return errors.New("1 line was rejected" + kept)
	case n > 1:
		return fmt.Errorf("%d lines were rejected%s", n, kept)
	}
	return nil
}
