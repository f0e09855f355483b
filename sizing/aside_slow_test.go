package sizing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A trunk that was taken ends at the crotch: the throat stands by it above the leg, less the
// twentieth of the height between throat and nape. A leg that was taken counts as far as a
// tape to the crotch is believed.
func TestThroatStandsOnTheTrunk(t *testing.T) {
	e := everyMeasurement(t)
	n := func(id string) int { return e.ref.order[id] }
	for _, sex := range sexes {
		for _, own := range []map[string]float64{
			{"height": 110, "trunk": 45}, {"height": 110, "trunk": 42, "inside_leg": 49}, {"height": 140, "trunk": 53, "chest": 68}, {"trunk": 45, "chest": 58},
		} {
			e.forget()
			for id, v := range own {
				e.own[n(id)] = v
			}
			require.NoError(t, e.estimate(sex, 0))
			leg, throat := &e.figures[n("inside_leg")], &e.figures[n("suprasternale_height")]
			crotch := leg.Value
			if own["inside_leg"] > 0 {
				var f figure
				e.fromMedian(&f, n("inside_leg"))
				crotch = f.Value
				require.InDelta(t, crotch, leg.believed, 1e-9)
				require.Equal(t, 49.0, leg.Value)
				require.NotEqual(t, 49.0, crotch)
			} else {
				require.Zero(t, leg.believed)
			}
			height, within := own["height"], 0.01
			if height == 0 { // then it agrees with the throat
				height, within = e.figures[n("height")].Value, 0.3
			}
			require.InDelta(t, own["trunk"]-0.051*height+crotch, throat.Value, within, "%s %v", sex, own)
			require.InDelta(t, e.figures[n("nape_to_waist")].Value, e.figures[n("back_waist_length")].Value, 1e-9, "the tape down the back")
			require.Equal(t, []string{"trunk"}, throat.from)
			require.True(t, throat.fromOwn)
			require.InDelta(t, height, throat.Value+e.figures[n("crown_to_throat")].Value, 0.01)
		}
		// A tape that is believed otherwise by a quarter of a centimetre or more is told.
		told := make(map[bool]int)
		for leg := 47.0; leg < 51; leg += 0.07 {
			e.forget()
			e.own[n("height")], e.own[n("inside_leg")] = 110, leg
			require.NoError(t, e.estimate(sex, 0))
			believed := e.figures[n("inside_leg")].believed
			notes := e.reading(n("inside_leg"), Evidence{}).Notes
			tell := math.Abs(believed-leg) >= 0.25
			told[tell]++
			require.Equal(t, tell, len(notes) == 1, "%g: %g", leg, believed)
			if tell {
				require.Equal(t, NewFact("crotch-believed", Length(believed)), notes[0])
			}
		}
		require.Greater(t, min(told[true], told[false]), 3)
		// A throat that was taken stays; without a trunk nothing stands on it.
		e.forget()
		e.own[n("height")], e.own[n("trunk")], e.own[n("suprasternale_height")] = 110, 45, 88
		require.NoError(t, e.estimate(sex, 0))
		require.Equal(t, 88.0, e.figures[n("suprasternale_height")].Value)
		e.forget()
		e.own[n("height")] = 110
		require.NoError(t, e.estimate(sex, 0))
		require.Empty(t, e.figures[n("suprasternale_height")].from)
	}
	// Of nothing but the throat the crotch must be worked out too.
	wanted, taken := make([]bool, len(e.own)), make([]bool, len(e.own))
	wanted[n("suprasternale_height")] = true
	require.False(t, e.ref.needsCrotch(wanted, taken), "no trunk may be taken")
	taken[n("trunk")] = true
	require.True(t, e.ref.needsCrotch(wanted, taken))
	for _, id := range []string{"inside_leg", "height", "suprasternale_height"} {
		require.True(t, wanted[n(id)], id)
	}
	require.False(t, e.ref.needsCrotch(wanted, taken), "all are wanted already")
	other := make([]bool, len(e.own))
	other[n("head")] = true
	require.False(t, e.ref.needsCrotch(other, taken))
}

// A value that was put aside is read again once the others are right; one that no slip
// explains stays aside.
func TestWhatWasPutAsideIsReadAgain(t *testing.T) {
	l := likenessOf(t, Both)
	n := func(id string) int { return l.ref.order[id] }
	for _, tt := range []struct {
		chest float64
		slip  Slip
		want  float64
	}{{21, SlipInches, 53.34}, {5.4, SlipTenTimes, 54}, {80, "", math.NaN()}} {
		c := Child{Own: map[string]float64{"height": 110.5, "chest": tt.chest, "waist": 51, "hip": 56}}
		d := doubter{likeness: l, child: c}
		d.said = d.with(l.say(c), change{n("chest"), math.NaN()})
		d.found = []suspicion{{[]rereading{{"", costOfOther, []change{{n("chest"), math.NaN()}}}}}}
		d.explain()
		require.Equal(t, tt.slip, d.found[0].readings[0].slip)
		got := math.Exp(d.get(&d.said, n("chest")))
		if math.IsNaN(tt.want) {
			require.True(t, math.IsNaN(got))
		} else {
			require.InDelta(t, tt.want, got, 1e-9)
		}
	}
	// What was read as a slip already, or is said again, is left.
	for _, first := range []rereading{{SlipTenth, 1, []change{{n("chest"), math.NaN()}}}, {"", 1, []change{{n("waist"), math.NaN()}}}} {
		c := Child{Own: map[string]float64{"height": 110.5, "chest": 21, "waist": 51}}
		d := doubter{likeness: l, child: c, said: l.say(c)}
		if first.slip != "" {
			d.said = d.with(d.said, change{n("chest"), math.NaN()})
		}
		d.found = []suspicion{{[]rereading{first}}}
		d.explain()
		require.Equal(t, first.slip, d.found[0].readings[0].slip)
	}
	// What may be of one measurement where nothing else is known.
	d := doubter{likeness: l, said: said{age: math.NaN(), height: math.Log(110)}}
	rest := d.said
	require.InDelta(t, math.Log(6), d.usual(ageNumber, &rest), 1e-12)
	require.Equal(t, rest.height, d.usual(l.height, &rest))
	require.Equal(t, l.rowAt(rest.height).median[n("chest")], d.usual(n("chest"), &rest))
	rest.height = math.NaN()
	middle := (l.shortest + l.tallest) / 2
	require.Equal(t, l.rowAt(middle).median[n("chest")], d.usual(n("chest"), &rest))
	require.InDelta(t, middle, d.usual(l.height, &rest), 1e-12)
	d.said.fields, d.said.logs = []int{n("hip_breadth")}, []float64{3}
	require.Equal(t, math.IsNaN(l.rowAt(middle).median[n("hip_breadth")]), d.usual(n("hip_breadth"), &rest) == 3)
	for years, want := range map[float64]int{20: 0, 20.1: 1, 19: 0} {
		d := doubter{likeness: l, said: said{age: math.Log(years), height: math.NaN()}}
		require.Equal(t, want == 1, d.suspect(), "%g", years)
	}
	require.Empty(t, l.ref.Doubts(Child{AgeYears: 54}), "of nothing but an age nothing is asked")
}
