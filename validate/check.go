package validate

import (
	"fmt"
	"io"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// Options say how drafts are checked.
type Options struct {
	Open Opener // for the child's table; nil: a draft that names one has a fault

	// Exceptions are known and accepted findings. They are left out; one that
	// names the draft and does not apply is itself a finding (X01).
	Exceptions []Exception
}

// CheckDraft reads a draft and checks it by every rule. name is the file's
// name for messages. The findings are sorted; the error is a draft that cannot
// be used, with all its faults joined, each a [*data.Error].
func CheckDraft(ref *sizing.Reference, file io.Reader, name string, opts Options) ([]Finding, error) {
	d, err := ReadDraft(ref, file, name, opts.Open)
	if err != nil {
		return nil, err
	}
	return d.checkExcept(ref, opts.Exceptions)
}

// CheckDraftRows checks rows that are in no file, as those of a plan, as
// [CheckDraft] checks their table.
func CheckDraftRows(ref *sizing.Reference, rows []Row, name string, opts Options) ([]Finding, error) {
	d, err := DraftOf(ref, rows, name, opts.Open)
	if err != nil {
		return nil, err
	}
	return d.checkExcept(ref, opts.Exceptions)
}

func (d *Draft) checkExcept(ref *sizing.Reference, exceptions []Exception) ([]Finding, error) {
	findings, err := d.Check(ref)
	if err != nil {
		return nil, err
	}
	findings = except(findings, d.Name, exceptions)
	Sort(findings)
	return findings, nil
}

// Check checks the draft by every rule.
func (d *Draft) Check(ref *sizing.Reference) ([]Finding, error) {
	c := &checker{ref: ref, d: d}
	var err error
	if c.want, err = ref.Finish(d.Body, d.Spec); err != nil {
		return nil, fmt.Errorf("%s: %w", d.Name, err)
	}
	tight := d.Spec
	tight.Fit = sizing.Fits[0]
	if c.tight, err = ref.Finish(d.Body, tight); err != nil {
		return nil, fmt.Errorf("%s: %w", d.Name, err)
	}
	bare := d.Spec
	bare.Nappy = false
	if c.withoutNappy, err = ref.Finish(d.Body, bare); err != nil {
		return nil, fmt.Errorf("%s: %w", d.Name, err)
	}
	for _, r := range draftRules() {
		c.rule = r.Rule
		r.check(c)
	}
	Sort(c.findings)
	return c.findings, nil
}

// A draftRule is a rule and the function that checks it.
type draftRule struct {
	Rule
	check func(*checker)
}

// draftRules are all rules for drafts, by group.
func draftRules() []draftRule {
	var out []draftRule
	for _, group := range [][]draftRule{
		formRules(), fitRules(), roomRules(), openingRules(), onePieceRules(), arithmeticRules(), yokeRules(),
		gaugeRules(), proportionRules(), cautionRules(),
	} {
		out = append(out, group...)
	}
	return out
}

// DraftRules lists the rules for drafts.
func DraftRules() []Rule {
	var out []Rule
	for _, r := range draftRules() {
		out = append(out, r.Rule)
	}
	return append(out, unreadable, unusedException)
}

// A checker is one run over one draft.
type checker struct {
	ref *sizing.Reference
	d   *Draft
	// Finished sizes of the reference for this body: as drafted, in the tightest
	// fit, and without a nappy.
	want, tight, withoutNappy *sizing.Finished

	rule     Rule
	findings []Finding
}

// report adds a finding of the rule that runs. Its severity is the rule's
// unless it has its own; e is the row it is about, nil for the whole draft.
func (c *checker) report(e *Entry, f Finding) {
	f.Rule = c.rule.Code
	if f.Severity == 0 {
		f.Severity = c.rule.Severity
	}
	f.File = c.d.Name
	if e != nil {
		f.Line, f.Column = e.Line, e.columns[valueCell]
	}
	c.findings = append(c.findings, f)
}

// body returns a measurement of the body in cm.
func (c *checker) body(measurement string) (float64, bool) {
	r, ok := c.d.Body.Get(measurement)
	return r.Value, ok
}

// step is the size of one repeat of a part's multiple, at least one stitch or
// row, in cm: what rounding may take or add. It is 0 without a gauge.
func (c *checker) step(l sizing.Line) float64 {
	if c.d.Gauge == (stitch.Gauge{}) {
		return 0
	}
	g := c.d.gaugeOf(l.Part.Part)
	n := max(1, c.d.multiple(l.Part.Part).Repeat)
	if l.Part.Dimension == "length" {
		return g.HeightCm(n)
	}
	return g.WidthCm(n)
}
