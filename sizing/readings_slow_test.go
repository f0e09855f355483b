package sizing

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/data"
)

// everyMeasurement is an estimator of all measurements from all.
// An estimate says how far it was carried: below the lowest class that was surveyed, over
// the trade's last size, to a baby's length, over heights at which the survey's medians
// fall; and rests on the documents of all that it was read on.
// What the others contradict counts only as far as they leave it likely: then nothing of
// it is contradicted any more. Doubts name it, beside what it was held against.
// Where the sizes of babies and children of a chart meet, a reading within two centimetres
// of there says how much the chart steps, if that shows.
func TestSeamsOfEveryMeasurement(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	said, silent := 0, 0
	for _, sex := range sexes {
		months, _ := chart.Run(Months, sex)
		years, _ := chart.Run(Years, sex)
		meet := months.Value("height", 24)
		for _, off := range []float64{-2.01, -1.99, -0.5, 0.5, 1.99, 2.01, 9} {
			p, err := chart.AtHeight(meet+off, sex)
			require.NoError(t, err)
			for _, m := range ref.Measurements() {
				from, to := months.Value(m.ID, 24), years.Value(m.ID, 2)
				if !(math.Abs(off) < 2) || !(math.Abs(to-from) >= 0.25) {
					silent++
					require.Empty(t, p.seam(m), "%g %s", off, m.ID)
					continue
				}
				said++
				require.Equal(t, []Fact{NewFact("seam", "24m", "2", Length(meet), amountOf(m.Unit, from), amountOf(m.Unit, to))}, p.seam(m))
				r, err := ref.Read(p, m.ID, Monotone)
				require.NoError(t, err)
				require.Contains(t, r.Notes, p.seam(m)[0])
			}
		}
	}
	require.Positive(t, min(said, silent))
	place, err := chart.Place("2", Both)
	require.NoError(t, err)
	body := place.Run.Value("nape_to_waist", 2)
	for by, want := range map[float64]string{1: "waist-below-body", 0.999: "", -0.999: "", -1: "waist-above-body", 2.5: "waist-below-body"} {
		got := place.waistParts(body + by)
		if want == "" {
			require.Empty(t, got, "%g", by)
			continue
		}
		require.Equal(t, want, got[0].ID)
		require.InDelta(t, math.Abs(by), float64(got[0].Args[1].(Length)), 1e-9)
	}
}

// Places end with their chart: exactly at an end there is one, past it none; ages go over
// from months to years where the sizes by years begin.
func TestPlacesEndWithTheirChart(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	for years, want := range map[float64]struct {
		scale Scale
		at    float64
	}{0.25: {Months, 3}, 1.5: {Months, 18}, 1.999: {Months, 23.988}, 2: {Years, 2}, 16: {Years, 16}} {
		p, err := chart.atAge(years, Girl)
		require.NoError(t, err)
		require.Equal(t, want.scale, p.Run.Scale)
		require.InDelta(t, want.at, p.Position, 1e-9)
	}
	for _, years := range []float64{0.2499, 16.001} {
		_, err := chart.atAge(years, Girl)
		require.ErrorAs(t, err, new(*RangeError))
	}
	for size, at := range map[string]float64{"2.0": 2, "16.0": 16, "44": -1, "1.9": -1, "16.1": -1, "2y": 2, "2y6m": 2.5, "2 years 3 months": 2.25, "4,25": 4.25} {
		p, err := chart.Place(size, Both)
		if at < 0 {
			var outside *RangeError
			require.ErrorAs(t, err, &outside, size)
			require.Equal(t, []float64{2, 16}, []float64{outside.Low, outside.High})
			continue
		}
		require.NoError(t, err, size)
		require.Equal(t, at, p.Position, size)
	}
	for size, want := range map[string]string{"44.9": "size 44.9 is outside", "45": "height 45 is outside", "55": "height 55 is outside"} {
		_, err := chart.Place(size, Both)
		require.ErrorContains(t, err, want)
	}
	measured, err := ref.Chart("measured")
	require.NoError(t, err)
	for _, sex := range sexes {
		run, _ := measured.Run(Height, sex)
		low, high, ok := run.Has("height")
		require.True(t, ok)
		for cm, want := range map[float64]bool{low: true, high: true, low - 0.01: false, high + 0.01: false} {
			_, err := measured.AtHeight(cm, sex)
			require.Equal(t, want, err == nil)
			var outside *RangeError
			if errors.As(err, &outside) {
				require.InDeltaSlice(t, []float64{low, high}, []float64{outside.Low, outside.High}, 1e-9)
			}
		}
		_, _, err := run.Inverse("chest", 5)
		var outside *RangeError
		require.ErrorAs(t, err, &outside)
		var values []float64
		for _, m := range run.Sizes {
			if v := run.Value("chest", m.Position); !math.IsNaN(v) {
				values = append(values, v)
			}
		}
		require.Equal(t, []float64{slices.Min(values), slices.Max(values)}, []float64{outside.Low, outside.High})
		_, _, err = run.Inverse("cross_back", 30)
		require.ErrorContains(t, err, "has no cross_back")
		_, _, ok = run.Has("cross_back")
		require.False(t, ok)
	}
	heads, err := ref.Chart("craft-head")
	require.NoError(t, err)
	toddler, err := heads.Place("toddler", Both)
	require.NoError(t, err)
	_, err = ref.Read(toddler, "head", Monotone)
	require.NoError(t, err)
	toddler.Position += 0.5
	_, err = ref.Read(toddler, "head", Monotone)
	require.ErrorAs(t, err, new(*MissingError), "names have nothing between them")
	// A size has a value by years, else by height, else by months.
	for _, tt := range []struct {
		chart, measurement string
		v                  float64
		scale              Scale
	}{{"child", "height", 90, Years}, {"child", "height", 70, Months}, {"measured", "chest", 60, Height}} {
		c, err := ref.Chart(tt.chart)
		require.NoError(t, err)
		s, err := c.SizeOf(tt.measurement, tt.v, Both)
		require.NoError(t, err)
		require.Equal(t, tt.scale, s.Run.Scale)
		require.InDelta(t, tt.v, s.Run.Value(tt.measurement, s.From), 1e-9)
	}
	_, err = heads.SizeOf("head", 50, Both)
	require.ErrorContains(t, err, "no sizes to find a measurement between")
	// Sizes as makers name them.
	for _, tt := range []struct {
		sizes Sizes
		own   map[string]float64
		want  string
		field string
	}{
		{Sizes{All: "4"}, nil, "body-size-height", ""}, {Sizes{All: "4"}, map[string]float64{"chest": 50}, "body-blend-own", ""}, {Sizes{Widths: "4", Lengths: "6"}, nil, "body-blend", ""}, {Sizes{}, map[string]float64{"height": 110}, "body-estimated", ""},
		{Sizes{}, map[string]float64{"chest": 55}, "body-estimated-about", ""}, {Sizes{All: "q"}, nil, "", "size"}, {Sizes{Widths: "q", Lengths: "4"}, nil, "", "widths"}, {Sizes{Widths: "4", Lengths: "q"}, nil, "", "lengths"}, {Sizes{Chart: "measured", All: "110"}, nil, "body-size", ""},
	} {
		b, err := ref.Body(Child{Own: tt.own}, tt.sizes)
		if tt.field != "" {
			var field *SizeFieldError
			require.ErrorAs(t, err, &field)
			require.Equal(t, tt.field, field.Field)
			continue
		}
		require.NoError(t, err)
		require.Equal(t, tt.want, b.Summary.ID)
	}
	require.Equal(t, []bool{true, true, true, false}, []bool{Sizes{All: "4"}.Named(), Sizes{Widths: "4"}.Named(), Sizes{Lengths: "4"}.Named(), Sizes{Chart: "child"}.Named()})
}

// What is looked up is what the tables have.
func TestLookUpsAreTheTables(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	tables, err := data.Load(data.Embedded())
	require.NoError(t, err)
	for _, y := range tables.Yarns {
		got, ok := ref.YarnClass(int(y.Class[0] - '0'))
		require.True(t, ok)
		y.Line = got.Line
		require.Equal(t, y, got)
	}
	_, ok := ref.YarnClass(99)
	require.False(t, ok)
	for _, a := range tables.AddedParts {
		got, err := ref.AddedPart(a.ID)
		require.NoError(t, err)
		require.Equal(t, a.Title, got.Title)
	}
	_, err = ref.AddedPart("tail-light")
	require.Error(t, err)
	for _, craft := range []string{"knit", "crochet"} {
		for _, terms := range []string{"us", "uk", ""} {
			var want []string
			for _, a := range tables.Abbreviations {
				if a.Craft == craft && (a.Terms == "both" || a.Terms == terms) {
					want = append(want, a.Abbreviation)
				}
			}
			var got []string
			for _, a := range ref.Abbreviations(craft, terms) {
				got = append(got, a.Abbreviation)
			}
			require.Equal(t, want, got)
		}
	}
	for _, m := range tables.Measurements {
		want := ""
		for _, p := range tables.Pitfalls {
			if p.Measurement == m.ID {
				want = p.Pitfall
			}
		}
		require.Equal(t, want, ref.Pitfall(m.ID))
	}
	order := ref.MeasuringOrder()
	require.Len(t, order, len(tables.Measurements))
	first := FirstMeasures()
	var rest []string
	for i, m := range order {
		if i < len(first) {
			require.Equal(t, first[i], m.ID)
		} else {
			rest = append(rest, m.ID)
		}
	}
	var want []string
	for _, m := range tables.Measurements {
		if !slices.Contains(first, m.ID) {
			want = append(want, m.ID)
		}
	}
	require.Equal(t, want, rest)
	worn, err := ref.Worn()
	require.NoError(t, err)
	var ids []string
	for _, p := range tables.Parts {
		if !slices.Contains(ids, p.Measurement) {
			ids = append(ids, p.Measurement)
		}
	}
	require.Equal(t, ids, worn)
	for _, g := range tables.Garments {
		var options []string
		for _, p := range tables.Parts {
			for _, l := range tables.Lengths {
				if p.Garment == g.ID && l.Garment == g.ID && l.Part == p.Part && l.Role == "option" && !slices.Contains(options, l.Option) {
					options = append(options, l.Option)
				}
			}
		}
		got, err := ref.GarmentOptions(g.ID)
		require.NoError(t, err)
		require.Equal(t, options, got)
	}
	for _, tt := range []struct {
		low  string
		want Spread
	}{{"p10", TenthToNinetieth}, {"p25", MiddleHalf}, {"low", AsPublished}} {
		high := map[string]string{"p10": "p90", "p25": "p75", "low": "high"}[tt.low]
		require.Equal(t, tt.want, spreadOf(tt.low, high))
	}
	require.Equal(t, "text", Text("a").ID)
	require.True(t, Text("").IsZero())
	require.Equal(t, []string{"a", "x 1 b", "text a b"}, []string{Text("a").String(), NewFact("x", 1, "b").String(), NewFact("text", "a", "b").String()})
	for cm, want := range map[float64]string{24.24: "24", 24.25: "24.5", -0.2: "0", -0.25: "-0.5", 3: "3"} {
		require.Equal(t, want, FormatCm(cm), "%g", cm)
	}
	require.Equal(t, []string{"3.0", "3.5", "12.5"}, []string{FormatHalves(3.1), FormatHalves(3.4), FormatExact(12.5)})
	for inches, want := range map[float64]string{0.125: "1/4", 0.124: "0", -0.125: "-1/4", 1.875: "2", 1.8: "1 3/4", -3: "-3", 2.5: "2 1/2"} {
		require.Equal(t, want, FormatQuarters(inches), "%g", inches)
	}
}

// Girths of a size that part from those of measured children of its height are told, but
// for those that were measured.
func TestGirthsThatStandApart(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	p, err := chart.Place("4", Both)
	require.NoError(t, err)
	height, _ := p.Height()
	b := ref.BodyAt(p, Monotone)
	apart := ref.Apart(p)
	require.Equal(t, apart, b.Apart)
	var facts []Fact
	survey, _ := ref.charts["measured"].Run(Height, Both)
	craft, err := ref.Chart("craft")
	require.NoError(t, err)
	printed, _ := craft.Run(Years, Both)
	i := 0
	for _, m := range ref.Measurements() {
		size, usual := p.Run.Value(m.ID, 4), survey.Value(m.ID, height)
		if m.Kind != "girth" || math.IsNaN(printed.Value(m.ID, 4)) || !(math.Abs(size/usual-1) >= 0.05) {
			continue
		}
		require.Equal(t, Apart{m, size, usual}, apart[i])
		require.InDelta(t, 100*(size-usual)/usual, apart[i].Percent(), 1e-9)
		facts = append(facts, NewFact("girth-apart", m.Name, apart[i].Percent()/100))
		i++
	}
	require.Len(t, apart, i)
	require.Greater(t, i, 2)
	require.Equal(t, NewFact("size-apart", "4", Length(height), facts), b.AsApart())
	own, err := ref.Blend(p, p, Child{Own: map[string]float64{"chest": 53}}, Monotone)
	require.NoError(t, err)
	require.Len(t, own.Apart, i-1)
	require.Equal(t, Fact{}, bodyOf(t, Child{Own: map[string]float64{"height": 104}}).AsApart())
	var sources []string
	for _, r := range b.Readings {
		sources = append(sources, r.Sources...)
	}
	slices.Sort(sources)
	require.Equal(t, slices.Compact(sources), b.Sources())
	// What estimates rest on, by id and in words.
	known := Evidence{Measurements: ref.measurementsOf([]string{"chest", "hip"}), Age: true}
	require.Equal(t, []string{"chest", "hip", "age"}, known.IDs())
	require.Equal(t, []string{ref.measurements["chest"].Name, ref.measurements["hip"].Name, "age"}, known.Names())
	known.Age = false
	require.Equal(t, []string{"chest", "hip"}, known.IDs())
	require.Len(t, known.Names(), 2)
	// The last child of a sizer grows as any does, and what was likely meant by one who
	// could not be sized is said.
	s, err := ref.Sizer(Bulk{Known: []string{"height", "chest"}, Want: []string{"height", "hip", "hip_breadth"}})
	require.NoError(t, err)
	out := make([]Figure, 3)
	_, err = s.Size(Girl, 6, []float64{116, 58}, out)
	require.NoError(t, err)
	require.True(t, math.IsNaN(out[2].Value))
	g, err := s.Growth(out)
	require.NoError(t, err)
	want, err := ref.Growth(bodyOf(t, Child{Sex: Girl, AgeYears: 6, Own: map[string]float64{"height": 116, "chest": 58}}))
	require.NoError(t, err)
	a, err := g.Height(1.3)
	require.NoError(t, err)
	c, err := want.Height(1.3)
	require.NoError(t, err)
	require.Equal(t, c, a)
	then, err := g.At(1)
	require.NoError(t, err)
	require.Len(t, then.Readings, 2)
	_, err = s.Size(Girl, 0, []float64{45, math.NaN()}, out)
	require.Error(t, err)
	require.Equal(t, SlipInches, s.Meant()[0].Likely[0].Slip)
}
