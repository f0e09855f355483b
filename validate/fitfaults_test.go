package validate_test

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

// A planned draft is what a fault is put into.
type plannedDraft struct {
	t    *testing.T
	plan *plan.Plan
	rows []plan.Row
}

// set gives a row another value; a row that is not there is added.
func (d *plannedDraft) set(field, part, value, unit string) {
	for i := range d.rows {
		if d.rows[i].Field == field && d.rows[i].Part == part {
			d.rows[i].Value, d.rows[i].Unit = value, unit
			return
		}
	}
	d.rows = append(d.rows, plan.Row{Field: field, Part: part, Value: value, Unit: unit})
}

func (d *plannedDraft) stitches(part string, n int) {
	d.set("finished", part, strconv.Itoa(n), "stitches")
}

func (d *plannedDraft) remove(field, part string) {
	kept := d.rows[:0]
	for _, r := range d.rows {
		if r.Field != field || part != "" && r.Part != part {
			kept = append(kept, r)
		}
	}
	d.rows = kept
}

func (d *plannedDraft) count(part string) int {
	p, ok := d.plan.Part(part)
	require.True(d.t, ok, part)
	return p.Count
}

func (d *plannedDraft) body(measurement string) float64 {
	r, ok := d.plan.Body.Get(measurement)
	require.True(d.t, ok, measurement)
	return r.Value
}

// wide is how many stitches of the ribbing are just under a girth.
func (d *plannedDraft) wide(cm float64) int {
	return int(math.Floor(d.plan.How.Gauge.Stitches(cm) - 1e-9))
}

// fitFaults are garments that cannot be put on, or do not sit. Each is put into
// the draft of a plan that is without a finding of its rule.
var fitFaults = []struct {
	name, garment, rule string
	worst               validate.Severity
	put                 func(d *plannedDraft)
}{
	{"hood too narrow", "one-piece-hooded", "P06", validate.Stop, func(d *plannedDraft) {
		d.stitches("hood_round", d.wide(0.66*d.body("head"))-d.wide(2))
	}},
	{"hood too wide", "one-piece-hooded", "P06", validate.Note, func(d *plannedDraft) { d.stitches("hood_round", d.wide(1.1*d.body("head"))) }},
	{"cuff passes the palm and not the thumb", "pullover", "G02", validate.Stop, func(d *plannedDraft) {
		d.stitches("cuff", d.wide(1.1*d.body("hand")))
		d.set("stretch", "cuff", "1", "times")
	}},
	{"cuff of a mitten passes the palm and not the thumb", "mittens", "G02", validate.Stop, func(d *plannedDraft) {
		d.stitches("cuff", d.wide(1.1*d.body("hand"))-1)
		d.set("stretch", "cuff", "1", "times")
	}},
	{"ankle passes the ball of the foot and not the heel", "trousers", "G03", validate.Stop, func(d *plannedDraft) {
		d.stitches("ankle", d.wide(1.25*d.body("foot")))
		d.set("stretch", "ankle", "1", "times")
	}},
	{"sock passes the ball of the foot and not the heel", "socks", "G03", validate.Stop, func(d *plannedDraft) {
		d.stitches("ankle", d.wide(1.2*d.body("foot")))
		d.set("stretch", "ankle", "1.05", "times")
	}},
	{"neck passes the head and not the ears", "pullover", "G01", validate.Stop, func(d *plannedDraft) {
		d.remove("opening", "")
		neck := d.plan.How.Gauge.WidthCm(d.count("neck"))
		d.set("stretch", "neck", fmt.Sprintf("%.3f", 1.01*d.body("head")/neck), "times")
	}},
	{"bridge of three stitches", "one-piece", "P10", validate.Warn, func(d *plannedDraft) {
		d.set("split", "bridge", "3", "stitches")
		d.stitches("thigh", d.count("hip")/2+3)
	}},
	{"legs that leave no bridge", "trousers", "P10", validate.Warn, func(d *plannedDraft) {
		d.remove("split", "bridge")
		d.stitches("thigh", d.count("hip")/2+1)
	}},
	{"hips narrower than the waist", "one-piece", "P01", validate.Warn, func(d *plannedDraft) { d.stitches("hip", d.count("waist")-2) }},
	{"hips narrower than the chest", "one-piece-hooded", "P01", validate.Warn, func(d *plannedDraft) { d.stitches("hip", d.count("chest")-2) }},
	{"edges forgotten", "cardigan", "P11", validate.Warn, func(d *plannedDraft) { d.remove("edges", "") }},
	{"edges of the hood forgotten", "one-piece-hooded", "P11", validate.Warn, func(d *plannedDraft) { d.remove("edges", "hood_round") }},
	{"edges at the neck and not at the chest", "cardigan", "P11", validate.Warn, func(d *plannedDraft) { d.remove("edges", "chest") }},
	{"hem well above the hips", "pullover", "F04", validate.Warn, func(d *plannedDraft) {
		d.remove("finished", "body_length")
		d.set("finished", "body_length", fmt.Sprintf("%.1f", d.body("nape_to_waist")+1), "cm")
	}},
	{"waist passes the hips and not the nappy", "trousers", "G04", validate.Stop, func(d *plannedDraft) {
		d.set("nappy", "", "yes", "")
		d.stitches("waist", d.wide(d.body("hip")+1))
		d.set("stretch", "waist", "1", "times")
	}},
}

// Every fault is found, in every size and gauge, by the rule that is about it.
func TestFitFaultsAreFound(t *testing.T) {
	t.Parallel()
	ref := samples.Reference(t)
	gauges := []plan.How{
		{Craft: plan.Crochet, Gauge: stitch.Gauge{StitchesPer10Cm: 16, RowsPer10Cm: 18}},
		{Craft: plan.Crochet, Gauge: stitch.Gauge{StitchesPer10Cm: 14, RowsPer10Cm: 8}},
		{Craft: plan.Knit, Gauge: stitch.Gauge{StitchesPer10Cm: 28, RowsPer10Cm: 36}},
	}
	put := 0
	for _, size := range []string{"6m", "18m", "2", "5.5", "9", "14"} {
		for _, how := range gauges {
			for _, fault := range fitFaults {
				name := fmt.Sprintf("%s, size %s, %s %g", fault.name, size, how.Craft, how.Gauge.StitchesPer10Cm)
				f := samples.Finish(t, samples.BodyAt(t, size), sizing.Spec{Garment: fault.garment, Fit: "classic", Layer: "skin"})
				p, err := plan.Make(f, how)
				require.NoError(t, err, name)
				d := &plannedDraft{t, p, p.Draft()}
				worst := func() (worst validate.Severity) {
					found, err := validate.CheckDraftRows(ref, draftRows(d.rows), "draft.csv", validate.Options{})
					require.NoError(t, err, name)
					return validate.Worst(ofRule(found, fault.rule))
				}
				before := worst()
				fault.put(d)
				after := worst()
				require.GreaterOrEqual(t, after, fault.worst, name)
				require.Less(t, before, max(fault.worst, validate.Warn), "%s: found before it was put in", name)
				put++
			}
		}
	}
	require.Equal(t, 6*len(gauges)*len(fitFaults), put)
}
