package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/save"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/sizing"
	"growtuck/validate"
)

type checkFlags struct {
	findingFlags
	exceptions string
	fix, force bool
}

func newCheckCommand(a *app) *cobra.Command {
	var f checkFlags
	cmd := &cobra.Command{
		Use:     "check PATH...",
		GroupID: groupWork,
		Short:   "Check drafts of garments before the first stitch",
		Long: `check reads drafts and reports what will not fit, does not add up, or needs care:
one finding on each line, with the place, the rule, what was found, what was
expected and what to change. A path is a draft (CSV, or a workbook that growtuck export
wrote), a folder with drafts in it, or - for standard input. growtuck rules lists
the rules.

Before the findings of a draft comes the one slip that explains most of them, with
what it clears. --fix puts it right, then the likeliest of what is left, and writes the
corrected draft beside the old one, as draft-corrected.csv; what follows is said of
that. What only a tape or a swatch can tell it leaves.

Drafts from elsewhere can be checked: only the draft is read and, where it names a
child, a regular file inside its own folder; no message holds more than 80
characters of a file, and of one file at most a hundred faults are printed.

The cautions for the care of the child are not a verdict: that check finds no
problem does not make a garment safe.

Exit status: 0 no findings of the --fail-on severity or worse, 1 such findings,
2 usage or file error, or a draft that cannot be used.`,
		Example: `  growtuck check draft.csv
  growtuck check . --fail-on warn
  growtuck check draft.csv --fix`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return errors.New("no draft given; for example growtuck check draft.csv")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return a.check(args, f) },
	}
	f.add(cmd, "stop")
	cmd.Flags().BoolVar(&f.fix, "fix", false, "write the draft with its likeliest slips put right beside it")
	cmd.Flags().BoolVar(&f.force, "force", false, "with --fix: replace a file that exists")
	cmd.Flags().StringVar(&f.exceptions, "exceptions", "", "a `table` of known findings to leave out: rule,file,subject,reason")
	return cmd
}

func (a *app) check(paths []string, f checkFlags) error {
	failOn, err := f.read()
	if err != nil {
		return err
	}
	ref, err := a.reference()
	if err != nil {
		return err
	}
	var known []validate.Exception
	if f.exceptions != "" {
		if known, err = work.ReadExceptions(f.exceptions, a.decoder()); err != nil {
			return work.Unusable{Faults: work.Flatten(err)}
		}
	}
	drafts, passed, faults := work.Drafts(paths)
	for _, path := range passed {
		a.say("note: " + path + " was skipped: it does not have the header of a draft")
	}
	if f.force && !f.fix {
		return usagef("--force is for what --fix writes")
	}
	findings := []validate.Finding{}
	var corrected []correction
	for _, path := range drafts {
		found, put, err := a.checkOne(ref, path, known, f)
		if f.fix && put.file.Path != "" {
			corrected = append(corrected, put)
		}
		faults = append(faults, work.Flatten(err)...)
		findings = append(findings, found...)
		if f.format != "text" { // text has them on standard error
			findings = append(findings, validate.Unreadable(err)...)
		}
	}
	if err := a.writeCorrected(corrected, f.force); err != nil {
		return err
	}
	if err := a.printFindings(findings, f.format, " in "+tell.Counted(len(drafts), "drafts"), len(faults) > 0); err != nil {
		return err
	}
	if len(faults) > 0 {
		return work.Unusable{Faults: faults}
	}
	return failing(findings, failOn)
}

// checkOne checks the draft of a path; to correct it, what is left to say of it when
// its likeliest slips are put right.
func (a *app) checkOne(ref *sizing.Reference, path string, known []validate.Exception, f checkFlags) (findings []validate.Finding, put correction, err error) {
	if !f.fix {
		findings, err = work.CheckDraftFile(ref, path, a.stdin, known, a.decoder())
		return findings, put, err
	}
	put.draft = path
	put.file, put.slips, findings, err = work.CorrectDraftFile(ref, path, known, a.decoder())
	return findings, put, err
}

// A correction is what was put right in a draft, and the file for it.
type correction struct {
	draft string
	slips []validate.Finding
	file  save.File
}

// writeCorrected writes the corrected drafts, and says what was put right in each.
func (a *app) writeCorrected(all []correction, force bool) error {
	var files []save.File
	for _, c := range all {
		if len(c.slips) > 0 {
			files = append(files, c.file)
		}
	}
	for _, f := range files {
		a.sweep(f.Path)
	}
	if err := save.All("", files, force); err != nil {
		return err
	}
	for _, c := range all {
		for _, slip := range c.slips {
			a.say("corrected: " + a.style().Line(slip))
		}
		if len(c.slips) > 0 {
			a.say(fmt.Sprintf("%s is written, with %s put right; the findings are of it", c.file.Path, tell.Counted(len(c.slips), "slips")))
		} else {
			a.say("note: " + c.draft + " has no slip that one change puts right; nothing is written")
		}
	}
	return nil
}
