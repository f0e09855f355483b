package plan

import (
	"bytes"
	"encoding/csv"
	"math"
	"slices"
	"strconv"

	"growtuck/sizing"
	"growtuck/sizing/stitch"
)

// A Row is a row of a draft, the table that the rules for drafts check.
type Row struct {
	Field, Part, Value, Unit, Note string
	// Why is a note as a fact; the writer of the table puts its words into Note.
	Why sizing.Fact
}

// DraftColumns is the header of a draft.
var DraftColumns = []string{"field", "part", "value", "unit", "note"}

// DraftCSV writes a draft as the table that the checks read.
func DraftCSV(rows []Row) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	if err := w.Write(DraftColumns); err != nil {
		return nil, err
	}
	for _, r := range rows {
		if err := w.Write(r.Cells()); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return b.Bytes(), w.Error()
}

// Cells are the row in the order of DraftColumns.
func (r Row) Cells() []string { return []string{r.Field, r.Part, r.Value, r.Unit, r.Note} }

// namesBody reports a row that says whose body the garment is for.
func (r Row) namesBody() bool {
	return slices.Contains([]string{"child", "size", "widths", "lengths", "body"}, r.Field)
}

// Draft is the plan as a draft. who are rows that say for whom it is: a size,
// or the child's own measurements, and sex and age. Where they name no body,
// every measurement that the plan knows is listed.
func (p *Plan) Draft(who ...Row) []Row {
	d := drafter{p: p}
	d.making()
	d.rows = append(d.rows, who...)
	if !slices.ContainsFunc(who, Row.namesBody) {
		d.body()
	}
	d.gauges()
	d.parts()
	d.openings()
	for _, a := range d.p.Added {
		if a.Row.Field != "" {
			d.add(a.Row.Field, a.Zone, exact(math.Round(a.HangsCm()*10)/10), "cm", "")
		}
	}
	if len(p.tapers) > 0 || p.Circular != nil || p.Raglan != nil {
		d.construction()
	}
	return d.rows
}

type drafter struct {
	p    *Plan
	rows []Row
}

func (d *drafter) add(field, part, value, unit, note string) {
	d.rows = append(d.rows, Row{Field: field, Part: part, Value: value, Unit: unit, Note: note})
}

func (d *drafter) count(field, part string, n int, unit string) {
	d.add(field, part, strconv.Itoa(n), unit, "")
}

func (d *drafter) making() {
	m := d.p.Spec
	d.add("garment", "", m.Garment, "", "")
	d.add("fit", "", string(m.Fit), "", "")
	d.add("layer", "", string(m.Layer), "", "")
	if m.Nappy {
		d.add("nappy", "", "yes", "", "")
	}
	if m.Seasons > 0 {
		d.add("growth", "", exact(m.Seasons), "seasons", "")
	}
	if m.Wear > 0 {
		d.add("first_worn", "", exact(m.Wear), "months", "")
	}
	for _, o := range slices.Sorted(slices.Values(m.Options)) {
		d.add("option", "", o, "", "")
	}
	for _, l := range d.p.Finished.Lines {
		if len(l.Ease) > 0 && l.Ease[0].Kind == sizing.AskedEase {
			d.add("ease", l.Part.Part, exact(l.Ease[0].Cm), "cm", "")
		}
	}
	extra := make(map[string]Row)
	for part, cm := range m.Extra {
		if cm != 0 {
			extra[part] = Row{Field: "extra", Part: part, Value: exact(cm), Unit: "cm", Why: sizing.NewFact("as-asked-for")}
		}
	}
	for part, dep := range d.p.departures {
		extra[part] = Row{Field: "extra", Part: part, Value: exact(m.Extra[part] + dep.cm), Unit: "cm", Why: dep.why}
	}
	for _, l := range d.p.Parts {
		if r, ok := extra[l.Line.Part.Part]; ok {
			d.rows = append(d.rows, r)
		}
	}
}

// body lists what is known of the body, so that the rules check against the
// same one.
func (d *drafter) body() {
	for _, r := range d.p.Body.Readings {
		d.add("body", r.Measurement.ID, exact(r.Value), r.Measurement.Unit, string(r.Provenance))
	}
}

func (d *drafter) gauges() {
	h := d.p.How
	d.add("craft", "", string(h.Craft), "", "")
	if h.Craft == Crochet {
		d.add("stitch", "", string(h.Stitch), "", "")
	}
	d.gauge(h.Gauge, "")
	if h.Rib == nil || *h.Rib == h.Gauge {
		return
	}
	for _, p := range d.p.Parts {
		if p.Ribbed {
			d.gauge(*h.Rib, p.Line.Part.Part)
		}
	}
}

func (d *drafter) gauge(g stitch.Gauge, part string) {
	d.add("stitch_gauge", part, exact(g.StitchesPer10Cm), "10 cm", "")
	d.add("row_gauge", part, exact(g.RowsPer10Cm), "10 cm", "")
}

func (d *drafter) parts() {
	for _, p := range d.p.Parts {
		id := p.Line.Part.Part
		if p.Count > 0 {
			d.count("finished", id, p.Count, p.Unit)
		} else {
			d.add("finished", id, strconv.FormatFloat(p.SizeCm, 'f', 2, 64), "cm", "")
		}
		if p.EdgesCm > 0 {
			d.add("edges", id, exact(p.EdgesCm), "cm", "")
		}
		if p.Multiple.Repeat > 1 {
			d.add("multiple", id, p.Multiple.String(), "", "")
		}
		if s, ok := d.p.How.Stretch[id]; ok {
			d.add("stretch", id, exact(s), "times", "")
		}
	}
}

func (d *drafter) openings() {
	for _, o := range d.p.openings {
		switch o.how {
		case "":
			d.add("opening", o.place, exact(o.cm), "cm", "")
		default:
			d.add(o.how, o.place, exact(o.withCm), "cm", "")
		}
		if o.how == "zipper" {
			d.add("guard", "chin", "yes", "", "")
		}
	}
}

// construction gives the yoke, the split and the tapers. The yoke goes from the neck
// to the underarm: the row of the back of the neck that goes round is its first.
func (d *drafter) construction() {
	p := d.p
	var sp *stitch.Split
	switch {
	case p.Circular != nil:
		y := p.Circular
		sp = &y.Split
		d.add("construction", "", string(Circular), "", "")
		d.count("yoke", "start", y.Neck, "stitches")
		d.count("yoke", "per_round", y.PerRound, "stitches")
		d.count("yoke", "end", y.Yoke, "stitches")
		d.count("yoke_rows", "", neckRows+y.Rows, "rows")
		d.count("yoke_rounds", "", len(y.Rounds), "rounds")
		for _, r := range y.Rounds {
			d.count("increase", strconv.Itoa(neckRows+r.Row), r.Increase, "stitches")
		}
	case p.Raglan != nil:
		y := p.Raglan
		sp = &y.Split
		d.add("construction", "", string(Raglan), "", "")
		d.count("yoke", "start", y.Neck, "stitches")
		d.count("yoke", "end", y.Yoke, "stitches")
		d.count("yoke_rows", "", neckRows+y.Rows, "rows")
		rounds := 0
		for _, phase := range y.Phases {
			rounds += phase.Times
		}
		d.count("yoke_rounds", "", rounds, "rounds")
		for _, phase := range y.Phases {
			for i := range phase.Times {
				d.count("increase", strconv.Itoa(neckRows+phase.RowOf(i)), phase.Gain(), "stitches")
			}
		}
	default:
		if _, sleeved := p.tapers["sleeve"]; sleeved {
			d.add("construction", "", string(DropShoulder), "", "")
		}
	}
	if sp != nil {
		d.split(*sp)
	}
	if p.Legs != nil {
		d.count("split", "bridge", p.Legs.Bridge, "stitches")
	}
	for _, part := range []string{"sleeve", "leg"} {
		if e, ok := p.tapers[part]; ok {
			d.count("decrease", part, e.pairs, "rounds")
			d.count("end", part, e.stitches, "stitches")
		}
	}
}

func (d *drafter) split(sp stitch.Split) {
	if sp.FrontOpening {
		d.count("split", "front_left", sp.Front, "stitches")
		d.count("split", "front_right", sp.Front, "stitches")
	} else {
		d.count("split", "front", sp.Front, "stitches")
	}
	d.count("split", "back", sp.Back, "stitches")
	d.count("split", "sleeve_left", sp.SleevePart, "stitches")
	d.count("split", "sleeve_right", sp.SleevePart, "stitches")
	d.count("split", "underarm", sp.Underarm, "stitches")
	d.count("split", "body", sp.Body, "stitches")
	d.count("split", "sleeve", sp.Sleeve, "stitches")
}

// exact prints a number to the thousandth.
func exact(v float64) string { return sizing.FormatExact(math.Round(v*1000)/1000 + 0) } // + 0: not -0
