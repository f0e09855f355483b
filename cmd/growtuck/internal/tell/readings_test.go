package tell

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
)

func TestHowAReadingWasGot(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	for _, c := range []struct {
		chart, size, measurement string
		method                   sizing.Method
		from, atSize             string
	}{
		{"child", "4", "chest", sizing.Monotone, "child 4", "as published"},
		{"child", "3", "chest", sizing.Monotone, "child, between 2 and 4: craft.chest (the trade standard)", "between 2 and 4"},
		{"child", "3", "chest", sizing.Linear, "child, between 2 and 4, in proportion: craft.chest (the trade standard)", "between 2 and 4, in proportion"},
		{"child", "4", "rise", sizing.Monotone, "child 4: 0.41*child.trunk (the trunk divides at the natural waist 59 to 41, as measured children's)", "derived"},
		{"child", "3", "rise", sizing.Monotone, "child, between 2 and 4: 0.41*child.trunk (the trunk divides at the natural waist 59 to 41, as measured children's)", "between 2 and 4"},
		{"craft-head", "toddler", "head", sizing.Monotone, "craft-head toddler, middle of the range", "middle of the range"},
	} {
		chart, err := ref.Chart(c.chart)
		require.NoError(t, err)
		place, err := chart.Place(c.size, sizing.Both)
		require.NoError(t, err)
		r, err := ref.Read(place, c.measurement, c.method)
		require.NoError(t, err)
		require.Equal(t, []string{c.from, c.atSize}, []string{Style{}.From(r), atSize(r)})
	}
}

// What a child's body says of itself, in full, in short and in a footnote.
func TestHowABodyWasGot(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	two, err := chart.Place("2", sizing.Both)
	require.NoError(t, err)
	nine, err := chart.Place("9", sizing.Both)
	require.NoError(t, err)
	estimated, err := ref.Estimate(sizing.Child{Sex: sizing.Girl, Own: map[string]float64{"height": 138, "chest": 62}})
	require.NoError(t, err)
	unknown, err := ref.Estimate(sizing.Child{Sex: sizing.Girl, AgeYears: 9, Own: map[string]float64{"chest": 62}})
	require.NoError(t, err)
	blended, err := ref.Blend(two, nine, sizing.Child{Own: map[string]float64{"chest": 62, "trunk": 57}}, sizing.Monotone)
	require.NoError(t, err)
	for _, c := range []struct {
		body                               *sizing.Body
		measurement, from, words, footnote string
	}{
		{estimated, "chest", "the child", "measured", ""},
		{estimated, "hip", "height and chest girth", "estimated", ""},
		{blended, "rise", "from the child's trunk (nape to crotch)", "derived", "from the child's trunk (nape to crotch)"},
		{estimated, "arm_to_underarm", "height and chest girth, from the trade chart's figure at that height", "estimated", "from the trade chart's figure at that height"},
		{unknown, "hip", "chest girth and age", "estimated", ""},
		{unknown, "trunk", "chest girth and age: measured.suprasternale_height + 0.051*measured.height - measured.inside_leg (the neck bone stands about 5.1 % of height above the throat notch (adult surveys, from memory); checked against a published table of rise by height)", "estimated", ""},
		{blended, "hip", "widths from child 2", "widths from child 2", ""},
		{blended, "cross_back", "widths from child 2", "widths from child 2", ""},
		{blended, "arm_to_underarm", "lengths from child, between 8 and 10: craft.arm_to_underarm (the trade standard)", "lengths, between 8 and 10", ""},
	} {
		r, ok := c.body.Get(c.measurement)
		require.True(t, ok)
		words, footnote := forChild(r)
		require.Equal(t, []string{c.from, c.words, c.footnote}, []string{Style{}.From(r), words, footnote}, c.measurement)
	}
	require.Equal(t, "estimated at a height of 138.0 cm (54.3 in), from height and chest girth", Style{Unit: "in"}.bodySummary(estimated))
	require.Contains(t, Style{}.bodySummary(unknown), "estimated; what is known fits a height of about 13")
	require.Equal(t, "widths from size 2, lengths from size 9 of chart child; 2 measured on the child", Style{}.bodySummary(blended))
	require.Equal(t, "Widths from size 2, lengths from size 9 of the chart; 2 measured on the child", Style{Place: Page}.BodySummary(blended))
	height, err := chart.Place("4", sizing.Both)
	require.NoError(t, err)
	require.Equal(t, "Size 4 of the chart, which is for a height of 101.8 cm (40.1 in)", Style{Unit: "in", Place: Page}.BodySummary(ref.BodyAt(height, sizing.Monotone)))
}

func TestQuestionsInWords(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	for _, c := range []struct {
		own      map[string]float64
		cm, inch string
	}{
		{map[string]float64{"height": 104, "inside_leg": 81}, "inside leg 81 cm is 34.", "inside leg 81 cm (31.9 in) is 34."},
		{map[string]float64{"height": 104, "trunk": 45, "back_waist_length": 24, "rise": 17},
			"trunk (nape to crotch) 45 cm, but back waist length and rise (waist to crotch) add up to 41: check the tape",
			"trunk (nape to crotch) 45 cm (17.7 in), but back waist length and rise (waist to crotch) add up to 41: check the tape"},
		{map[string]float64{"chest": 53, "waist": 20}, ". 50.8 cm is likelier, if it is in inches", ". 50.8 cm (20 in) is likelier, if it is in inches"},
		{map[string]float64{"height": 104, "weight": 37}, ". 16.8 kg is likelier, if it is in pounds", "weight 37 kg (81.6 lb) is"},
	} {
		b, err := ref.Estimate(sizing.Child{Sex: sizing.Boy, Own: c.own})
		require.NoError(t, err)
		require.NotEmpty(t, b.Questions)
		require.Contains(t, strings.Join(Style{}.Questions(b.Questions), "\n"), c.cm)
		require.Contains(t, strings.Join(Style{Unit: "in"}.Questions(b.Questions), "\n"), c.inch)
	}
	require.Equal(t, []string{}, Style{}.Questions(nil))
}

func TestAmountsInWords(t *testing.T) {
	for want, a := range map[string]sizing.Amount{
		"very-close fit: classic 2–4 cm":  {Kind: sizing.FitEase, Of: "very-close", Note: "classic 2–4 cm"},
		"any fit":                         {Kind: sizing.AnyFitEase, Of: "loose"},
		"over winter clothes: thick":      {Kind: sizing.LayerEase, Of: "winter", Note: "thick"},
		"over indoor clothes [x]":         {Kind: sizing.LeastEase, Of: "indoor", Source: "x"},
		"over a nappy":                    {Kind: sizing.NappyEase, Note: "over a nappy"},
		"fold back cuffs: let down later": {Kind: sizing.OptionAdds, Of: "fold-back-cuffs", Note: "let down later"},
		"growth room: half a year":        {Kind: sizing.GrowthRoom, Note: "half a year"},
		"as asked for":                    {Kind: sizing.AskedFor},
		"":                                {},
	} {
		require.Equal(t, want, Style{}.Because(a))
	}
	require.Equal(t, "classic fit: 2–4 cm", Style{Unit: "in"}.Amount(sizing.Amount{Kind: sizing.FitEase, Of: "classic", Note: "2–4 cm"}))
	spec := sizing.Spec{Fit: "very-close", Layer: "winter", Nappy: true, Seasons: 1.5, Options: []string{"tunic", "fold-back-cuffs"}}
	require.Equal(t, "very close fit over winter clothes, over a nappy, growth room for 9 months, fold back cuffs, tunic", Style{}.Spec(spec))
	require.Equal(t, "classic fit over skin, growth room for half a year", Style{}.Spec(sizing.Spec{Fit: "classic", Layer: "skin", Seasons: 1}))
}

func TestErrorsInWords(t *testing.T) {
	ref, err := sizing.Default()
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	_, low := ref.Estimate(sizing.Child{Own: map[string]float64{"height": 51}})
	_, odd := ref.Estimate(sizing.Child{Own: map[string]float64{"chest": 12}})
	_, size := chart.Place("x", sizing.Both)
	body := &sizing.Body{Summary: sizing.NewFact("body-size", "4", "child")}
	_, none := ref.Finish(body, sizing.Spec{Garment: "hat", Fit: "classic", Layer: "skin"})
	for _, c := range []struct {
		err            error
		terminal, page string
	}{
		{low, "height 51 is outside the survey of measured babies and children, which has 60.1 to 181.1; nothing is extrapolated; name sizes instead",
			"a height of 51 cm (20.1 in) is outside the survey of measured babies and children, which has 60.1 to 181.1 cm (23.7 to 71.3 in); nothing is extrapolated; name a size at " + PageSizes + " instead"},
		{odd, "the child's chest girth would fit a height outside 60.1 to 181.1 cm, which the survey of measured babies and children covers; check the tape and the unit, give the height or name sizes",
			"the child's chest girth would fit a height outside 60.1 to 181.1 cm (23.7 to 71.3 in), which the survey of measured babies and children covers; check the tape and the unit, give the height or name a size at " + PageSizes},
		{size, `unknown size of chart child "x"; known are`, `unknown size of the chart "x"; known are`},
		{none, "hat: size 4 of chart child has none of its measurements", "size 4 of the chart has none of its measurements"},
	} {
		require.Contains(t, Style{}.Error(c.err), c.terminal)
		require.Contains(t, Style{Unit: "in", Place: Page}.Error(c.err), c.page)
	}
}
