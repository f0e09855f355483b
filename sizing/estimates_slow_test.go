package sizing

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

func everyMeasurement(t testing.TB) *estimator {
	t.Helper()
	ref, err := Default()
	require.NoError(t, err)
	all := make([]int, len(ref.tables.Measurements))
	for m := range all {
		all[m] = m
	}
	return newEstimator(ref, all, all)
}

func TestEstimatesSayHowFarTheyGo(t *testing.T) {
	e := everyMeasurement(t)
	ref := e.ref
	counts := make(map[string]int)
	for _, sex := range sexes {
		for height := 61.0; height < 181; height += 1.7 {
			b, err := ref.Estimate(Child{Sex: sex, Own: map[string]float64{"height": height}})
			if height > 175 && errors.As(err, new(*RangeError)) {
				break // no girl was taller
			}
			require.NoError(t, err)
			require.Equal(t, NewFact("body-estimated", Length(height)), b.Summary)
			basis, err := ref.bases[sex]()
			require.NoError(t, err)
			survey := basis.rel.run
			for _, r := range b.Readings {
				d := &basis.methods[ref.order[r.Measurement.ID]]
				if len(r.From.AgreesWith) > 0 || r.Provenance != Estimated {
					continue
				}
				want := make(map[string]Fact)
				note := func(f Fact) { want[f.ID] = f }
				place, errPlace := basis.chart.AtHeight(height, sex)
				onTrade := errPlace == nil && !math.IsNaN(place.Run.Value(r.Measurement.ID, place.Position))
				bySurvey := d.surveyed && height >= d.low-d.reach && height <= d.high
				switch {
				case d.approach == bySum:
					for _, term := range d.terms {
						if other := basis.methods[term.m]; term.m != ref.order["height"] && height < other.low {
							note(NewFact("part-carried-down", other.measurement.Name, Length(other.low), Length(height)))
						}
					}
					if c := survey.column(r.Measurement.ID); c != nil && c.isDerived() {
						require.NotEmpty(t, r.From.Formula, r.Measurement.ID)
					}
				case d.approach == byMedian && bySurvey:
					if height < d.low {
						note(NewFact("carried-down", Length(d.low), Length(height)))
					}
					require.False(t, r.From.ByTradeChart, r.Measurement.ID)
					for _, s := range survey.column(r.Measurement.ID).sources {
						require.Contains(t, r.Sources, s)
					}
				case d.approach == byMedian && onTrade:
					require.True(t, r.From.ByTradeChart, r.Measurement.ID)
					for _, s := range place.Run.column(r.Measurement.ID).sources {
						require.Contains(t, r.Sources, s)
					}
				case d.approach == byMedian:
					require.True(t, r.From.ByTradeChart, r.Measurement.ID)
					note(NewFact("carried-up", Length(d.carried), basis.measured(d.v).Name))
					trade, _ := basis.chart.Run(Years, sex)
					require.Subset(t, r.Sources, trade.column(r.Measurement.ID).sources)
				}
				if height < d.young && d.approach != byHeight {
					note(NewFact("baby-by-length", Length(d.young)))
					babies, _ := basis.chart.Run(Months, sex)
					if c := babies.column(r.Measurement.ID); c != nil {
						require.Subset(t, r.Sources, c.sources)
					}
				}
				if l, ok := levelledAt(d.levelled, height); ok && d.approach == byMedian {
					note(l.note())
				}
				for _, n := range r.Notes {
					counts[n.ID]++
					if n.ID == "part-carried-down" {
						continue // there may be several
					}
					require.Equal(t, want[n.ID], n, "%s %s at %g", sex, r.Measurement.ID, height)
				}
				for id := range want {
					require.True(t, slices.ContainsFunc(r.Notes, func(n Fact) bool { return n.ID == id }), "%s %s at %g: %s of %v", sex, r.Measurement.ID, height, id, r.Notes)
				}
				require.Contains(t, r.Sources, survey.Chart.Source)
				for _, s := range basis.rel.sources {
					require.Contains(t, r.Sources, s)
				}
				require.Equal(t, b.Evidence, r.From.Evidence)
				require.InDelta(t, r.Value/map[string]float64{"cm": 2.54, "kg": 0.45359237}[r.Measurement.Unit], r.Imperial, 1e-9)
			}
		}
	}
	e.own[e.height] = 100
	require.NoError(t, e.estimate(Both, 0))
	arm := ref.order["waist_navel"]
	low := e.group.methods[arm].low
	for height, down := range map[float64]bool{low - 1: true, low: false, low + 1: false} {
		e.middle.height = height
		alone, part := e.carried(arm, ""), e.carried(arm, "navel")
		if !down {
			require.Empty(t, append(alone, part...))
			continue
		}
		require.Equal(t, []Fact{NewFact("carried-down", Length(low), Length(height))}, alone)
		require.Equal(t, []Fact{NewFact("part-carried-down", "navel", Length(low), Length(height))}, part)
	}
	for _, id := range []string{"carried-down", "carried-up", "baby-by-length", "levelled"} {
		require.Positive(t, counts[id], "%v", counts)
	}
}

func TestWhatIsContradictedIsLimited(t *testing.T) {
	e := everyMeasurement(t)
	rng := rand.New(rand.NewPCG(40, 1))
	limits := 0
	for range 120 {
		b, err := e.ref.bases[sexes[rng.IntN(3)]]()
		require.NoError(t, err)
		var a heightPoint
		a.moveTo(b, 95+70*rng.Float64())
		e.forget()
		e.own[e.height] = a.height
		var taken []int
		for range 3 + rng.IntN(3) {
			m := b.evidence[rng.IntN(len(b.evidence))]
			e.own[m] = a.median(m) * math.Exp(0.03*rng.NormFloat64())
			taken = append(taken, m)
		}
		e.own[taken[0]] *= []float64{1.5, 0.6, 1.25, 0.8}[rng.IntN(4)]
		if e.estimate(b.sex, 0) != nil {
			continue
		}
		var raw []float64 // what was taken, before any of it was limited
		for _, m := range e.evidence {
			log, ok := e.evidenceOf(m)
			require.True(t, ok)
			raw = append(raw, log)
		}
		// Any build can be: weights may spread twice as wide as heavy children's.
		first, _ := e.given.odd(&e.given.own, 2, raw, make([]float64, len(e.given.others)), make([]float64, len(e.given.others)))
		require.Equal(t, first >= 0 && len(e.given.others) > 0, len(e.limited) > 0)
		if first >= 0 && len(e.limited) > 0 {
			require.Equal(t, e.evidence[first], e.limited[0].m)
		}
		worst, _ := e.given.odd(&e.given.own, 2, e.logs, make([]float64, len(e.given.others)), make([]float64, len(e.given.others)))
		if len(e.limited) < 2 { // of two, each may move what is said of the other
			require.Negative(t, worst)
		}
		require.Empty(t, e.dropped)
		seen := make(map[int]bool)
		doubts := e.amend(nil)
		require.Len(t, doubts, len(e.limited))
		for i, l := range e.limited {
			limits++
			require.False(t, seen[l.m], "said once")
			seen[l.m] = true
			k := slices.Index(e.evidence, l.m)
			require.InDelta(t, l.value, math.Exp(e.logs[k]), 1e-9)
			m := e.ref.tables.Measurements[l.m]
			var names []string
			for _, n := range append([]int{e.height}, e.evidence...) {
				if n != l.m {
					names = append(names, e.ref.tables.Measurements[n].Name)
				}
			}
			id := "evidence-limited"
			if m.ID == "weight" {
				id = "weight-limited"
			}
			fact := NewFact(id, m.Name, amountOf(m.Unit, e.own[l.m]), names, amountOf(m.Unit, l.value))
			require.Equal(t, Doubt{Measurement: m.ID, Name: m.Name, Given: e.own[l.m], Unit: m.Unit, Fact: fact}, doubts[i])
			before := Doubt{Measurement: m.ID, Fact: NewFact("x")}
			require.Equal(t, NewFact("doubt.counts-as", before.Fact, amountOf(m.Unit, l.value)), e.amend([]Doubt{before})[0].Fact)
		}
		// Whatever else was taken is as it was.
		for k, m := range e.evidence {
			if !seen[m] && e.group.methods[m].crotch < 0 {
				require.InDelta(t, e.own[m], math.Exp(e.logs[k]), 1e-9)
			}
		}
	}
	require.Greater(t, limits, 30)
	// Without a height, what suits none is left out, the worst first: each is held against
	// what was not left out before it.
	e.forget()
	own := map[string]float64{"chest": 53, "waist": 10, "hip": 300}
	for id, v := range own {
		e.own[e.ref.order[id]] = v
	}
	require.NoError(t, e.estimate(Boy, 0))
	require.Len(t, e.dropped, 2)
	both := []Doubt{{Measurement: e.ref.tables.Measurements[e.dropped[0]].ID, Fact: NewFact("x")}, {Measurement: e.ref.tables.Measurements[e.dropped[1]].ID, Fact: NewFact("y")}}
	require.Equal(t, []Fact{NewFact("doubt.unused", NewFact("x")), NewFact("doubt.unused", NewFact("y"))}, []Fact{e.amend(both)[0].Fact, both[1].Fact})
	doubts := e.amend(nil)
	for i, m := range e.dropped {
		rest := []string{}
		for _, id := range []string{"chest", "waist", "hip"} {
			if n := e.ref.order[id]; !slices.Contains(e.dropped[:i+1], n) {
				rest = append(rest, e.ref.measurements[id].Name)
			}
		}
		d := e.ref.tables.Measurements[m]
		require.Equal(t, NewFact("no-height-suits", d.Name, Length(own[d.ID]), rest), doubts[i].Fact)
		require.Equal(t, NewFact("doubt.unused", NewFact("x")), e.amend([]Doubt{{Measurement: d.ID, Fact: NewFact("x")}})[0].Fact)
	}
}

// Estimates are made from the shortest baby to the tallest child that were measured, and
// say what they rest on.
func TestEstimatesBeginAndEndWithTheMeasured(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	for _, sex := range sexes {
		b, err := ref.bases[sex]()
		require.NoError(t, err)
		survey, _ := ref.charts["measured"].Run(Height, sex)
		_, tallest, _ := survey.Has("height")
		babies, _ := ref.charts["child"].Run(Months, sex)
		require.Equal(t, []float64{babies.Value("height", 3), tallest}, []float64{b.low, b.high})
		for height, want := range map[float64]bool{b.low: true, b.high: true, math.Nextafter(b.low, 0): false, math.Nextafter(b.high, 999): false} {
			_, err := ref.Estimate(Child{Sex: sex, Own: map[string]float64{"height": height}})
			require.Equal(t, want, err == nil, "%s %g", sex, height)
		}
	}
	for _, tt := range []struct {
		child Child
		ids   []string
	}{
		{Child{Own: map[string]float64{"chest": 57}}, []string{"chest"}}, {Child{AgeYears: 6, Own: map[string]float64{"chest": 57}}, []string{"chest", "age"}},
		{Child{AgeYears: 6, Own: map[string]float64{"chest": 57, "height": 116}}, []string{"height", "chest"}}, {Child{Own: map[string]float64{"hip": 62, "weight": 21, "height": 116}}, []string{"height", "weight", "hip"}},
	} {
		require.Equal(t, tt.ids, bodyOf(t, tt.child).Evidence.IDs())
	}
	_, err = ref.Estimate(Child{AgeYears: 40, Own: map[string]float64{"chest": 57}})
	var outside *RangeError
	require.ErrorAs(t, err, &outside)
	_, err = ref.Estimate(Child{AgeYears: 6})
	require.ErrorIs(t, err, ErrNothingKnown)
	require.False(t, errors.As(err, new(*DoubtError)))
}
