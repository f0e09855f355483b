package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"growtuck/data"
)

const usage = `usage:
  relations fit SURVEY.csv NHANES.csv.gz OUTDIR
        write OUTDIR/relations.csv and OUTDIR/ratios.csv
  relations weights SURVEY.csv
        print the rows of weight for data/body.csv
  relations accuracy SURVEY.csv NHANES.csv.gz [-folds N] [-seed N]
        print how close estimates come to children of both eras the relations
        were not fitted to, as Markdown
  relations predict data/README.md
        print how close the built-in tables expect estimates to come, beside the
        table of what was measured, as Markdown; needs no survey
  relations followed FOLLOWED.csv
        print how close forecasts of growth come to children who were measured again
        and again, as Markdown
`

func main() {
	err := run(os.Args[1:], os.Stdout)
	if errors.Is(err, flag.ErrHelp) {
		fmt.Fprint(os.Stdout, usage)
		return
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "relations:", err)
		os.Exit(1)
	}
}

func run(args []string, out io.Writer) error {
	if len(args) == 0 {
		return errors.New("no command; want fit, weights, accuracy, predict or followed")
	}
	flags := flag.NewFlagSet(args[0], flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	switch args[0] {
	case "fit":
		files, err := parse(flags, args[1:], "SURVEY.csv", "NHANES.csv.gz", "OUTDIR")
		if err != nil {
			return err
		}
		return fitTables(files[0], files[1], files[2], out)
	case "weights":
		files, err := parse(flags, args[1:], "SURVEY.csv")
		if err != nil {
			return err
		}
		return printWeights(files[0], out)
	case "predict":
		files, err := parse(flags, args[1:], "data/README.md")
		if err != nil {
			return err
		}
		return printPrediction(files[0], out)
	case "followed":
		files, err := parse(flags, args[1:], "FOLLOWED.csv")
		if err != nil {
			return err
		}
		return printFollowed(files[0], out)
	case "accuracy":
		folds := flags.Int("folds", 10, "")
		seed := flags.Uint64("seed", 1, "")
		files, err := parse(flags, args[1:], "SURVEY.csv", "NHANES.csv.gz")
		if err != nil {
			return err
		}
		return printAccuracy(files[0], files[1], *folds, *seed, out)
	case "-h", "-help", "--help", "help":
		return flag.ErrHelp
	}
	return fmt.Errorf("unknown command %q; want fit, weights, accuracy, predict or followed", args[0])
}

// parse takes flags from among the arguments and returns the others, one for
// each name wanted.
func parse(flags *flag.FlagSet, args []string, names ...string) ([]string, error) {
	var rest []string
	for {
		if err := flags.Parse(args); err != nil {
			if errors.Is(err, flag.ErrHelp) {
				return nil, err
			}
			return nil, fmt.Errorf("%s: %w", flags.Name(), err)
		}
		if flags.NArg() == 0 {
			break
		}
		rest = append(rest, flags.Arg(0))
		args = flags.Args()[1:]
	}
	if len(rest) != len(names) {
		return nil, fmt.Errorf("%s: got %d arguments; want %d: %s", flags.Name(), len(rest), len(names), strings.Join(names, " "))
	}
	return rest, nil
}

func printWeights(survey string, out io.Writer) error {
	children, err := openSurvey(survey)
	if err != nil {
		return err
	}
	table, err := weightsCSV(weightRows(children))
	if err != nil {
		return err
	}
	_, err = out.Write(table)
	return err
}

// fitTables reads both files of records, computes both tables, and only then
// writes them.
func fitTables(survey, nhanes, dir string, out io.Writer) error {
	children, err := openSurvey(survey)
	if err != nil {
		return err
	}
	today, err := openNHANES(nhanes)
	if err != nil {
		return err
	}
	tables, err := data.Load(data.Embedded())
	if err != nil {
		return err
	}
	fits, err := fitAll(children, sexes...)
	if err != nil {
		return err
	}
	rows, err := relationRows(fits)
	if err != nil {
		return err
	}
	if rows, err = withToday(rows, children, today, tables); err != nil {
		return err
	}
	relationsTable, err := relationsCSV(rows)
	if err != nil {
		return err
	}
	ratiosTable, err := ratiosCSV(measureRatios(children))
	if err != nil {
		return err
	}
	for _, t := range []struct {
		name string
		data []byte
	}{{"relations.csv", relationsTable}, {"ratios.csv", ratiosTable}} {
		if err := writeFile(filepath.Join(dir, t.name), t.data); err != nil {
			return err
		}
	}
	_, err = fmt.Fprintf(out, "%d children of the survey, %d of the examinations; wrote relations.csv and ratios.csv to %s\n", len(children), len(today), dir)
	return err
}

// writeFile replaces the file at path atomically, so that an interrupted run
// leaves the old table or the new one.
func writeFile(path string, data []byte) (err error) {
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			os.Remove(f.Name())
		}
	}()
	if _, err = f.Write(data); err != nil {
		f.Close()
		return err
	}
	if err = f.Chmod(0o644); err != nil {
		f.Close()
		return err
	}
	if err = f.Close(); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
