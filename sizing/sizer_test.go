package sizing_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"growtuck/sizing"
	"growtuck/testdata/proof"
)

func allIDs(ref *sizing.Reference) []string {
	var ids []string
	for _, m := range ref.Measurements() {
		ids = append(ids, m.ID)
	}
	return ids
}

// sameAsEstimate compares a sizer's figures with the readings of Estimate.
func sameAsEstimate(t require.TestingT, ref *sizing.Reference, s *sizing.Sizer, known, want []string, sex sizing.Sex, age float64, own []float64) error {
	c := sizing.Child{Sex: sex, AgeYears: age, Own: make(map[string]float64)}
	for i, id := range known {
		if !math.IsNaN(own[i]) {
			c.Own[id] = own[i]
		}
	}
	body, wantErr := ref.Estimate(c)
	out := make([]sizing.Figure, len(want))
	questions, err := s.Size(sex, age, own, out)
	if wantErr != nil {
		require.EqualError(t, err, wantErr.Error(), "%v", c)
		return err
	}
	require.NoError(t, err, "%v", c)
	require.Equal(t, len(body.Questions) > 0, questions, "%v", c)
	if questions {
		require.Equal(t, body.Questions, s.Doubts(), "%v", c)
	} else {
		require.Empty(t, s.Doubts(), "%v", c)
	}
	for i, id := range want {
		r, ok := body.Get(id)
		if !ok {
			require.True(t, math.IsNaN(out[i].Value), "%s of %v", id, c)
			continue
		}
		got, want := out[i], sizing.Figure{Value: r.Value, Low: r.Low, High: r.High, Spread: r.Spread, Provenance: r.Provenance}
		for _, p := range [][2]float64{{want.Value, got.Value}, {want.Low, got.Low}, {want.High, got.High}} {
			require.InDelta(t, p[0], p[1], 1e-9, "%s of %v", id, c)
		}
		got.Value, got.Low, got.High = want.Value, want.Low, want.High
		require.Equal(t, want, got, "%s of %v", id, c)
	}
	return nil
}

// A sizer that is asked for a few measurements, and keeps what children have in
// common, gives each child what Estimate gives it.
func TestSizerGivesWhatEstimateGives(t *testing.T) {
	ref := reference(t)
	ids := allIDs(ref)
	usual := make(map[int]*sizing.Body)
	for h := 88; h <= 174; h++ {
		usual[h] = estimate(t, sizing.Both, map[string]float64{"height": float64(h)})
	}
	wants := [][]string{ids, {"waist", "hip", "trunk", "arm_length"}, {"rise"}, {"back_waist_length", "crown_to_throat"},
		{"waist_to_knee"}, {"sock_height", "height"}, {"armhole_depth", "neck_to_wrist", "hand"}}
	rng := rand.New(rand.NewPCG(4, 9))
	refused := make(map[string]int)
	children := 45
	if proof.Whole() {
		children = 150
	}
	for _, want := range wants {
		s, err := ref.Sizer(sizing.Bulk{Known: ids, Want: want})
		require.NoError(t, err)
		for range children {
			sex := []sizing.Sex{sizing.Boy, sizing.Girl, sizing.Both, ""}[rng.IntN(4)]
			height := 85 + rng.Float64()*98
			own := make([]float64, len(ids))
			withHeight, share := rng.IntN(3) > 0, []float64{0.02, 0.02, 0.08, 0.15}[rng.IntN(4)]
			for i, id := range ids {
				own[i] = math.NaN()
				r, ok := usual[int(min(max(height, 88), 174))].Get(id)
				switch {
				case id == "height" && withHeight:
					own[i] = height
				case id != "height" && ok && rng.Float64() < share:
					own[i] = r.Value * math.Exp(0.07*rng.NormFloat64())
					if rng.IntN(15) == 0 { // a slip of the tape
						own[i] *= 0.4 + 2*rng.Float64()
					}
				}
			}
			age := 0.0
			if rng.IntN(4) == 0 {
				age = 19 * rng.Float64()
			}
			if err := sameAsEstimate(t, ref, s, ids, want, sex, age, own); err != nil {
				var outside *sizing.RangeError
				switch {
				case errors.Is(err, sizing.ErrNothingKnown):
					refused["nothing known"]++
				case errors.As(err, &outside):
					refused[outside.What]++
				default:
					refused["no height suits"]++
				}
			}
		}
	}
	require.Len(t, refused, 4, "%v", refused) // each kind of refusal came up
}

func TestSizerProperty(t *testing.T) {
	ref := reference(t)
	ids := allIDs(ref)
	rapid.Check(t, func(t *rapid.T) {
		known := rapid.Permutation(ids).Draw(t, "known")[:rapid.IntRange(0, len(ids)).Draw(t, "known measurements")]
		want := rapid.Permutation(ids).Draw(t, "want")[:rapid.IntRange(0, len(ids)).Draw(t, "wanted measurements")]
		s, err := ref.Sizer(sizing.Bulk{Known: known, Want: want})
		require.NoError(t, err)
		for range 3 { // one after another: nothing of a child stays for the next
			own := make([]float64, len(known))
			for i := range own {
				own[i] = rapid.OneOf(rapid.Just(math.NaN()), rapid.Float64Range(10, 190), rapid.SampledFrom([]float64{0, -1, math.Inf(1), 1e9})).Draw(t, known[i])
			}
			sex := rapid.SampledFrom([]sizing.Sex{"m", "f", "both", "", "x"}).Draw(t, "sex")
			age := rapid.SampledFrom([]float64{0, 0, 4.5, 40, -1, math.NaN()}).Draw(t, "age")
			_ = sameAsEstimate(t, ref, s, known, want, sex, age, own)
		}
	})
}

func TestSizerRefuses(t *testing.T) {
	ref := reference(t)
	_, err := ref.Sizer(sizing.Bulk{Known: []string{"chset"}, Want: []string{"hip", "hip"}})
	require.EqualError(t, err, "unknown measurement \"chset\"; did you mean \"chest\"?\nmeasurement hip is named twice")
	s, err := ref.Sizer(sizing.Bulk{Known: []string{"height"}, Want: []string{"hip"}})
	require.NoError(t, err)
	_, err = s.Size(sizing.Boy, 0, nil, nil)
	require.EqualError(t, err, "0 measurements and 0 figures; this sizer takes 1 and fills in 1")
}

var suit = []string{"waist", "hip", "upper_arm", "wrist", "thigh", "ankle", "head", "neck",
	"cross_back", "arm_length", "trunk", "inside_leg", "hand_length", "foot_length"}

func children(known ...string) [][]float64 {
	rng := rand.New(rand.NewPCG(1, 1))
	var all [][]float64
	for range 1000 {
		height := 100 + 60*rng.Float64()
		own := []float64{height}
		for range known[1:] {
			own = append(own, height*(0.5+0.02*rng.NormFloat64()))
		}
		if known[0] != "height" {
			own[0] /= 2
		}
		all = append(all, own)
	}
	return all
}

func TestSizerDoesNotAllocate(t *testing.T) {
	for _, known := range [][]string{{"height"}, {"height", "chest"}, {"chest"}} {
		s, err := reference(t).Sizer(sizing.Bulk{Known: known, Want: suit})
		require.NoError(t, err)
		out := make([]sizing.Figure, len(suit))
		all := children(known...)
		size := func() {
			for _, own := range all {
				_, err := s.Size(sizing.Girl, 0, own, out)
				require.NoError(t, err)
			}
		}
		size()
		require.Zero(t, testing.AllocsPerRun(3, size), "%v", known)
	}
}

func TestSizeOfDoesNotAllocate(t *testing.T) {
	chart, err := reference(t).Chart("child")
	require.NoError(t, err)
	require.Zero(t, testing.AllocsPerRun(100, func() {
		for _, m := range []string{"chest", "height"} {
			if _, err := chart.SizeOf(m, map[string]float64{"chest": 55, "height": 110}[m], sizing.Boy); err != nil {
				t.Error(err)
			}
		}
	}))
}

func BenchmarkSizer(b *testing.B) {
	for _, known := range [][]string{{"height"}, {"height", "chest"}, {"height", "chest", "weight", "arm_length"}, {"chest"}} {
		b.Run(fmt.Sprint(known), func(b *testing.B) {
			s, err := reference(b).Sizer(sizing.Bulk{Known: known, Want: suit})
			require.NoError(b, err)
			out := make([]sizing.Figure, len(suit))
			all := children(known...)
			b.ReportAllocs()
			i := 0
			for b.Loop() {
				if _, err := s.Size(sizing.Girl, 0, all[i%len(all)], out); err != nil {
					b.Fatal(err)
				}
				i++
			}
			b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "children/s")
		})
	}
}

func BenchmarkSizeOf(b *testing.B) {
	chart, err := reference(b).Chart("child")
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := chart.SizeOf("chest", 55.3, sizing.Boy); err != nil {
			b.Fatal(err)
		}
	}
}

// Whatever a figure follows from is worked out for it, wanted or not.
func TestSizerOfOneFigure(t *testing.T) {
	ref := reference(t)
	usual, err := ref.Estimate(sizing.Child{Own: map[string]float64{"height": 120}})
	require.NoError(t, err)
	for _, known := range allIDs(ref) {
		r, ok := usual.Get(known)
		if !ok || known == "weight" {
			continue
		}
		for _, want := range allIDs(ref) {
			s, err := ref.Sizer(sizing.Bulk{Known: []string{known, "weight"}, Want: []string{want}})
			require.NoError(t, err)
			require.NoError(t, sameAsEstimate(t, ref, s, []string{known, "weight"}, []string{want}, sizing.Both, 0, []float64{r.Value * 1.03, 22}))
		}
	}
}

// A sizer of values alone gives the same values.
func TestSizerOfValuesAlone(t *testing.T) {
	ref := reference(t)
	ids := allIDs(ref)
	known := []string{"height", "chest", "inside_leg"}
	whole, err := ref.Sizer(sizing.Bulk{Known: known, Want: ids})
	require.NoError(t, err)
	alone, err := ref.Sizer(sizing.Bulk{Known: known, Want: ids, Values: true})
	require.NoError(t, err)
	want, got := make([]sizing.Figure, len(ids)), make([]sizing.Figure, len(ids))
	rng := rand.New(rand.NewPCG(5, 5))
	for i := range 200 {
		height := 88 + 85*rng.Float64()
		own := []float64{height, 6.7 + 0.444*height + 3*rng.NormFloat64(), 0.597*height - 18.7 + 3*rng.NormFloat64()}
		for k := range own { // any of them may be wanting, not all
			if k != i%3 && rng.IntN(3) == 0 {
				own[k] = math.NaN()
			}
		}
		asked, err := whole.Size(sizing.Boy, 0, own, want)
		again, err2 := alone.Size(sizing.Boy, 0, own, got)
		require.Equal(t, err, err2)
		require.Equal(t, asked, again)
		for m := range ids {
			if err == nil && !math.IsNaN(want[m].Value) {
				require.Equal(t, want[m].Value, got[m].Value, "%s of %v", ids[m], own)
				require.True(t, want[m].Spread != sizing.EightInTen || got[m].Low == 0 && got[m].High == 0, ids[m])
			}
		}
	}
}
