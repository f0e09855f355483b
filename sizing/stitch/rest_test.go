package stitch

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A yoke of a child's pullover, in rounds and to and fro.
func restedYoke(rightSideOnly bool) YokeTarget {
	return customary(YokeTarget{Gauge: Gauge{22, 30}, NeckCm: 38, NeckLeastCm: 36, BodyCm: 72, BodyLeastCm: 68, SleeveCm: 26, SleeveLeastCm: 22,
		UnderarmCm: 4, DepthCm: 15, RightSideOnly: rightSideOnly, Turned: rightSideOnly})
}

// Whichever row a circular yoke is left at, what it still gains is gained in the rows
// that are left, by the rule that it is worked by.
func TestRestOfACircularYoke(t *testing.T) {
	for _, rightSideOnly := range []bool{false, true} {
		target := restedYoke(rightSideOnly)
		p, err := PlanCircularYoke(target)
		require.NoError(t, err)
		on, k := p.Neck, 0
		for row := 0; row < p.Rows; row++ {
			for ; k < len(p.Rounds) && p.Rounds[k].Row <= row; k++ {
				on = p.Rounds[k].Stitches
			}
			more := p.Yoke - on
			phases, err := YokeRest{Gauge: target.Gauge, From: on, Increases: more, Row: row, Rows: p.Rows, Turned: target.Turned, RightSideOnly: rightSideOnly}.Phases()
			if more == 0 {
				require.NoError(t, err)
				require.Empty(t, phases)
				continue
			}
			if err != nil { // more than fit into rows of one rhythm; never at the start
				require.Positive(t, row)
				continue
			}
			count, last := on, row
			for _, r := range phases {
				require.Equal(t, count, r.From)
				for i := range r.Times {
					require.Greater(t, r.RowOf(i), last)
					last = r.RowOf(i)
					if rightSideOnly {
						require.Equal(t, 1, last%2, "row %d is a wrong-side row", last)
					}
				}
				count = r.To()
			}
			require.Equal(t, p.Yoke, count)
			require.LessOrEqual(t, last, p.Rows)
		}
		_, err = YokeRest{Gauge: target.Gauge, From: p.Neck, Increases: 8, Row: p.Rows, Rows: p.Rows}.Phases()
		require.Error(t, err, "no rows are left")
		_, err = YokeRest{Gauge: target.Gauge, From: p.Neck, Increases: -1, Row: 0, Rows: p.Rows}.Phases()
		require.Error(t, err)
	}
}

// The same of a raglan, whose lines take the body's and the sleeves' increases apart.
func TestRestOfARaglan(t *testing.T) {
	for _, rightSideOnly := range []bool{false, true} {
		for _, opening := range []bool{false, true} {
			target := restedYoke(rightSideOnly)
			target.FrontOpening = opening
			p, err := PlanRaglan(target)
			require.NoError(t, err)
			for row := 0; row < p.Rows; row++ {
				on, body, sleeves := p.Neck, p.BodyIncreases, p.SleeveIncreases
				front, back, sleeve := p.NeckFront, p.NeckBack, p.NeckSleeve
				for _, phase := range p.Phases {
					for i := range phase.Times {
						if phase.RowOf(i) > row {
							continue
						}
						on, body, sleeves = on+4*(phase.Body+phase.Sleeves), body-phase.Body, sleeves-phase.Sleeves
						back, sleeve = back+2*phase.Body, sleeve+2*phase.Sleeves
						if front += phase.Body; !opening {
							front += phase.Body
						}
					}
				}
				phases, err := RaglanRest{Gauge: target.Gauge, Plan: p, Row: row, Rows: p.Rows, Body: body, Sleeves: sleeves, RightSideOnly: rightSideOnly}.Phases()
				require.NoError(t, err, "row %d", row)
				last := row
				for _, phase := range phases {
					require.Equal(t, on, phase.From)
					for i := range phase.Times {
						require.Greater(t, phase.RowOf(i), last)
						last = phase.RowOf(i)
						// Two on one side of a line have their plain stitches between them on the narrowest piece.
						if phase.Body > 1 || phase.Sleeves > 1 {
							require.GreaterOrEqual(t, phase.Apart, 0)
						}
						on, body, sleeves = on+4*(phase.Body+phase.Sleeves), body-phase.Body, sleeves-phase.Sleeves
					}
				}
				require.Equal(t, []int{p.Yoke, 0, 0}, []int{on, body, sleeves}, "row %d", row)
				require.LessOrEqual(t, last, p.Rows)
			}
		}
	}
}

// What a neck's division costs is counted in square centimetres of the sleeve's
// departure from its share of the neck: 2 stitches too many at 20 stitches on 10 cm are 1 cm.
func TestNeckSplitIsInCentimetres(t *testing.T) {
	for _, stitches := range []float64{10, 20, 30} {
		s := &yokeSearch{t: YokeTarget{Gauge: Gauge{stitches, 28}, SleeveNeckShare: 0.25, Weights: Weights{NeckSplit: 3}}}
		cm := 2 * 10 / stitches
		require.InDelta(t, 3*cm*cm, s.neckSplitCost(40, 12), 1e-9)
		require.InDelta(t, 3*cm*cm, s.neckSplitCost(40, 8), 1e-9)
		require.Zero(t, s.neckSplitCost(40, 10))
	}
}

// Short rows lie in the middle, begin about where they are to begin, end where they are
// to end, and each goes as much further as the one before.
func TestShortRowsSpread(t *testing.T) {
	for stitches := 30; stitches <= 120; stitches += 7 {
		for pairs := 1; pairs <= 8; pairs++ {
			first, last := stitches/6, stitches/2
			r := SpreadShortRows(stitches, pairs, first, last)
			require.Equal(t, stitches, 2*r.Lead+r.First)
			require.LessOrEqual(t, r.Pairs, pairs)
			if r.Pairs == 1 {
				require.InDelta(t, first, r.First, 1)
				continue
			}
			require.Positive(t, r.Further)
			require.InDelta(t, last, r.Worked(2*r.Pairs), 1, "%d stitches, %d pairs", stitches, pairs)
			require.InDelta(t, first, r.First, float64(r.Pairs)+1, "%d stitches, %d pairs", stitches, pairs)
			for row := 3; row <= 2*r.Pairs; row++ {
				require.Equal(t, r.Further, r.Worked(row)-r.Worked(row-1))
			}
		}
	}
}
