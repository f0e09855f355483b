package sizing

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// Figures that must add up are made to: what was measured stays, what was not shares what
// that leaves, in proportion. Worked by hand: a trunk of what lies above the waist and the
// rise.
func TestFiguresAreMadeToAgree(t *testing.T) {
	sums := sums{identities: []sum{{0, []string{"trunk", "nape", "rise"}, []int{1, 2}, nil, []float64{1, 1}}},
		derived: []sum{{3, []string{"knee", "rise", "leg"}, []int{2, 4}, nil, []float64{1, -0.5}}}}
	own := func(v float64) figure { return figure{known: true, Figure: Figure{Value: v, Provenance: Measured}} }
	usual := func(v float64) figure {
		return figure{known: true, Figure: Figure{v, v - 2, v + 3, EightInTen, Estimated}}
	}
	none := figure{}
	for name, tt := range map[string]struct {
		is   []figure
		want []float64
	}{
		"all estimated":                {[]figure{usual(40), usual(25), usual(17), usual(9), usual(20)}, []float64{40, 25, 17, 7, 20}},
		"the whole taken":              {[]figure{own(45), usual(25), usual(17), usual(9), usual(20)}, []float64{45, 45 * 25. / 42, 45 * 17. / 42, 45*17./42 - 10, 20}},
		"a part taken":                 {[]figure{usual(40), own(25), usual(17), own(9), usual(20)}, []float64{42, 25, 17, 9, 20}},
		"the whole and a part":         {[]figure{own(45), own(25), usual(17), usual(9), usual(20)}, []float64{45, 25, 20, 10, 20}},
		"the whole less than its part": {[]figure{own(24), own(25), usual(17), usual(9), usual(20)}, []float64{24, 25, 17, 7, 20}},
		"just its part":                {[]figure{own(25), own(25), usual(17), usual(9), usual(20)}, []float64{25, 25, 17, 7, 20}},
		"all taken":                    {[]figure{own(45), own(25), own(17), usual(9), usual(20)}, []float64{45, 25, 17, 7, 20}},
		"both parts taken":             {[]figure{usual(45), own(25), own(17), usual(9), usual(20)}, []float64{45, 25, 17, 7, 20}},
		"a part not known":             {[]figure{own(45), none, usual(17), usual(9), usual(20)}, []float64{45, 0, 17, 7, 20}},
		"the whole not known":          {[]figure{none, usual(25), usual(17), none, usual(20)}, []float64{0, 25, 17, 7, 20}},
		"nothing to derive from":       {[]figure{usual(42), usual(25), usual(17), usual(9), none}, []float64{42, 25, 17, 9, 0}},
		"hardly anything":              {[]figure{usual(42), usual(25), usual(17), usual(9), usual(33)}, []float64{42, 25, 17, 0.5, 33}},
		"less than nothing":            {[]figure{usual(42), usual(25), usual(17), usual(9), usual(40)}, []float64{42, 25, 17, 9, 40}},
	} {
		figures := slices.Clone(tt.is)
		sums.agree(figures)
		for i, f := range figures {
			if name == "both parts taken" && i == 0 {
				require.InDelta(t, 42, f.Value, 1e-9, "a whole that was not taken is their sum")
				continue
			}
			require.InDelta(t, tt.want[i], f.Value, 1e-9, "%s: %d", name, i)
			before := tt.is[i]
			if math.Abs(f.Value-before.Value) < 1e-9 {
				require.Equal(t, before.Provenance, f.Provenance, name)
				require.Empty(t, f.from, name)
				continue
			}
			require.Equal(t, Derived, f.Provenance, name)
			by := f.Value - before.Value
			if before.Spread != NoSpread {
				require.InDeltaSlice(t, []float64{before.Low + by, before.High + by}, []float64{f.Low, f.High}, 1e-9, name)
			}
			if i == 1 || i == 2 {
				require.Equal(t, []string{"trunk"}, f.from)
				require.True(t, f.fromOwn)
			}
			if i == 3 {
				require.Equal(t, []string{"rise", "leg"}, f.from)
				require.False(t, f.fromOwn)
			}
		}
	}
	believed := []figure{usual(40), own(25), usual(17), usual(9), usual(20)}
	believed[1].believed = 24
	sums.agree(believed)
	require.InDelta(t, 41, believed[0].Value, 1e-9, "what is believed counts in a sum")
	require.Equal(t, 25.0, believed[1].Value)
	f := usual(40)
	f.follow(44, nil, true)
	require.True(t, f.own() && f.Low <= f.Value && f.Value <= f.High)
}

// A length of a size moves with what it goes with, where that was measured: a sleeve with
// the arm. Girths, and widths, do not.
func TestLengthsMoveWithTheirOwn(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	chart, err := ref.Chart("child")
	require.NoError(t, err)
	widths, err := chart.Place("4", Both)
	require.NoError(t, err)
	lengths, err := chart.Place("5-6", Both)
	require.NoError(t, err)
	moved := 0
	for _, own := range ref.Measurements() {
		at := lengths
		if own.Follows == "widths" {
			at = widths
		}
		usual, err := ref.Read(at, own.ID, Linear)
		if err != nil {
			continue
		}
		b, err := ref.Blend(widths, lengths, Child{Own: map[string]float64{own.ID: usual.Value * 1.04}}, Linear)
		require.NoError(t, err)
		require.Equal(t, lengths.read(), b.Read)
		require.Equal(t, NewFact("body-blend-own", "4", lengths.Label(), "child", 1), b.Summary)
		for _, r := range b.Readings {
			m := r.Measurement
			if m.Relation != own.ID || m.ID == own.ID {
				continue
			}
			place := lengths
			if m.Follows == "widths" {
				place = widths
			}
			plain, err := ref.Read(place, m.ID, Linear)
			require.NoError(t, err)
			if m.Kind != "length" || m.Follows != "lengths" {
				require.Equal(t, plain.Value, r.Value, m.ID)
				continue
			}
			moved++
			require.InDeltaSlice(t, []float64{plain.Value * 1.04, plain.Low * 1.04, plain.High * 1.04, plain.Value * 1.04 / 2.54}, []float64{r.Value, r.Low, r.High, r.Imperial}, 1e-9, m.ID)
			require.Equal(t, Derived, r.Provenance)
			require.Equal(t, Origin{AgreesWith: ref.measurementsOf([]string{own.ID}), AgreesWithOwn: true}, r.From)
		}
	}
	require.Greater(t, moved, 1)
	same, err := ref.Blend(lengths, lengths, Child{}, Monotone)
	require.NoError(t, err)
	require.Len(t, same.Read, 1, "said once")
	require.Equal(t, NewFact("body-blend", lengths.Label(), lengths.Label(), "child"), same.Summary)
	for own, ok := range map[float64]bool{200000: true, 200000.1: false, 0: false, 1e-9: true} {
		require.Equal(t, ok, ref.checkChild(Child{Own: map[string]float64{"chest": own}}) == nil, "%g", own)
	}
}

// Medians by height pass through the survey's at the heights of its classes, and babies' at
// their sizes; they add up as their formulas say at every height between, go on with height
// where nothing was measured, and never fall.
func TestMediansPassThroughTheTables(t *testing.T) {
	ref, err := Default()
	require.NoError(t, err)
	power := map[string]float64{"length": 1, "girth": 0.5, "width": 0.5, "mass": 2}
	counts := make(map[string]int)
	for _, sex := range sexes {
		b, err := ref.bases[sex]()
		require.NoError(t, err)
		at := func(id string, h float64) float64 { return b.methods[ref.order[id]].At(h) }
		var classes []float64
		for _, m := range b.rel.run.Sizes {
			if m.Position > 103 && m.Position < 165 {
				classes = append(classes, m.Position)
			}
		}
		for i := range classes[1:] { // at every eighth of the way they add up wholly
			for k := range 8 {
				h := classes[i] + float64(k)/8*(classes[i+1]-classes[i])
				require.InDelta(t, at("suprasternale_height", h)+0.051*h-at("inside_leg", h), at("trunk", h), 1e-9, "%s %g", sex, h)
				require.InDelta(t, h-at("suprasternale_height", h), at("crown_to_throat", h), 1e-9, "%s %g", sex, h)
			}
		}
		babies, _ := b.chart.Run(Months, sex)
		infants, _ := ref.charts["measured-infants"].Run(Months, Both)
		older, _ := b.chart.Run(Years, sex)
		last := ref.charts["measured"]
		survey, _ := last.Run(Height, sex)
		left := make(map[string]bool) // what a formula leaves
		for i, d := range ref.tables.Derivations {
			if terms := ref.formulas[i]; d.Chart == "measured" && len(terms) > 1 {
				left[terms[len(terms)-1].measurement] = true
				for h := 100.0; h < 170; h += 0.7 {
					sum := 0.0
					for _, term := range terms {
						v := h
						if term.measurement != "height" {
							v = b.methods[ref.order[term.measurement]].At(h)
						}
						sum += term.factor * v
					}
					whole := b.methods[ref.order[d.Measurement]]
					if d.Measurement != "nape_to_hip" { // four terms: of what is left of others
						require.InDelta(t, sum, whole.At(h), 0.35, "%s %s at %g", sex, d.Measurement, h)
						counts["sums"]++
					}
				}
			}
		}
		for i := range b.methods {
			d := &b.methods[i]
			id := d.measurement.ID
			if d.Curve == nil {
				require.True(t, survey.column(id) == nil && older.column(id) == nil, id)
				continue
			}
			require.True(t, slices.IsSorted(d.y), id)
			from, to := d.Range()
			require.LessOrEqual(t, from, b.low)
			require.GreaterOrEqual(t, to, b.high)
			require.Equal(t, survey.column(id) != nil, d.surveyed, id)
			// Where nothing was measured it goes on with height.
			if d.low > b.low {
				counts["carried down"]++
				require.InEpsilon(t, d.At(d.low)*math.Pow(b.low/d.low, power[d.measurement.Kind]), d.At(b.low), 1e-9, id)
			}
			if d.high < b.high {
				counts["carried up"]++
				require.InEpsilon(t, d.At(d.high)*math.Pow(b.high/d.high, power[d.measurement.Kind]), d.At(b.high), 1e-9, id)
			}
			run := survey
			if !d.surveyed {
				run = older
			}
			first := math.Inf(1)
			var knots []float64
			for _, m := range run.Sizes {
				h, v := m.Position, run.Value(id, m.Position)
				if !d.surveyed {
					h = run.Value("height", m.Position)
				}
				if math.IsNaN(v) || math.IsNaN(h) {
					continue
				}
				first = math.Min(first, h)
				knots = append(knots, h)
				if _, levelled := levelledAt(d.levelled, h); levelled || left[id] {
					continue
				}
				if even, where := run.column(id).values.level(); d.surveyed && len(where) > 0 {
					v = even.At(h)
				}
				counts["classes"]++
				require.InDelta(t, v, d.At(h), 1e-9, "%s %s at %g", sex, id, h)
			}
			for _, m := range babies.Sizes {
				h, v := babies.Value("height", m.Position), babies.Value(id, m.Position)
				if m.Position > infants.Sizes[len(infants.Sizes)-1].Position || h >= first {
					continue
				}
				if math.IsNaN(v) || d.measurement.Kind == "girth" && babies.column(id).prints() {
					v = infants.Value(id, m.Position)
				}
				if math.IsNaN(v) {
					continue
				}
				require.Equal(t, first, d.young, id)
				if _, levelled := levelledAt(d.levelled, h); !levelled {
					counts["babies"]++
					require.InDelta(t, v, d.At(h), 1e-9, "%s %s of babies", sex, id)
				}
			}
			if d.carried > 0 { // over the trade's last size in proportion to what it goes with
				top := slices.Max(knots)
				require.Equal(t, top, d.carried)
				other := b.methods[ref.order[d.measurement.Relation]]
				before := 0.0
				for _, h := range other.x {
					if h > top && h <= d.high && !left[d.measurement.Relation] {
						require.InEpsilon(t, d.At(top)*other.At(h)/other.At(top), d.At(h), 5e-3, id)
						if before > 0 {
							counts["carried on"]++
							require.InEpsilon(t, d.At(before)*other.At(h)/other.At(before), d.At(h), 1e-9, id)
						}
						before = h
					}
				}
			}
			require.Equal(t, d.low-d.reach, math.Min(d.low, d.low-7), "the greatest reach of the table")
			for h, want := range map[float64]bool{d.low - 7: true, d.low - 7.001: false, d.high: true, d.high + 0.001: false} {
				require.Equal(t, want, d.covers(h), "%s %g", id, h)
			}
		}
	}
	require.Greater(t, min(counts["sums"], counts["classes"], counts["babies"]), 100, "%v", counts)
	require.Positive(t, min(counts["carried down"], counts["carried up"], counts["carried on"]), "%v", counts)
}

// What would make a garment fit better is told where it is so: a nappy of one too young to
// do without, a trunk that was not taken, how tall a child will be.
// Columns of a child's table are found in any order, and what is none of ours is left; a
// date column beside dated columns says two days of one value.
