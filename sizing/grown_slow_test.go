package sizing

import (
	"math"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func bodyOf(t testing.TB, c Child) *Body {
	t.Helper()
	ref, err := Default()
	require.NoError(t, err)
	b, err := ref.Estimate(c)
	require.NoError(t, err)
	return b
}

// grownChildren are some whose bodies are forecast.
var grownChildren = []Child{
	{Sex: Girl, AgeYears: 9.25, Own: map[string]float64{"height": 141, "chest": 61, "arm_length": 47.5}},
	{Sex: Boy, AgeYears: 2.25, Own: map[string]float64{"height": 88, "weight": 13.8, "waist": 48.5}},
	{Sex: Both, Own: map[string]float64{"height": 110, "trunk": 44, "nape_to_waist": 26}},
	{Sex: Boy, AgeYears: 6, Own: map[string]float64{"chest": 60}}, // the height is not sure either
	{Sex: Girl, AgeYears: 0.75, Own: map[string]float64{"height": 71}},
}

// What a body has grown by at a height to come is what the usual child of that height has
// more than the usual child of today's; the range takes in how the height may come out,
// what was unsure before, and what girths and lengths drift by in a year.
func TestBodiesToComeGrowAsTheUsualDo(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	lengthDrift, girthDrift := ref.Practice("growth_length_drift").Share(), ref.Practice("growth_girth_drift").Share()
	checked := 0
	for _, c := range grownChildren {
		b := bodyOf(t, c)
		g, err := ref.Growth(b)
		require.NoError(t, err)
		now, _ := b.Get("height")
		wide := 0.0
		if now.Provenance == Estimated {
			wide = math.Log(now.High/now.Low) / 2 / 1.2815515655
		}
		require.InDelta(t, wide, g.wide, 1e-9)
		usual := func(height float64) map[string]float64 {
			u, err := ref.Estimate(Child{Sex: c.Sex, Own: map[string]float64{"height": height}})
			if err != nil {
				return nil
			}
			of := make(map[string]float64)
			for _, r := range u.Readings {
				of[r.Measurement.ID] = r.Value
			}
			return of
		}
		today := usual(now.Value)
		for _, month := range []int{0, 1, 18} {
			then, err := g.At(float64(month) / 12)
			require.NoError(t, err)
			if month == 0 {
				require.Same(t, b, then)
				continue
			}
			years := float64(month) / 12
			height, err := g.Height(years)
			require.NoError(t, err)
			mid, low, high := usual(height.Value), usual(height.Low), usual(height.High)
			require.Len(t, then.Readings, len(b.Readings))
			for i, r := range then.Readings {
				before, id := b.Readings[i], r.Measurement.ID
				require.InDelta(t, before.Imperial*r.Value/before.Value, r.Imperial, 1e-9, id)
				require.Equal(t, []any{EightInTen, Estimated}, []any{r.Spread, r.Provenance})
				if id == "height" {
					require.Equal(t, []float64{height.Value, height.Low, height.High}, []float64{r.Value, r.Low, r.High})
					continue
				}
				if slices.Contains([]string{"trunk", "back_waist_length"}, id) {
					continue // sums, made so again
				}
				checked++
				factor := 1.0
				if today[id] > 0 {
					factor = max(1, mid[id]/today[id])
				}
				require.InDelta(t, before.Value*factor, r.Value, 1e-9, id)
				drift := girthDrift * years
				if before.Measurement.Kind == "length" {
					drift = lengthDrift * years
				}
				for _, side := range []struct {
					end, was float64
					of       map[string]float64
				}{{r.Low, before.Low, low}, {r.High, before.High, high}} {
					sum := math.Pow(drift*1.2815515655, 2)
					if before.Spread == EightInTen {
						sum += math.Pow(math.Log(side.was/before.Value), 2)
					}
					if side.of[id] > 0 && mid[id] > 0 {
						sum += math.Pow(math.Log(side.of[id]/mid[id]), 2)
					}
					require.InDelta(t, math.Sqrt(sum), math.Abs(math.Log(side.end/r.Value)), 1e-8, id)
				}
			}
			// Sums are kept, and their ranges move along.
			at := func(b *Body, id string) Reading { r, _ := b.Get(id); return r }
			if math.Abs(at(b, "nape_to_waist").Value+at(b, "rise").Value-at(b, "trunk").Value) < 0.05 && at(b, "rise").Value > 0 {
				r := at(then, "trunk")
				require.InDelta(t, at(then, "nape_to_waist").Value+at(then, "rise").Value, r.Value, 1e-9)
				require.True(t, r.Low < r.Value && r.Value < r.High)
			}
			// Between months all goes straight.
			next, err := g.At(years + 1./12)
			require.NoError(t, err)
			third, err := g.At(years + 1./36)
			require.NoError(t, err)
			for i, r := range third.Readings {
				a, b := then.Readings[i], next.Readings[i]
				require.InDeltaSlice(t, []float64{(2*a.Value + b.Value) / 3, (2*a.Imperial + b.Imperial) / 3, (2*a.Low + b.Low) / 3, (2*a.High + b.High) / 3},
					[]float64{r.Value, r.Imperial, r.Low, r.High}, 1e-9)
			}
		}
	}
	require.Greater(t, checked, 300)
	// Of one too short to be estimated the height grows, and later the body too.
	g, err := ref.GrowthOf(Child{Sex: Boy, AgeYears: 0.1, Own: map[string]float64{"height": 55}})
	require.NoError(t, err)
	then, err := g.At(0.5)
	require.NoError(t, err)
	height, err := g.Height(0.5)
	require.NoError(t, err)
	usual := bodyOf(t, Child{Sex: Boy, AgeYears: 0.6, Own: map[string]float64{"height": height.Value}})
	require.Equal(t, usual.Readings, then.Readings)
	// Nothing is forecast to where the survey has a measurement no more.
	tall, err := ref.Growth(bodyOf(t, Child{Sex: Boy, AgeYears: 13, Own: map[string]float64{"height": 172}}))
	require.NoError(t, err)
	_, err = tall.At(3)
	require.Error(t, err)
}

// A length is passed in the month in which the body reads it: at once where it is passed
// already, never where it is not within four years.
func TestLengthsArePassed(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	for _, c := range grownChildren[:3] {
		c.Measured = time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC)
		b := bodyOf(t, c)
		f, err := ref.Finish(b, Spec{Garment: "pullover", Fit: "classic", Layer: "skin", Seasons: 1})
		require.NoError(t, err)
		for _, id := range []string{"arm_to_underarm", "chest"} {
			now, _ := b.Get(id)
			for _, more := range []float64{-1, 0, 0.5, 2.3} {
				cm := now.Value + more
				p, ok := f.Passes(id, cm)
				require.True(t, ok)
				require.Equal(t, c.Measured, p.From)
				if more <= 0 {
					require.Zero(t, p.Months)
				}
				require.LessOrEqual(t, p.Low, p.Months)
				require.GreaterOrEqual(t, p.High, p.Months)
				for _, at := range []struct {
					months float64
					of     func(Reading) float64
				}{{p.Months, func(r Reading) float64 { return r.Value }}, {p.Low, func(r Reading) float64 { return r.High }}, {p.High, func(r Reading) float64 { return r.Low }}} {
					if math.IsInf(at.months, 1) || at.months == 0 {
						continue
					}
					// Growth is looked at every second month, and straight between.
					before, after := 2*math.Floor(at.months/2), 2*math.Ceil(at.months/2)
					x, err := f.Growth.At(before / 12)
					require.NoError(t, err)
					y, err := f.Growth.At(after / 12)
					require.NoError(t, err)
					r, _ := x.Get(id)
					s, _ := y.Get(id)
					u, v := at.of(r), at.of(s)
					if r.Provenance == Measured {
						u = r.Value
					}
					if after > before {
						require.InDelta(t, cm, u+(at.months-before)/2*(v-u), 1e-6)
						require.Less(t, u, cm)
					}
				}
				require.Equal(t, AfterMonths(c.Measured, p.Months), p.Day(p.Months))
			}
			_, ok := f.Passes(id, 300)
			require.False(t, ok)
		}
		_, ok := f.Passes("no-such", 3)
		require.False(t, ok)
		f.Growth = nil
		_, ok = f.Passes("chest", 3)
		require.False(t, ok)
	}
	// It is looked four years ahead.
	f, err := ref.Finish(bodyOf(t, Child{Sex: Boy, AgeYears: 3, Own: map[string]float64{"height": 96}}), Spec{Garment: "pullover", Fit: "classic", Layer: "skin", Seasons: 1})
	require.NoError(t, err)
	require.Equal(t, 48, f.Growth.Path().Last)
	last, err := f.Growth.At(4)
	require.NoError(t, err)
	arm, _ := last.Get("arm_to_underarm")
	for more, want := range map[float64]bool{-1e-6: true, 1e-3: false} {
		p, ok := f.Passes("arm_to_underarm", arm.Value+more)
		require.Equal(t, want, ok)
		require.Equal(t, want, p.Months <= 48)
	}
	require.True(t, Passing{}.Day(3).IsZero())
	require.True(t, Passing{From: time.Now()}.Day(math.Inf(1)).IsZero())
}

// Every part, girth or length, fits in each month of a path in which a person who went
// through the months one by one would say so.
func TestWearingMonthByMonth(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	slack, share, least := ref.Practice("length_slack").Value, ref.Practice("length_slack_share").Share(), ref.Practice("least_of_girth").Share()
	g, err := ref.Growth(bodyOf(t, grownChildren[0]))
	require.NoError(t, err)
	path := g.Path()
	require.Zero(t, path.First)
	_, err = path.At(path.Last)
	require.NoError(t, err)
	if path.Last < mostPath {
		_, err = path.At(path.Last + 1)
		require.Error(t, err)
	}
	path.Last = min(path.Last, 24)
	counts := make(map[string]int)
	for _, garment := range []string{"pullover", "hat", "mittens", "trousers"} {
		for i, fit := range Fits {
			if garment != "pullover" && i%2 == 1 {
				continue
			}
			spec := Spec{Garment: garment, Fit: fit, Layer: "skin"}
			bodies := make([][3]*Finished, path.Last+1)
			for month := range bodies {
				b, err := path.At(month)
				require.NoError(t, err)
				for k, f := range []Fit{Fits[max(0, i-1)], fit, Fits[min(len(Fits)-1, i+1)]} {
					m := spec
					m.Fit = f
					bodies[month][k], err = ref.Finish(b, m)
					require.NoError(t, err)
				}
			}
			for _, made := range []struct {
				month int
				by    float64
			}{{0, 0.97}, {12, 1}, {24, 1.02}, {12, 1.3}, {0, 0.75}} {
				sizes := make(map[string]float64)
				for _, l := range bodies[made.month][1].Lines {
					sizes[l.Part.Part] = l.Finished * made.by
				}
				told := spec
				told.Seasons, told.Wear, told.Extra = 2, 3, map[string]float64{"chest": 5} // of no matter
				w, err := ref.Wears(told, sizes, path)
				if garment != "pullover" {
					w, err = ref.Wears(spec, sizes, path)
				}
				require.NoError(t, err)
				together := make([]bool, len(bodies))
				for m := range together {
					together[m] = true
				}
				for _, p := range w.Parts {
					require.Equal(t, sizes[p.Part.Part], p.Finished)
					small := func(month int) (tooSmall, tooLarge bool) {
						usual, _ := bodies[month][1].Line(p.Part.Part)
						tight, _ := bodies[month][0].Line(p.Part.Part)
						loose, _ := bodies[month][2].Line(p.Part.Part)
						base := usual.Finished - TotalCm(usual.Ease)
						switch {
						case p.Part.Dimension == "length":
							off := math.Max(slack, share*usual.Finished)
							return p.Finished < usual.Finished-off-1e-9, p.Finished > usual.Finished+off+1e-9
						case len(usual.Ease) == 0 || tight.Finished == loose.Finished:
							return p.Finished < math.Min(usual.Finished, least*usual.Body.Value)-1e-9, false
						}
						return p.Finished < base+tight.EaseLow-1e-9, p.Finished > base+loose.EaseHigh+1e-9
					}
					for month := range bodies {
						tooSmall, tooLarge := small(month)
						together[month] = together[month] && !tooSmall && !tooLarge
						require.Equal(t, !tooLarge, float64(month) >= p.From, "%s %s %v month %d", garment, p.Part.Part, p, month)
						require.Equal(t, !tooSmall, float64(month) <= p.Until, "%s %s %v month %d", garment, p.Part.Part, p, month)
						switch {
						case tooSmall:
							counts["small"]++
						case tooLarge:
							counts["large"]++
						default:
							counts["fits"]++
						}
					}
				}
				for month, fits := range together {
					require.Equal(t, fits, float64(month) >= w.From && float64(month) <= w.Until, "%s %v %v", garment, fit, made)
				}
				require.Equal(t, slices.Contains(together, true), !math.IsNaN(w.From))
				require.Equal(t, together[len(together)-1], w.Open)
			}
		}
	}
	require.Greater(t, min(counts["small"], counts["large"], counts["fits"]), 300, "%v", counts)
	// By age the body is that of the chart at the median height.
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	usual, err := ref.UsualPath(chart, Girl)
	require.NoError(t, err)
	for month := range 240 {
		median, ok := ref.MedianHeight(float64(month)/12, Girl)
		require.True(t, ok)
		place, errPlace := chart.AtHeight(median, Girl)
		b, err := usual.At(month)
		require.Equal(t, errPlace == nil, err == nil, "%d", month)
		if err == nil {
			require.True(t, month >= usual.First && month <= usual.Last)
			chest, _ := b.Get("chest")
			require.InDelta(t, place.Run.Value("chest", place.Position), chest.Value, 1e-9)
		} else {
			require.True(t, month < usual.First || month > usual.Last || month < 30, "%d", month)
		}
	}
	_, err = usual.At(usual.First)
	require.NoError(t, err)
	_, err = usual.At(usual.Last)
	require.NoError(t, err)
	heads, err := ref.Chart("craft")
	require.NoError(t, err)
	_, err = ref.UsualPath(heads, Both)
	require.ErrorContains(t, err, "no heights")
}
