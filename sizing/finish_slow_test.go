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
	tables.Ease = append(tables.Ease, []data.Ease{
		{Rule: "fit", Garment: "pullover", Fit: "any", Layer: "skin", Measurement: "wrist", Low: 1, Use: 2, Unit: "in", Source: "a", Basis: "b", Note: "n"},
		{Rule: "fit", Garment: "pullover", Fit: "loose", Layer: "any", Measurement: "neck", Low: 3, High: &seven, Use: 5, Unit: "%", Source: "c"},
		{Rule: "fit", Garment: "pullover", Fit: "loose", Layer: "skin", Measurement: "neck", Low: 2, High: &seven, Use: 6, Unit: "%", Source: "c"},
		{Rule: "layer", Garment: "pullover", Fit: "loose", Layer: "winter", Measurement: "upper_arm", Low: 1, High: &seven, Use: 3.5, Unit: "cm"},
		{Rule: "least", Garment: "mittens", Fit: "any", Layer: "any", Measurement: "hand", Low: 6, Use: 6, Unit: "cm", Source: "least"},
		{Rule: "nappy", Garment: "pullover", Fit: "any", Layer: "indoor", Measurement: "chest", Low: 1, High: &seven, Use: 2, Unit: "cm"},
	}...)
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
		if require.Equal(t, ok, err == nil, "%g", cm); !ok {
			require.ErrorContains(t, err, "is not above 0 and at most 1000")
		}
	}
	require.Error(t, finisher.Lengths(make([]float64, n), nil, make([]float64, n+1)))
	require.Error(t, finisher.Lengths(make([]float64, n+1), nil, make([]float64, n)))
}

// A specification is taken up to its bounds, and not beyond.
// Ease that is asked for takes the place of the fit's: of a part before its measurement,
// before all girths, which edges are none of.
// A specification in facts.
// A part that a published standard makes from another measurement is told beside it.
