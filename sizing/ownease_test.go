package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/samples"
)

func factIDs(facts []sizing.Fact) (ids []string) {
	for _, f := range facts {
		ids = append(ids, f.ID)
	}
	return ids
}

func TestOwnEase(t *testing.T) {
	body := samples.BodyAt(t, "8")
	for _, tt := range []struct {
		name    string
		garment string
		layer   sizing.Layer
		ease    map[string]sizing.OwnEase
		fit     sizing.Fit // that follows
		want    map[string]float64
		facts   []string
	}{
		// The trade standard's fit chart: 2 to 4 in is classic, 4 to 6 in loose, 6 in and
		// more oversized, close 0.
		{"four inches", "pullover", "skin", map[string]sizing.OwnEase{"chest": {Cm: 10.16}}, "loose", map[string]float64{"chest": 10.16}, []string{"ease-is-fit", "ease-follows"}},
		{"none", "pullover", "skin", map[string]sizing.OwnEase{"chest": {}}, "close", map[string]float64{"chest": 0}, nil},
		{"seven inches", "cardigan", "skin", map[string]sizing.OwnEase{"chest": {Cm: 17.78}}, "oversized", nil, nil},
		{"a percentage", "pullover", "skin", map[string]sizing.OwnEase{"chest": {Share: 0.12}}, "classic", map[string]float64{"chest": 0.12 * 67}, nil},
		{"all girths", "one-piece", "skin", map[string]sizing.OwnEase{sizing.Girths: {Share: 0.1}}, "classic", map[string]float64{"waist": 5.95, "hip": 7.1}, nil},
		{"over winter clothes", "one-piece", "winter", map[string]sizing.OwnEase{"chest": {Cm: 20}}, "", nil, []string{"ease-over-layer"}},
		{"too little for them", "one-piece", "winter", map[string]sizing.OwnEase{"chest": {Cm: 2}}, "", nil, []string{"ease-under-layer"}},
	} {
		m := samples.Spec(tt.garment)
		m.Layer, m.Ease, m.FitByEase = tt.layer, tt.ease, true
		f := samples.Finish(t, body, m)
		if tt.fit != "" {
			require.Equal(t, tt.fit, f.Spec.Fit, tt.name)
		}
		for part, cm := range tt.want {
			line, ok := f.Line(part)
			require.True(t, ok)
			require.InDelta(t, cm, sizing.TotalCm(line.Ease), 0.06, "%s: %s", tt.name, part)
			require.InDelta(t, line.Body.Value+cm, line.Finished-sizing.TotalCm(line.Adjust), 0.06, tt.name)
			require.LessOrEqual(t, line.EaseLow, sizing.TotalCm(line.Ease))
			require.GreaterOrEqual(t, line.EaseHigh, sizing.TotalCm(line.Ease))
		}
		for _, id := range tt.facts {
			require.Contains(t, factIDs(f.Beside()), id, tt.name)
		}
		// What was not asked for has the ease of the class.
		plain := samples.Spec(tt.garment)
		plain.Layer, plain.Fit = tt.layer, f.Spec.Fit
		usual, ok := samples.Finish(t, body, plain).Line("neck")
		require.True(t, ok)
		neck, _ := f.Line("neck")
		require.InDelta(t, usual.Finished, neck.Finished, 1e-9, tt.name)
	}
}

func TestOwnEaseFaults(t *testing.T) {
	ref, body := samples.Reference(t), samples.BodyAt(t, "8")
	for _, tt := range []struct {
		key  string
		ease sizing.OwnEase
		want string
	}{
		{"chset", sizing.OwnEase{Cm: 4}, `unknown part of pullover that has ease "chset"; did you mean "chest"?`},
		{"chest", sizing.OwnEase{Cm: 400}, "chest: ease of 400 cm and 0 %; want -50 to 50 cm, or -40 to 100 %"},
		{"chest", sizing.OwnEase{Share: 4}, "chest: ease of 0 cm and 400 %; want -50 to 50 cm, or -40 to 100 %"},
	} {
		m := samples.Spec("pullover")
		m.Ease = map[string]sizing.OwnEase{tt.key: tt.ease}
		_, err := ref.Finish(body, m)
		require.ErrorContains(t, err, tt.want)
	}
}
