package validate

import (
	"errors"

	"growtuck/data"
	"growtuck/sizing"
)

// unreadable is reported in place of all other rules.
var unreadable = Rule{Code: "D06", Group: "form", Title: "The file cannot be read; the other checks did not run", Severity: Stop}

// Unreadable turns the faults for which a file could not be checked, as
// [CheckDraft] and [CheckRows] return them, into findings, so that they can be
// listed among others and beside their lines.
func Unreadable(err error) []Finding {
	if err == nil {
		return nil
	}
	f := Finding{Rule: unreadable.Code, Severity: unreadable.Severity, Found: sizing.Text(err.Error()), Fix: fact("fix.first")}
	var at *data.Error
	switch e := err.(type) {
	case *data.Error:
		at = e
	case interface{ Unwrap() []error }:
		var all []Finding
		for _, one := range e.Unwrap() {
			all = append(all, Unreadable(one)...)
		}
		return all
	default:
		errors.As(err, &at)
	}
	if at != nil {
		f.File, f.Line, f.Column, f.Found = at.File, at.Line, at.Column, sizing.Text(at.Msg)
	}
	return []Finding{f}
}
