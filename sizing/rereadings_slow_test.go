package sizing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSpansHold98Of100(t *testing.T) {
	for _, sex := range sexes {
		l := likenessOf(t, sex)
		for _, id := range []string{"chest", "hip", "arm_length", "head"} {
			row := l.rows[len(l.rows)*2/3]
			m := l.ref.order[id]
			s := said{age: math.NaN(), height: row.logHeight}
			d := doubter{likeness: l, said: s}
			ofLight := math.Hypot(row.rest[m], row.slope[m]*row.rest[m]*row.light)
			ofHeavy := math.Hypot(row.rest[m], row.slope[m]*row.rest[m]*row.heavy)
			for _, off := range []float64{-4, 1, 5} {
				spread := ofHeavy
				if off < 0 {
					spread = ofLight
				}
				low, high, spreads := d.span(m, row.median[m]+off*spread)
				hundredths := 100 * math.Log(high/low)
				require.InDelta(t, math.Round(hundredths), hundredths, 1e-6, "it is looked for in steps of a hundredth")
				require.InDelta(t, row.median[m]-2.3263*ofLight, math.Log(low), 0.0201)
				require.InDelta(t, row.median[m]+2.3263*ofHeavy, math.Log(high), 0.0201)
				require.InDelta(t, off, spreads, 0.05)
			}
		}
		d := doubter{likeness: l, said: said{age: math.NaN(), height: math.NaN()}}
		low, high, spreads := d.span(ageNumber, math.Log(5))
		require.Equal(t, []float64{0, 0, 0}, []float64{low, high, spreads}, "of an age alone nothing is known")
		// At an age, heights spread by 4.3 % about the median.
		d.said.age = math.Log(7)
		low, high, spreads = d.span(l.height, l.heightAt(7)+3*0.043)
		require.InDelta(t, l.heightAt(7)-2.3263*0.043, math.Log(low), 0.0101)
		require.InDelta(t, l.heightAt(7)+2.3263*0.043, math.Log(high), 0.0101)
		require.InDelta(t, 3, spreads, 0.05)
	}
}

func TestTransposedDigits(t *testing.T) {
	for _, tt := range []struct {
		v    float64
		want []float64
	}{
		{56, []float64{65}}, {65, []float64{56}}, {101, []float64{110}}, {110.5, []float64{101.5, 115}}, {5.3, []float64{3.5}}, {55, nil}, {10, nil},
		{1234.5, []float64{2134.5, 1324.5, 1243.5, 1235.4}}, {9999, nil}, {12345, nil}, {12.34, nil}, {0.5, []float64{5}}, {7, nil},
	} {
		got := transposed(tt.v)
		require.Len(t, got, len(tt.want), "%g: %v", tt.v, got)
		for i, w := range tt.want {
			require.InDelta(t, w, got[i], 1e-9, "%g", tt.v)
		}
	}
	require.InDelta(t, 65, transposed(math.Exp(math.Log(56)))[0], 1e-9, "a logarithm is not exact")
}

func TestRereadings(t *testing.T) {
	l := likenessOf(t, Both)
	n := func(id string) int { return l.ref.order[id] }
	s := l.say(Child{AgeYears: 54, Own: map[string]float64{"height": 110.5, "weight": 38, "chest": 53}})
	require.InDelta(t, math.Log(54), s.age, 1e-12)
	require.InDelta(t, math.Log(110.5), s.height, 1e-12)
	given := l.given(&s, nil)
	require.ElementsMatch(t, []int{n("height"), n("weight"), n("chest"), ageNumber}, given)
	require.ElementsMatch(t, []int{n("weight"), ageNumber}, l.given(&s, []int{n("height"), n("chest")}))
	type one struct {
		slip   Slip
		number int
		value  float64 // rounded
	}
	got := make(map[one]float64) // prices
	whole, swaps := make(map[Slip][]float64), 0
	for _, r := range l.rereadings(&s, nil, nil) {
		switch {
		case r.slip == SlipSwapped:
			swaps++
			require.Len(t, r.changes, 2)
			require.Equal(t, l.get(&s, r.changes[0].number), r.changes[1].log)
			require.Equal(t, l.get(&s, r.changes[1].number), r.changes[0].log)
		case len(r.changes) > 1:
			for _, c := range r.changes {
				whole[r.slip] = append(whole[r.slip], math.Round(100*math.Exp(c.log-l.get(&s, c.number)))/100)
			}
		default:
			v := -1.0 // taken away
			if c := r.changes[0]; !math.IsNaN(c.log) {
				v = math.Round(100*math.Exp(c.log)) / 100
			}
			got[one{r.slip, r.changes[0].number, v}] = r.price
		}
	}
	require.Equal(t, 6, swaps, "of four things said")
	require.Equal(t, map[Slip][]float64{SlipInches: {2.54, 2.54}, SlipMillimetres: {0.1, 0.1}, SlipMetres: {100, 100}, SlipCentimetres: {0.39, 0.39}}, whole)
	want := []one{{SlipMonths, ageNumber, 4.5}, {SlipYears, ageNumber, 648}, {"", ageNumber, -1}}
	for id, v := range map[string]float64{"height": 110.5, "chest": 53} {
		for _, of := range []one{{SlipTenth, 0, v / 10}, {SlipTenth, 0, v / 100}, {SlipTenTimes, 0, v * 10}, {SlipInches, 0, v * 2.54}, {SlipFeet, 0, v * 30.48}, {SlipMetres, 0, v * 100}, {SlipCentimetres, 0, v / 2.54}, {"", 0, -1}} {
			want = append(want, one{of.slip, n(id), of.value})
		}
	}
	for _, of := range []one{{SlipPounds, 0, 38 * 0.45359237}, {SlipKilograms, 0, 38 / 0.45359237}, {SlipGrams, 0, 0.038}, {SlipTenth, 0, 3.8}, {SlipTenTimes, 0, 380}, {SlipDigits, 0, 83}, {"", 0, -1}} {
		want = append(want, one{of.slip, n("weight"), of.value})
	}
	want = append(want, one{SlipDigits, n("chest"), 35}, one{SlipDigits, n("height"), 101.5}, one{SlipDigits, n("height"), 115})
	for i := range want {
		if want[i].value > 0 {
			want[i].value = math.Round(100*want[i].value) / 100
		}
		require.Contains(t, got, want[i])
	}
	require.Len(t, got, len(want))
	// The rarer something is, the more it costs: what most scales show either way the least,
	// then a slip of one value, of all lengths, two exchanged, an age that is wrong for no
	// reason, two digits, any other value; and a unit chosen that another was used for more
	// than none chosen.
	chest := func(slip Slip, v float64) float64 { return got[one{slip, n("chest"), v}] }
	rising := []float64{got[one{SlipPounds, n("weight"), 17.24}], chest(SlipInches, 134.62), costOfWhole, costOfSwap, got[one{"", ageNumber, -1}], chest(SlipDigits, 35), chest("", -1)}
	for i := range rising[1:] {
		require.Less(t, rising[i], rising[i+1], "%v", rising)
	}
	require.Less(t, chest(SlipInches, 134.62), chest(SlipCentimetres, 20.87))
	require.Less(t, got[one{SlipGrams, n("weight"), 0.04}], got[one{SlipKilograms, n("weight"), 83.78}])
	require.Less(t, got[one{SlipMonths, ageNumber, 4.5}], got[one{SlipYears, ageNumber, 648}])
	require.Less(t, chest(SlipTenth, 5.3), chest(SlipTenth, 0.53), "two places off")
	// What was settled stays, and so does what does not stand out.
	for _, r := range l.rereadings(&s, []int{n("chest"), ageNumber}, []float64{0.9, 0.9}) {
		for _, c := range r.changes {
			require.Equal(t, n("height"), c.number)
		}
	}
	only := 0
	for _, r := range l.rereadings(&s, nil, []float64{1, 0.99}) { // of weight and chest
		if len(r.changes) == 1 && r.changes[0].number == s.fields[0] {
			only++
		}
		require.False(t, len(r.changes) == 1 && r.changes[0].number == s.fields[1])
	}
	require.Positive(t, only)
	// Changes are made, and taken away, one after the other.
	changed := l.with(s, change{n("hip"), 4}, change{n("chest"), math.NaN()}, change{ageNumber, 1}, change{n("height"), 4.5}, change{n("weight"), 3}, change{n("neck"), math.NaN()})
	require.Equal(t, []float64{1, 4.5, 4, 3}, []float64{l.get(&changed, ageNumber), l.get(&changed, n("height")), l.get(&changed, n("hip")), l.get(&changed, n("weight"))})
	require.True(t, math.IsNaN(l.get(&changed, n("chest"))) && math.IsNaN(l.get(&changed, n("neck"))))
	require.Len(t, changed.fields, 2)
	require.InDelta(t, math.Log(53), l.get(&s, n("chest")), 1e-12, "what was said is as it was")
}
