package sizing

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
)

// easeOf looks a rule's ease up in the rows as a person would: the garment's own rows before
// its group's, among them a named fit before any, then a named layer before any.
func easeOf(rows []data.Ease, rule string, g data.Garment, fit Fit, layer Layer, measurement string) *data.Ease {
	for _, of := range []string{g.ID, g.Group} {
		for _, f := range []string{string(fit), "any"} {
			for _, l := range []string{string(layer), "any"} {
				for i := range rows {
					e := &rows[i]
					if e.Rule == rule && e.Garment == of && e.Fit == f && e.Layer == l && e.Measurement == measurement {
						return e
					}
				}
			}
		}
	}
	return nil
}

// in is a figure of a row in cm, on a body measurement.
func in(v float64, unit string, body float64) float64 {
	return v * map[string]float64{"cm": 1, "in": 2.54, "%": body / 100}[unit]
}

// A finished measurement is the body's, or a share of it, with the ease of the fit over
// skin, what is worn underneath, a nappy, at least what goes over those clothes, and what
// is added for style, options and the maker: every garment in every fit and layer, row by
// row.
func TestFinishedIsWhatTheRowsAddUpTo(t *testing.T) {
	t.Parallel()
	tables, err := data.Load(data.Embedded())
	require.NoError(t, err)
	// Rows in every unit and of every precedence, which ours need not have.
	seven := 7.0
	for _, e := range []data.Ease{
		{Rule: "fit", Garment: "pullover", Fit: "any", Layer: "skin", Measurement: "wrist", Low: 1, Use: 2, Unit: "in", Source: "a", Basis: "b", Note: "n"},
		{Rule: "fit", Garment: "pullover", Fit: "loose", Layer: "any", Measurement: "neck", Low: 3, High: &seven, Use: 5, Unit: "%", Source: "c"},
		{Rule: "fit", Garment: "pullover", Fit: "loose", Layer: "skin", Measurement: "neck", Low: 2, High: &seven, Use: 6, Unit: "%", Source: "c"},
		{Rule: "layer", Garment: "pullover", Fit: "loose", Layer: "winter", Measurement: "upper_arm", Low: 1, High: &seven, Use: 3.5, Unit: "cm"},
		{Rule: "least", Garment: "mittens", Fit: "any", Layer: "any", Measurement: "hand", Low: 6, Use: 6, Unit: "cm", Source: "least"},
		{Rule: "nappy", Garment: "pullover", Fit: "any", Layer: "indoor", Measurement: "chest", Low: 1, High: &seven, Use: 2, Unit: "cm"},
	} {
		tables.Ease = append(tables.Ease, e)
	}
	tables.Lengths = append(tables.Lengths, data.Length{Garment: "hat", Part: tables.Parts[slices.IndexFunc(tables.Parts, func(p data.Part) bool { return p.Garment == "hat" })].Part, Role: "style", Adjustment: -1, Unit: "in", Why: "y", Source: "s", Basis: "b"})
	ref, err := New(tables)
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(30, 1))
	kinds, lines := make(map[AmountKind]int), 0
	for _, g := range tables.Garments {
		options, err := ref.GarmentOptions(g.ID)
		require.NoError(t, err)
		for _, fit := range Fits {
			for _, layer := range Layers {
				place, err := chart.Place(fmt.Sprint(2+rng.IntN(9)), Both)
				require.NoError(t, err)
				body := ref.BodyAt(place, Monotone)
				m := Spec{Garment: g.ID, Fit: fit, Layer: layer, Nappy: rng.IntN(2) == 0, Extra: map[string]float64{}}
				for _, o := range options {
					if with := append(slices.Clone(m.Options), o); rng.IntN(2) == 0 && ref.CheckOptions(g.ID, with) == nil {
						m.Options = with
					}
				}
				parts, err := ref.Parts(g.ID)
				require.NoError(t, err)
				m.Extra[parts[rng.IntN(len(parts))].Part] = 0.7
				f, err := ref.Finish(body, m)
				require.NoError(t, err)
				for _, p := range parts {
					id, share := p.Measurement, 0.0
					adjust, style := m.Extra[p.Part], 0
					for _, l := range tables.Lengths {
						if l.Garment != g.ID || l.Part != p.Part {
							continue
						}
						taken := slices.Contains(m.Options, l.Option)
						switch {
						case l.Role == "share":
							share = l.Adjustment
						case l.Role == "style" || l.Role == "option" && taken:
							adjust += in(l.Adjustment, l.Unit, 0)
							style++
						}
						if l.Instead != "" && taken {
							id = l.Instead
						}
					}
					r, known := body.Get(id)
					line, ok := f.Line(p.Part)
					require.Equal(t, known, ok)
					require.Equal(t, known, !slices.ContainsFunc(f.Missing, func(q data.Part) bool { return q.Part == p.Part }))
					if !known {
						continue
					}
					lines++
					name := fmt.Sprintf("%v %s", m, p.Part)
					require.Equal(t, id, line.Part.Measurement, name)
					base, inches := r.Value, r.Imperial
					if share != 0 {
						base, inches = base*share/100, inches*share/100
						require.Equal(t, Amount{share, ShareOf, "", line.Share.Note, line.Share.Source, line.Share.Basis}, line.Share)
						require.InDelta(t, 100/share, line.OfBody(1), 1e-12)
					} else {
						require.Equal(t, 1.0, line.OfBody(1))
					}
					ease, easeLow, easeHigh := 0.0, 0.0, 0.0
					nappy := 0.0
					if share == 0 {
						rules := map[string]bool{"fit": true, "layer": layer != "skin", "nappy": m.Nappy}
						for rule, on := range rules {
							over := layer
							if rule == "fit" {
								over = "skin"
							}
							e := easeOf(tables.Ease, rule, g, fit, over, id)
							if !on || e == nil {
								continue
							}
							ease, easeLow = ease+in(e.Use, e.Unit, r.Value), easeLow+in(e.Low, e.Unit, r.Value)
							if e.High == nil {
								easeHigh = math.Inf(1)
							} else {
								easeHigh += in(*e.High, e.Unit, r.Value)
							}
							kind, of := map[string]AmountKind{"fit": FitEase, "layer": LayerEase, "nappy": NappyEase}[rule], string(fit)
							if rule == "fit" && e.Fit == "any" {
								kind = AnyFitEase
							}
							if rule == "layer" {
								of = string(layer)
							}
							if rule == "nappy" {
								of, nappy = "", in(e.Use, e.Unit, r.Value)
							}
							want := Amount{in(e.Use, e.Unit, r.Value), kind, of, e.Note, e.Source, e.Basis}
							require.True(t, slices.ContainsFunc(line.Ease, func(a Amount) bool {
								near := math.Abs(a.Cm-want.Cm) < 1e-9
								a.Cm = want.Cm
								return near && a == want
							}), "%s: %v in %v", name, want, line.Ease)
						}
						if e := easeOf(tables.Ease, "least", g, fit, layer, id); e != nil {
							least := in(e.Low, e.Unit, r.Value)
							if ease < least {
								last := line.Ease[len(line.Ease)-1]
								require.InDelta(t, least-ease, last.Cm, 1e-12, name)
								require.Equal(t, Amount{last.Cm, LeastEase, string(layer), e.Note, e.Source, e.Basis}, last, name)
							}
							ease, easeLow, easeHigh = math.Max(ease, least), math.Max(easeLow, least), math.Max(easeHigh, least)
						}
					}
					require.InDelta(t, nappy, line.NappyCm(), 1e-12, name)
					require.InDelta(t, ease, TotalCm(line.Ease), 1e-9, name)
					require.InDelta(t, easeLow, line.EaseLow, 1e-9, name)
					require.True(t, easeHigh == line.EaseHigh || math.Abs(easeHigh-line.EaseHigh) < 1e-9, name)
					require.InDelta(t, adjust, TotalCm(line.Adjust), 1e-9, name)
					require.InDelta(t, base+ease+adjust, line.Finished, 1e-9, name)
					require.InDelta(t, inches+(ease+adjust)/2.54, line.FinishedIn, 1e-9, name)
					require.Zero(t, line.RoomCm()+line.GrownCm())
					for _, a := range slices.Concat(line.Ease, line.Adjust) {
						kinds[a.Kind]++
						if a.Source != "" {
							require.Contains(t, line.Sources(), a.Source)
						}
					}
					require.True(t, slices.IsSorted(line.Sources()))
					require.Len(t, slices.Compact(line.Sources()), len(line.Sources()))
					// The fit that its ease belongs to is the nearest class; a shared end is the wider's.
					if HasFit := ref.HasFits(g.ID, id); share == 0 && rng.IntN(3) == 0 {
						cm := line.Finished - base - adjust + []float64{0, -3, 4}[rng.IntN(3)]
						want, nearest := Fit(""), math.Inf(1)
						for _, other := range Fits {
							if e := easeOf(tables.Ease, "fit", g, other, "skin", id); e == nil || e.Fit == "any" {
								continue
							}
							o, err := ref.Finish(body, Spec{Garment: g.ID, Fit: other, Layer: layer, Options: m.Options})
							require.NoError(t, err)
							l, _ := o.Line(p.Part)
							away := 0.0
							if cm < l.EaseLow {
								away = l.EaseLow - cm
							} else if cm > l.EaseHigh {
								away = cm - l.EaseHigh
							}
							if away <= nearest {
								want, nearest = other, away
							}
						}
						got, ok := ref.FitOf(g.ID, id, r.Value, cm, layer)
						require.Equal(t, want != "", ok)
						require.Equal(t, HasFit, ok)
						require.Equal(t, want, got, name)
					}
				}
			}
		}
	}
	require.Greater(t, lines, 1000)
	for _, k := range []AmountKind{FitEase, AnyFitEase, LayerEase, NappyEase, LeastEase, StyleLength, OptionAdds, AskedFor} {
		require.Positive(t, kinds[k], k)
	}
}

// Without anything known of the growth, and for a finisher that is told of none, growth room
// is by season; with it, it is what the body grows until the garment is first worn, and then.
func TestRoomIsWhatTheBodyGrows(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	tables, err := data.Load(data.Embedded(), "lengths.csv")
	require.NoError(t, err)
	chart, err := ref.Chart("craft") // without heights
	require.NoError(t, err)
	place, err := chart.Place("6", Both)
	require.NoError(t, err)
	for _, seasons := range []float64{0, 1, 1.5, 4} {
		f, err := ref.Finish(ref.BodyAt(place, Monotone), Spec{Garment: "pullover", Fit: "classic", Layer: "skin", Seasons: seasons})
		require.NoError(t, err)
		require.Nil(t, f.Growth)
		for _, line := range f.Lines {
			want := 0.0
			for _, l := range tables.Lengths {
				if l.Garment == "pullover" && l.Part == line.Part.Part && l.Role == "growth" {
					want = l.Adjustment * seasons
				}
			}
			require.InDelta(t, want, line.RoomCm(), 1e-12)
		}
	}
	_, err = ref.Finish(ref.BodyAt(place, Monotone), Spec{Garment: "pullover", Fit: "classic", Layer: "skin", Wear: 3})
	require.ErrorIs(t, err, ErrNoHeight, "how it grows until then cannot be known")
	body, err := ref.Estimate(Child{Sex: Boy, AgeYears: 6, Own: map[string]float64{"height": 116, "chest": 57}})
	require.NoError(t, err)
	growth, err := ref.Growth(body)
	require.NoError(t, err)
	for _, garment := range []string{"pullover", "mittens", "one-piece"} {
		m := Spec{Garment: garment, Fit: "classic", Layer: "skin", Seasons: 1.5, Wear: 5}
		f, err := ref.Finish(body, m)
		require.NoError(t, err)
		first, err := growth.At(5. / 12)
		require.NoError(t, err)
		last, err := growth.At(14. / 12)
		require.NoError(t, err)
		for _, line := range f.Lines {
			share := 1.0
			if line.Share.Cm != 0 {
				share = line.Share.Cm / 100
			}
			then, _ := first.Get(line.Part.Measurement)
			end, _ := last.Get(line.Part.Measurement)
			require.InDelta(t, share*(then.Value-line.Body.Value), line.GrownCm(), 1e-9)
			require.InDelta(t, share*(end.Value-then.Value), line.RoomCm(), 1e-9)
			for _, a := range line.Adjust {
				if a.Kind == GrowthRoom || a.Kind == GrownBefore {
					require.Positive(t, a.Cm)
					require.Equal(t, "cdc-2000", a.Source)
				}
			}
		}
		again, err := f.Remade(m)
		require.NoError(t, err)
		require.Equal(t, f.Lines, again.Lines)
		// A finisher that is told how much the body grows gives the same.
		finisher, err := ref.Finisher(m)
		require.NoError(t, err)
		var own, grown []float64
		for _, p := range finisher.Parts() {
			now, _ := body.Get(p.Measurement)
			end, _ := last.Get(p.Measurement)
			own, grown = append(own, now.Value), append(grown, end.Value-now.Value)
		}
		out := make([]float64, len(own))
		require.NoError(t, finisher.Lengths(own, grown, out))
		for i, line := range f.Lines {
			require.InDelta(t, line.Finished, out[i], 1e-9)
		}
		require.NoError(t, finisher.Lengths(own, nil, out))
		plain := m
		plain.Seasons, plain.Wear = 0, 0
		now, err := ref.Finish(body, plain)
		require.NoError(t, err)
		for i, line := range now.Lines {
			want := 0.0
			for _, l := range tables.Lengths {
				if l.Garment == garment && l.Part == line.Part.Part && l.Role == "growth" {
					want = l.Adjustment * 1.5
				}
			}
			require.InDelta(t, line.Finished+want, out[i], 1e-9)
		}
	}
	finisher, err := ref.Finisher(Spec{Garment: "hat", Fit: "classic", Layer: "skin"})
	require.NoError(t, err)
	n := len(finisher.Parts())
	for cm, ok := range map[float64]bool{1000: true, 1000.1: false, 0: false} {
		err := finisher.Lengths(slices.Repeat([]float64{cm}, n), nil, make([]float64, n))
		require.Equal(t, ok, err == nil, "%g", cm)
	}
	require.Error(t, finisher.Lengths(make([]float64, n), nil, make([]float64, n+1)))
	require.Error(t, finisher.Lengths(make([]float64, n+1), nil, make([]float64, n)))
}

// A specification is taken up to its bounds, and not beyond.
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

// Ease that is asked for takes the place of the fit's: of a part before its measurement,
// before all girths, which edges are none of.
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

// A specification in facts.
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
