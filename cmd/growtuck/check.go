package main

import (
	"errors"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/work"
	"growtuck/validate"
)

type checkFlags struct {
	findingFlags
	exceptions string
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

The cautions for the care of the child are not a verdict: that check finds no
problem does not make a garment safe.

Exit status: 0 no findings of the --fail-on severity or worse, 1 such findings,
2 usage or file error, or a draft that cannot be used.`,
		Example: `  growtuck check draft.csv
  growtuck check . --fail-on warn`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return errors.New("no draft given; for example growtuck check draft.csv")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return a.check(args, f) },
	}
	f.add(cmd, "stop")
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
	findings := []validate.Finding{}
	for _, path := range drafts {
		found, err := work.CheckDraftFile(ref, path, a.stdin, known, a.decoder())
		faults = append(faults, work.Flatten(err)...)
		findings = append(findings, found...)
		if f.format != "text" { // text has them on standard error
			findings = append(findings, validate.Unreadable(err)...)
		}
	}
	validate.Sort(findings)
	if err := a.printFindings(findings, f.format, " in "+tell.Counted(len(drafts), "drafts"), len(faults) > 0); err != nil {
		return err
	}
	if len(faults) > 0 {
		return work.Unusable{Faults: faults}
	}
	return failing(findings, failOn)
}
