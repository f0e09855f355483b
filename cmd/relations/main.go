package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

const usage = `usage: relations fit SURVEY.csv OUTDIR

Reads the survey and writes OUTDIR/relations.csv and OUTDIR/ratios.csv.
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
	flags := flag.NewFlagSet("relations", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	if err := flags.Parse(args); err != nil {
		return err
	}
	if flags.NArg() == 0 {
		return errors.New("no command; want: relations fit SURVEY.csv OUTDIR")
	}
	if flags.Arg(0) != "fit" {
		return fmt.Errorf("unknown command %q; want fit", flags.Arg(0))
	}
	fit := flag.NewFlagSet("relations fit", flag.ContinueOnError)
	fit.SetOutput(io.Discard)
	if err := fit.Parse(flags.Args()[1:]); err != nil {
		return err
	}
	if fit.NArg() != 2 {
		return fmt.Errorf("fit: got %d arguments; want SURVEY.csv OUTDIR", fit.NArg())
	}
	return fitTables(fit.Arg(0), fit.Arg(1), out)
}

// fitTables reads a survey file, computes both tables, and only then writes
// them.
func fitTables(survey, dir string, out io.Writer) error {
	f, err := os.Open(survey)
	if err != nil {
		return err
	}
	defer f.Close()
	children, err := readSurvey(f)
	if err != nil {
		return fmt.Errorf("%s: %w", survey, err)
	}
	var fits []*relations
	for _, sex := range sexes {
		rel, err := fitRelations(sex, children)
		if err != nil {
			return err
		}
		fits = append(fits, rel)
	}
	relationsTable, err := relationsCSV(fits)
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
	fmt.Fprintf(out, "%d children; wrote relations.csv and ratios.csv to %s\n", len(children), dir)
	return nil
}

// writeFile replaces the file at path at one stroke, so that an interrupted run
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
