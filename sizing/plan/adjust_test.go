package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
)

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
