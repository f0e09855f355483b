package main

import (
	"bytes"
	"fmt"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/validate"
)

// printFindings prints findings; where there are none and nothing failed, that, as
// " in 3 drafts" of what was checked.
func (a *app) printFindings(findings []validate.Finding, format, checked string, failed bool) error {
	var out bytes.Buffer
	var err error
	switch format {
	case "json":
		err = tell.Style{}.WriteFindingsJSON(&out, findings)
	case "annotations":
		err = tell.Style{}.WriteAnnotations(&out, findings)
	default:
		err = a.style().WriteFindings(&out, findings)
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
