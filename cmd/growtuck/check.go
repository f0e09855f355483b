package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/sizing"
	"growtuck/validate"
)

// checkFormats are what check --format takes.
var checkFormats = []string{"text", "json", "annotations"}

type checkFlags struct {
	format, failOn, exceptions string
}

func newCheckCommand(a *app) *cobra.Command {
	var f checkFlags
	cmd := &cobra.Command{
		Use:     "check PATH...",
		GroupID: groupWork,
		Short:   "Check drafts of garments before the first stitch",
		Long: `check reads drafts and says what will not fit, will not add up, or wants care: a
finding a line, with the place, the rule, what was found, what was expected and
what to change. A path is a draft (CSV, or a workbook that growtuck export
wrote), a folder with drafts in it, or - for standard input. growtuck rules lists
the rules.

The cautions for the care of the child are no verdict: what check does not name
is not thereby safe.

It exits with 0 where there is nothing at or above --fail-on, with 1 where there
is, and with 2 where a draft cannot be used.`,
		Example: `  growtuck check draft.csv
  growtuck check . --fail-on warn`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return errors.New("no draft given, as in growtuck check draft.csv")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return a.check(args, f) },
	}
	cmd.Flags().StringVar(&f.format, "format", "text", "`how` to print: text, json or annotations (for a code forge)")
	cmd.Flags().StringVar(&f.failOn, "fail-on", "stop", "the least `severity` to exit with 1 for: stop, warn or note")
	cmd.Flags().StringVar(&f.exceptions, "exceptions", "", "a `table` of known findings to leave out: rule,file,subject,reason")
	complete(cmd, "format", checkFormats...)
	complete(cmd, "fail-on", "stop", "warn", "note")
	return cmd
}

// unusable are the faults of drafts that cannot be used; the program then exits
// as it does where it cannot be used itself.
type unusable struct{ faults }

func (u unusable) As(target any) bool {
	usage, ok := target.(**usageError)
	if ok {
		*usage = &usageError{u.Error()}
	}
	return ok
}

func (a *app) check(paths []string, f checkFlags) error {
	if !slices.Contains(checkFormats, f.format) {
		return usagef("unknown format %q; known are %s", f.format, strings.Join(checkFormats, ", "))
	}
	failOn, err := validate.ParseSeverity(f.failOn)
	if err != nil {
		return usagef("--fail-on: %v", err)
	}
	ref, err := a.reference()
	if err != nil {
		return err
	}
	var known []validate.Exception
	if f.exceptions != "" {
		if known, err = readExceptions(f.exceptions); err != nil {
			return unusable{flatten(err)}
		}
	}
	drafts, faults := a.drafts(paths)
	findings := []validate.Finding{}
	for _, path := range drafts {
		found, err := a.checkDraft(ref, path, known)
		faults = append(faults, flatten(err)...)
		findings = append(findings, found...)
		if f.format != "text" { // text has them on standard error
			findings = append(findings, validate.Unreadable(err)...)
		}
	}
	validate.Sort(findings)
	if err := a.printFindings(findings, f.format, len(drafts), len(faults) > 0); err != nil {
		return err
	}
	if len(faults) > 0 {
		return unusable{faults}
	}
	return failing(findings, failOn)
}

// failing is the error of having findings of a severity or worse; nil without.
func failing(findings []validate.Finding, failOn validate.Severity) error {
	n := 0
	for _, f := range findings {
		if f.Severity >= failOn {
			n++
		}
	}
	switch {
	case n == 1:
		return fmt.Errorf("1 finding of severity %s or worse", failOn)
	case n > 1:
		return fmt.Errorf("%d findings of severity %s or worse", n, failOn)
	}
	return nil
}

func readExceptions(path string) ([]validate.Exception, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return validate.ReadExceptions(f, path)
}

// drafts finds the drafts that the paths name. In a folder every CSV file is
// one whose header begins as a draft's does, whatever parts its columns, and
// every workbook that has the table of a draft.
func (a *app) drafts(paths []string) (drafts []string, faults faults) {
	for _, path := range paths {
		info, err := os.Stat(path)
		switch {
		case path == "-":
			drafts = append(drafts, path)
			continue
		case err != nil:
			faults = append(faults, err)
			continue
		case !info.IsDir():
			drafts = append(drafts, path)
			continue
		}
		before := len(drafts)
		err = filepath.WalkDir(path, func(p string, d fs.DirEntry, err error) error {
			if err != nil || !d.Type().IsRegular() || !slices.Contains([]string{".csv", ".xlsx"}, strings.ToLower(filepath.Ext(p))) {
				return err
			}
			isDraft, err := hasDraftHeader(p)
			if isDraft {
				drafts = append(drafts, p)
			} else if err == nil {
				a.say("note: " + p + " is passed over: its header is not a draft's")
			}
			return err
		})
		if err != nil {
			faults = append(faults, err)
		} else if len(drafts) == before {
			faults = append(faults, fmt.Errorf("%s has no draft in it", path))
		}
	}
	return drafts, faults
}

func hasDraftHeader(path string) (bool, error) {
	f, err := os.Open(path)
	if err != nil {
		return false, err
	}
	defer f.Close()
	head := make([]byte, 4096)
	n, err := io.ReadFull(f, head)
	if err != nil && err != io.EOF && err != io.ErrUnexpectedEOF {
		return false, err
	}
	if workbook.Is(head[:n]) {
		return work.HasDraft(path)
	}
	head = bytes.TrimPrefix(head[:n], []byte("\ufeff"))
	for line := range bytes.Lines(head) {
		if line = bytes.TrimSpace(line); len(line) > 0 && line[0] != '#' {
			return bytes.HasPrefix(bytes.TrimLeft(line, `"`), []byte("field")), nil
		}
	}
	return false, nil
}

func (a *app) checkDraft(ref *sizing.Reference, path string, known []validate.Exception) ([]validate.Finding, error) {
	in, name := a.stdin, "standard input"
	dir := "."
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		in, name, dir = f, path, filepath.Dir(path)
	}
	return work.CheckDraft(ref, in, name, validate.Options{
		Exceptions: known,
		Open:       work.OpenChild(dir),
	})
}

func (a *app) printFindings(findings []validate.Finding, format string, drafts int, faulty bool) error {
	var out bytes.Buffer
	var err error
	switch format {
	case "json":
		err = tell.Style{}.WriteFindingsJSON(&out, findings)
	case "annotations":
		err = tell.Style{}.WriteAnnotations(&out, findings)
	default:
		if err = (tell.Style{Unit: a.unit}).WriteFindings(&out, findings); len(findings) == 0 && !faulty {
			of := "1 draft"
			if drafts != 1 {
				of = fmt.Sprintf("%d drafts", drafts)
			}
			fmt.Fprintf(&out, "Nothing to say about %s.\n", of)
		}
	}
	if err != nil {
		return err
	}
	_, err = a.stdout.Write(out.Bytes())
	return err
}
