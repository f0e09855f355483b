package sizing_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"growtuck/data"
	"growtuck/sizing"
)

func grow(t testing.TB, c sizing.Child) *sizing.Growth {
	t.Helper()
	ref := reference(t)
	b, err := ref.Estimate(c)
	require.NoError(t, err)
	g, err := ref.Growth(b)
	require.NoError(t, err)
	return g
}

func child(sex sizing.Sex, years, height float64) sizing.Child {
	return sizing.Child{Sex: sex, AgeYears: years, Own: map[string]float64{"height": height}}
}

// A child who is in the middle stays there: its height is the published median at every
// half-year, to the millimetre. CDC 2000: M of length for age under two years, of
// stature for age from then on, as printed half a month past each birthday and half
// birthday.
func TestGrowthFollowsThePublishedMedians(t *testing.T) {
	ref := reference(t)
	tables, err := data.Load(data.Embedded(), data.HeightsFile)
	require.NoError(t, err)
	printed := 0
	for _, row := range tables.Heights {
		sex := sizing.Sex(row.Sex)
		median, ok := ref.MedianHeight(row.Months/12, sex)
		require.True(t, ok)
		require.InDelta(t, row.Median, median, 0.001, "%s %g months", row.Sex, row.Months)
		if math.Mod(row.Months, 6) != 0.5 || row.Months < 3 || row.Months > 192 {
			continue
		}
		printed++
		for _, from := range []float64{3.5, 12.5, 30.5, 78.5} {
			if from >= row.Months || from > row.Months-1 {
				continue
			}
			at, _ := ref.MedianHeight(from/12, sex)
			h, err := grow(t, child(sex, from/12, at)).Height((row.Months - from) / 12)
			require.NoError(t, err)
			require.InDelta(t, row.Median, h.Value, 0.005, "%s from %g to %g months", row.Sex, from, row.Months)
		}
	}
	require.Equal(t, 62, printed)
}

// How far children grow in a year: common knowledge, and the medians of CDC 2000.
func TestGrowthByAge(t *testing.T) {
	for _, tt := range []struct {
		years, height, low, high float64
	}{{0.04, 52, 21, 26}, {1, 75.2, 10.5, 13}, {2, 85.7, 7, 9.2}, {4, 101.4, 6, 7.2}, {7, 121.6, 5.4, 6.6}, {13, 156.5, 4, 6.5}, {16.9, 168.8, 0, 1.5}} {
		ref := reference(t)
		c := child(sizing.Both, tt.years, tt.height)
		g, err := ref.GrowthOf(c)
		require.NoError(t, err)
		h, err := g.Height(1)
		require.NoError(t, err)
		require.True(t, h.Value-tt.height >= tt.low && h.Value-tt.height <= tt.high, "%g years: grows %g", tt.years, h.Value-tt.height)
	}
}

// A child of any age and height keeps its place from three years on, its range widens,
// and nothing of it shrinks.
func TestGrowthHolds(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		ref := reference(t)
		sex := rapid.SampledFrom([]sizing.Sex{sizing.Boy, sizing.Girl, sizing.Both}).Draw(rt, "sex")
		years := rapid.Float64Range(0.3, 13).Draw(rt, "years")
		place := rapid.Float64Range(-0.09, 0.09).Draw(rt, "place")
		median, _ := ref.MedianHeight(years, sex)
		c := child(sex, years, median*(1+place))
		c.Own["chest"] = c.Own["height"] * rapid.Float64Range(0.42, 0.6).Draw(rt, "chest")
		if rapid.Bool().Draw(rt, "no age") {
			c.AgeYears = 0
		}
		b, err := ref.Estimate(c)
		if err != nil {
			rt.Skip(err)
		}
		g, err := ref.Growth(b)
		if err != nil {
			rt.Skip(err)
		}
		before, width := b, 0.0
		for months := 1.5; months < 40; months += 3.7 {
			h, err := g.Height(months / 12)
			require.NoError(rt, err)
			require.LessOrEqual(rt, h.Low, h.Value)
			require.GreaterOrEqual(rt, h.High, h.Value)
			require.GreaterOrEqual(rt, math.Log(h.High/h.Low), width-1e-9, "its range widens")
			width = math.Log(h.High / h.Low)
			then, err := g.At(months / 12)
			if err != nil {
				break // taller than the survey
			}
			for i, r := range then.Readings {
				require.GreaterOrEqual(rt, r.Value, before.Readings[i].Value-0.05, "%s at %g months", r.Measurement.ID, months)
				require.False(rt, math.IsNaN(r.Low) || r.Low > r.Value || r.High < r.Value, "%s: %g in %g to %g", r.Measurement.ID, r.Value, r.Low, r.High)
			}
			if nape, ok := then.Get("nape_to_waist"); ok {
				rise, trunk := get(t, then, "rise"), get(t, then, "trunk")
				require.InDelta(rt, nape.Value+rise.Value, trunk.Value, 0.06)
			}
			before = then
		}
	})
}

// How a child departs from the usual is kept: a girl with a wide chest keeps a wide one.
func TestGrowthKeepsDepartures(t *testing.T) {
	ref := reference(t)
	wide := child(sizing.Girl, 5, 108)
	wide.Own["chest"], wide.Own["arm_length"] = 62, 33
	usual := child(sizing.Girl, 5, 108)
	g, u := grow(t, wide), grow(t, usual)
	then, err := g.At(1.5)
	require.NoError(t, err)
	other, err := u.At(1.5)
	require.NoError(t, err)
	now, err := ref.Estimate(usual)
	require.NoError(t, err)
	for _, id := range []string{"chest", "arm_length"} {
		require.InDelta(t, wide.Own[id]/get(t, now, id).Value, get(t, then, id).Value/get(t, other, id).Value, 1e-6, id)
	}
	require.Greater(t, get(t, then, "chest").Value, 62.5, "girths grow too")
}

// Without an age the height tells one, with a wider range.
func TestGrowthWithoutAge(t *testing.T) {
	told, untold := grow(t, child(sizing.Boy, 5, 109)), grow(t, child(sizing.Boy, 0, 109))
	require.False(t, told.Implied)
	require.True(t, untold.Implied)
	require.InDelta(t, 5, untold.Years, 0.1)
	a, _ := told.Height(1)
	b, _ := untold.Height(1)
	require.InDelta(t, a.Value, b.Value, 0.2)
	require.Greater(t, b.High-b.Low, a.High-a.Low)
}

// The growth charts end at 20 years: nothing is foreseen beyond, nor of a child taller
// than any median whose age nobody told.
func TestGrowthEnds(t *testing.T) {
	ref := reference(t)
	g, err := ref.GrowthOf(child(sizing.Girl, 19, 163))
	require.NoError(t, err)
	_, err = g.Height(0.9)
	require.NoError(t, err)
	_, err = g.Height(1.2)
	require.EqualError(t, err, "age 20.2 is outside the growth charts (years), which has 19 to 19.96; nothing is extrapolated")
	_, err = g.Height(-1)
	require.Error(t, err)
	_, err = ref.GrowthOf(child(sizing.Boy, 0, 185))
	require.ErrorContains(t, err, "give the child's age")
	_, err = ref.GrowthOf(sizing.Child{AgeYears: 4})
	require.ErrorIs(t, err, sizing.ErrNoHeight)
}

// Earlier heights tell the pace: a girl of eleven who shot up over the last year goes on
// to, and her range is narrower.
func TestGrowthPace(t *testing.T) {
	c := child(sizing.Girl, 11, 146)
	once := grow(t, c)
	c.Earlier = []sizing.Earlier{{Years: 1, Own: map[string]float64{"height": 137.5}}}
	fast := grow(t, c)
	c.Earlier = []sizing.Earlier{{Years: 1, Own: map[string]float64{"height": 141.5}}, {Years: 5, Own: map[string]float64{"height": 90}}}
	slow := grow(t, c)
	a, _ := once.Height(1)
	b, _ := fast.Height(1)
	s, _ := slow.Height(1)
	require.Greater(t, b.Value, a.Value+0.5)
	require.Less(t, s.Value, a.Value-0.3)
	require.True(t, fast.Paced)
	require.Less(t, b.High-b.Low, a.High-a.Low)
}

func TestReadChildOfSeveralDays(t *testing.T) {
	rows := "measurement,value,unit,date\nborn,2016-02-29,,\nheight,132,cm,2025-05-01\nheight,138.5,cm,2026-05-01\nchest,60,cm,2025-05-01\nhead,52,cm,\n"
	columns := "measurement,unit,2025-05-01,2026-05\nborn,,,2016-02-29\nheight,cm,132,138.5\nchest,cm,60,\nhead,cm,,52\n"
	for _, text := range []string{rows, columns} {
		c, err := reference(t).ReadChild(strings.NewReader(text), "child.csv")
		require.NoError(t, err)
		require.Equal(t, map[string]float64{"height": 138.5, "chest": 60, "head": 52}, c.Own, "the newest of each counts")
		require.InDelta(t, 10.17, c.AgeYears, 0.01)
		require.Len(t, c.Earlier, 1)
		require.InDelta(t, 1, c.Earlier[0].Years, 0.01)
		require.Equal(t, map[string]float64{"height": 132, "chest": 60}, c.Earlier[0].Own)
		require.Equal(t, "2026-05-01", c.Measured.Format(sizing.Day))
	}
	for text, want := range map[string]string{
		"measurement,value,unit,date\nheight,132,cm,2025-02-29\n":                                           `child.csv:2:15: "2025-02-29" is not a date; want a day or a month, such as 2027-10-15 or 2027-10`,
		"measurement,value,unit,date\nheight,132,cm,2025-05\nheight,133,cm,2025-05-01\n":                    "child.csv:3:1: height is given again; the first is on line 2",
		"measurement,value,unit\nborn,2026-01-01,\nmeasured,2025-01-01,\n":                                  "child.csv:3:10: measured: measured on 2025-01-01, before the child was born on 2026-01-01",
		"measurement,value,unit,date\nmeasured,2025-01-01,,\nheight,100,cm,2026-01-01\n":                    "child.csv: measured on 2025-01-01, and has measurements of 2026-01-01",
		"measurement,value,2025-05,unit\nheight,1,2,cm\n":                                                   `child.csv:1:1: header is "measurement,value,2025-05,unit"; want "measurement,value,unit", separated by commas, semicolons or tabs, with a column date where measurements are of several days`,
		"measurement,unit,2025-05,2026-05\nheight,cm,tall,130\n":                                            "",
		"measurement,value,unit\nborn,1990-01-01,\nmeasured,2025-01-01,\n":                                  "child.csv:3:10: measured: born on 1990-01-01, and measured more than 20 years later, on 2025-01-01",
		"measurement,value,unit,date\nage,4,years,2025-01-01\nheight,102,cm,2025-01-01\nheight,108,cm,2026": `child.csv:4:15: "2026" is not a date; want a day or a month, such as 2027-10-15 or 2027-10`,
	} {
		_, err := reference(t).ReadChild(strings.NewReader(text), "child.csv")
		if want == "" {
			require.Error(t, err)
			continue
		}
		require.EqualError(t, err, want, text)
	}
}

func TestDates(t *testing.T) {
	for text, want := range map[string]string{"2028-02-29": "2028-02-29", "2028-02": "2028-02-01", " 2027-10 ": "2027-10-01"} {
		d, err := sizing.ParseDate(text, false)
		require.NoError(t, err)
		require.Equal(t, want, d.Format(sizing.Day))
	}
	end, err := sizing.ParseDate("2028-02", true)
	require.NoError(t, err)
	require.Equal(t, "2028-02-29", end.Format(sizing.Day))
	for _, text := range []string{"", "2027", "2027-13", "2027-02-29", "10/2027", "2027-1", "soon"} {
		_, err := sizing.ParseDate(text, false)
		require.Error(t, err, text)
	}
	for text, want := range map[string]float64{"9m": 9, "18 months": 18, "1y6m": 18, "1.5 years": 18, "1y": 12} {
		months, err := sizing.ParseMonths(text)
		require.NoError(t, err)
		require.Equal(t, want, months, text)
	}
	for _, text := range []string{"9", "", "m", "-3m", "0m", "nine"} {
		_, err := sizing.ParseMonths(text)
		require.Error(t, err, text)
	}
	from, _ := sizing.ParseDate("2026-11-26", false)
	require.InDelta(t, 10.2, sizing.MonthsBetween(from, sizing.AfterMonths(from, 10.2)), 0.02)
}

// A garment to be worn later is made for the child of then, with room from then on.
func TestGarmentGrows(t *testing.T) {
	ref := reference(t)
	for _, years := range []float64{1, 2.5, 6, 11} {
		for _, place := range []float64{0.95, 1, 1.05} {
			height, _ := ref.MedianHeight(years, sizing.Girl)
			body := estimate(t, sizing.Girl, map[string]float64{"height": height * place})
			for _, g := range ref.Garments() {
				name := fmt.Sprintf("%s at %g years", g.ID, years)
				m := sizing.Spec{Garment: g.ID, Fit: "classic", Layer: "skin"}
				now := finish(t, body, m)
				m.Wear = 4
				later := finish(t, body, m)
				m.Seasons = 1
				room := finish(t, body, m)
				growth, err := ref.Growth(body)
				require.NoError(t, err)
				then, err := growth.At(10.0 / 12)
				require.NoError(t, err)
				for i, line := range room.Lines {
					require.GreaterOrEqual(t, later.Lines[i].Finished, now.Lines[i].Finished, name)
					require.GreaterOrEqual(t, line.Finished, later.Lines[i].Finished, name)
					share := 1.0
					if line.Share.Cm != 0 {
						share = line.Share.Cm / 100
					}
					more := share * (get(t, then, line.Part.Measurement).Value - line.Body.Value)
					require.InDelta(t, more, line.Finished-now.Lines[i].Finished, 1e-9, "%s %s", name, line.Part.Part)
				}
			}
		}
	}
}
