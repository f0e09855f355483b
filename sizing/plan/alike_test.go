package plan

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"growtuck/sizing"
	"growtuck/testdata/samples"
)

// All sizes of a run hold their room alike: in one way, in as many rows and folds as the
// size that holds most of it needs, or none of them does; each size otherwise as alone.
func TestSizesHoldAlike(t *testing.T) {
	held := 0
	for seed := range uint64(120) {
		r := chooser{rand.New(rand.NewPCG(seed, 23))}
		how := r.how()
		how.Multiple, how.Colours, how.Stripes = singleCrochet.Multiple, nil, nil
		g := pick(r, samples.Reference(t).Garments()...)
		var run []*sizing.Finished
		labels := samples.Sizes[:2+r.IntN(3)]
		for _, label := range labels {
			spec := samples.Spec(g.ID)
			spec.Seasons = r.between(0.5, 3)
			run = append(run, samples.Finish(t, samples.BodyAt(t, label), spec))
		}
		graded, err := Grade(labels, run, how)
		if err != nil {
			continue
		}
		for _, room := range Rooms {
			var all [][]Fold
			most := 0
			for i, p := range graded.Plans {
				var folds []Fold
				rows := 0
				for _, s := range p.Sections {
					for _, f := range s.Folds {
						if f.Room == room {
							folds = append(folds, f)
							rows += f.Rows
						}
					}
				}
				all = append(all, folds)
				if alone, err := Make(run[i], how); err == nil && len(folds) > 0 {
					own := 0
					for _, h := range alone.Held() {
						if h.Room == room && h.Way == folds[0].Way {
							own += h.Rows
						}
					}
					most = max(most, own)
				}
			}
			for _, folds := range all[1:] {
				require.Equal(t, len(all[0]), len(folds), "seed %d: %s of %s", seed, room, g.ID)
				for k, f := range folds {
					require.Equal(t, []any{all[0][k].Way, all[0][k].Rows}, []any{f.Way, f.Rows}, "seed %d: %s of %s", seed, room, g.ID)
				}
			}
			if len(all[0]) > 0 {
				held++
				rows := 0
				for _, f := range all[0] {
					rows += f.Rows
				}
				require.GreaterOrEqual(t, rows, most-1, "seed %d: %s of %s", seed, room, g.ID)
			}
		}
		for _, s := range graded.Sections {
			require.NotNil(t, s.Any())
			last := s.Sizes[len(s.Sizes)-1]
			require.True(t, last == nil || s.Any() == last)
			require.False(t, slices.ContainsFunc(s.Steps, func(x GradedStep) bool { return len(x.Sizes) != len(labels) }))
		}
	}
	require.Greater(t, held, 30)
}
