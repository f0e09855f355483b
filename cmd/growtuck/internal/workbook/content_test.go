package workbook_test

import (
	"bytes"
	"cmp"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/cmd/growtuck/internal/ask"
	"growtuck/cmd/growtuck/internal/schematic"
	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/cmd/growtuck/internal/workbook"
	"growtuck/sizing"
	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
	"growtuck/validate"
)

// A making is a garment as a test asks for it.
type request struct {
	garment string
	unit    string
	making  sizing.Spec
	how     plan.How
	child   sizing.Child
}

var garments = []string{"pullover", "cardigan", "vest", "dress", "trousers", "one-piece", "one-piece-hooded", "hat", "mittens", "socks"}

// tall is a child between two sizes.
func tall() sizing.Child {
	return sizing.Child{Name: "Juno", Sex: sizing.Girl, AgeYears: 4.5,
		Own: map[string]float64{"height": 111, "chest": 55, "waist": 51, "head": 51, "inside_leg": 50.5, "weight": 17.2, "foot_length": 17.5}}
}

func usual(garment, unit string) request {
	r := request{garment: garment, unit: unit, child: tall()}
	r.making = sizing.Spec{Garment: garment, Fit: "classic", Layer: "indoor", Seasons: 1, Extra: map[string]float64{}}
	rib := stitch.Gauge{StitchesPer10Cm: 21, RowsPer10Cm: 26}
	r.how = plan.How{Craft: plan.Knit, Gauge: stitch.Gauge{StitchesPer10Cm: 18, RowsPer10Cm: 24}, Rib: &rib}
	return r
}

// set are the settings that formulas use, as the command gives them.
func (r request) set(options []string) []ask.Cell {
	yes := map[bool]string{true: "yes", false: "no"}
	list := []ask.Cell{
		{Group: "G", Name: "unit", Label: "unit", Value: r.unit, Words: []string{"cm", "in"}},
		{Group: "G", Name: "entry_unit", Label: "own lengths", Value: r.unit},
		{Group: "G", Name: "garment", Label: "garment", Value: r.garment},
		{Group: "G", Name: "fit", Label: "fit", Value: string(r.making.Fit)},
		{Group: "G", Name: "layer", Label: "layer", Value: string(r.making.Layer)},
		{Group: "G", Name: "nappy", Label: "nappy", Value: yes[r.making.Nappy]},
		{Group: "G", Name: "growth", Label: "growth", Value: r.making.Seasons, High: 4},
		{Group: "H", Name: "stitch_gauge", Label: "stitches", Value: r.how.Gauge.StitchesPer10Cm, High: 200},
		{Group: "H", Name: "row_gauge", Label: "rows", Value: r.how.Gauge.RowsPer10Cm, High: 200},
		{Group: "H", Name: "gauge_over", Label: "over", Value: "10 cm"},
		{Group: "H", Name: "rib_stitch_gauge", Label: "ribbing", Value: r.how.Rib.StitchesPer10Cm, High: 200},
		{Group: "H", Name: "rib_row_gauge", Label: "ribbing", Value: r.how.Rib.RowsPer10Cm, High: 200},
		{Group: "H", Name: "craft", Label: "craft", Value: string(r.how.Craft)},
		{Group: "H", Name: "closure", Label: "closure", Value: cmp.Or(string(r.how.Closure), string(plan.Zip))},
	}
	for _, o := range options {
		on := false
		for _, have := range r.making.Options {
			on = on || have == o
		}
		list = append(list, ask.Cell{Group: "G", Name: ask.OptionCell(o), Label: o, Value: yes[on]})
	}
	return list
}

// content plans the request.
func (r request) content(t testing.TB) workbook.Content {
	t.Helper()
	ref := samples.Reference(t)
	body, err := ref.Estimate(r.child)
	require.NoError(t, err)
	finished, err := ref.Finish(body, r.making)
	require.NoError(t, err)
	p, err := plan.Make(finished, r.how)
	require.NoError(t, err)
	options, err := ref.GarmentOptions(r.garment)
	require.NoError(t, err)
	who := []plan.Row{{Field: "sex", Value: string(r.child.Sex)}, {Field: "age", Value: "4.5", Unit: "years"}}
	for _, m := range ref.Measurements() {
		if v, ok := r.child.Own[m.ID]; ok {
			who = append(who, plan.Row{Field: "body", Part: m.ID, Value: sizing.FormatCm(v), Unit: m.Unit})
			if m.Unit == "kg" {
				who[len(who)-1].Value = "17.2"
			}
		}
	}
	c := workbook.Content{Reference: ref, Unit: r.unit, Title: "Test", Program: "growtuck", Settings: r.set(options), Options: options,
		Child: r.child, Finished: finished, Plan: p, Draft: tell.Style{}.DraftNotes(p.Draft(who...))}
	c.Pattern = tell.Style{Unit: r.unit}.Plan(ref, r.child, p, nil)
	c.Drawn = schematic.Finished(finished, r.how, r.unit)
	c.Findings, err = validate.CheckDraft(ref, bytes.NewReader(draftCSV(t, c.Draft)), "plan", validate.Options{})
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	labels := []string{"2", "4", "6"}
	var run []*sizing.Finished
	for _, z := range labels {
		place, err := chart.Place(z, r.child.Sex)
		require.NoError(t, err)
		b := ref.BodyAt(place, sizing.Monotone)
		c.Sizes = append(c.Sizes, workbook.Size{Label: z, Body: b})
		f, err := ref.Finish(b, r.making)
		require.NoError(t, err)
		run = append(run, f)
	}
	c.Graded, err = plan.Grade(labels, run, r.how)
	if err != nil {
		c.NotGraded = err.Error()
	}
	c.Growth = workbook.NewGrowth(ref, chart, body, r.child)
	c.Credits = []string{"Source: Craft Yarn Council's www.YarnStandards.com"}
	return c
}

func (r request) xlsx(t testing.TB) []byte {
	t.Helper()
	b, err := workbook.New(r.content(t))
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, b.WriteXLSX(&out))
	return out.Bytes()
}

func draftCSV(t testing.TB, rows []plan.Row) []byte {
	t.Helper()
	text, err := plan.DraftCSV(rows)
	require.NoError(t, err)
	return text
}
