package sizing_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/proof"
)

// said is a child of whom some is known; "age" is the age.
func said(sex sizing.Sex, own map[string]float64) sizing.Child {
	c := sizing.Child{Sex: sex, Own: map[string]float64{}}
	for id, v := range own {
		if id == sizing.AgeField {
			c.AgeYears = v
		} else {
			c.Own[id] = v
		}
	}
	return c
}

type values map[string]float64

// Each slip names its field and what was likely meant.
func TestSlipsAreNamed(t *testing.T) {
	for name, tc := range map[string]struct {
		said values
		slip sizing.Slip
		want values // the fields in doubt, and what was likely meant
	}{
		"a point one place off":     {values{"height": 110.5, "chest": 5.3}, sizing.SlipTenTimes, values{"chest": 53}},
		"no point":                  {values{"height": 110.5, "chest": 530}, sizing.SlipTenth, values{"chest": 53}},
		"no point, of two":          {values{"height": 110.5, "chest": 5300}, sizing.SlipTenth, values{"chest": 53}},
		"nothing else known":        {values{"chest": 610}, sizing.SlipTenth, values{"chest": 61}},
		"inches":                    {values{"height": 43.5}, sizing.SlipInches, values{"height": 110.5}},
		"inches beside cm":          {values{"height": 43.5, "chest": 53, "hip": 56}, sizing.SlipInches, values{"height": 110.5}},
		"all in inches":             {values{"height": 43.5, "chest": 21, "waist": 20}, sizing.SlipInches, values{"height": 110.5, "chest": 53.3, "waist": 50.8}},
		"metres":                    {values{"height": 1.105}, sizing.SlipMetres, values{"height": 110.5}},
		"all in metres":             {values{"height": 1.1, "chest": 0.53}, sizing.SlipMetres, values{"height": 110, "chest": 53}},
		"feet":                      {values{"height": 3.6}, sizing.SlipFeet, values{"height": 109.7}},
		"all in millimetres":        {values{"height": 1105, "chest": 530}, sizing.SlipMillimetres, values{"height": 110.5, "chest": 53}},
		"height and chest":          {values{"height": 53, "chest": 110.5}, sizing.SlipSwapped, values{"height": 110.5, "chest": 53}},
		"head and chest":            {values{"height": 128, "head": 64, "chest": 52.5, "hip": 68}, sizing.SlipSwapped, values{"head": 52.5, "chest": 64}},
		"waist and hip":             {values{"height": 120, "waist": 64, "hip": 53, "chest": 59}, sizing.SlipSwapped, values{"waist": 53, "hip": 64}},
		"pounds":                    {values{"height": 110, "weight": 38}, sizing.SlipPounds, values{"weight": 17.2}},
		"pounds of a bigger child":  {values{"height": 138, "weight": 70, "chest": 66}, sizing.SlipPounds, values{"weight": 31.8}},
		"grams":                     {values{"height": 110, "weight": 17200}, sizing.SlipGrams, values{"weight": 17.2}},
		"two slips":                 {values{"height": 104.5, "chest": 5.35, "weight": 38}, sizing.SlipTenTimes, values{"chest": 53.5, "weight": 17.2}},
		"months":                    {values{"age": 54, "height": 107}, sizing.SlipMonths, values{"age": 4.5}},
		"digits":                    {values{"height": 101, "chest": 54, "age": 4, "weight": 16.5, "hip": 65}, sizing.SlipDigits, values{"hip": 56}},
		"an age for no reason":      {values{"age": 12, "height": 100}, sizing.SlipUsual, values{"age": 3.7}},
		"the age, others agree":     {values{"age": 12, "height": 100, "chest": 53.5, "inside_leg": 41}, sizing.SlipUsual, values{"age": 3.7}},
		"weight of a tall child":    {values{"height": 1.405, "weight": 29}, sizing.SlipMetres, values{"height": 140.5}},
		"a baby's length in inches": {values{"height": 27, "weight": 8.2}, sizing.SlipInches, values{"height": 68.6}},
	} {
		doubts := reference(t).Doubts(said(sizing.Both, tc.said))
		got := values{}
		for _, d := range doubts {
			require.NotEmpty(t, d.Likely, name)
			if name != "two slips" || d.Measurement == "chest" {
				require.Equal(t, tc.slip, d.Likely[0].Slip, "%s: %s", name, d.Measurement)
			}
			require.Equal(t, d.Measurement, d.Likely[0].Values[0].Measurement, name)
			require.Equal(t, tc.said[d.Measurement], d.Given, name)
			got[d.Measurement] = d.Likely[0].Values[0].Amount
			require.True(t, d.Given < d.Low && d.Spreads < -2 || d.Given > d.High && d.Spreads > 2, "%s: %g in %g to %g, %g spreads", name, d.Given, d.Low, d.High, d.Spreads)
			require.True(t, d.Low < got[d.Measurement] && got[d.Measurement] < d.High, "%s: %g in %g to %g", name, got[d.Measurement], d.Low, d.High)
		}
		require.Equal(t, tc.want, got, name)
	}
}

// A value that no slip explains is doubted, and nothing is made up.
func TestNothingLikelyIsSaid(t *testing.T) {
	doubts := reference(t).Doubts(said(sizing.Girl, values{"height": 120, "chest": 59, "waist": 53, "hip": 88}))
	require.Len(t, doubts, 1)
	require.Equal(t, "hip", doubts[0].Measurement)
	require.Empty(t, doubts[0].Likely)
}

// Children may be heavy, tall, or slim.
func TestPossibleChildrenAreNotDoubted(t *testing.T) {
	for name, own := range map[string]values{
		"a tall, slim girl of nine":      {"age": 9.25, "height": 141, "chest": 61, "arm_length": 47.5},
		"a sturdy boy of two":            {"age": 2.25, "height": 88, "weight": 13.8, "waist": 48.5, "hip": 52.5, "rise": 17},
		"tall for four":                  {"age": 4, "height": 114},
		"small for ten":                  {"age": 10, "height": 122, "weight": 22},
		"thin":                           {"height": 120, "weight": 18, "chest": 53},
		"heavy in all":                   {"height": 128, "weight": 38, "chest": 76, "waist": 72, "hip": 81},
		"a long baby":                    {"age": 0.5, "height": 71, "weight": 9, "head": 44.5},
		"nearly grown":                   {"age": 16, "height": 184, "weight": 78},
		"a girl of twelve who has grown": {"age": 12, "height": 166},
	} {
		require.Empty(t, reference(t).Doubts(said(sizing.Both, own)), name)
	}
}

// A child who cannot be sized is told what was likely meant.
func TestRefusedChildrenAreExplained(t *testing.T) {
	for name, tc := range map[string]struct {
		own  values
		slip sizing.Slip
		want float64
	}{
		"inches":                {values{"height": 50}, sizing.SlipInches, 127},
		"inches near a baby's":  {values{"height": 56}, sizing.SlipInches, 142.2},
		"metres":                {values{"height": 1.2}, sizing.SlipMetres, 120},
		"a chest alone, inches": {values{"chest": 21}, sizing.SlipInches, 53.3},
	} {
		_, err := reference(t).Estimate(said(sizing.Both, tc.own))
		var doubted *sizing.DoubtError
		require.ErrorAs(t, err, &doubted, name)
		require.Equal(t, tc.slip, doubted.Doubts[0].Likely[0].Slip, name)
		require.Equal(t, tc.want, doubted.Doubts[0].Likely[0].Values[0].Amount, name)
	}
}

// likeChildren draws children as the shipped relations spread them: a height, a
// weight for it, and girths and lengths with the noise that those leave.
func likeChildren(t *testing.T, n int, draw func(c sizing.Child, rng *rand.Rand)) {
	rng := rand.New(rand.NewPCG(18, 5))
	for range n {
		sex := []sizing.Sex{sizing.Boy, sizing.Girl}[rng.IntN(2)]
		height := 90 + 70*rng.Float64()
		usual := estimate(t, sex, map[string]float64{"height": math.Round(height*10) / 10})
		weight := get(t, usual, "weight")
		build := rng.NormFloat64()
		kg := weight.Value * math.Exp(build*math.Log(weight.High/weight.Low)/2.563)
		b := estimate(t, sex, map[string]float64{"height": get(t, usual, "height").Value, "weight": kg})
		c := sizing.Child{Sex: sex, Own: map[string]float64{"height": get(t, usual, "height").Value, "weight": math.Round(kg*10) / 10}}
		for _, id := range []string{"chest", "waist", "hip", "head", "upper_arm", "inside_leg", "arm_length"} {
			r := get(t, b, id)
			c.Own[id] = math.Round(r.Value*math.Exp(rng.NormFloat64()*math.Log(r.High/r.Low)/2.563)*10) / 10
		}
		draw(c, rng)
	}
}

// What is wrong is found, at its field, with what was meant first; what is right is
// left alone.
func TestSeededSlipsAreFound(t *testing.T) {
	ref := reference(t)
	slips := map[string]func(id string, v float64) float64{
		"ten-times": func(_ string, v float64) float64 { return v / 10 },
		"tenth":     func(_ string, v float64) float64 { return v * 10 },
		"inches":    func(_ string, v float64) float64 { return math.Round(v/sizing.CmPerInch*4) / 4 },
		"metres":    func(_ string, v float64) float64 { return v / 100 },
		"pounds":    func(_ string, v float64) float64 { return math.Round(v / sizing.KgPerPound) },
		"grams":     func(_ string, v float64) float64 { return v * 1000 },
	}
	seeded, found, first := map[string]int{}, map[string]int{}, map[string]int{}
	children, alarms := 0, 0
	many := 150
	if proof.Whole() {
		many = 1500
	}
	likeChildren(t, many, func(c sizing.Child, rng *rand.Rand) {
		children++
		if len(ref.Doubts(c)) > 0 {
			alarms++
			return
		}
		for name, slip := range slips {
			ids := []string{"weight"}
			if name != "pounds" && name != "grams" {
				ids = []string{"height", "chest", "waist", "hip", "head", "inside_leg"}
			}
			id := ids[rng.IntN(len(ids))]
			right := c.Own[id]
			c.Own[id] = slip(id, right)
			seeded[name]++
			doubts := ref.Doubts(c)
			c.Own[id] = right
			if i := slices.IndexFunc(doubts, func(d sizing.Doubt) bool { return d.Measurement == id }); i >= 0 {
				found[name]++
				if d := doubts[i]; len(d.Likely) > 0 && math.Abs(d.Likely[0].Values[0].Amount/right-1) < 0.03 {
					first[name]++
				}
			}
		}
	})
	t.Logf("%d children, %d doubted; seeded %v, found %v, meant named first %v", children, alarms, seeded, found, first)
	require.LessOrEqual(t, alarms, children/50)
	for name, n := range seeded {
		require.GreaterOrEqual(t, found[name], n*97/100, name)
		require.GreaterOrEqual(t, first[name], n*95/100, name)
	}
}
