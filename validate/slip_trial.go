package validate

import (
	"bytes"
	"math"
	"reflect"
	"slices"
	"strconv"

	"growtuck/sizing"
)

// A placed row is a row of a draft and where it stands in its file.
type placed struct {
	Row
	line    int
	columns [5]int
}

// rowsOf are the rows of a draft's text; none where some cannot be told apart.
func rowsOf(text []byte) []placed {
	r := newDraftReader(nil, "", nil)
	entries, ok := r.rows(bytes.NewReader(text))
	if !ok || r.faults.Len() > 0 {
		return nil
	}
	rows := make([]placed, len(entries))
	for i, e := range entries {
		rows[i] = placed{Row{e.Field, e.Part, e.Value, e.Unit, e.Note}, e.Line, e.columns}
	}
	return rows
}

// trials checks a draft as it would be with other rows. It reads the child only
// where a change is about it.
type trials struct {
	ref     *sizing.Reference
	name    string
	open    Opener
	known   []Exception
	wearers map[string]Draft // by the rows that say who it is for
	wanted  []*expected      // of the specifications seen
	left    int              // trials that may still be made
}

// mostTrials bounds the work for a draft in which very much is wrong.
const mostTrials = 4000

func newTrials(ref *sizing.Reference, name string, opts Options) *trials {
	return &trials{ref: ref, name: name, open: opts.Open, known: opts.Exceptions, wearers: make(map[string]Draft), left: mostTrials}
}

// An outcome is what is said of a draft.
type outcome struct {
	faults   []Finding // for which it cannot be used
	findings []Finding
	checker  *checker // nil where it cannot be used
	misfit   float64
}

// check checks a draft with these rows.
func (t *trials) check(rows []placed) outcome {
	t.left--
	r := newDraftReader(t.ref, t.name, t.open)
	r.wearers = t.wearers
	entries := make([]*Entry, len(rows))
	for i, p := range rows {
		entries[i] = &Entry{Line: p.line, columns: p.columns, Field: p.Field, Part: p.Part, Value: p.Value, Unit: p.Unit, Note: p.Note}
	}
	d, err := r.read(entries)
	if err != nil {
		return outcome{faults: Unreadable(err)}
	}
	x, err := t.expected(d)
	if err != nil {
		return outcome{faults: Unreadable(err)}
	}
	c := &checker{ref: t.ref, d: d, expected: x}
	return outcome{findings: except(c.run(), t.name, t.known), checker: c, misfit: c.misfit()}
}

// expected is what is expected of a draft; of most it was worked out before.
func (t *trials) expected(d *Draft) (*expected, error) {
	for _, x := range t.wanted {
		if x.body == d.Body && reflect.DeepEqual(x.spec, d.Spec) {
			return x, nil
		}
	}
	x, err := d.expected(t.ref)
	if err == nil {
		t.wanted = append(t.wanted, x)
	}
	return x, err
}

// What findings weigh. A slip must take off as much as a warning, or as a stop
// that becomes one, at least.
const (
	faultWeight   = 1000
	stopWeight    = 1.25
	warnWeight    = 1
	noteWeight    = 0.01
	lightest      = stopWeight - warnWeight
	mostOfMisfit  = 6 // what one part can add to the misfit
	sizeTolerance = 0.01
	tapeCm        = 0.1
)

// weight is what speaks for a slip.
func (o outcome) weight() float64 {
	w := faultWeight * float64(len(o.faults))
	for _, f := range o.findings {
		switch {
		case f.counts() && f.Severity == Stop:
			w += stopWeight
		case f.counts():
			w += warnWeight
		}
	}
	return w
}

// withNotes is the weight of all that is said.
func (o outcome) withNotes() float64 {
	w := o.weight()
	for _, f := range o.findings {
		if !f.counts() {
			w += noteWeight
		}
	}
	return w
}

// counts reports whether a finding speaks for a slip of the draft: not a note, nor
// that something is to be measured on the swatch, nor an exception.
func (f Finding) counts() bool {
	return f.Severity > Note && f.Fix.ID != "fix.measure-stretch" && f.Rule != unusedException.Code
}

// without are the findings that an outcome does not have any more.
func (o outcome) without(after outcome) []Finding {
	return o.gone(after, func(f, g Finding) bool {
		return f.sameMatter(g) && g.Severity >= f.Severity && (f.Rule != unreadable.Code || f.Line == g.Line)
	})
}

// gone are the findings that speak for a slip, or would change something, and are
// the same as none of those of another outcome.
func (o outcome) gone(after outcome, same func(f, g Finding) bool) []Finding {
	var gone []Finding
	still := slices.Concat(after.faults, after.findings)
	for _, f := range slices.Concat(o.faults, o.findings) {
		if (f.counts() || len(f.Edits()) > 0) && !slices.ContainsFunc(still, func(g Finding) bool { return same(f, g) }) {
			gone = append(gone, f)
		}
	}
	return gone
}

// apply makes the changes.
func apply(rows []placed, edits []RowEdit) []placed {
	out := make([]placed, 0, len(rows)+1)
	for _, p := range rows {
		i := slices.IndexFunc(edits, func(e RowEdit) bool { return e.Line == p.line && e.From != Row{} })
		switch {
		case i < 0:
			out = append(out, p)
		case edits[i].To != Row{}:
			p.Row = edits[i].To
			out = append(out, p)
		}
		for _, e := range edits {
			if e.Line == p.line && e.From == (Row{}) {
				out = append(out, placed{Row: e.To, line: p.line, columns: p.columns})
			}
		}
	}
	return out
}

// misfit is how far sizes are from what would be planned for this body, and
// measures of one thing from each other: less of it makes a slip more likely.
func (c *checker) misfit() float64 {
	sum := 0.0
	add := func(off, tolerance float64) { sum += min(off*off/(tolerance*tolerance)/2, mostOfMisfit) }
	for _, l := range c.want.Lines {
		if size, _, ok := c.d.size(l.Part.Part); ok {
			add(size-l.Finished, c.step(l)/2+sizeTolerance*l.Finished+tapeCm)
		}
	}
	if y, ok := c.yokeDepth(); ok {
		add(min(math.Abs(y.cm-y.hole), math.Abs(y.withUnderarm-y.hole)), c.d.Gauge.RowHeightCm()+tapeCm)
	}
	for _, z := range c.d.all("zipper") {
		if open, _, ok := c.d.opening(z.Part); ok {
			add(z.Cm-open, 1)
		}
	}
	share := c.ref.Practice("rib_share").Share()
	for _, t := range tapers {
		end, _, hasEnd := c.d.count("end", t.name)
		cuff, _, hasCuff := c.d.count("finished", t.to)
		if hasEnd && hasCuff {
			add(share*float64(end)-float64(cuff), 1)
		}
	}
	return sum
}

// rowEdits are the changes of rows that edits are.
func (t *trials) rowEdits(rows []placed, edits []Edit) []RowEdit {
	var out []RowEdit
	for _, e := range edits {
		if r, ok := rowEdit(rows, e); ok {
			out = append(out, r)
		}
	}
	return out
}

// rowEdit is the change of a row that an edit is. ok is false for one that is
// impossible: less than a stitch, or no length.
func rowEdit(rows []placed, e Edit) (RowEdit, bool) {
	_, counted := e.To.(int)
	i := slices.IndexFunc(rows, func(p placed) bool {
		isCount := p.Unit == "stitches" || p.Unit == "rows"
		return p.Field == e.Field && p.Part == e.Part && (e.Field != "finished" || isCount == counted)
	})
	to := Row{Field: e.Field, Part: e.Part, Unit: e.Unit}
	r := RowEdit{Line: rows[len(rows)-1].line}
	if i >= 0 {
		r = RowEdit{Line: rows[i].line, From: rows[i].Row}
		to.Note = rows[i].Note
		if e.Unit == "cm" && slices.Contains(lengthUnits, rows[i].Unit) {
			to.Unit = rows[i].Unit
		}
	}
	var ok bool
	to.Value, ok = valueText(e.To, to)
	r.To = to
	return r, ok && r.From != r.To
}

// valueText writes a value of an edit as a draft has it.
func valueText(v any, r Row) (string, bool) {
	amount := 0.0
	switch v := v.(type) {
	case int:
		return strconv.Itoa(v), v > 0
	case string:
		return v, v != ""
	case sizing.Length:
		amount = float64(v) / cmIn(r.Unit)
	case sizing.Weight:
		amount = float64(v)
		if r.Unit == "lb" {
			amount /= sizing.KgPerPound
		}
	case sizing.Age:
		amount = float64(v)
		if r.Unit == "months" {
			amount *= 12
		}
	case float64:
		amount = v
	default:
		return "", false
	}
	decimals := 3
	if r.Field == "finished" {
		decimals = 2
	}
	return sizing.FormatExact(round(amount, decimals)), amount > 0
}

// cmIn is a unit of length in cm.
func cmIn(unit string) float64 {
	switch unit {
	case "in":
		return sizing.CmPerInch
	case "mm":
		return 0.1
	}
	return 1
}

// gaugeMeant are the stitches or rows to 10 cm by which the parts come closest to
// what is expected of them.
func (c *checker) gaugeMeant(unit string) (float64, bool) {
	field := "row_gauge"
	if unit == "stitches" {
		field = "stitch_gauge"
	}
	var all []float64
	for _, l := range c.want.Lines {
		n, e, ok := c.d.count("finished", l.Part.Part)
		if cm := l.Finished - c.d.edges(l.Part.Part); ok && e.Unit == unit && cm > 0 {
			if _, own := c.d.get(field, l.Part.Part); !own {
				all = append(all, 10*float64(n)/cm)
			}
		}
	}
	if len(all) == 0 {
		return 0, false
	}
	slices.Sort(all)
	return all[len(all)/2], true
}
