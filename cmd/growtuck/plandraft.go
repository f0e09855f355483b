package main

import (
	"bytes"
	"slices"
	"strconv"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/validate"
)

// wearerRows are the rows of a draft that say for whom it is, as the flags and
// the child's file did. Where a draft cannot say it so, it lists the body.
func wearerRows(ref *sizing.Reference, c sizing.Child, f bodyFlags) []plan.Row {
	var rows []plan.Row
	if c.Sex != sizing.Both && c.Sex != "" {
		rows = append(rows, plan.Row{Field: "sex", Value: string(c.Sex)})
	}
	if c.AgeYears > 0 {
		rows = append(rows, plan.Row{Field: "age", Value: strconv.FormatFloat(c.AgeYears, 'f', -1, 64), Unit: "years"})
	}
	if f.linear {
		return rows
	}
	for _, m := range ref.Measurements() {
		if v, ok := c.Own[m.ID]; ok {
			rows = append(rows, plan.Row{Field: "body", Part: m.ID, Value: strconv.FormatFloat(v, 'f', -1, 64), Unit: m.Unit})
		}
	}
	switch {
	case f.size != "":
		rows = append(rows, plan.Row{Field: "size", Value: f.size})
	case f.widths != "":
		rows = append(rows, plan.Row{Field: "widths", Value: f.widths}, plan.Row{Field: "lengths", Value: f.lengths})
	default:
		return rows
	}
	if f.chart != "child" {
		rows = append(rows, plan.Row{Field: "chart", Value: f.chart})
	}
	return rows
}

func (a *app) printDraft(rows []plan.Row) error {
	text, err := plan.DraftCSV(rows)
	if err != nil {
		return err
	}
	_, err = a.stdout.Write(text)
	return err
}

// checkedPlan checks a plan by the rules for drafts. It returns what is worth
// warning of, and the cautions.
func checkedPlan(ref *sizing.Reference, rows []plan.Row) ([]validate.Finding, error) {
	text, err := plan.DraftCSV(rows)
	if err != nil {
		return nil, err
	}
	findings, err := validate.CheckDraft(ref, bytes.NewReader(text), "plan", validate.Options{})
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(findings, func(f validate.Finding) bool { return f.Severity < validate.Warn && !f.Caution() }), nil
}
