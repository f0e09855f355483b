package main

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/validate"
)

// findingFormats are what --format of check and rows takes.
var findingFormats = []string{"text", "json", "csv", "sarif", "annotations"}

// findingFlags say how findings are printed, and which make the command fail.
type findingFlags struct{ format, failOn string }

func (f *findingFlags) add(cmd *cobra.Command, failOn string) {
	cmd.Flags().StringVar(&f.format, "format", "text", "`how` to print: text, json, csv, sarif (2.1.0) or annotations, the last two for a code forge")
	cmd.Flags().StringVar(&f.failOn, "fail-on", failOn, "lowest `severity` that gives exit status 1: stop, warn or note")
	complete(cmd, "format", findingFormats...)
	complete(cmd, "fail-on", "stop", "warn", "note")
}

// read checks the flags, and returns the lowest severity that makes the command fail.
func (f *findingFlags) read() (validate.Severity, error) {
	if !slices.Contains(findingFormats, f.format) {
		return 0, usagef("unknown format %.80q; known are %s", f.format, strings.Join(findingFormats, ", "))
	}
	failOn, err := validate.ParseSeverity(f.failOn)
	if err != nil {
		return 0, usagef("--fail-on: %v", err)
	}
	return failOn, nil
}

// printFindings prints findings; where there are none and nothing failed, that, with
// checked, such as " in 3 drafts".
func (a *app) printFindings(findings []validate.Finding, format, checked string, failed bool) error {
	var out bytes.Buffer
	var err error
	switch format {
	case "json":
		err = tell.Style{}.WriteFindingsJSON(&out, findings)
	case "csv":
		err = tell.Style{}.WriteFindingsCSV(&out, findings)
	case "sarif":
		err = tell.Style{}.WriteSARIF(&out, findings)
	case "annotations":
		err = tell.Style{}.WriteAnnotations(&out, findings)
	default:
		var lines strings.Builder
		err = a.style().WriteFindings(&lines, findings)
		out.WriteString(fitting(lines.String(), a.stdout))
		if len(findings) == 0 && !failed {
			fmt.Fprintf(&out, "No problems found%s.\n", checked)
		}
	}
	if err != nil {
		return err
	}
	_, err = a.stdout.Write(out.Bytes())
	return err
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
