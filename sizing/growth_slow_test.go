package sizing

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/stat"

	"growtuck/data"
)

// straight are gonum's straight lines through points, level outside them.
func straight(t testing.TB, x, y []float64) func(float64) float64 {
	t.Helper()
	var l interp.PiecewiseLinear
	require.NoError(t, l.Fit(x, y))
	return l.Predict
}

// The CDC's own example of reading a growth chart (National Center for Health Statistics,
// "Percentile Data Files with LMS Values"): boys of nine months and a half, L −0.1600954,
// M 9.476500305, S 0.11218624. One of 9.7 kg lies 0.207 spreads above the median; the 5th
// percentile, 1.645 below it, is 7.90 kg. Without a power the distribution is log-normal
// (Cole and Green, Statistics in Medicine 11, 1992).
func TestPublishedExampleOfPlaces(t *testing.T) {
	boys := lms{9.5, -0.1600954, 9.476500305, 0.11218624}
	require.InDelta(t, 0.207, boys.place(9.7), 0.0005)
	require.InDelta(t, 7.90, boys.height(-1.645), 0.005)
	plain := lms{median: 100, spread: 0.05}
	require.InDelta(t, 100*math.Exp(0.1), plain.height(2), 1e-9)
	require.InDelta(t, -2, plain.place(100*math.Exp(-0.1)), 1e-9)
	nearly := lms{power: 1e-6, median: 100, spread: 0.05}
	require.InDelta(t, plain.height(2), nearly.height(2), 1e-4)
	require.InDelta(t, plain.place(110), nearly.place(110), 1e-4)
	far := lms{power: 1, median: 100, spread: 0.05}
	require.InDelta(t, 0.1, far.height(-25), 1e-9, "never nothing")
	require.InDelta(t, 5, far.height(-19), 1e-9)
}

// Charts of heights are the published rows, straight between them; those of both sexes
// together lie halfway. Lying goes on to two years as before them.
func TestHeightChartsAreThePublishedRows(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	g, err := ref.growing()
	require.NoError(t, err)
	tables, err := data.Load(data.Embedded(), data.HeightsFile)
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(5, 1))
	for _, posture := range []string{"lying", "standing"} {
		lines := make(map[Sex][3]func(float64) float64)
		for _, sex := range []Sex{Boy, Girl} {
			var months []float64
			var of [3][]float64
			for _, r := range tables.Heights {
				if Sex(r.Sex) == sex && r.Posture == posture {
					months = append(months, r.Months)
					for i, v := range []float64{r.Power, r.Median, r.Spread} {
						of[i] = append(of[i], v)
					}
				}
			}
			if posture == "lying" {
				last := len(months) - 1
				months = append(months, 24)
				for i, v := range of {
					of[i] = append(v, v[last]+(24-months[last])/(months[last]-months[last-1])*(v[last]-v[last-1]))
				}
			}
			var l [3]func(float64) float64
			for i := range of {
				l[i] = straight(t, months, of[i])
			}
			lines[sex] = l
		}
		from, to := 0.0, 23.9999
		if posture == "standing" {
			from, to = 24, 239.5
		}
		for k := range 200 {
			months := from + rng.Float64()*(to-from)
			switch k {
			case 0:
				months = from
			case 1:
				months = to
			case 2:
				months = 23.5
			}
			for sex, c := range g.charts {
				p, ok := c.at(months / 12)
				if posture == "lying" && months > 23.9999 || posture == "standing" && months < 24 {
					continue
				}
				require.True(t, ok, "%g", months)
				var want [3]float64
				for i := range want {
					if sex == Both {
						want[i] = (lines[Boy][i](months) + lines[Girl][i](months)) / 2
					} else {
						want[i] = lines[sex][i](months)
					}
				}
				require.InDeltaSlice(t, []float64{months, want[0], want[1], want[2]}, []float64{p.months, p.power, p.median, p.spread}, 1e-6, "%s %g", sex, months)
				if sex == Both {
					median, ok := ref.MedianHeight(months/12, "")
					require.True(t, ok)
					require.Equal(t, p.median, median)
				}
			}
		}
	}
	for _, years := range []float64{-1e-9, 239.5/12 + 1e-9, math.NaN()} {
		_, ok := g.charts[Girl].at(years)
		require.False(t, ok)
		_, ok = ref.MedianHeight(years, Girl)
		require.False(t, ok)
	}
}

// The age at which a height has a place is the youngest at which the chart says so.
func TestAgeOfAHeight(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	g, err := ref.growing()
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(6, 1))
	for range 200 {
		c := g.charts[sexes[rng.IntN(3)]]
		years, place := rng.Float64()*c.last(), 4*rng.Float64()-2
		p, _ := c.at(years)
		height := p.height(place)
		require.InDelta(t, place, p.place(height), 1e-9)
		age, ok := c.ageOf(height, place)
		require.True(t, ok)
		at, ok := c.at(age)
		require.True(t, ok)
		// Between two months the spread goes straight, a height nearly so.
		require.InDelta(t, height, at.height(place), 0.05)
		require.LessOrEqual(t, age, years+0.05)
		for y := c.first(); y < age-0.1; y += 0.02 {
			p, _ := c.at(y)
			require.Less(t, p.height(place), height+0.02)
		}
	}
	for _, rows := range [][]lms{g.charts[Boy].lying, g.charts[Boy].standing[:100]} {
		for _, p := range rows {
			age, ok := g.charts[Boy].ageOf(p.height(0.5), 0.5)
			require.True(t, ok)
			require.LessOrEqual(t, age, p.months/12+1e-9)
			if p.months < 22 || p.months > 26 {
				require.InDelta(t, p.months/12, age, 1e-9, "on a row it is that of the row")
			}
		}
	}
	for _, height := range []float64{30, 210} {
		_, ok := g.charts[Both].ageOf(height, 0)
		require.False(t, ok)
	}
}

// How surely a place is kept is read evenly between the ages of its table.
func TestKeepingIsReadEvenly(t *testing.T) {
	tables, err := data.Load(data.Embedded(), data.GrowthFile, data.HeightsFile)
	require.NoError(t, err)
	g, err := newGrowthTables(tables.Heights, tables.Growth)
	require.NoError(t, err)
	var years []float64
	var of [4][]float64
	for _, r := range tables.Growth {
		years = append(years, r.Years)
		for i, v := range []float64{r.Draw, r.Pace, r.Unsure, r.Drift} {
			of[i] = append(of[i], v/100)
		}
	}
	for y := -1.0; y < 25; y += 0.125 {
		draw, pace, unsure, drift := g.keep(y)
		for i, got := range []float64{draw, pace, unsure, drift} {
			require.InDelta(t, straight(t, years, of[i])(y), got, 1e-12, "%g", y)
		}
	}
	for _, rows := range [][]data.Growth{tables.Growth[:1], {tables.Growth[1], tables.Growth[0]}} {
		_, err := newGrowthTables(tables.Heights, rows)
		require.ErrorContains(t, err, "two rows or more")
	}
	_, err = newGrowthTables(tables.Heights, tables.Growth[:2])
	require.NoError(t, err)
}

// drawGrowth draws a child whose age is known, and two of its earlier heights.
func drawGrowth(t *testing.T, ref *Reference, rng *rand.Rand) *Growth {
	t.Helper()
	g, err := ref.growing()
	require.NoError(t, err)
	c := Child{Sex: sexes[rng.IntN(3)], AgeYears: 0.5 + 14*rng.Float64()}
	place := 3*rng.Float64() - 1.5
	p, _ := g.charts[c.Sex].at(c.AgeYears)
	c.Own = map[string]float64{"height": p.height(place)}
	for range rng.IntN(3) {
		e := Earlier{Years: 0.1 + 2.5*rng.Float64()}
		if p, ok := g.charts[c.Sex].at(c.AgeYears - e.Years); ok {
			e.Own = map[string]float64{"height": p.height(place + 0.6*rng.NormFloat64())}
		}
		c.Earlier = append(c.Earlier, e)
	}
	c.Earlier = append(c.Earlier, Earlier{Years: 0.4, Own: map[string]float64{"chest": 50}}, Earlier{Years: 0, Own: map[string]float64{"height": 90}})
	made, err := ref.GrowthOf(c)
	require.NoError(t, err)
	require.InDelta(t, place, made.place, 1e-9)
	// The pace is the slope of a line through the origin, by least squares, through the
	// earlier places and one of no shift that stands for the tape: gonum's.
	x, y := []float64{math.Sqrt(0.02)}, []float64{0}
	for _, e := range c.Earlier {
		p, on := g.charts[c.Sex].at(c.AgeYears - e.Years)
		if h := e.Own["height"]; h > 0 && on && e.Years > 0 && e.Years <= 2.1 {
			x, y = append(x, e.Years), append(y, place-p.place(h))
		}
	}
	_, rate := stat.LinearRegression(x, y, nil, true)
	draw, pace, _, _ := g.keep(c.AgeYears)
	require.InDelta(t, rate*pace-draw*place, made.shift, 1e-9)
	require.Equal(t, len(x) > 1 && pace > 0, made.Paced)
	return made
}

// In a year a child's place shifts by what draws it to the middle and by its pace, and
// from then on it is kept; the height never falls. What is unsure comes in over half a
// year, what drifts with time. Between months all is straight.
func TestHeightsToCome(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(7, 1))
	for range 150 {
		g := drawGrowth(t, ref, rng)
		_, pace, unsure, drift := g.tables.keep(g.Years)
		for _, month := range []int{0, 1, 3, 6, 11, 12, 13, 30} {
			years := float64(month) / 12
			f, err := g.Height(years)
			require.NoError(t, err)
			require.Equal(t, []any{EightInTen, Estimated}, []any{f.Spread, f.Provenance})
			p, _ := g.chart().at(g.Years + years)
			place := g.place + g.shift*years
			if month >= 12 {
				place = g.place + g.shift
			}
			if month == 0 {
				require.Equal(t, g.height, f.Value)
			} else if f.Value > g.height {
				require.InDelta(t, place, p.place(f.Value), 1e-6)
			} else {
				require.LessOrEqual(t, p.place(f.Value), p.place(g.height)+1e-9)
				require.Greater(t, g.height+1e-9, p.height(place))
			}
			first := unsure // of what is unsure at once
			if month < 6 {
				first = unsure * float64(month) / 6
			}
			variance := first*first + drift*years*drift*years
			if g.Paced {
				variance -= variance * pace * pace / 2
			}
			require.InDelta(t, 1.2815515655*math.Sqrt(variance), math.Log(f.High/f.Value), 1e-8)
			require.InDelta(t, 1.2815515655*math.Sqrt(variance), math.Log(f.Value/f.Low), 1e-8)
			next, err := g.Height(years + 1./12)
			require.NoError(t, err)
			third, err := g.Height(years + 1./36)
			require.NoError(t, err)
			require.InDeltaSlice(t, []float64{(2*f.Value + next.Value) / 3, (2*f.Low + next.Low) / 3, (2*f.High + next.High) / 3},
				[]float64{third.Value, third.Low, third.High}, 1e-9)
		}
		last := g.Last()
		require.InDelta(t, 239.5/12, last+g.Years, 1e-9)
		for years, ok := range map[float64]bool{last: true, last + 1e-6: false, -1e-6: false, 0: true} {
			_, err := g.Height(years)
			require.Equal(t, ok, err == nil, "%g", years)
		}
		end, err := g.Height(last)
		require.NoError(t, err)
		p, _ := g.chart().at(239.5 / 12)
		require.InDelta(t, max(g.height, p.height(g.place+g.shift)), end.Value, 0.01)
	}
}

// A child whose age nobody told may be older and short, or younger and tall: by how much
// heights then differ is unsure too, and does not become surer.
func TestHeightsToComeWithoutAnAge(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	for _, height := range []float64{70, 85, 104, 128.5, 151} {
		g, err := ref.GrowthOf(Child{Sex: Girl, Own: map[string]float64{"height": height}})
		require.NoError(t, err)
		require.True(t, g.Implied)
		c := g.chart()
		p, _ := c.at(g.Years)
		require.InDelta(t, height, p.median, 0.02)
		tall, ok := c.ageOf(height, 1)
		require.True(t, ok)
		short, ok := c.ageOf(height, -1)
		require.True(t, ok)
		require.Less(t, tall, short)
		_, _, unsure, drift := g.tables.keep(g.Years)
		most := 0.0
		for month := range 25 {
			years := float64(month) / 12
			a, okA := c.at(short + years)
			b, okB := c.at(tall + years)
			if okA && okB {
				most = max(most, math.Abs(math.Log(b.height(1)/a.height(-1)))/2)
			}
			f, err := g.Height(years)
			require.NoError(t, err)
			first := unsure * math.Min(1, float64(month)/6)
			want := 1.2815515655 * math.Sqrt(first*first+drift*years*drift*years+most*most)
			require.InDelta(t, want, math.Log(f.High/f.Value), 1e-8, "%g in %d months", height, month)
		}
	}
	_, err = ref.GrowthOf(Child{Sex: Girl, AgeYears: 20.5, Own: map[string]float64{"height": 165}})
	require.ErrorAs(t, err, new(*RangeError))
}

// Tables of heights that do not fit together are refused.
func TestHeightTablesMustFit(t *testing.T) {
	tables, err := data.Load(data.Embedded(), data.HeightsFile)
	require.NoError(t, err)
	pick := func(n int) (rows []data.HeightForAge) { // of each sex and posture
		counts := make(map[string]int)
		for _, r := range tables.Heights {
			if counts[r.Sex+r.Posture]++; counts[r.Sex+r.Posture] <= n {
				rows = append(rows, r)
			}
		}
		return rows
	}
	_, err = newHeightCharts(pick(2))
	require.NoError(t, err)
	_, err = newHeightCharts(pick(1))
	require.ErrorContains(t, err, "has 1 and 1 rows of boys and girls of one posture")
	_, err = newHeightCharts(pick(3)[1:])
	require.ErrorContains(t, err, "has 2 and 3 rows")
	for i := range 12 { // three rows of each
		rows := pick(3)
		rows[i].Months += 0.25
		_, err := newHeightCharts(rows)
		require.ErrorContains(t, err, "boys and girls have different months")
	}
	rows := pick(3)
	for i := range rows {
		if rows[i].Posture == "standing" && rows[i].Months > 24.6 {
			rows[i].Months = 24.5 // twice
		}
	}
	_, err = newHeightCharts(rows)
	require.ErrorContains(t, err, "they do not rise")
}

// Where the survey has one of the child's measurements no more, a forecast says in how many
// months and at what height.
func TestForecastsEndWithTheSurvey(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	seen, beyond := 0, 0
	for _, c := range []Child{{Sex: Boy, AgeYears: 13, Own: map[string]float64{"height": 171}}, {Sex: Girl, AgeYears: 12, Own: map[string]float64{"height": 165, "trunk": 60}}, {Sex: Boy, AgeYears: 14, Own: map[string]float64{"height": 176}}} {
		g, err := ref.Growth(bodyOf(t, c))
		require.NoError(t, err)
		for month := 1; month < 60; month++ {
			b, err := g.At(float64(month) / 12)
			if err == nil { // where the likely range ends beyond the survey too
				for _, r := range b.Readings {
					require.True(t, r.Low > 0 && r.Low <= r.Value && r.Value <= r.High && r.High < 2*r.Value, "%s in %d months: %g in %g to %g", r.Measurement.ID, month, r.Value, r.Low, r.High)
				}
				high, errHigh := g.Height(float64(month) / 12)
				require.NoError(t, errHigh)
				if high.High > 181.2 {
					beyond++
				}
			}
			var tall *TallError
			if errors.As(err, &tall) {
				seen++
				require.InDelta(t, month, tall.Months, 1e-6)
				h, err := g.Height(float64(month) / 12)
				require.NoError(t, err)
				require.InDelta(t, h.Value, tall.HeightCm, 1e-9)
				require.ErrorContains(t, tall, tall.Measurement)
				break
			}
			if err != nil {
				break
			}
		}
	}
	require.Positive(t, min(seen, beyond))
}
