package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
	"growtuck/sizing"
)

// A table that contradicts itself is refused with its file and line; the rows
// are changed in a copy.
func TestBrokenTables(t *testing.T) {
	fresh := func() *data.Tables {
		loaded, err := data.Load(data.Embedded())
		require.NoError(t, err)
		return loaded
	}
	for name, c := range map[string]struct {
		change func(*data.Tables)
		want   string
	}{
		"size not listed":         {func(d *data.Tables) { d.Body[0].Size = "5" }, `body.csv:2: chart craft has no size "5"`},
		"measurement":             {func(d *data.Tables) { d.Body[0].Measurement = "elbow" }, `body.csv:2: no measurement "elbow"`},
		"formula":                 {func(d *data.Tables) { d.Derivations[0].Formula = "height times two" }, `derivations.csv:2: inside_leg: "height times two" is not a term`},
		"formula's chart":         {func(d *data.Tables) { d.Derivations[0].Formula = "nowhere.height" }, `derivations.csv:2: inside_leg: no chart "nowhere" in the formula`},
		"formula's measurement":   {func(d *data.Tables) { d.Derivations[0].Formula = "measured.elbow" }, `no measurement "elbow" in the formula`},
		"formula without value":   {func(d *data.Tables) { d.Derivations[0].Formula = "measured.cross_back" }, "the formula has no value at any size"},
		"derived chart":           {func(d *data.Tables) { d.Derivations[0].Chart = "nowhere" }, `no chart "nowhere"`},
		"factor":                  {func(d *data.Tables) { d.Derivations[0].Formula = "1.2.3*measured.height" }, `"1.2.3" is not a factor`},
		"spread of nothing":       {func(d *data.Tables) { d.Relations[0].Value = 0 }, "relations.csv:2: spread 0 of weight must be greater than 0"},
		"spread of two":           {func(d *data.Tables) { d.Relations[0].B = "head" }, "relations.csv:2: a spread names one measurement twice"},
		"formula's other chart":   {func(d *data.Tables) { d.Derivations[0].Formula = "measured.height@nowhere.chest" }, `no chart "nowhere" in the formula`},
		"formula's other measure": {func(d *data.Tables) { d.Derivations[0].Formula = "measured.height@child.elbow" }, `no measurement "elbow" in the formula`},
		"today without a spread":  {today("slope", func(r *data.Relation) { r.A = "elbow" }), "elbow and weight need a spread each before their slope"},
		"today's slope of one":    {today("slope", func(r *data.Relation) { r.A = "weight" }), "a slope is of a girth and weight, not of weight and weight"},
		"today's rest of nothing": {today("rest", func(r *data.Relation) { r.Value = 0 }), "rest 0 must be greater than 0"},
		"today's low of a girth":  {today("low", func(r *data.Relation) { r.A, r.B = "chest", "chest" }), "a spread below or above the median is of weight"},
		"today in half":           {today("shift", func(r *data.Relation) { r.Statistic = "slope" }), "the bands of height do not follow each other"},
		"unsurveyed spread":       {func(d *data.Tables) { d.Relations[0].A, d.Relations[0].B = "cross_back", "cross_back" }, "chart measured has no cross_back"},
		"impossible relations": {func(d *data.Tables) {
			for i := range d.Relations {
				if d.Relations[i].Statistic == "r" {
					d.Relations[i].Value = -0.9
				}
			}
		}, "the correlations are not positive definite"},
		"part of no garment":   {func(d *data.Tables) { d.Parts[0].Garment = "cape" }, `parts.csv:2: no garment "cape"`},
		"part without measure": {func(d *data.Tables) { d.Parts[0].Measurement = "elbow" }, `parts.csv:2: no measurement "elbow"`},
		"length of no garment": {func(d *data.Tables) { d.Lengths[0].Garment = "cape" }, `lengths.csv:2: no garment "cape"`},
		"classes without heights": {func(d *data.Tables) {
			for i := range d.Body {
				if d.Body[i].Chart == "measured" && d.Body[i].Measurement == "height" {
					d.Body[i].Measurement = "knee_height"
				}
			}
		}, "inside_leg: the formula has no value at any size"},
		"half a range": {func(d *data.Tables) {
			for i := range d.Body {
				if d.Body[i].Chart == "craft-foot" && d.Body[i].Statistic == "high" && d.Body[i].Size == "2-3" {
					d.Body[i].Statistic = "p5"
				}
			}
		}, "foot_length: a range has one end only"},
	} {
		d := fresh()
		c.change(d)
		_, err := sizing.New(d)
		require.ErrorContains(t, err, c.want, name)
	}
}

// today changes the first row of a statistic of today's children.
func today(statistic string, change func(*data.Relation)) func(*data.Tables) {
	return func(d *data.Tables) {
		for i := range d.Relations {
			if d.Relations[i].Statistic == statistic {
				change(&d.Relations[i])
				return
			}
		}
	}
}

// A relation that leads round in a circle is not followed.
func TestCircularRelation(t *testing.T) {
	loaded, err := data.Load(data.Embedded())
	require.NoError(t, err)
	for i, m := range loaded.Measurements {
		switch m.ID {
		case "sock_height":
			loaded.Measurements[i].Relation = "sock_height"
		case "knee_height":
			loaded.Measurements[i].Relation = "back_waist_length"
		case "back_waist_length":
			loaded.Measurements[i].Relation = "knee_height"
		}
	}
	ref, err := sizing.New(loaded)
	require.NoError(t, err)
	_, err = ref.Estimate(sizing.Child{Own: map[string]float64{"height": 110}})
	require.NoError(t, err)
}
