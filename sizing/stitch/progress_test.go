package stitch

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestProgress(t *testing.T) {
	sleeve, err := Taper{From: 48, To: 32, Rows: 40}.Schedule()
	require.NoError(t, err)
	sections := []Section{
		{Name: "yoke", Rows: 30, From: 60, To: 176},
		{Name: "body", Rows: 50, From: 132, To: 132},
		SectionOf("sleeves", sleeve, 2),
	}
	p, err := ProgressOf(sections, []int{30, 20})
	require.NoError(t, err)
	require.Equal(t, 160, p.Rows)
	require.Equal(t, 110, p.RowsLeft)
	require.Len(t, p.Left, 2)
	require.Equal(t, Remaining{"body", 30, 30 * 132}, p.Left[0])
	require.Equal(t, 80, p.Left[1].Rows)
	byHand := 0
	for r := 1; r <= 40; r++ {
		byHand += sleeve.StitchesAfter(r)
	}
	require.InDelta(t, 2*float64(byHand), p.Left[1].Stitches, 1e-9)
	require.InDelta(t, 30*(60+176)/2+20*132, p.StitchesDone, 1e-9)
	require.InDelta(t, p.StitchesDone/(p.StitchesDone+p.StitchesLeft), p.DoneShare, 1e-12)

	// One sleeve done and 15 rows of the other.
	p, err = ProgressOf(sections, []int{30, 50, 55})
	require.NoError(t, err)
	require.Len(t, p.Left, 1)
	require.Equal(t, 25, p.RowsLeft)

	p, err = ProgressOf(sections, []int{30, 50, 80})
	require.NoError(t, err)
	require.Empty(t, p.Left)
	require.InDelta(t, 1, p.DoneShare, 1e-12)
	require.InDelta(t, 0, p.StitchesLeft, 1e-9)

	for want, done := range map[string][]int{
		"rows done of yoke is 31: want 0 to 30":    {31},
		"rows done of yoke is -1":                  {-1},
		"rows done of sleeves is 81: want 0 to 80": {30, 50, 81},
		"sections done is 4: want at most 3":       {0, 0, 0, 0},
	} {
		_, err := ProgressOf(sections, done)
		require.ErrorContains(t, err, want)
	}
	_, err = ProgressOf([]Section{{Name: "leg", Rows: -1}}, nil)
	require.ErrorContains(t, err, "rows of leg is -1")
	p, err = ProgressOf(nil, nil)
	require.NoError(t, err)
	require.Zero(t, p.DoneShare)
}

func TestProgressAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tp := drawTaper(t)
		s, err := tp.Schedule()
		if err != nil {
			return
		}
		copies := rapid.IntRange(1, 3).Draw(t, "copies")
		sections := []Section{SectionOf("sleeve", s, copies), {Name: "hem", Rows: rapid.IntRange(1, 20).Draw(t, "rows"), From: 40, To: 60}}
		last := math.Inf(1)
		for d := 0; d <= s.Rows*copies; d++ {
			p, err := ProgressOf(sections, []int{d})
			require.NoError(t, err)
			require.Equal(t, p.Rows, p.RowsDone+p.RowsLeft)
			require.InDelta(t, sections[0].Stitches()+sections[1].Stitches(), p.StitchesDone+p.StitchesLeft, 1e-6)
			require.LessOrEqual(t, p.StitchesLeft, last)
			last = p.StitchesLeft
		}
	})
}

func TestYarnToGo(t *testing.T) {
	p, err := ProgressOf([]Section{{Name: "body", Rows: 100, From: 120, To: 120}}, []int{40})
	require.NoError(t, err)
	b := Ball{Grams: 50, Metres: 100}
	y, err := p.YarnToGo(200, 400, 0.1, b)
	require.NoError(t, err)
	require.InDelta(t, 330, y.NeedMetres, 1e-9, "200 m for 40 rows are 300 for 60, and a tenth")
	require.True(t, y.Enough)
	require.InDelta(t, 0.7, y.SpareBalls, 1e-9)
	y, err = p.YarnToGo(200, 300, 0.1, b)
	require.NoError(t, err)
	require.False(t, y.Enough)
	require.InDelta(t, -0.3, y.SpareBalls, 1e-9)

	_, err = p.YarnToGo(math.NaN(), 300, 0.1, b)
	require.Error(t, err)
	_, err = p.YarnToGo(200, math.Inf(1), 0.1, b)
	require.Error(t, err)
	_, err = Progress{}.YarnToGo(200, 300, 0.1, b)
	require.ErrorContains(t, err, "work done is nothing")

	n, err := RowsToGo(Gauge{16, 18}, 3)
	require.NoError(t, err)
	require.Equal(t, 5, n)
	n, err = RowsToGo(Gauge{16, 18}, -3)
	require.NoError(t, err)
	require.Zero(t, n)
	_, err = RowsToGo(Gauge{16, 18}, math.NaN())
	require.Error(t, err)
}
