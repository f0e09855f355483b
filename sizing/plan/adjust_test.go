package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/samples"
)

// Longer and wider come out in whole rows and stitches near what was asked, the shaping
// covers all rows, and what goes on from the section finds its stitches.
func TestLongerAndWider(t *testing.T) {
	shaped := 0
	samples.EachFinished(t, 4, 3, func(name string, f *sizing.Finished, i, j int) {
		how := []How{singleCrochet, doubleCrochet, stocking, fine}[i]
		how.Construction = Constructions[j]
		p, err := Make(f, how)
		require.NoError(t, err, name)
		for k, s := range p.Sections {
			what := name + " " + s.ID
			long := p.Longer(s, 2)
			if long.Place != Nowhere {
				require.InDelta(t, 2, long.Cm, max(2, s.Gauge.RowHeightCm()), what)
				require.Equal(t, s.Rows()+long.More, long.Total, what)
				require.Equal(t, s.To(), long.To, what)
				if !s.InRounds {
					require.Equal(t, s.Rows()%2, long.Total%2, "%s: the side of the next section's first row", what)
				}
			}
			if sc := long.Shaping; sc != nil {
				shaped++
				require.Equal(t, []int{long.Total, s.From, s.To()}, []int{sc.Rows, sc.From, sc.To()}, what)
			}
			wide := p.Wider(s, 2)
			if wide.Place == Nowhere {
				continue
			}
			if wide.Place == Increases {
				require.Equal(t, []int{s.From, s.To() + wide.More}, []int{wide.Total, wide.To}, what)
				continue
			}
			require.Equal(t, s.From+wide.More, wide.Total, what)
			if sc := wide.Shaping; sc != nil {
				require.Equal(t, []int{s.Rows(), wide.Total, wide.To}, []int{sc.Rows, sc.From, sc.To()}, what)
			}
			if wide.Place == Kept {
				require.False(t, p.goesOn(k), what)
			}
			if s.From > s.To() {
				require.Equal(t, s.To(), wide.To, what)
			}
		}
	})
	require.Greater(t, shaped, 50)
}

// The materials name the yarn by the gauge, and the small things by the work.
func TestMaterials(t *testing.T) {
	classes := func(p *Plan) (all []string) {
		for _, y := range p.Materials().Yarn {
			all = append(all, y.Class)
		}
		return all
	}
	require.Equal(t, []string{"3"}, classes(cardigan(t, stocking)))           // 22.4 over 4 in
	require.Equal(t, []string{"2", "3"}, classes(cardigan(t, singleCrochet))) // 16.3: both have it
	require.Empty(t, classes(cardigan(t, doubleCrochet)), "the classes are given for single crochet")
	how := doubleCrochet
	how.KnitPer4In = 18
	require.Equal(t, []string{"4"}, classes(cardigan(t, how)))
	how = stocking
	how.Closure, how.Construction = Buttons, Raglan
	m := cardigan(t, how).Materials()
	require.Nil(t, m.Zipper)
	require.Equal(t, 4, m.Markers)
	require.Equal(t, 2, m.Holders)
	require.Greater(t, m.Buttons, 3)
	require.NotNil(t, cardigan(t, stocking).Materials().Zipper)
}
