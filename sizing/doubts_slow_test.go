package sizing

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A doubt says by how much a value is off what children have, and what was likely meant.
func TestDoubtsAreTold(t *testing.T) {
	l := likenessOf(t, Both)
	d := doubter{likeness: l}
	likely := NewFact("slip.inches", Length(53.3))
	span := NewFact("doubt.span", Length(50), Length(60))
	for name, tt := range map[string]struct {
		given     float64
		unit      string
		low, high float64
		likely    []Correction
		alone     bool
		want      Fact
	}{
		"too much":              {70, "cm", 50, 60, nil, false, NewFact("doubt.much", "n", Length(70), Length(10), span, Fact{})},
		"too much, all of it":   {70, "cm", 50, 60, nil, true, NewFact("doubt.much-of-all", "n", Length(70), Length(10), span, Fact{})},
		"too little":            {45, "cm", 50, 60, []Correction{{Fact: likely}}, false, NewFact("doubt.little", "n", Length(45), Length(5), span, NewFact("doubt.likely", likely))},
		"too little, all of it": {45, "cm", 50, 60, nil, true, NewFact("doubt.little-of-all", "n", Length(45), Length(5), span, Fact{})},
		"at the lower end":      {50, "cm", 50, 60, nil, true, NewFact("doubt.within", "n", Length(50), span, Fact{})},
		"at the upper end":      {60, "cm", 50, 60, nil, false, NewFact("doubt.within", "n", Length(60), span, Fact{})},
		"nothing else is known": {60, "cm", 0, 0, nil, false, NewFact("doubt.alone", "n", Length(60), Fact{})},
		"a weight":              {70, "kg", 50, 60, nil, false, NewFact("doubt.much", "n", Weight(70), Weight(10), NewFact("doubt.span", Weight(50), Weight(60)), NewFact("doubt.scale"))},
		"an age":                {70, "years", 50, 60, nil, false, NewFact("doubt.much", "n", Age(70), Age(10), NewFact("doubt.span", Age(50), Age(60)), Fact{})},
	} {
		out := Doubt{Name: "n", Given: tt.given, Unit: tt.unit, Low: tt.low, High: tt.high, Likely: tt.likely}
		require.Equal(t, tt.want, d.fact(&out, tt.alone), name)
	}
	n := func(id string) int { return l.ref.order[id] }
	for _, tt := range []struct {
		number int
		v      float64
		want   Value
	}{ // as tapes, scales and birthdays are read: millimetres, tenths of a kilogram; months of babies, tenths of a year
		{n("chest"), 53.34, Value{"chest", 53.3, "cm"}}, {n("chest"), 53.36, Value{"chest", 53.4, "cm"}}, {n("weight"), 17.24, Value{"weight", 17.2, "kg"}},
		{ageNumber, 0.51, Value{AgeField, 0.5, "years"}}, {ageNumber, 1.37, Value{AgeField, 16. / 12, "years"}}, {ageNumber, 1.97, Value{AgeField, 2, "years"}}, {ageNumber, 4.47, Value{AgeField, 4.5, "years"}}, {ageNumber, 2.09, Value{AgeField, 2.1, "years"}},
	} {
		got := d.value(change{tt.number, math.Log(tt.v)})
		require.InDelta(t, tt.want.Amount, got.Amount, 1e-12)
		got.Amount = tt.want.Amount
		require.Equal(t, tt.want, got)
	}
	require.Equal(t, Length(3), Value{Amount: 3, Unit: "cm"}.Argument())
	require.Equal(t, Weight(3), Value{Amount: 3, Unit: "kg"}.Argument())
	swapped := d.correction(SlipSwapped, []Value{{"chest", 64, "cm"}, {"head", 52, "cm"}})
	require.Equal(t, NewFact("slip.swapped", Length(64), l.ref.measurements["head"].Name), swapped.Fact)
	require.Equal(t, NewFact("slip.swapped", Length(64), AgeField), d.correction(SlipSwapped, []Value{{"chest", 64, "cm"}, {AgeField, 52, "years"}}).Fact)
	require.Equal(t, NewFact("slip.months", Age(4)), d.correction(SlipMonths, []Value{{AgeField, 4, "years"}}).Fact)
}

// A whole and the sum of its parts may differ by three in a hundred, as tapes do. What is
// taken for a part counts for it.
func TestContradictions(t *testing.T) {
	for whole, want := range map[float64]bool{97: false, 96.99: true, 103: false, 103.01: true, 100: false} {
		require.Equal(t, want, contradicts(whole, 100), "%g", whole)
	}
	require.Equal(t, "back_waist_length", takenAs("nape_to_waist"))
	for _, id := range []string{"rise", "trunk", "crown_to_throat"} {
		require.Equal(t, id, takenAs(id))
	}
	e := everyMeasurement(t)
	ref := e.ref
	for _, tt := range []struct {
		own   map[string]float64
		whole string
		parts []string
		sum   float64
	}{
		{map[string]float64{"trunk": 45, "nape_to_waist": 24, "rise": 17}, "trunk", []string{"nape_to_waist", "rise"}, 41},
		{map[string]float64{"trunk": 45, "back_waist_length": 24, "rise": 17}, "trunk", []string{"back_waist_length", "rise"}, 41},
		{map[string]float64{"trunk": 41, "back_waist_length": 28, "nape_to_waist": 24, "rise": 17}, "back_waist_length", []string{"nape_to_waist"}, 24},
		{map[string]float64{"height": 110, "crown_to_throat": 30, "suprasternale_height": 88}, "height", []string{"crown_to_throat", "suprasternale_height"}, 118},
		{map[string]float64{"height": 110, "crown_to_throat": 30, "suprasternale_height": 81}, "", nil, 0},
		{map[string]float64{"trunk": 45, "nape_to_waist": 24}, "", nil, 0},
		{map[string]float64{"trunk": 45, "rise": 17}, "", nil, 0},
		{map[string]float64{"nape_to_waist": 24, "rise": 17}, "", nil, 0},
		{map[string]float64{"back_waist_length": 24}, "", nil, 0},
	} {
		c := Child{Own: tt.own, Where: map[string]string{"trunk": "child.csv:3:7"}}
		got := ref.contradictions(c)
		e.forget()
		for id, v := range tt.own {
			e.own[ref.order[id]] = v
		}
		require.Equal(t, tt.whole != "", e.contradicted(), "%v", tt.own)
		if tt.whole == "" {
			require.Empty(t, got, "%v", tt.own)
			continue
		}
		require.Len(t, got, 1, "%v", tt.own)
		m := ref.measurements[tt.whole]
		require.Equal(t, Doubt{Measurement: tt.whole, Name: m.Name, Given: tt.own[tt.whole], Unit: "cm", Where: c.Where[tt.whole],
			Fact: NewFact("parts-contradict", m.Name, Length(tt.own[tt.whole]), namesOf(ref.measurementsOf(tt.parts)), Length(tt.sum))}, got[0])
	}
}

// Of what a value may have meant, those are told that are nearly as likely as the
// likeliest, one of each value, the likeliest first; for no reason only where none is.
func TestReadingsAreGathered(t *testing.T) {
	of := func(slip Slip, number int, log float64) rereading {
		return rereading{slip, 1, []change{{number, log}}}
	}
	all := []rereading{of("", 1, math.NaN()), of(SlipInches, 1, 4), of(SlipTenth, 1, 4.5), of(SlipTenTimes, 1, 4+1e-7), of(SlipDigits, 1, 5), of(SlipInches, 2, 4), of(SlipFeet, 1, 6)}
	costs := []float64{5, 6, 5.5, 5.8, 8.9, 5.1, 9}
	slips := func(s suspicion) (out []Slip) {
		for _, r := range s.readings {
			out = append(out, r.slip)
		}
		return out
	}
	require.Equal(t, []Slip{SlipTenth, SlipTenTimes, SlipDigits}, slips(gather(all, costs, 0)))
	require.Equal(t, []Slip{SlipTenth, SlipTenTimes, SlipDigits, SlipFeet}, slips(gather(all, costs, 2)))
	require.Equal(t, []Slip{SlipInches}, slips(gather(all, costs, 5)))
	require.Equal(t, []Slip{""}, slips(gather(all[:1], costs, 0)))
	require.Equal(t, []Slip{""}, slips(gather(all, []float64{1, 6, 5.5, 5, 8.9, 2, 9}, 0)), "just as far is not nearly as likely")
	pair := rereading{SlipSwapped, 1, []change{{1, 1}, {2, 2}}}
	require.True(t, pair.about(&rereading{"", 3, []change{{1, 4}, {2, 5}}}))
	require.False(t, pair.about(&rereading{"", 3, []change{{2, 1}, {1, 2}}}))
	require.False(t, pair.about(&all[0]))
}

// Days and months are of the calendar: a year has 365.25 days, a month a twelfth.
func TestDaysOfTheCalendar(t *testing.T) {
	day := func(s string) time.Time {
		d, err := ParseDate(s, false)
		require.NoError(t, err)
		return d
	}
	for _, tt := range []struct {
		from, to string
		months   float64
	}{{"2025-01-01", "2025-01-01", 0}, {"2025-01-01", "2026-01-01", 11.99}, {"2025-01-01", "2029-01-01", 48}, {"2025-01-01", "2025-01-31", 0.99}, {"2025-03-01", "2025-01-01", -1.94}} {
		require.InDelta(t, tt.months, MonthsBetween(day(tt.from), day(tt.to)), 1e-9)
	}
	for months, want := range map[float64]string{0: "2025-01-01", 1: "2025-01-31", 12: "2026-01-01", 0.5: "2025-01-16", 48: "2029-01-01"} {
		require.Equal(t, want, AfterMonths(day("2025-01-01"), months).Format(Day))
	}
	ends, err := ParseDate("2027-02", true)
	require.NoError(t, err)
	require.Equal(t, "2027-02-28", ends.Format(Day))
	one, err := ParseDate("2027-02-03", true)
	require.NoError(t, err)
	require.Equal(t, "2027-02-03", one.Format(Day))
	for text, want := range map[string]float64{"1m": 1, "10 days": 0.33, "1y1m": 13, "2.004m": 2, "2.006m": 2.01, "20y": 240} {
		got, err := ParseMonths(text)
		require.NoError(t, err)
		require.InDelta(t, want, got, 0.0049, text)
		require.InDelta(t, math.Round(got*100), got*100, 1e-9)
	}
	c := Child{Born: day("2005-01-01"), Measured: day("2025-01-01")}
	require.NoError(t, c.setDates())
	require.InDelta(t, 20, c.AgeYears, 1e-9)
	c.Measured = day("2025-01-02")
	require.ErrorContains(t, c.setDates(), "more than 20 years")
	c.Measured = c.Born
	require.NoError(t, c.setDates())
	require.Zero(t, c.AgeYears)
	c.Measured = day("2004-12-31")
	require.ErrorContains(t, c.setDates(), "before the child was born")
	for _, c := range []Child{{Born: day("2020-01-01")}, {Measured: day("2020-01-01")}} {
		require.NoError(t, c.setDates())
		require.Zero(t, c.AgeYears)
	}
}
