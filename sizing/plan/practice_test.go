package plan

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/samples"
)

func practised(p *Plan) map[string]string {
	used := make(map[string]string)
	for _, f := range p.Practice {
		used[f.ID] = f.Source
	}
	return used
}

// A plan lists the figures of the trade that it rests on, and no others: not
// those of parts that it lacks, nor what was asked for instead.
func TestPlansListTheirPractice(t *testing.T) {
	pullover := samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("pullover"))
	p, err := Make(pullover, stocking)
	require.NoError(t, err)
	used := practised(p)
	require.Len(t, used, len(p.Practice), "each is listed once")
	require.Equal(t, "memory", used["underarm_share"])
	require.Contains(t, used, "nape_over_throat_low")
	for _, id := range []string{"hem_depth", "cuff_depth", "rib_share", "neckband_depth"} {
		require.Equal(t, "common-practice", used[id], id)
	}
	for _, id := range []string{"thumb_share", "bridge_least", "zipper_by_hand", "stocked_zipper_14", "yarn_margin_plain", "neck_width_share", "raglan_sleeve_neck_share"} {
		require.NotContains(t, used, id)
	}

	how := withYarn(stocking)
	margin := 0.0
	how.HemCm, how.CuffCm, how.BandCm, how.RibShare, how.Margin = 3, 3, 2, 0.85, &margin
	p, err = Make(pullover, how)
	require.NoError(t, err)
	used = practised(p)
	for _, id := range []string{"hem_depth", "cuff_depth", "rib_share", "neckband_depth", "yarn_margin_plain"} {
		require.NotContains(t, used, id)
	}

	used = practised(suit(t, withYarn(singleCrochet)))
	for _, id := range []string{"bridge_least", "zipper_by_hand", "stocked_zipper_14", "yarn_margin_textured", "hip_share_of_rise"} {
		require.Contains(t, used, id)
	}
}

// The figures of a plan are those of the tables.
func TestUnderarmsToTry(t *testing.T) {
	m, err := newMaker(samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("pullover")), stocking)
	require.NoError(t, err)
	require.Equal(t, []float64{0.07, 0.09, 0.06, 0.1}, m.underarmShares())
}

// One more ball is advised where the last one would be nearly used up.
func TestOneMoreBall(t *testing.T) {
	f := samples.Finish(t, samples.BodyAt(t, "6"), samples.Spec("pullover"))
	more := 0
	for grams := 40.0; grams < 130; grams += 3 {
		how := withYarn(stocking)
		how.Ball.Grams = grams
		p, err := Make(f, how)
		require.NoError(t, err)
		require.Equal(t, p.Yarn.Need.LastShare > 0.85, p.Yarn.OneMore)
		said := slices.ContainsFunc(p.Notes, func(n sizing.Fact) bool { return n.ID == "yarn-one-more" })
		require.Equal(t, p.Yarn.OneMore, said)
		if said {
			more++
		}
	}
	require.Positive(t, more)
	require.Less(t, more, 20, "of 30")
}
