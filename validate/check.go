package validate

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"sync"

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
// name for messages. The findings are sorted, but that the likeliest slip comes
// first, with what it clears; no two remedies undo each other. The error is a draft
// that cannot be used, with all its faults joined, each a [*data.Error]; what
// was likely typed wrong in it is the one finding then.
func CheckDraft(ref *sizing.Reference, file io.Reader, name string, opts Options) ([]Finding, error) {
	text, err := io.ReadAll(io.LimitReader(file, MaxDraftBytes+1)) // one too long is refused
	if err != nil {
		return nil, fmt.Errorf("%s: cannot be read: %w", name, err)
	}
	d, err := ReadDraft(ref, bytes.NewReader(text), name, opts.Open)
	t := newTrials(ref, name, opts)
	if err != nil {
		if slip, ok := t.searchSlip(rowsOf(text), outcome{faults: Unreadable(err)}); ok {
			return []Finding{slip.finding(name)}, err
		}
		return nil, err
	}
	c, err := d.checker(ref)
	if err != nil {
		return nil, err
	}
	findings := except(c.run(), name, opts.Exceptions)
	if slices.ContainsFunc(findings, func(f Finding) bool { return f.counts() || len(f.Edits()) > 0 }) {
		findings = t.advise(rowsOf(text), outcome{findings: findings, checker: c, misfit: c.misfit()})
	}
	Sort(findings)
	return findings, nil
}

// CheckDraftRows checks rows that are in no file and that nobody typed, as those of a
// plan, by every rule.
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
	c, err := d.checker(ref)
	if err != nil {
		return nil, err
	}
	return c.run(), nil
}

// checker works out what is expected of the draft.
func (d *Draft) checker(ref *sizing.Reference) (*checker, error) {
	e, err := d.expected(ref)
	if err != nil {
		return nil, err
	}
	return &checker{ref: ref, d: d, expected: e}, nil
}

// An expected is what is expected of drafts for a body and specification.
type expected struct {
	body *sizing.Body
	spec sizing.Spec
	// Finished sizes of the reference: as drafted, in the tightest fit, and without a nappy.
	want, tight, withoutNappy *sizing.Finished
	classes                   map[string]bool // parts whose ease depends on the fit
}

func (d *Draft) expected(ref *sizing.Reference) (*expected, error) {
	x := &expected{body: d.Body, spec: d.Spec, classes: make(map[string]bool)}
	var err error
	if x.want, err = ref.Finish(d.Body, d.Spec); err != nil {
		return nil, fmt.Errorf("%s: %w", d.Name, err)
	}
	tight := d.Spec
	tight.Fit = sizing.Fits[0]
	if x.tight, err = x.want.Remade(tight); err != nil {
		return nil, fmt.Errorf("%s: %w", d.Name, err)
	}
	x.withoutNappy = x.want
	if d.Spec.Nappy {
		bare := d.Spec
		bare.Nappy = false
		if x.withoutNappy, err = x.want.Remade(bare); err != nil {
			return nil, fmt.Errorf("%s: %w", d.Name, err)
		}
	}
	for _, l := range x.want.Lines {
		x.classes[l.Part.Part] = ref.HasFits(d.Garment.ID, l.Part.Measurement)
	}
	return x, nil
}

// run runs every rule.
func (c *checker) run() []Finding {
	for _, r := range draftRules() {
		c.rule = r.Rule
		r.check(c)
	}
	Sort(c.findings)
	return c.findings
}

// A draftRule is a rule and the function that checks it.
type draftRule struct {
	Rule
	check func(*checker)
}

// draftRules are all rules for drafts, by group.
var draftRules = sync.OnceValue(func() []draftRule {
	var out []draftRule
	for _, group := range [][]draftRule{
		formRules(), fitRules(), roomRules(), openingRules(), onePieceRules(), arithmeticRules(), yokeRules(),
		gaugeRules(), proportionRules(), cautionRules(),
	} {
		out = append(out, group...)
	}
	return out
})

// DraftRules lists the rules for drafts.
func DraftRules() []Rule {
	var out []Rule
	for _, r := range draftRules() {
		out = append(out, r.Rule)
	}
	return append(out, likeliest, unreadable, unusedException)
}

// A checker is one run over one draft.
type checker struct {
	ref *sizing.Reference
	d   *Draft
	*expected

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
	n := c.d.multiple(l.Part.Part).Repeat
	if l.Part.Dimension == "length" {
		return g.HeightCm(n)
	}
	return g.WidthCm(n)
}
