package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"growtuck/sizing"
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
		r, err := p.Remaining([]Done{{Section: s.ID, Rows: n}})
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
	none, err := p.Remaining(nil)
	require.NoError(t, err)
	require.InDelta(t, p.Yarn.Need.Metres, none.NeedMetres, 1e-6)
	require.Zero(t, none.Progress.DoneShare)
}

// Tried on: the sleeve should end lower than planned, and its decreases are
// spread over the rows that are left.
func TestTriedOn(t *testing.T) {
	p := suit(t, singleCrochet)
	sleeve, ok := p.Section("sleeve")
	require.True(t, ok)
	done := sleeve.Rows() / 2
	r, err := p.Remaining([]Done{{Section: "sleeve", Rows: done, TriedOn: true, LowerCm: 20}})
	require.NoError(t, err)
	l := r.Left[0]
	require.Equal(t, "sleeve", l.Section.ID)
	toGo := int(math.Round(p.How.Gauge.Rows(20)))
	require.Equal(t, toGo+done+toGo, l.Rows) // the rest of this one, and all of the other
	rest := l.Rest.Shaping
	require.Equal(t, []int{sleeve.StitchesAfter(done), toGo, sleeve.To()}, []int{rest.From, rest.Rows, rest.To()})

	// A section that is straight is counted in rows alone.
	r, err = p.Remaining([]Done{{Section: "cuff", Rows: 3, TriedOn: true, LowerCm: 2}})
	require.NoError(t, err)
	cuff, ok := p.Section("cuff")
	require.True(t, ok)
	require.Equal(t, Step{ID: "rest", Kind: "work-rest", InRounds: true, Values: Values{"rows": 4, "stitches": cuff.To()}}, *r.Left[0].Rest)

	// Too long already.
	r, err = p.Remaining([]Done{{Section: "cuff", Rows: 7, TriedOn: true, LowerCm: -2}})
	require.NoError(t, err)
	require.Equal(t, sizing.NewFact("section-too-long", "cuff", sizing.Length(2), 4), r.Notes[0])

	// The second of two was tried on.
	r, err = p.Remaining([]Done{{Section: "cuff", Rows: 7 + 3, TriedOn: true, LowerCm: 4}})
	require.NoError(t, err)
	require.Equal(t, 7, r.Left[0].Rows)
	require.Equal(t, sizing.NewFact("first-copy-differs", "cuff", cuff.Rows(), 10), r.Notes[0])
}

func TestRemainingRefuses(t *testing.T) {
	p := suit(t, singleCrochet)
	for want, done := range map[string][]Done{
		`unknown section "yok"`:          {{Section: "yok", Rows: 1}},
		"given twice":                    {{Section: "yoke", Rows: 1}, {Section: "yoke", Rows: 2}},
		"-1 rows done of yoke":           {{Section: "yoke", Rows: -1}},
		"9999 rows done of yoke: want 0": {{Section: "yoke", Rows: 9999}},
		"NaN cm is not a length":         {{Section: "yoke", Rows: 1, TriedOn: true, LowerCm: math.NaN()}},
		"none of its rows is done":       {{Section: "sleeve", TriedOn: true, LowerCm: 3}},
		"at least":                       {{Section: "sleeve", Rows: 1, TriedOn: true, LowerCm: 1}}, // no rows for its decreases
	} {
		_, err := p.Remaining(done)
		require.ErrorContains(t, err, want)
	}
}

// A leg that was tried on and ends sooner: the other one is planned in as many
// rows, with all its decreases.
func TestTheOtherIsWorkedLikeIt(t *testing.T) {
	p := suit(t, singleCrochet)
	leg, ok := p.Section("leg")
	require.True(t, ok)
	r, err := p.Remaining([]Done{{Section: "leg", Rows: 20, TriedOn: true, LowerCm: 8}})
	require.NoError(t, err)
	l := r.Left[0]
	require.Equal(t, "leg", l.Section.ID)
	first, err := stitch.RowsToGo(leg.Gauge, 8)
	require.NoError(t, err)
	rows := 20 + first
	require.Less(t, rows, leg.Rows())
	require.Equal(t, first+rows, l.Rows, "the rest of this one and the whole of the other")
	again, err := leg.Schedule.Respace(0, rows)
	require.NoError(t, err)
	require.Equal(t, leg.To(), again.To())
	require.Equal(t, "work-other-shaped", l.Others.Kind)
	require.Equal(t, again, *l.Others.Shaping)

	r, err = p.Remaining([]Done{{Section: "sleeve", Rows: 10, TriedOn: true, LowerCm: 3}})
	require.NoError(t, err)
	require.Contains(t, r.Notes, sizing.NewFact("section-narrows-steeply", "sleeve"))
}
