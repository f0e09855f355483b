package tell

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"growtuck/sizing/plan"
	"growtuck/sizing/stitch"
)

func TestAcrossRow(t *testing.T) {
	for _, tt := range []struct {
		stitches, change int
		rounds           bool
		crochet, knit    string
	}{
		{48, 6, true, "(sc 7, inc) 6 times", "(k8, M1L) 6 times"},
		{64, -8, true, "(sc 6, sc2tog) 8 times", "(k6, k2tog) 8 times"},
		{48, 6, false, "sc 4, inc, (sc 7, inc) 5 times, sc 3", "k5, M1L, (k8, M1L) 5 times, k3"},
		{50, 4, true, "(sc 11, inc, sc 12, inc) twice", "(k12, M1L, k13, M1L) twice"},
		{10, 3, true, "(sc 2, inc) twice, sc 3, inc", "(k3, M1L) twice, k4, M1L"},
		{6, 6, true, "(inc) 6 times", "(k1, M1L) 6 times"},
		{12, -6, true, "(sc2tog) 6 times", "(k2tog) 6 times"},
		{12, 0, true, "sc in each st", "knit"},
		{9, 1, true, "sc 8, inc", "k9, M1L"},
	} {
		a, err := stitch.ShapeAcross(tt.stitches, tt.change, tt.rounds)
		require.NoError(t, err)
		step := plan.Step{Kind: "increase-evenly-row", Across: &a, InRounds: tt.rounds, Row: 2, Rows: 1, To: a.After()}
		spiral, _ := bodyOf(t, Style{Craft: "crochet", Rounds: plan.RoundsSpiral}.Step(step))
		require.Equal(t, tt.crochet, strings.TrimPrefix(spiral, "ch 1, "))
		knit, _ := bodyOf(t, Style{}.Step(step))
		require.Equal(t, tt.knit, knit)
	}
}

func TestAcrossRowsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stitches := rapid.IntRange(8, 200).Draw(t, "stitches")
		change := rapid.IntRange(-stitches/3, stitches/2).Draw(t, "change")
		rounds := rapid.Bool().Draw(t, "rounds")
		a, err := stitch.ShapeAcross(stitches, change, rounds)
		require.NoError(t, err)
		if len(a.Gaps) == 0 {
			return
		}
		step := plan.Step{Kind: "increase-evenly-row", Across: &a, InRounds: rounds, WrongSide: rapid.Bool().Draw(t, "wrong"), Row: 2, Rows: 1, To: a.After()}
		for _, style := range []Style{{Craft: "crochet", Rounds: plan.RoundsTurned}, {Craft: "knit"}} {
			body, count := bodyOf(t, style.Step(step))
			r := &reader{t: t, text: body}
			require.Equal(t, a.After(), r.row(), body)
			require.Equal(t, a.After(), count)
			require.Equal(t, stitches, r.used, body)
			pos := -a.Trail
			require.Len(t, r.at, len(a.Gaps))
			for i, g := range a.Gaps {
				pos += g
				require.Equal(t, pos, r.at[i], body)
			}
		}
	})
}

func TestPickUpWords(t *testing.T) {
	fabric := stitch.Gauge{StitchesPer10Cm: 20, RowsPer10Cm: 30}
	pickUp := func(p stitch.PickUp) string {
		words := Style{}.pickUp(plan.Step{PickUp: &p, Values: plan.Values{}})
		return words.text(Style{})
	}
	for _, tt := range []struct {
		band float64
		want string
	}{
		{20, "2 in 3 rows each time: 60"},
		{22.5, "3 in 4 rows each time: 68"},
		{30, "1 in each row"},
		{40, "120 evenly over 90 rows"},
	} {
		p, err := stitch.PlanPickUp(90, fabric, stitch.Gauge{StitchesPer10Cm: tt.band, RowsPer10Cm: 30}, stitch.Plain)
		require.NoError(t, err)
		require.Equal(t, tt.want, pickUp(p))
	}
	require.Equal(t, "3 in 4 rows, then 3 in 4 rows, then 4 in 5 rows, and so on: 100", pickUp(stitch.PickUp{Rows: 130, Stitches: 100, Groups: []int{4, 4, 5}}))
}

func TestButtonholeRowsReadBack(t *testing.T) {
	step := plan.Step{Kind: "buttonholes", Values: plan.Values{"stitches": 100, "size": 4}}
	b, err := stitch.SpaceButtonholes(100, 3, 7, 4)
	require.NoError(t, err)
	step.Buttonholes = &b
	body, _ := bodyOf(t, Style{}.Step(step))
	require.Equal(t, "k3, bind off 4, (k11, bind off 4) 6 times, k3", body)
	body, _ = bodyOf(t, Style{Craft: "crochet"}.Step(step))
	require.Equal(t, "ch 1, sc 3, ch 4, skip 4, (sc 11, ch 4, skip 4) 6 times, sc 3", body)
	rapid.Check(t, func(t *rapid.T) {
		n, ends := rapid.IntRange(60, 200).Draw(t, "stitches"), rapid.IntRange(1, 5).Draw(t, "ends")
		holes, size := rapid.IntRange(2, 9).Draw(t, "holes"), rapid.IntRange(1, 4).Draw(t, "size")
		b, err := stitch.SpaceButtonholes(n, ends, holes, size)
		require.NoError(t, err)
		step.Buttonholes, step.Values = &b, plan.Values{"stitches": n, "size": size}
		for _, style := range []Style{{}, {Craft: "crochet"}} {
			body, _ := bodyOf(t, style.Step(step))
			r := &reader{t: t, text: body}
			require.Equal(t, n, r.row(), body)
			require.Equal(t, n, r.used, body)
		}
	})
}

func TestZipperWords(t *testing.T) {
	g := stitch.Gauge{StitchesPer10Cm: 16, RowsPer10Cm: 18}
	for opening, want := range map[float64]string{
		36:   "set it in; do not stretch the edge to it.",
		38:   "close the 2.4 cm left by hand at the lower end, or cover them with a flap at the chin.",
		40.4: "take 8 rows out of the opening, or add 1 row for the 16 in; else close the 4.8 cm left by hand or work a plain band above or below.",
		30:   "take 12 rows out of the opening, or add 1 row for the 12 in; else close the 7.1 cm left by hand or work a plain band above or below.",
		70:   "take 16 rows out of the opening; else close the 9.0 cm left by hand or work a plain band above or below.",
	} {
		z, err := stitch.FitZipper(g, opening, []float64{9, 12, 14, 16, 24}, 0.5, 3)
		require.NoError(t, err)
		step := plan.Zipper{Zipper: z}.Step()
		require.True(t, strings.HasSuffix(Style{}.Step(step), "; "+want), Style{}.Step(step))
		step = plan.Zipper{Zipper: z, Shorten: true}.Step()
		require.True(t, strings.HasSuffix(Style{}.Step(step), " and "+want), Style{}.Step(step))
	}
}
