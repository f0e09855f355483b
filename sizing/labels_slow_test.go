package sizing

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
)

// A label says an age or a height, from one to another, whatever word or unit stands beside
// it. From 45 on a number is a height: no child's age is as large, and none is as small.
func TestLabelsAreRead(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	tests := map[string]label{
		"44": {low: 44, high: 44}, "44.5": {low: 44.5, high: 44.5}, "45": {low: 45, high: 45, heights: true}, "45 cm": {low: 45, high: 45, heights: true}, "30 cm": {low: 30, high: 30, heights: true},
		"EU 45": {low: 45, high: 45, heights: true}, "EU 7 years": {low: 7, high: 7}, "EU98": {low: 98, high: 98, heights: true}, "en 0 y": {}, "de98": {low: 98, high: 98, heights: true},
		"4-6": {low: 4, high: 6}, "4/6": {low: 4, high: 6}, "4 to 6": {low: 4, high: 6}, "4 bis 6": {low: 4, high: 6}, "4 à 6": {low: 4, high: 6}, "4 - 6 y": {low: 4, high: 6}, "3-24m": {low: 0.25, high: 2}, "3m-24m": {low: 0.25, high: 2},
		"3-9y": {low: 3, high: 9}, "92-128": {low: 92, high: 128, heights: true}, "45-50": {low: 45, high: 50, heights: true}, "43-45": {low: 43, high: 45}, "40-45": {low: 40, high: 45}, "98-104 cm": {low: 98, high: 104, heights: true},
		"2T": {low: 2, high: 2}, "T0": {}, "T9": {low: 9, high: 9}, "2t-3t": {low: 2, high: 3}, "2 toddler": {low: 2, high: 2}, "5 1/2": {low: 5.5, high: 5.5}, "6 mos.": {low: 0.5, high: 0.5},
		"110 (4-5y)": {low: 110, high: 110, heights: true}, "4-5y (110)": {low: 110, high: 110, heights: true}, "4-5y / 110": {low: 110, high: 110, heights: true}, "4-5y, 110": {low: 110, high: 110, heights: true}, "4-5y/110": {low: 110, high: 110, heights: true}, "4-5y 110": {low: 110, high: 110, heights: true},
		"M (8)": {low: 8, high: 8}, "S/8": {low: 8, high: 8}, "6x": {low: 6.5, high: 6.5}, "0": {}, "0m": {}, "preemie": {}, "New  Born": {}, "size  age 7": {low: 7, high: 7}, "７": {low: 7, high: 7},
	}
	for _, word := range beforeLabels {
		want := label{low: 7, high: 7}
		if slices.Contains(europeanLabels, word) {
			want = label{low: 107, high: 107, heights: true}
			_, err := chart.readLabel(word + " 7")
			require.ErrorContains(t, err, "European sizes of children are heights in cm; give 7 years", word)
		}
		tests[fmt.Sprintf("%s %g", strings.ToUpper(word), want.low)] = want
	}
	for word, unit := range afterLabels {
		years := 6.0
		if unit == "months" {
			years = 0.5
		}
		tests["6 "+word] = label{low: years, high: years}
	}
	for text, want := range tests {
		got, err := chart.readLabel(text)
		require.NoError(t, err, text)
		require.Equal(t, want.heights, got.heights, text)
		require.InDeltaSlice(t, []float64{want.low, want.high}, []float64{got.low, got.high}, 1e-12, text)
	}
	for _, word := range letterSizes {
		_, err := chart.readLabel("size " + word)
		require.ErrorContains(t, err, "letters stand for others", word)
	}
	for _, word := range builds {
		for _, text := range []string{"10" + word, "10 " + strings.ToUpper(word)} {
			_, err := chart.readLabel(text)
			require.ErrorContains(t, err, fmt.Sprintf("%q says a width, which differs from maker to maker; give 10, with", word), text)
		}
	}
	for text, want := range map[string]string{"4-6.5": "may be months or years; give 4-6.5m or 4-6.5y", "1-44": "may be months or years", "4t-6": "of two kinds", "4y-110cm": "of two kinds", "EU 44.9": "European"} {
		_, err := chart.readLabel(text)
		require.ErrorContains(t, err, want, text)
	}
	for _, text := range []string{"6-6", "7-6", "-6", "6-", "a-b", "4-5-6", "6q", "q6", "4 5", "(4)", "4 (5", "4.5.6", "6 w", "6 days", "eu", "8 slim fit", "110 104", "4-5 6-7"} {
		_, err := chart.readLabel(text)
		require.ErrorIs(t, err, errNoLabel, text)
	}
	for _, tt := range []struct{ text, first, second string }{{"4 (110)", "4", "110"}, {"4 / 110", "4", "110"}, {"4/110", "4", "110"}, {"4, 110", "4", "110"}, {"a b c", "a b", "c"}, {"a / b / c", "a / b", "c"}} {
		first, second, ok := twoLabels(tt.text)
		require.Equal(t, []any{tt.first, tt.second, true}, []any{first, second, ok}, tt.text)
	}
	for _, text := range []string{"4", "(4)", "/4", "4/", "4 (5"} {
		_, _, ok := twoLabels(text)
		require.False(t, ok, text)
	}
	// The middle is taken, or the end that the chart still has; how it was read is told.
	for _, tt := range []struct {
		text string
		at   float64 // cm or years
		how  Fact
	}{
		{"98-104", 101, NewFact("label.heights", "98-104", Length(98), Length(104), Length(101))}, {"50-70", 70, NewFact("label.heights", "50-70", Length(50), Length(70), Length(70))}, {"165-175", 165, NewFact("label.heights", "165-175", Length(165), Length(175), Length(165))},
		{"4-5", 4.5, NewFact("label.ages", "4-5", 4.5)}, {"15-18y", 15, NewFact("label.ages", "15-18y", 15.0)}, {"3T", 3, NewFact("label.toddler", "3T", 3.0)}, {"104", 104, NewFact("label.height", "104", Length(104))},
	} {
		p, err := chart.placeLabel(tt.text, Both)
		require.NoError(t, err, tt.text)
		require.Equal(t, tt.how, *p.How, tt.text)
		require.Equal(t, []Fact{tt.how}, p.read())
		at := p.Position
		if tt.at > 20 {
			at, _ = p.Height()
		}
		require.InDelta(t, tt.at, at, 1e-6, tt.text)
	}
	require.Nil(t, Place{}.read())
	ages, err := ref.Chart("craft-head")
	require.NoError(t, err)
	_, err = ages.placeLabel("4-5", Both)
	require.ErrorIs(t, err, errNoLabel, "its sizes are names")
	require.Equal(t, []string{"4"}, ages.WithHeights([]string{"4"}, Both))
	require.Equal(t, []string{"4", "6"}, ages.WithHeights([]string{"4", "heights", "6"}, Both))
	all := chart.WithHeights([]string{"4", "heights", "6"}, Both)
	require.Equal(t, []string{"4", "62cm", "68cm"}, all[:3])
	require.Equal(t, []string{"158cm", "164cm", "6"}, all[len(all)-3:])
}

// Readings of two editions are compared one by one.
func TestEditionsAreCompared(t *testing.T) {
	key := func(what, m string) ReadingKey { return ReadingKey{What: what, Measurement: m} }
	of := func(values map[ReadingKey]float64, order ...ReadingKey) *readings {
		r := &readings{value: make(map[ReadingKey]float64)}
		for _, k := range order {
			r.add(k, values[k])
		}
		return r
	}
	chest, waist, hip, neck, slack, share := key("size", "chest"), key("size", "waist"), key("ease", "hip"), key("size", "neck"), key("practice", "slack"), key("practice", "share")
	before := of(map[ReadingKey]float64{chest: 50, waist: 48, hip: 4, slack: 1, share: 3}, chest, waist, hip, slack, share, chest)
	after := of(map[ReadingKey]float64{chest: 50 + 5e-10, hip: 2.5, neck: 26, slack: 21, share: 3}, neck, chest, hip, slack, share)
	require.Len(t, before.order, 5)
	nothing := of(map[ReadingKey]float64{chest: math.NaN(), waist: math.Inf(1), hip: math.Inf(-1)}, chest, waist, hip)
	require.Empty(t, nothing.order, "what is not known is no reading")
	require.Equal(t, &Comparison{Readings: 5, Gone: 1, Added: 1, Moved: 2, Figures: 1, Largest: 1.5, Moves: []Move{
		{neck, 0, 26, false, true}, {hip, 4, 2.5, true, true}, {slack, 1, 21, true, true}, {waist, 48, 0, true, false},
	}}, compare(before, after))
	require.Equal(t, &Comparison{Readings: 5}, compare(before, before))
	move := func(by float64) int {
		return compare(of(map[ReadingKey]float64{chest: 0}, chest), of(map[ReadingKey]float64{chest: by}, chest)).Moved
	}
	require.Equal(t, []int{0, 1, 1}, []int{move(0.9e-9), move(1e-9), move(-1)})
}

// A change of the tables moves the readings that it is about, and those that follow from
// them.
func TestComparedTables(t *testing.T) {
	t.Parallel()
	load := func() *data.Tables {
		tables, err := data.Load(data.Embedded())
		require.NoError(t, err)
		return tables
	}
	was, err := Default()
	require.NoError(t, err)
	changed := load()
	practice := slices.IndexFunc(changed.Practice, func(p data.Practice) bool { return p.ID == "length_slack" })
	changed.Practice[practice].Value++
	ease := slices.IndexFunc(changed.Ease, func(e data.Ease) bool {
		return e.Garment == "upper" && e.Measurement == "chest" && e.Fit == "loose"
	})
	changed.Ease[ease].Use += 2
	body := slices.IndexFunc(changed.Body, func(b data.Body) bool {
		return b.Chart == "measured" && b.Size == "110" && b.Sex == "m" && b.Measurement == "head" && b.Statistic == "p50"
	})
	changed.Body[body].Value += 0.5
	is, err := New(changed)
	require.NoError(t, err)
	c, err := is.Compare(was)
	require.NoError(t, err)
	require.Zero(t, c.Gone+c.Added)
	require.Equal(t, 1, c.Figures)
	require.InDelta(t, 2, c.Largest, 1e-9)
	seen := make(map[string]int)
	for _, m := range c.Moves {
		seen[m.What]++
		switch m.What {
		case "ease":
			require.InDelta(t, 2, m.After-m.Before, 1e-9)
			require.True(t, m.Measurement == "chest" && strings.Contains(m.Of, ", loose, "), "%v", m)
		case "practice":
			require.Equal(t, "length_slack", m.Measurement)
		case "size":
			require.True(t, m.Of != "measured" || m.Sex == "m" && m.At == "110" && m.Measurement == "head", "%v", m)
		case "estimate":
			require.True(t, m.Sex == "m" && m.Measurement == "head", "%v", m)
		}
	}
	uppers := 0
	for _, g := range is.Garments() {
		if g.Group == "upper" && g.ID != "poncho" {
			uppers++
		}
	}
	require.Equal(t, uppers*len(Layers)*4, seen["ease"], "%v", seen)
	r := &readings{value: make(map[ReadingKey]float64)}
	require.NoError(t, r.addEstimates(was))
	for _, at := range []string{"70 cm", "110 cm", "170 cm"} { // the usual child, and one a tenth heavier
		kg := func(at string) float64 { return r.value[ReadingKey{"estimate", "", "m", at, "weight", "kg"}] }
		require.InDelta(t, 1.1*kg(at), kg(at+", a tenth heavier"), 0.0501, at)
		require.Positive(t, kg(at))
	}
	require.Positive(t, min(seen["size"], seen["estimate"]))
}
