package sizing

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestBoundsOfSpecifications(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	for name, c := range map[string]struct {
		change func(*Spec, float64)
		ok, no []float64
	}{
		"seasons":    {func(m *Spec, v float64) { m.Seasons = v }, []float64{0, 4}, []float64{-1e-9, 4 + 1e-9, math.NaN()}},
		"wear":       {func(m *Spec, v float64) { m.Wear = v }, []float64{0, 24}, []float64{-1e-9, 24 + 1e-9, math.NaN()}},
		"extra":      {func(m *Spec, v float64) { m.Extra = map[string]float64{"chest": v} }, []float64{-50, 0, 50}, []float64{-50.1, 50.1, math.NaN(), math.Inf(1)}},
		"ease in cm": {func(m *Spec, v float64) { m.Ease = map[string]OwnEase{"chest": {Cm: v}} }, []float64{-50, 50}, []float64{-50.1, 50.1, math.NaN()}},
		"its share":  {func(m *Spec, v float64) { m.Ease = map[string]OwnEase{"neck": {Share: v}} }, []float64{-0.4, 1}, []float64{-0.41, 1.01, math.NaN()}},
	} {
		for _, v := range append(slices.Clone(c.ok), c.no...) {
			m := Spec{Garment: "pullover", Fit: "classic", Layer: "skin"}
			c.change(&m, v)
			_, err := ref.Finisher(m)
			require.Equal(t, slices.Contains(c.ok, v), err == nil, "%s %g: %v", name, v, err)
		}
	}
	for _, tt := range []struct {
		options []string
		want    string
	}{{[]string{"tunic"}, ""}, {[]string{"tunic", "fold-back-cuffs"}, ""}, {[]string{"tunic", "tunic"}, ""}, {[]string{"waist-length", "standard-hip"}, "both say how long"}, {[]string{"tunik"}, "did you mean"}} {
		err := ref.CheckOptions("pullover", tt.options)
		if tt.want == "" {
			require.NoError(t, err)
		} else {
			require.ErrorContains(t, err, tt.want)
		}
	}
	require.ErrorContains(t, ref.CheckOptions("mittens", []string{"tunic"}), "has no options")
	require.NoError(t, ref.CheckOptions("mittens", nil))
	instead, err := ref.Instead("pullover", "body_length")
	require.NoError(t, err)
	require.Equal(t, map[string]string{"waist-length": "nape_to_waist", "standard-hip": "back_waist_length"}, instead)
}

func TestAskedEaseGoesByPart(t *testing.T) {
	ask := map[string]OwnEase{"cuff": {Cm: 1}, "wrist": {Cm: 2}, "chest": {Cm: 3}, Girths: {Share: 0.1}}
	for _, tt := range []struct {
		part, measurement string
		cm                float64 // of 50 cm
	}{{"cuff", "wrist", 1}, {"edge", "wrist", 2}, {"chest", "chest", 3}, {"body", "chest", 3}, {"hip", "hip", 5}, {"waist", "waist", 5}, {"sleeve", "upper_arm", 5}, {"leg", "thigh", 5}, {"calf", "calf", 5}, {"neck", "neck", -1}, {"ankle", "ankle", -1}, {"sleeve_length", "arm_length", -1}} {
		e, ok := Spec{Ease: ask}.ownEase(tt.part, tt.measurement)
		require.Equal(t, tt.cm >= 0, ok, tt.part)
		if ok {
			require.InDelta(t, tt.cm, e.cm(50), 1e-12, tt.part)
		}
	}
	_, ok := Spec{}.ownEase("chest", "chest")
	require.False(t, ok)
	ref, err := Default()
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	place, err := chart.Place("6", Both)
	require.NoError(t, err)
	body := ref.BodyAt(place, Monotone)
	slack := ref.Practice("asked_ease_slack").Value
	for cm, want := range map[float64]Fit{2: "close", 3: "classic", -7: "very-close", 10: "loose", 9.9: "classic", 40: "oversized"} { // the standard's classes
		f, err := ref.Finish(body, Spec{Garment: "pullover", Fit: "classic", Layer: "skin", Ease: map[string]OwnEase{"chest": {Cm: cm}}, FitByEase: true})
		require.NoError(t, err)
		require.Equal(t, want, f.Spec.Fit, "%g", cm)
	}
	f, err := ref.Finish(body, Spec{Garment: "pullover", Fit: "classic", Layer: "winter", Ease: ask, FitByEase: true})
	require.NoError(t, err)
	require.False(t, f.Spec.FitByEase)
	chest, _ := f.Line("chest")
	require.Equal(t, []Amount{{Cm: 3, Kind: AskedEase}}, chest.Ease)
	require.InDeltaSlice(t, []float64{3 - slack, 3 + slack}, []float64{chest.EaseLow, chest.EaseHigh}, 1e-12)
	facts := make(map[string]Fact)
	for _, a := range f.asked() {
		facts[a.ID+" "+fmt.Sprint(a.Args[0])] = a
	}
	g, err := ref.garment("pullover")
	require.NoError(t, err)
	over := 0.0
	for _, a := range g.easeRules("chest", f.Spec).amountsFor(chest.Body.Value) {
		if a.Kind == LayerEase {
			over += a.Cm
		}
	}
	require.Greater(t, over, 3.0)
	require.Equal(t, NewFact("ease-under-layer", chest.Part.Name, Length(3), Layer("winter").Fact(), Length(over)), facts["ease-under-layer "+chest.Part.Name])
	ask["chest"] = OwnEase{Cm: over}
	f, err = ref.Finish(body, Spec{Garment: "pullover", Fit: "classic", Layer: "winter", Ease: ask})
	require.NoError(t, err)
	require.Contains(t, f.asked(), NewFact("ease-over-layer", chest.Part.Name, Layer("winter").Fact(), Length(over), Length(0)))
	require.Equal(t, Fit("classic"), f.Spec.Fit, "the fit that was asked for stays")
	plain, err := ref.Finish(body, Spec{Garment: "pullover", Fit: "classic", Layer: "winter"})
	require.NoError(t, err)
	require.Empty(t, plain.asked())
}

func TestSpecificationsAreTold(t *testing.T) {
	base := Spec{Garment: "hat", Fit: "loose", Layer: "winter"}
	fit := NewFact("fit-over", "loose", NewFact("over-winter-clothes"))
	for _, tt := range []struct {
		change func(*Spec)
		want   []Fact
	}{
		{func(m *Spec) {}, []Fact{fit}},
		{func(m *Spec) { m.Nappy = true }, []Fact{fit, NewFact("over-nappy")}},
		{func(m *Spec) { m.Seasons = 1 }, []Fact{fit, NewFact("growth-half-year")}},
		{func(m *Spec) { m.Seasons = 3 }, []Fact{fit, NewFact("growth-half-years", 3.0)}},
		{func(m *Spec) { m.Seasons = 1.5 }, []Fact{fit, NewFact("growth-months", 9.0)}},
		{func(m *Spec) { m.Seasons = 0.257 }, []Fact{fit, NewFact("growth-months", 1.5)}},
		{func(m *Spec) { m.Wear = 3.04 }, []Fact{fit, NewFact("worn-in-months", 3.0)}},
		{func(m *Spec) { m.Wear = 0.26; m.Options = []string{"b", "a"} }, []Fact{fit, NewFact("worn-in-months", 0.3), NewFact("option", "a"), NewFact("option", "b")}},
	} {
		m := base
		tt.change(&m)
		require.Equal(t, NewFact("specification", tt.want), m.Fact())
	}
	for l, want := range map[Layer]string{"skin": "over-skin", "indoor": "over-indoor-clothes", "winter": "over-winter-clothes"} {
		require.Equal(t, NewFact(want), l.Fact())
	}
}

func TestStandardLengthsBeside(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	place, err := chart.Place("8", Both)
	require.NoError(t, err)
	b := ref.BodyAt(place, Monotone)
	back, _ := b.Get("back_waist_length")
	for _, tt := range []struct {
		garment string
		options []string
		want    bool
	}{{"pullover", nil, true}, {"pullover", []string{"standard-hip"}, false}, {"pullover", []string{"tunic"}, false}, {"pullover", []string{"fold-back-cuffs"}, true}, {"trousers", nil, false}, {"hat", nil, false}} {
		f, err := ref.Finish(b, Spec{Garment: tt.garment, Fit: "classic", Layer: "skin", Options: tt.options})
		require.NoError(t, err)
		if !tt.want {
			require.Empty(t, f.Beside(), "%v", tt)
			continue
		}
		line, _ := f.Line("body_length")
		// Two inches below the back waist length: the trade standard's length chart.
		require.Equal(t, []Fact{NewFact("length-beside", line.Part.Name, Length(back.Value+2*2.54), "standard-hip")}, f.Beside())
	}
	// A bridge between the legs is a share of the hips, but never under a length, which is
	// more over a nappy and over winter clothes.
	figures := map[string]Practice{}
	for id, v := range map[string]float64{"bridge_least_length": 4, "bridge_nappy": 3, "bridge_winter": 2, "bridge_least": 10} {
		p := ref.Practice(id)
		p.Value = v
		figures[id] = p
	}
	require.Equal(t, "%", figures["bridge_least"].Unit)
	for _, tt := range []struct {
		hip   float64
		nappy bool
		layer Layer
		want  float64
	}{{30, false, "skin", 4}, {50, false, "indoor", 5}, {50, true, "skin", 7}, {50, false, "winter", 6}, {50, true, "winter", 9}, {95, true, "winter", 9.5}} {
		require.InDelta(t, tt.want, Spec{Nappy: tt.nappy, Layer: tt.layer}.BridgeLeastCm(tt.hip, func(id string) Practice { return figures[id] }), 1e-12)
	}
}
