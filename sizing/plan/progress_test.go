package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"growtuck/sizing/stitch"
	"growtuck/testdata/samples"
)

func suit(t testing.TB, how How) *Plan {
	t.Helper()
	m := samples.Spec("one-piece-hooded")
	m.Layer = "winter"
	p, err := Make(samples.Finish(t, samples.Baby(t), m), how)
	require.NoError(t, err)
	return p
}

func withYarn(h How) How {
	h.Ball = stitch.Ball{Grams: 50, Metres: 125}
	h.Swatch = stitch.YarnSwatch{WidthCm: 10, HeightCm: 10, Grams: 4}
	return h
}

// What is done and what is left is the whole, however far the work is.
func TestDoneAndLeftAreTheWhole(t *testing.T) {
	p := suit(t, withYarn(singleCrochet))
	whole, rows := 0, 0
	for _, s := range p.Sections {
		whole += s.Copies * s.worked(s.Rows())
		rows += s.Copies * s.Rows()
	}
	rapid.Check(t, func(t *rapid.T) {
		i := rapid.IntRange(0, len(p.Sections)-1).Draw(t, "section")
		s := p.Sections[i]
		n := rapid.IntRange(0, s.Rows()*s.Copies).Draw(t, "rows")
		r, err := p.Remaining(Trial{Done: []Done{{Section: s.ID, Rows: n}}})
		if err != nil {
			t.Fatal(err)
		}
		if got := r.Progress.StitchesDone + r.Progress.StitchesLeft; got != float64(whole) {
			t.Fatalf("%g stitches done and left, %d in all", got, whole)
		}
		if r.Progress.RowsDone+r.Progress.RowsLeft != rows || r.Progress.Rows != rows {
			t.Fatalf("%d + %d rows, %d in all", r.Progress.RowsDone, r.Progress.RowsLeft, rows)
		}
		left := 0
		for _, l := range r.Left {
			left += l.Rows
		}
		if left != r.Progress.RowsLeft {
			t.Fatalf("%d rows by section, %d together", left, r.Progress.RowsLeft)
		}
		if r.NeedMetres > p.Yarn.Need.Metres*(1+1e-9) || r.NeedMetres < 0 {
			t.Fatalf("%g m for the rest of %g m", r.NeedMetres, p.Yarn.Need.Metres)
		}
	})
	none, err := p.Remaining(Trial{})
	require.NoError(t, err)
	require.InDelta(t, p.Yarn.Need.Metres, none.NeedMetres, 1e-6)
	require.Zero(t, none.Progress.DoneShare)
}
