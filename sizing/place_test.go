package sizing_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/bounded"
)

func TestPlace(t *testing.T) {
	for _, c := range []struct {
		chart, size string
		scale       sizing.Scale
		position    float64
	}{
		{"child", "3", sizing.Years, 3}, {"child", "5.5", sizing.Years, 5.5}, {"child", "5,5", sizing.Years, 5.5},
		{"child", "18m", sizing.Months, 18}, {"child", "9 months", sizing.Months, 9}, {"child", "3y6m", sizing.Years, 3.5},
		{"child", "30m", sizing.Years, 2.5}, {"child", "24m", sizing.Months, 24}, {"child", "1y6m", sizing.Months, 18}, {"child", " 4 ", sizing.Years, 4},
		{"craft", "16", sizing.Years, 16}, {"craft", "3m", sizing.Months, 3}, {"craft-head", "Toddler", sizing.Band, 2},
		{"measured", "110", sizing.Height, 109.95}, {"measured", "110cm", sizing.Height, 110}, {"measured", "44 in", sizing.Height, 111.76},
		{"craft-hand", "4-6", sizing.Years, 5}, {"craft-hand", "5", sizing.Years, 5},
	} {
		chart, err := reference(t).Chart(c.chart)
		require.NoError(t, err)
		p, err := chart.Place(c.size, sizing.Both)
		require.NoError(t, err, "%s %q", c.chart, c.size)
		require.Equal(t, c.scale, p.Run.Scale, "%s %q", c.chart, c.size)
		require.InDelta(t, c.position, p.Position, 1e-9, "%s %q", c.chart, c.size)
	}
}

func TestPlaceOutside(t *testing.T) {
	for _, c := range []struct{ chart, size, want string }{
		{"child", "1", "size 1 is outside chart child (years), which has 2 to 16; nothing is extrapolated"},
		{"child", "17", "which has 2 to 16"},
		{"child", "2m", "which has 3 to 24"},
		{"child", "200cm", "height 200 is outside chart child, which has 60.1 to 168.1"},
		{"child", "18y", "which has 2 to 16"},
		{"measured", "60cm", "which has 87.4 to 181.1"},
		{"craft", "104cm", "chart craft has no heights"},
		{"craft-head", "4", `unknown size of chart craft-head "4"; known are preemie, baby, toddler, child, tween`},
		{"child", "q", `unknown size of chart child "q"`},
		{"child", "", "unknown size"},
		{"child", "999999999999999999999999999999", "is outside"},
		{"child", "NaN", "unknown size"},
	} {
		chart, err := reference(t).Chart(c.chart)
		require.NoError(t, err)
		_, err = chart.Place(c.size, sizing.Both)
		require.ErrorContains(t, err, c.want, "%s %q", c.chart, c.size)
	}
	chart, err := reference(t).Chart("child")
	require.NoError(t, err)
	_, err = chart.Place("17", sizing.Both)
	var outside *sizing.RangeError
	require.True(t, errors.As(err, &outside))
	require.Equal(t, 16.0, outside.High)
}

// A measurement that a chart lacks at some sizes is read only where it is known.
func TestReadOnlyWhereKnown(t *testing.T) {
	_, err := reference(t).Read(place(t, "measured", "86", sizing.Both), "arm_length", sizing.Monotone)
	var missing *sizing.MissingError
	require.ErrorAs(t, err, &missing)
	require.ErrorContains(t, err, "chart measured (height) has no arm length, shoulder to wrist here, only from 92 to 182")
	_, err = reference(t).Read(place(t, "craft", "6m", sizing.Both), "inside_leg", sizing.Monotone)
	require.ErrorContains(t, err, "has no inside leg; measure the child: from the crotch straight down to the floor")
	_, err = reference(t).Read(place(t, "child", "4", sizing.Both), "chset", sizing.Monotone)
	require.ErrorContains(t, err, `unknown measurement "chset"; did you mean "chest"?`)
}

// The zero Place is on no chart.
func TestNoPlace(t *testing.T) {
	ref, none := reference(t), sizing.Place{}
	require.Empty(t, ref.BodyAt(none, sizing.Monotone).Readings)
	_, err := ref.Read(none, "chest", sizing.Monotone)
	require.ErrorContains(t, err, "no place on a chart given")
	_, err = ref.Blend(place(t, "child", "4", sizing.Both), none, sizing.Child{}, sizing.Monotone)
	require.ErrorContains(t, err, "no place on a chart given")
	require.Empty(t, none.Label())
	_, ok := none.Height()
	require.False(t, ok)
}

// The trade standard's oddities are shown when their values are used.
func TestOdditiesAreNoted(t *testing.T) {
	for _, c := range []struct{ chart, size, measurement, note string }{
		{"craft", "2", "upper_arm", "smaller than at 24 months"},
		{"child", "2", "upper_arm", "smaller than at 24 months"},
		{"child", "3", "upper_arm", "smaller than at 24 months"},
		{"craft", "24m", "neck_to_wrist", "4 in more than at 18 months"},
		{"craft", "12m", "hip", "the same as at 6 months"},
		{"craft", "6m", "waist", "larger than the chest"},
		{"craft", "12m", "neck_to_wrist", "use arm length to underarm"},
		{"craft", "10", "cross_back", "narrower than the bony shoulder breadth"},
		{"craft", "2", "chest", "21 in is 53.34 cm, printed 53"},
		{"craft-head", "child", "head", "the toddler row prints 18 in as 46 cm"},
	} {
		r, err := reference(t).Read(place(t, c.chart, c.size, sizing.Both), c.measurement, sizing.Monotone)
		require.NoError(t, err)
		require.Contains(t, fmt.Sprint(r.Notes), c.note, "%s %s %s", c.chart, c.size, c.measurement)
	}
}

func TestReadingSaysHowItWasGot(t *testing.T) {
	for _, c := range []struct {
		chart, size, measurement string
		got                      sizing.Provenance
		from                     sizing.Origin
		where                    string
	}{
		{"child", "4", "chest", sizing.Published, sizing.Origin{Chart: "child", Below: "4"}, "booklet pp. 15–16, child and youth size chart"},
		{"child", "3", "chest", sizing.Between, sizing.Origin{Chart: "child", Below: "2", Above: "4", Formula: "craft.chest"}, "booklet pp. 15–16, child and youth size chart"},
		{"child", "4", "inside_leg", sizing.Derived, sizing.Origin{Chart: "child", Below: "4", Formula: "measured.inside_leg"}, ""},
		{"measured", "110", "chest", sizing.Published, sizing.Origin{Chart: "measured", Below: "110"}, "individual records, n=240"},
		{"measured", "112cm", "chest", sizing.Between, sizing.Origin{Chart: "measured", Below: "110", Above: "116"}, "110: individual records, n=240; 116: individual records, n=208"},
		{"measured", "112cm", "trunk", sizing.Between, sizing.Origin{Chart: "measured", Below: "110", Above: "116", Formula: "measured.suprasternale_height + 0.051*measured.height - measured.inside_leg"}, "110: suprasternale_height individual records, n=70; height individual records, n=252; sitting_height individual records, n=247; 116: suprasternale_height individual records, n=73; height individual records, n=223; sitting_height individual records, n=221"},
		{"craft-head", "toddler", "head", sizing.Derived, sizing.Origin{Chart: "craft-head", Below: "toddler", Middle: true}, "booklet pp. 19–21, head circumference"},
	} {
		r, err := reference(t).Read(place(t, c.chart, c.size, sizing.Both), c.measurement, sizing.Monotone)
		require.NoError(t, err)
		require.Equal(t, c.got, r.Provenance, "%+v", c)
		require.Equal(t, c.from.Formula == "", r.From.Why == "")
		r.From.Why = ""
		require.Equal(t, c.from, r.From)
		require.Equal(t, c.where, r.Where, "%+v", c)
		require.NotEmpty(t, r.Sources)
		for _, s := range r.Sources {
			_, err := reference(t).Source(s)
			require.NoError(t, err)
		}
	}
}

func TestRangesOfMeasuredChildren(t *testing.T) {
	r, err := reference(t).Read(place(t, "measured", "104", sizing.Girl), "chest", sizing.Monotone)
	require.NoError(t, err)
	require.Equal(t, sizing.MiddleHalf, r.Spread)
	require.Less(t, r.Low, r.Value)
	require.Greater(t, r.High, r.Value)
	r, err = reference(t).Read(place(t, "craft-foot", "4-5", sizing.Both), "foot_length", sizing.Monotone)
	require.NoError(t, err)
	require.Equal(t, sizing.AsPublished, r.Spread)
	require.InDelta(t, 6.5*2.54, r.Low, 1e-9)
	require.InDelta(t, 7.5*2.54, r.High, 1e-9)
}

func FuzzPlace(f *testing.F) {
	for _, s := range []string{"3", "18m", "104cm", "3y6m", "toddler", "9 3/4 in", "-1", "1e9", "\x00"} {
		f.Add(s)
	}
	ref, err := sizing.Default()
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, s string) {
		defer bounded.By(t, 8<<20)()
		for _, chart := range ref.Charts() {
			if p, err := chart.Place(s, sizing.Both); err == nil {
				ref.BodyAt(p, sizing.Monotone)
				_ = p.Label()
			}
		}
	})
}
